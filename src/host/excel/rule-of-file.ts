import type { BookValidation, ValidationKind, ValidationOperator } from "../../files/book-extras";
import { isoDate, serialOfIsoDate } from "../../files/dates";
import type { ValidationState } from "./book-state";

type Rule = ValidationState["rule"];
type RuleState = Omit<ValidationState, "ref" | "sheetId">;

/** Names of rules in Excel's API, by their names in files. */
const RULES: Readonly<Record<ValidationKind, string>> = { custom: "custom", date: "date", decimal: "decimal", list: "list", textLength: "textLength", time: "time", whole: "wholeNumber" };
const OPERATORS: Readonly<Record<ValidationOperator, string>> = {
  between: "Between",
  equal: "EqualTo",
  greaterThan: "GreaterThan",
  greaterThanOrEqual: "GreaterThanOrEqualTo",
  lessThan: "LessThan",
  lessThanOrEqual: "LessThanOrEqualTo",
  notBetween: "NotBetween",
  notEqual: "NotEqualTo",
};
const QUOTED = /^"((?:[^"]|"")*)"$/;

/** A rule as the workbook keeps it, from a rule of a file. */
export function ruleOfFile({ allowsBlank, error, formula1, formula2, hidesArrow, kind, operator = "between", prompt }: BookValidation): RuleState {
  return {
    rule: { [RULES[kind]]: bodyOf(kind, operator, formula1, formula2, hidesArrow === true) },
    errorAlert: error ? { message: error.text, showAlert: error.shown, style: capital(error.style), title: error.title } : null,
    prompt: prompt ? { title: prompt.title, message: prompt.text, showPrompt: prompt.shown } : null,
    ignoreBlanks: allowsBlank,
  };
}

function bodyOf(kind: ValidationKind, operator: ValidationOperator, formula1: string, formula2: string | undefined, hidesArrow: boolean): Record<string, unknown> {
  if (kind === "list") {
    const choices = QUOTED.exec(formula1)?.[1];
    return { inCellDropDown: !hidesArrow, source: choices === undefined ? `=${formula1}` : choices.replace(/""/g, '"') };
  }
  if (kind === "custom") return { formula: `=${formula1}` };
  return { formula1: operandOf(kind, formula1), ...(formula2 === undefined ? {} : { formula2: operandOf(kind, formula2) }), operator: OPERATORS[operator] };
}

/** Numbers as numbers, whole days as ISO dates, everything else as a formula. */
function operandOf(kind: ValidationKind, formula: string): number | string {
  const number = formula.trim() === "" ? Number.NaN : Number(formula);
  if (!Number.isFinite(number)) return `=${formula}`;
  return kind === "date" ? (isoDate(number) ?? number) : number;
}

/** The other way round; undefined for a rule that a file cannot hold. */
export function ruleForFile({ errorAlert, ignoreBlanks, prompt, rule }: RuleState, range: string): BookValidation | undefined {
  const [name = "", body] = Object.entries(rule).find(([, value]) => typeof value === "object" && value !== null) ?? [];
  const kind = (Object.keys(RULES) as ValidationKind[]).find((one) => RULES[one] === name);
  const formulas = kind && formulasOf(kind, body as Rule);
  if (!kind || !formulas) return undefined;
  const text = (record: Readonly<Record<string, unknown>>, key: string) => String(record[key] ?? "");
  const style = String(errorAlert?.style ?? "Stop").toLowerCase();
  return {
    range,
    kind,
    ...formulas,
    allowsBlank: ignoreBlanks,
    ...(prompt ? { prompt: { title: text(prompt, "title"), text: text(prompt, "message"), shown: prompt.showPrompt !== false } } : {}),
    ...(errorAlert ? { error: { title: text(errorAlert, "title"), text: text(errorAlert, "message"), style: style === "warning" || style === "information" ? style : "stop", shown: errorAlert.showAlert !== false } } : {}),
  };
}

function formulasOf(kind: ValidationKind, body: Rule): Pick<BookValidation, "formula1" | "formula2" | "hidesArrow" | "operator"> | undefined {
  if (kind === "list") {
    const source = String(body.source ?? "");
    return { formula1: source.startsWith("=") ? source.slice(1) : `"${source.replace(/"/g, '""')}"`, ...(body.inCellDropDown === false ? { hidesArrow: true } : {}) };
  }
  if (kind === "custom") return { formula1: withoutEquals(body.formula) };
  const operator = (Object.keys(OPERATORS) as ValidationOperator[]).find((one) => OPERATORS[one] === body.operator) ?? "between";
  const formula1 = operandForFile(body.formula1);
  const formula2 = body.formula2 === undefined || body.formula2 === "" ? undefined : operandForFile(body.formula2);
  return formula1 === undefined ? undefined : { operator, formula1, ...(formula2 === undefined ? {} : { formula2 }) };
}

function operandForFile(operand: unknown): string | undefined {
  if (operand === undefined || operand === null || operand === "") return undefined;
  if (operand instanceof Date) return String(serialOfIsoDate(operand.toISOString(), false));
  const text = String(operand);
  return String(serialOfIsoDate(text, false) ?? withoutEquals(text));
}

const withoutEquals = (formula: unknown): string => String(formula ?? "").replace(/^=/, "");
const capital = (word: string): string => word.charAt(0).toUpperCase() + word.slice(1);
