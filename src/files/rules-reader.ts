import { cellAddress } from "./address";
import type { BookConditionalFormat, BookValidation, PrintSetup, SheetExtras, TextOperator, ValidationKind, ValidationOperator } from "./book-extras";
import { fromStored } from "./formula-text";
import { listedRanges, rangeOf } from "./rule-ranges";
import type { Unshown } from "./unshown";
import { attribute, decodeText, flag, isTrue, walkXml, type XmlTag } from "./xml";

const KINDS: ReadonlySet<string> = new Set<ValidationKind>(["custom", "date", "decimal", "list", "textLength", "time", "whole"]);
const OPERATORS: ReadonlySet<string> = new Set<ValidationOperator>(["between", "equal", "greaterThan", "greaterThanOrEqual", "lessThan", "lessThanOrEqual", "notBetween", "notEqual"]);
const TEXT_OPERATORS: Readonly<Record<string, TextOperator>> = { containsText: "contains", notContainsText: "notContains", beginsWith: "beginsWith", endsWith: "endsWith" };

const COMPARISONS: Readonly<Record<string, string>> = { equal: "=", notEqual: "<>", greaterThan: ">", greaterThanOrEqual: ">=", lessThan: "<", lessThanOrEqual: "<=" };

interface OpenRule {
  tag: XmlTag;
  range: string;
  formulas: string[];
}

/** Of each rule that was read, which element of its kind it is in the part, counted from 0. */
export interface RulePlaces {
  validations: number[];
  conditionalFormats: number[];
}

type Formats = { format: BookConditionalFormat; priority: number; element: number }[];

/** The rules of one worksheet part and how it prints. What the grid has not is counted. @param differences the looks of rules, by number @param places is given where the rules stand */
export function readRules(xml: string, part: string, differences: readonly BookConditionalFormat["style"][], unshown: Unshown, places?: RulePlaces): Omit<SheetExtras, "charts"> {
  const validations: BookValidation[] = [];
  const formats: Formats = [];
  let print: PrintSetup = {};
  let fitted = false;
  let conditionalRange = "";
  let rule: OpenRule | undefined;
  let text = "";
  let [validationElements, formatElements] = [0, 0];

  walkXml(withoutCells(xml), part, {
    open(tag) {
      text = "";
      switch (tag.local) {
        case "pageSetUpPr":
          fitted = flag(tag, "fitToPage");
          break;
        case "pageSetup":
          print = pageSetup(tag, fitted);
          break;
        case "conditionalFormatting":
          conditionalRange = attribute(tag, "sqref") ?? "";
          break;
        case "dataValidation":
        case "cfRule":
          rule = { tag, range: tag.local === "cfRule" ? conditionalRange : (attribute(tag, "sqref") ?? ""), formulas: [] };
          break;
        default:
          countUnshown(tag, unshown);
      }
    },
    text(piece) {
      text += piece;
    },
    close(tag) {
      if (!rule) return;
      // In the extension for references to other sheets the text stands one element deeper.
      if (tag.local === "formula") rule.formulas.push(fromStored(text.trim()));
      else if (tag.local === "formula1") rule.formulas[0] ??= fromStored(text.trim());
      else if (tag.local === "formula2") rule.formulas[1] = fromStored(text.trim());
      else if (tag.local === "sqref") rule.range = text;
      else if (tag.local === "dataValidation") {
        const read = validation(rule);
        if (read) {
          validations.push(read);
          places?.validations.push(validationElements);
        } else if ((attribute(tag, "type") ?? "none") !== "none") unshown.count("validation");
        validationElements += 1;
        rule = undefined;
      } else if (tag.local === "cfRule") {
        const format = conditionalFormat(rule, differences);
        if (format) formats.push({ format, priority: Number(attribute(tag, "priority") ?? 0), element: formatElements });
        // Of a data bar the extension tells the rest; the rule itself is counted where it stands.
        else if (attribute(tag, "type") !== "dataBar" || tag.uri.endsWith("/main")) unshown.count("conditionalFormat");
        formatElements += 1;
        rule = undefined;
      }
    },
  });
  formats.sort((a, b) => a.priority - b.priority);
  places?.conditionalFormats.push(...formats.map(({ element }) => element));
  return { validations, conditionalFormats: formats.map(({ format }) => format), ...(Object.keys(print).length > 0 ? { print } : {}) };
}

/** The part without its cells, which are read elsewhere and are by far the most of it. */
function withoutCells(xml: string): string {
  const open = /<(?:[\w.-]+:)?sheetData\b[^>]*?(\/?)>/.exec(xml);
  if (!open || open[1] === "/") return xml;
  const close = /<\/(?:[\w.-]+:)?sheetData\s*>(?![\s\S]*<\/(?:[\w.-]+:)?sheetData\s*>)/.exec(xml.slice(open.index));
  return close ? xml.slice(0, open.index) + xml.slice(open.index + close.index + close[0].length) : xml;
}

