import { Problem } from "../science/problem";
import { files } from "../words/files";
import { cellAddress, readRange } from "./address";
import { writeCells, type TextWriter } from "./cell-writer";
import { toStored } from "./formula-text";
import type { NewList, NewSheet } from "./new-book-model";
import { argb, type StyleWriter } from "./style-writer";
import { encodeAttribute, encodeText, escapeXml } from "./xml";

const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const RELATIONSHIPS = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const LONGEST_LIST = 255;

export interface WrittenSheet {
  xml: string;
  marked: boolean;
}

/** Writes one worksheet part. Its tables are parts of their own, named by their relationship ids here. */
export function writeSheet(sheet: NewSheet, isFirst: boolean, styles: StyleWriter, texts: TextWriter, tableIds: readonly string[]): WrittenSheet {
  const { rows, dimension, marked } = writeCells(sheet, styles, texts);
  const xml = [
    '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n',
    `<worksheet xmlns="${MAIN}" xmlns:r="${RELATIONSHIPS}">`,
    sheetProperties(sheet),
    `<dimension ref="${dimension}"/>`,
    view(sheet, isFirst),
    '<sheetFormatPr defaultRowHeight="15"/>',
    columns(sheet.columnWidths ?? []),
    `<sheetData>${rows}</sheetData>`,
    merges(sheet.merges ?? []),
    conditionalFormats(sheet, styles),
    lists(sheet.lists ?? []),
    '<pageMargins left="0.7" right="0.7" top="0.75" bottom="0.75" header="0.3" footer="0.3"/>',
    page(sheet),
    tableIds.length === 0 ? "" : `<tableParts count="${tableIds.length}">${tableIds.map((id) => `<tablePart r:id="${id}"/>`).join("")}</tableParts>`,
    "</worksheet>",
  ];
  return { xml: xml.join(""), marked };
}

function sheetProperties({ tabColor, print }: NewSheet): string {
  const inner = `${tabColor === undefined ? "" : `<tabColor rgb="${argb(tabColor)}"/>`}${print?.fitToWidth ? '<pageSetUpPr fitToPage="1"/>' : ""}`;
  return inner === "" ? "" : `<sheetPr>${inner}</sheetPr>`;
}

function view({ frozenRows = 0, frozenColumns = 0, hideGridLines }: NewSheet, isFirst: boolean): string {
  const attributes = `${hideGridLines ? ' showGridLines="0"' : ""}${isFirst ? ' tabSelected="1"' : ""} workbookViewId="0"`;
  if (frozenRows === 0 && frozenColumns === 0) return `<sheetViews><sheetView${attributes}/></sheetViews>`;
  const pane = frozenRows > 0 && frozenColumns > 0 ? "bottomRight" : frozenRows > 0 ? "bottomLeft" : "topRight";
  const split = `${frozenColumns > 0 ? ` xSplit="${frozenColumns}"` : ""}${frozenRows > 0 ? ` ySplit="${frozenRows}"` : ""}`;
  const topLeft = cellAddress(frozenRows, frozenColumns);
  return `<sheetViews><sheetView${attributes}><pane${split} topLeftCell="${topLeft}" activePane="${pane}" state="frozen"/><selection pane="${pane}" activeCell="${topLeft}" sqref="${topLeft}"/></sheetView></sheetViews>`;
}

function columns(widths: readonly number[]): string {
  const written = widths.flatMap((width, i) => (width > 0 ? [`<col min="${i + 1}" max="${i + 1}" width="${width}" customWidth="1"/>`] : []));
  return written.length === 0 ? "" : `<cols>${written.join("")}</cols>`;
}

function merges(ranges: readonly string[]): string {
  return ranges.length === 0 ? "" : `<mergeCells count="${ranges.length}">${ranges.map((ref) => `<mergeCell ref="${ref}"/>`).join("")}</mergeCells>`;
}

function conditionalFormats(sheet: NewSheet, styles: StyleWriter): string {
  return (sheet.conditionalFormats ?? [])
    .map(({ range, formula, style }, i) => {
      const rule = `<cfRule type="expression" dxfId="${styles.difference(style)}" priority="${i + 1}"><formula>${escapeXml(toStored(formula))}</formula></cfRule>`;
      return `<conditionalFormatting sqref="${range}">${rule}</conditionalFormatting>`;
    })
    .join("");
}

function lists(rules: readonly NewList[]): string {
  if (rules.length === 0) return "";
  const written = rules.map((rule) => {
    const { range, hint, error, warnOnly } = rule;
    const prompt = hint ? ` showInputMessage="1" promptTitle="${encodeAttribute(hint.title)}" prompt="${encodeAttribute(hint.text)}"` : "";
    const refusal = ` showErrorMessage="1"${warnOnly ? ' errorStyle="warning"' : ""}${error ? ` errorTitle="${encodeAttribute(error.title)}" error="${encodeAttribute(error.text)}"` : ""}`;
    return `<dataValidation type="list" allowBlank="1"${prompt}${refusal} sqref="${range}"><formula1>${escapeXml(choices(rule))}</formula1></dataValidation>`;
  });
  return `<dataValidations count="${rules.length}">${written.join("")}</dataValidations>`;
}

function choices({ range, choices: given }: NewList): string {
  if ("formula" in given) return toStored(given.formula);
  const text = given.join(",");
  if (text.length > LONGEST_LIST || given.some((choice) => choice.includes(","))) throw new Problem("value", files.listTooLong(range));
  return `"${text.replace(/"/g, '""')}"`;
}

function page({ print }: NewSheet): string {
  if (!print) return "";
  const fit = print.fitToWidth ? ' fitToWidth="1" fitToHeight="0"' : "";
  const footer = print.footer === undefined ? "" : `<headerFooter><oddFooter>${encodeText(print.footer)}</oddFooter></headerFooter>`;
  return `<pageSetup paperSize="9"${fit} orientation="${print.orientation ?? "portrait"}"/>${footer}`;
}

/** Writes the part of one table. Throws a Problem when a heading cell is not a text of its own. */
export function writeTable(sheet: NewSheet, table: NonNullable<NewSheet["tables"]>[number], id: number): string {
  const range = readRange(table.ref);
  if (!range) throw new RangeError(`"${table.ref}" is not a range.`);
  const seen = new Set<string>();
  const headings = Array.from({ length: range.endColumn - range.startColumn + 1 }, (_, i) => {
    const address = cellAddress(range.startRow, range.startColumn + i);
    const heading = sheet.cells.get(address);
    const text = heading?.formula === undefined ? heading?.value : undefined;
    if (typeof text !== "string" || text === "" || seen.has(text.toLowerCase())) throw new Problem("value", files.tableHeading(table.name, address));
    seen.add(text.toLowerCase());
    return `<tableColumn id="${i + 1}" name="${encodeText(text).replace(/\n/g, "_x000a_")}"/>`;
  });
  const name = escapeXml(table.name);
  return [
    '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n',
    `<table xmlns="${MAIN}" id="${id}" name="${name}" displayName="${name}" ref="${table.ref}" totalsRowShown="0">`,
    `<autoFilter ref="${table.ref}"/>`,
    `<tableColumns count="${headings.length}">${headings.join("")}</tableColumns>`,
    `<tableStyleInfo name="${table.style ?? "TableStyleLight1"}" showFirstColumn="0" showLastColumn="0" showRowStripes="${table.bandedRows === false ? 0 : 1}" showColumnStripes="0"/>`,
    "</table>",
  ].join("");
}
