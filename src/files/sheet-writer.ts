import { cellAddress } from "./address";
import { writeCells, type TextWriter } from "./cell-writer";
import { writeConditionalFormats } from "./conditional-writer";
import type { NewSheet } from "./new-book-model";
import { argb, type StyleWriter } from "./style-writer";
import { writeValidations } from "./validation-writer";
import { encodeText } from "./xml";

const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const RELATIONSHIPS = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
export const USUAL_WIDTH = 9;

export interface WrittenSheet {
  xml: string;
  marked: boolean;
}

/** The relationship ids of what stands on a sheet in parts of its own. */
export interface SheetParts {
  tables: readonly string[];
  drawing?: string;
}

/** Writes one worksheet part. Its tables and charts are parts of their own. The elements are in the order that the format prescribes. */
export function writeSheet(sheet: NewSheet, inFront: boolean, styles: StyleWriter, texts: TextWriter | null, { drawing, tables }: SheetParts): WrittenSheet {
  const { rows, dimension, marked } = writeCells(sheet, styles, texts);
  const xml = [
    '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n',
    `<worksheet xmlns="${MAIN}" xmlns:r="${RELATIONSHIPS}">`,
    sheetProperties(sheet),
    `<dimension ref="${dimension}"/>`,
    view(sheet, inFront),
    `<sheetFormatPr${sheet.usualWidth === undefined ? "" : ` defaultColWidth="${sheet.usualWidth}"`} defaultRowHeight="15"/>`,
    columns(sheet.columnWidths ?? [], new Set(sheet.hiddenColumns)),
    `<sheetData>${rows}</sheetData>`,
    merges(sheet.merges ?? []),
    writeConditionalFormats(sheet.conditionalFormats ?? [], styles),
    writeValidations(sheet.lists ?? [], sheet.validations ?? []),
    '<pageMargins left="0.7" right="0.7" top="0.75" bottom="0.75" header="0.3" footer="0.3"/>',
    page(sheet),
    drawing === undefined ? "" : `<drawing r:id="${drawing}"/>`,
    tables.length === 0 ? "" : `<tableParts count="${tables.length}">${tables.map((id) => `<tablePart r:id="${id}"/>`).join("")}</tableParts>`,
    "</worksheet>",
  ];
  return { xml: xml.join(""), marked };
}

function sheetProperties({ tabColor, print }: NewSheet): string {
  const inner = `${tabColor === undefined ? "" : `<tabColor rgb="${argb(tabColor)}"/>`}${print?.fitToWidth || print?.fit ? '<pageSetUpPr fitToPage="1"/>' : ""}`;
  return inner === "" ? "" : `<sheetPr>${inner}</sheetPr>`;
}

function view({ frozenRows = 0, frozenColumns = 0, hideGridLines }: NewSheet, inFront: boolean): string {
  const attributes = `${hideGridLines ? ' showGridLines="0"' : ""}${inFront ? ' tabSelected="1"' : ""} workbookViewId="0"`;
  if (frozenRows === 0 && frozenColumns === 0) return `<sheetViews><sheetView${attributes}/></sheetViews>`;
  return `<sheetViews><sheetView${attributes}>${frozenPane(frozenRows, frozenColumns)}</sheetView></sheetViews>`;
}

/** What a view holds where rows or columns always stay in it. */
export function frozenPane(frozenRows: number, frozenColumns: number): string {
  const pane = frozenRows > 0 && frozenColumns > 0 ? "bottomRight" : frozenRows > 0 ? "bottomLeft" : "topRight";
  const split = `${frozenColumns > 0 ? ` xSplit="${frozenColumns}"` : ""}${frozenRows > 0 ? ` ySplit="${frozenRows}"` : ""}`;
  const topLeft = cellAddress(frozenRows, frozenColumns);
  return `<pane${split} topLeftCell="${topLeft}" activePane="${pane}" state="frozen"/><selection pane="${pane}" activeCell="${topLeft}" sqref="${topLeft}"/>`;
}

/** Where a column is hidden without a width of its own, it has the usual one to come back to. */
function columns(widths: readonly number[], hidden: ReadonlySet<number>): string {
  const count = Math.max(widths.length, ...hidden);
  const written = Array.from({ length: count }, (_, i) => {
    const [width = 0, isHidden] = [widths[i], hidden.has(i + 1)];
    return width > 0 || isHidden ? `<col min="${i + 1}" max="${i + 1}" width="${width > 0 ? width : USUAL_WIDTH}"${isHidden ? ' hidden="1"' : ""} customWidth="1"/>` : "";
  }).join("");
  return written === "" ? "" : `<cols>${written}</cols>`;
}

export function merges(ranges: readonly string[]): string {
  return ranges.length === 0 ? "" : `<mergeCells count="${ranges.length}">${ranges.map((ref) => `<mergeCell ref="${ref}"/>`).join("")}</mergeCells>`;
}

function page({ print }: NewSheet): string {
  if (!print) return "";
  const { fit, fitToWidth, footer, orientation, scale } = print;
  const fitted = fit ? ` fitToWidth="${fit.wide ?? 0}" fitToHeight="${fit.tall ?? 0}"` : fitToWidth ? ' fitToWidth="1" fitToHeight="0"' : "";
  const scaled = scale === undefined ? "" : ` scale="${scale}"`;
  const written = footer === undefined ? "" : `<headerFooter><oddFooter>${encodeText(footer)}</oddFooter></headerFooter>`;
  return `<pageSetup paperSize="9"${scaled}${fitted}${orientation === undefined ? "" : ` orientation="${orientation}"`}/>${written}`;
}