function pageSetup(tag: XmlTag, fitted: boolean): PrintSetup {
  const orientation = attribute(tag, "orientation");
  const number = (name: string, otherwise: number) => Number(attribute(tag, name) ?? otherwise);
  const [wide, tall, scale] = [number("fitToWidth", 1), number("fitToHeight", 1), number("scale", 100)];
  return {
    ...(orientation === "portrait" || orientation === "landscape" ? { orientation } : {}),
    ...(fitted ? { fit: { ...(wide > 0 ? { wide } : {}), ...(tall > 0 ? { tall } : {}) } } : scale !== 100 ? { scale } : {}),
  };
}

function validation({ tag, range, formulas: [formula1, formula2] }: OpenRule): BookValidation | undefined {
  const kind = attribute(tag, "type") ?? "none";
  const ranges = listedRanges(range);
  const operator = attribute(tag, "operator") ?? "between";
  if (!KINDS.has(kind) || !OPERATORS.has(operator) || formula1 === undefined || ranges.length === 0) return undefined;
  const given = (name: string) => decodeText(attribute(tag, name) ?? "");
  const compares = kind !== "list" && kind !== "custom";
  const [shown, promptTitle, promptText] = [flag(tag, "showInputMessage"), given("promptTitle"), given("prompt")];
  const [style, errorTitle, errorText, refuses] = [attribute(tag, "errorStyle") ?? "stop", given("errorTitle"), given("error"), flag(tag, "showErrorMessage")];
  const plain = refuses && errorTitle === "" && errorText === "" && style === "stop";
  return {
    range: ranges.join(" "),
    kind: kind as ValidationKind,
    ...(compares ? { operator: operator as ValidationOperator } : {}),
    formula1,
    ...(formula2 === undefined || !compares ? {} : { formula2 }),
    ...(flag(tag, "showDropDown") ? { hidesArrow: true } : {}),
    allowsBlank: flag(tag, "allowBlank"),
    ...(promptTitle !== "" || promptText !== "" ? { prompt: { title: promptTitle, text: promptText, shown } } : {}),
    ...(plain ? {} : { error: { title: errorTitle, text: errorText, style: style === "warning" || style === "information" ? style : "stop", shown: refuses } }),
  };
}

function conditionalFormat({ tag, range, formulas }: OpenRule, differences: readonly BookConditionalFormat["style"][]): BookConditionalFormat | undefined {
  const type = attribute(tag, "type") ?? "";
  const style = differences[Number(attribute(tag, "dxfId") ?? -1)];
  const ranges = listedRanges(range);
  const operator = TEXT_OPERATORS[type];
  const formula = type === "cellIs" ? comparison(attribute(tag, "operator") ?? "", ranges[0], formulas) : formulas[0];
  const text = attribute(tag, "text");
  // One that only changes what the grid does not draw, such as borders, would be shown as nothing.
  const shows = style && (Object.keys(style).some((name) => name !== "italic") || isTrue(attribute(tag, "stopIfTrue") ?? "0"));
  if (!style || !shows || ranges.length === 0 || (operator ? text === undefined : (type !== "expression" && type !== "cellIs") || formula === undefined)) return undefined;
  return {
    range: ranges.join(" "),
    formula: operator ? "" : (formula ?? ""),
    ...(operator ? { text: { operator, text: decodeText(text ?? "") } } : {}),
    style,
    ...(isTrue(attribute(tag, "stopIfTrue") ?? "0") ? { stopIfTrue: true } : {}),
  };
}

/** A rule that compares each cell, as the formula that says the same; seen from the first cell. */
function comparison(operator: string, range: string | undefined, [one, other]: readonly string[]): string | undefined {
  if (range === undefined || one === undefined) return undefined;
  const { startColumn, startRow } = rangeOf(range);
  const cell = cellAddress(startRow, startColumn);
  const sign = COMPARISONS[operator];
  if (sign !== undefined) return `${cell}${sign}(${one})`;
  if (other === undefined) return undefined;
  const [least, most] = [`MIN(${one},${other})`, `MAX(${one},${other})`];
  if (operator === "between") return `AND(${cell}>=${least},${cell}<=${most})`;
  return operator === "notBetween" ? `OR(${cell}<${least},${cell}>${most})` : undefined;
}

function countUnshown(tag: XmlTag, unshown: Unshown): void {
  if (tag.local === "hyperlink") unshown.count("hyperlink");
  else if (tag.local === "sheetProtection") unshown.count("protection");
  else if (tag.local === "filterColumn") unshown.count("filter");
  else if (tag.local === "sparkline") unshown.count("sparkline");
  else if (/^(odd|even|first)(Header|Footer)$/.test(tag.local)) unshown.count("headerFooter");
}
