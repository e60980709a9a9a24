import { Problem } from "../science/problem";
import { files } from "../words/files";
import type { BookValidation } from "./book-extras";
import { toStored } from "./formula-text";
import type { NewList } from "./new-book-model";
import { storedRanges } from "./rule-ranges";
import { encodeAttribute, escapeXml } from "./xml";

const LONGEST_LIST = 255;
/** What Excel takes; it mends files with longer ones by leaving the rules out. */
const [LONGEST_TITLE, LONGEST_TEXT] = [32, 255];

/** The dataValidations element of a sheet, "" for none. Throws a Problem for choices that are too long for a rule. */
export function writeValidations(lists: readonly NewList[], validations: readonly BookValidation[]): string {
  const rules = [...lists.map(listRule), ...validations.map(validation)];
  return rules.length === 0 ? "" : `<dataValidations count="${rules.length}">${rules.join("")}</dataValidations>`;
}

function listRule(rule: NewList): string {
  const { range, hint, error, warnOnly } = rule;
  const prompt = hint ? ` showInputMessage="1" promptTitle="${encodeAttribute(hint.title)}" prompt="${encodeAttribute(hint.text)}"` : "";
  const refusal = ` showErrorMessage="1"${warnOnly ? ' errorStyle="warning"' : ""}${error ? ` errorTitle="${encodeAttribute(error.title)}" error="${encodeAttribute(error.text)}"` : ""}`;
  return `<dataValidation type="list" allowBlank="1"${prompt}${refusal} sqref="${range}"><formula1>${escapeXml(choices(rule))}</formula1></dataValidation>`;
}

function choices({ range, choices: given }: NewList): string {
  if ("formula" in given) return toStored(given.formula);
  const text = given.join(",");
  if (text.length > LONGEST_LIST || given.some((choice) => choice.includes(","))) throw new Problem("value", files.listTooLong(range));
  return `"${text.replace(/"/g, '""')}"`;
}

function validation({ range, kind, operator = "between", formula1, formula2, hidesArrow, allowsBlank, prompt, error }: BookValidation): string {
  if (kind === "list" && formula1.startsWith('"') && formula1.replace(/""/g, '"').length > LONGEST_LIST + 2) throw new Problem("value", files.listTooLong(range));
  const compares = kind !== "list" && kind !== "custom";
  const attributes = [
    ` type="${kind}"`,
    error && error.style !== "stop" ? ` errorStyle="${error.style}"` : "",
    compares && operator !== "between" ? ` operator="${operator}"` : "",
    allowsBlank ? ' allowBlank="1"' : "",
    // In the file this attribute means the opposite of its name.
    hidesArrow ? ' showDropDown="1"' : "",
    prompt?.shown ? ' showInputMessage="1"' : "",
    error?.shown === false ? "" : ' showErrorMessage="1"',
    text("errorTitle", error?.title, LONGEST_TITLE),
    text("error", error?.text, LONGEST_TEXT),
    text("promptTitle", prompt?.title, LONGEST_TITLE),
    text("prompt", prompt?.text, LONGEST_TEXT),
    ` sqref="${storedRanges(range)}"`,
  ];
  const second = formula2 === undefined || !compares ? "" : `<formula2>${escapeXml(toStored(formula2))}</formula2>`;
  return `<dataValidation${attributes.join("")}><formula1>${escapeXml(toStored(formula1))}</formula1>${second}</dataValidation>`;
}

function text(name: string, given: string | undefined, longest: number): string {
  return given === undefined || given === "" ? "" : ` ${name}="${encodeAttribute(given.slice(0, longest))}"`;
}
