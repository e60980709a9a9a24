import type { BookConditionalFormat, TextOperator } from "./book-extras";
import { cellAddress } from "./address";
import { toStored } from "./formula-text";
import { rangeOf, storedRanges } from "./rule-ranges";
import type { StyleWriter } from "./style-writer";
import { encodeAttribute, escapeXml } from "./xml";

/** The file's name of each rule of text, its operator, and the formula that older readers go by. */
const TEXT_RULES: Readonly<Record<TextOperator, { type: string; operator: string; formula(text: string, cell: string): string }>> = {
  contains: { type: "containsText", operator: "containsText", formula: (text, cell) => `NOT(ISERROR(SEARCH(${text},${cell})))` },
  notContains: { type: "notContainsText", operator: "notContains", formula: (text, cell) => `ISERROR(SEARCH(${text},${cell}))` },
  beginsWith: { type: "beginsWith", operator: "beginsWith", formula: (text, cell) => `LEFT(${cell},LEN(${text}))=${text}` },
  endsWith: { type: "endsWith", operator: "endsWith", formula: (text, cell) => `RIGHT(${cell},LEN(${text}))=${text}` },
};

/** The conditionalFormatting elements of a sheet. @param first the priority of the first of them */
export function writeConditionalFormats(formats: readonly BookConditionalFormat[], styles: StyleWriter, first = 1): string {
  return formats
    .map((format, i) => {
      const { stopIfTrue, style, text } = format;
      const rule = text && TEXT_RULES[text.operator];
      const kind = rule ? ` type="${rule.type}"` : ' type="expression"';
      const of = rule ? ` operator="${rule.operator}" text="${encodeAttribute(text.text)}"` : "";
      const element = `<cfRule${kind} dxfId="${styles.difference(style)}" priority="${first + i}"${stopIfTrue ? ' stopIfTrue="1"' : ""}${of}><formula>${escapeXml(formulaOf(format))}</formula></cfRule>`;
      return `<conditionalFormatting sqref="${storedRanges(format.range)}">${element}</conditionalFormatting>`;
    })
    .join("");
}

function formulaOf({ formula, range, text }: BookConditionalFormat): string {
  if (!text) return toStored(formula);
  const { startRow, startColumn } = rangeOf(range.trim().split(/\s+/)[0] ?? "");
  return TEXT_RULES[text.operator].formula(`"${text.text.replace(/"/g, '""')}"`, cellAddress(startRow, startColumn));
}
