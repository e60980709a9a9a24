import { BooleanNumber, BorderStyleTypes, CellValueType, HorizontalAlign, type ICellData, type IStyleData, type IWorkbookData, LocaleType, VerticalAlign, WrapStrategy } from "@univerjs/core";
import type { Book, BookBorder, BookCell, BookSheet, BookStyle, BorderLine } from "../../files/book";
import { type CellRange, contains, readRange } from "./address";
import { sheetLayout } from "./sheet-layout";

const LEAST_ROWS = 1000;
const LEAST_COLUMNS = 26;
const SPARE_ROWS = 200;
const SPARE_COLUMNS = 10;
/** The letters of cells that say nothing else. */
export const GRID_FONT = { name: "Arial", size: 10 } as const;

/** The grid's number of each line around cells. */
export const LINE_NUMBERS: Readonly<Record<BorderLine, BorderStyleTypes>> = {
  thin: BorderStyleTypes.THIN,
  hair: BorderStyleTypes.HAIR,
  dotted: BorderStyleTypes.DOTTED,
  dashed: BorderStyleTypes.DASHED,
  dashDot: BorderStyleTypes.DASH_DOT,
  dashDotDot: BorderStyleTypes.DASH_DOT_DOT,
  double: BorderStyleTypes.DOUBLE,
  medium: BorderStyleTypes.MEDIUM,
  mediumDashed: BorderStyleTypes.MEDIUM_DASHED,
  mediumDashDot: BorderStyleTypes.MEDIUM_DASH_DOT,
  mediumDashDotDot: BorderStyleTypes.MEDIUM_DASH_DOT_DOT,
  slantDashDot: BorderStyleTypes.SLANT_DASH_DOT,
  thick: BorderStyleTypes.THICK,
};
const BLACK = "#000000";

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
  // A table may reach beyond its last filled row.
  for (const { ref } of sheet.tables ?? []) {
    const { endColumn, endRow } = readRange(ref);
    [lastRow, lastColumn] = [Math.max(lastRow, endRow), Math.max(lastColumn, endColumn)];
  }
  return {
    name: sheet.name,
    cellData,
    defaultStyle: { ff: GRID_FONT.name, fs: GRID_FONT.size, vt: VerticalAlign.MIDDLE },
    ...(sheet.tabColor === undefined ? {} : { tabColor: sheet.tabColor }),
    ...(sheet.hideGridLines ? { showGridlines: BooleanNumber.FALSE } : {}),
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
  if (style.underline) data.ul = { s: BooleanNumber.TRUE };
  if (style.strike) data.st = { s: BooleanNumber.TRUE };
  if (style.size !== undefined) data.fs = style.size;
  if (style.verticalAlign) data.vt = { top: VerticalAlign.TOP, center: VerticalAlign.MIDDLE, bottom: VerticalAlign.BOTTOM }[style.verticalAlign];
  if (style.border) data.bd = borderData(style.border);
  return data;
}

function borderData({ bottom, left, right, top }: NonNullable<BookStyle["border"]>): NonNullable<IStyleData["bd"]> {
  const edge = (border: BookBorder | undefined) => border && { s: LINE_NUMBERS[border.line], cl: { rgb: border.color ?? BLACK } };
  return Object.fromEntries(Object.entries({ t: edge(top), r: edge(right), b: edge(bottom), l: edge(left) }).filter(([, data]) => data !== undefined));
}
