import { BooleanNumber, CellValueType, HorizontalAlign, type ICellData, type IStyleData, type IWorkbookData, LocaleType, VerticalAlign, WrapStrategy } from "@univerjs/core";
import type { Book, BookCell, BookSheet, BookStyle } from "../../files/book";
import { type CellRange, contains, readRange } from "./address";
import { sheetLayout } from "./sheet-layout";

const LEAST_ROWS = 1000;
const LEAST_COLUMNS = 26;
const SPARE_ROWS = 200;
const SPARE_COLUMNS = 10;
const FONT_POINTS = 10;

type Cells = Record<number, Record<number, ICellData>>;

/** A book as the grid and its engine hold one. Sheet ids are "sheet1", "sheet2" in tab order. */
export function snapshotOf(book: Book, id: string, title = ""): IWorkbookData {
  const sheets = book.sheets.map((sheet, i) => ({ ...sheetData(sheet), id: sheetId(i) }));
  return {
    id,
    name: title,
    appVersion: "",
    locale: LocaleType.EN_US,
    styles: {},
    sheetOrder: sheets.map((sheet) => sheet.id),
    sheets: Object.fromEntries(sheets.map((sheet) => [sheet.id, sheet])),
    resources: [{ name: "SHEET_DEFINED_NAME_PLUGIN", data: JSON.stringify(definedNames(book)) }],
  };
}

export function sheetId(index: number): string {
  return `sheet${index + 1}`;
}

/** A sheet without cells, as large as those of a small workbook. */
export function emptySheet(name: string) {
  return sheetData({ name, cells: new Map() });
}

function definedNames(book: Book): Record<string, object> {
  return Object.fromEntries(
    book.names.map(({ name, ref }, i) => [`name${i + 1}`, { id: `name${i + 1}`, name, formulaOrRefString: ref, localSheetId: "AllDefaultWorkbook" }]),
  );
}

function sheetData(sheet: BookSheet) {
  const cellData: Cells = {};
  const spills: CellRange[] = [...sheet.cells].flatMap(([address, cell]) => (cell.formula && cell.spill && cell.spill !== address ? [readRange(cell.spill)] : []));
  let lastRow = 0;
  let lastColumn = 0;
  for (const [address, cell] of sheet.cells) {
    const { startRow: row, startColumn: column } = readRange(address);
    // The stored values of a spilled answer are the formula's, not the sheet's: left in, they would block the spill.
    const spilled = cell.formula === undefined && spills.some((range) => contains(range, row, column));
    (cellData[row] ??= {})[column] = gridCell(spilled ? { ...cell, value: null } : cell);
    lastRow = Math.max(lastRow, row);
    lastColumn = Math.max(lastColumn, column);
  }
  return {
    name: sheet.name,
    cellData,
    defaultStyle: { ff: "Arial", fs: FONT_POINTS, vt: VerticalAlign.MIDDLE },
    hidden: sheet.hidden ? BooleanNumber.TRUE : BooleanNumber.FALSE,
    // A reference beyond the sheet's size would be #NAME?, so there is room below and to the right.
    rowCount: Math.max(LEAST_ROWS, lastRow + 1 + SPARE_ROWS),
    columnCount: Math.max(LEAST_COLUMNS, lastColumn + 1 + SPARE_COLUMNS),
    ...sheetLayout(sheet),
  };
}

function gridCell(cell: BookCell): ICellData {
  const style = cell.style && styleData(cell.style);
  const data: ICellData = { ...valueData(cell), ...(style ? { s: style } : {}) };
  return cell.formula === undefined ? data : { ...data, f: `=${cell.formula}` };
}

/** The kind is always said: without it the engine guesses, and a text "0.20" becomes a number. */
function valueData({ value }: BookCell): ICellData {
  if (typeof value === "number") return { v: value, t: CellValueType.NUMBER };
  if (typeof value === "boolean") return { v: value ? 1 : 0, t: CellValueType.BOOLEAN };
  if (typeof value === "string" && value !== "") return { v: value, t: CellValueType.STRING };
  return {};
}

function styleData(style: BookStyle): IStyleData {
  const data: IStyleData = {};
  if (style.bold) data.bl = BooleanNumber.TRUE;
  if (style.italic) data.it = BooleanNumber.TRUE;
  if (style.color) data.cl = { rgb: style.color };
  if (style.fill) data.bg = { rgb: style.fill };
  if (style.numberFormat && style.numberFormat !== "General") data.n = { pattern: style.numberFormat };
  if (style.align) data.ht = { left: HorizontalAlign.LEFT, center: HorizontalAlign.CENTER, right: HorizontalAlign.RIGHT }[style.align];
  if (style.wrap) data.tb = WrapStrategy.WRAP;
  return data;
}
