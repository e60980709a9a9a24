import { BooleanNumber, CellValueType, HorizontalAlign, type ICellData, type IStyleData, type Nullable, type Worksheet, WrapStrategy } from "@univerjs/core";
import { SetRangeValuesCommand, SetRowHeightCommand, SetWorksheetColWidthMutation, SetWorksheetColWidthMutationFactory } from "@univerjs/sheets";
import { type CellRange, cellAddress, cellsOf, readRange } from "../engine/address";
import { intersection } from "../excel/range-geometry";
import type { ClearWhat, GridFormats, GridStyle } from "../grid-port";
import type { OpenWorkbook } from "./open-workbook";
import { fitHeights } from "./fit-heights";
import { type Cells, setStyles } from "./set-styles";
import { textWidth } from "./text-width";

type StyleOrNone = { readonly [Name in keyof GridStyle]: GridStyle[Name] | null };

const ALIGN: readonly (readonly [GridStyle["align"], HorizontalAlign])[] = [
  ["General", HorizontalAlign.UNSPECIFIED],
  ["Left", HorizontalAlign.LEFT],
  ["Center", HorizontalAlign.CENTER],
  ["Right", HorizontalAlign.RIGHT],
];
const EMPTIED: ICellData = { v: null, f: null, si: null, p: null, t: null };
const DEFAULT_COLOUR = "#000000";
const LEAST_WIDTH_PIXELS = 30;
const MOST_WIDTH_PIXELS = 600;

/** How the cells of the open workbook look in a visible Univer grid. */
export class UniverFormats implements GridFormats {
  constructor(private readonly open: OpenWorkbook) {}

  text(sheetName: string, address: string): string[][] {
    const sheet = this.open.sheet(sheetName);
    return rowsOf(address, (row, column) => shownText(sheet.getCell(row, column)));
  }

  numberFormats(sheetName: string, address: string): string[][] {
    const sheet = this.open.sheet(sheetName);
    return rowsOf(address, (row, column) => this.styleAt(sheet, row, column).n?.pattern ?? "General");
  }

  setNumberFormats(sheetName: string, address: string, formats: readonly (readonly (string | null)[])[]): void {
    const { startRow, startColumn } = readRange(address);
    const value: Cells = {};
    const cells = new Map(formats.flat().map((format) => [format, { s: { n: format === null || format === "General" ? null : { pattern: format } } }]));
    formats.forEach((row, r) =>
      row.forEach((format, c) => {
        const cell = format === null ? undefined : cells.get(format);
        if (cell) (value[startRow + r] ??= {})[startColumn + c] = cell;
      }),
    );
    setStyles(this.open, this.open.sheet(sheetName), value);
  }

  style(sheetName: string, address: string): StyleOrNone {
    const sheet = this.open.sheet(sheetName);
    let common: StyleOrNone | undefined;
    for (const { row, column } of cellsOf(readRange(address))) {
      const style = gridStyle(this.styleAt(sheet, row, column));
      const before: StyleOrNone = common ?? style;
      common = Object.fromEntries(Object.entries(style).map(([name, value]) => [name, before[name as keyof GridStyle] === value ? value : null])) as unknown as StyleOrNone;
    }
    return common ?? gridStyle({});
  }

  setStyle(sheetName: string, address: string, style: Partial<GridStyle>): void {
    const sheet = this.open.sheet(sheetName);
    const cell: ICellData = { s: univerStyle(style) };
    const value: Cells = {};
    const range = readRange(address);
    for (const { row, column } of cellsOf(range)) (value[row] ??= {})[column] = cell;
    // A number format, a colour or a side of the cell leaves each line where it was.
    const mayChangeHeights = ["bold", "italic", "wrap"].some((name) => name in style);
    setStyles(this.open, sheet, value, mayChangeHeights ? () => fitHeights(this.open, sheet, [range]) : undefined);
  }

  /** Only cells that hold something are touched: a whole column costs what stands in it. */
  clear(sheetName: string, address: string, what: ClearWhat): void {
    const sheet = this.open.sheet(sheetName);
    const range = readRange(address);
    const value: Cells = {};
    const emptied: ICellData = { ...(what === "formats" ? {} : EMPTIED), ...(what === "contents" ? {} : { s: null }) };
    sheet.getCellMatrix().forValue((row: number, column: number) => {
      if (intersection(range, { startRow: row, endRow: row, startColumn: column, endColumn: column })) (value[row] ??= {})[column] = emptied;
    });
    this.set(sheet, value);
  }

  columnWidths(sheetName: string, address: string): number[] {
    const sheet = this.open.sheet(sheetName);
    const { startColumn, endColumn } = readRange(address);
    return Array.from({ length: endColumn - startColumn + 1 }, (_width, i) => sheet.getColumnWidth(startColumn + i));
  }

  setColumnWidth(sheetName: string, address: string, pixels: number): void {
    const sheet = this.open.sheet(sheetName);
    const { startColumn, endColumn } = readRange(address);
    const columns: CellRange = { startRow: 0, endRow: sheet.getRowCount() - 1, startColumn, endColumn };
    const set = { unitId: this.open.unitId, subUnitId: sheet.getSheetId(), ranges: [columns], colWidth: pixels };
    const undo = SetWorksheetColWidthMutationFactory(set, sheet);
    this.open.command(SetWorksheetColWidthMutation.id, set);
    // The grid's own command measures every cell of the sheet's first rows, whatever stands in it.
    const merged = sheet.getMergeData().filter((range) => intersection(range, columns)).map(({ startRow: row, startColumn: column }): CellRange => ({ startRow: row, endRow: row, startColumn: column, endColumn: column }));
    const heights = fitHeights(this.open, sheet, [columns, ...merged], (row, column) => this.styleAt(sheet, row, column).tb === WrapStrategy.WRAP);
    this.open.remember([{ id: SetWorksheetColWidthMutation.id, params: set }, ...heights.redos], [{ id: SetWorksheetColWidthMutation.id, params: undo }, ...heights.undos]);
  }

  rowHeights(sheetName: string, address: string): number[] {
    const sheet = this.open.sheet(sheetName);
    const { startRow, endRow } = readRange(address);
    return Array.from({ length: endRow - startRow + 1 }, (_height, i) => sheet.getRowHeight(startRow + i));
  }

  setRowHeight(sheetName: string, address: string, pixels: number): void {
    const sheet = this.open.sheet(sheetName);
    const { startRow, endRow } = readRange(address);
    this.open.commandOn(sheet, SetRowHeightCommand.id, { ranges: [{ startRow, endRow, startColumn: 0, endColumn: sheet.getColumnCount() - 1 }], value: pixels });
  }

  /** The grid's own command measures what is in view only, so the texts are measured here. Wrapped and merged cells do not count. */
  fitColumns(sheetName: string, address: string): void {
    const sheet = this.open.sheet(sheetName);
    const { startRow, endRow, startColumn, endColumn } = readRange(address);
    const widths = new Map<number, number>();
    sheet.getCellMatrix().forValue((row: number, column: number) => {
      if (row < startRow || row > endRow || column < startColumn || column > endColumn || sheet.getMergedCell(row, column)) return;
      const style = this.styleAt(sheet, row, column);
      if (style.tb === WrapStrategy.WRAP) return;
      const text = shownText(sheet.getCell(row, column));
      if (text !== "") widths.set(column, Math.max(widths.get(column) ?? 0, textWidth(text, style)));
    });
    for (const [column, width] of widths) {
      this.setColumnWidth(sheetName, cellAddress(0, column), Math.min(MOST_WIDTH_PIXELS, Math.max(LEAST_WIDTH_PIXELS, width)));
    }
  }

  private set(sheet: Worksheet, value: Cells): void {
    if (Object.keys(value).length > 0) this.open.commandOn(sheet, SetRangeValuesCommand.id, { value });
  }

  private styleAt(sheet: Worksheet, row: number, column: number): IStyleData {
    // Of the cell as it is kept: what is done to cells on their way to the screen leaves their styles.
    return sheet.getComposedCellStyleByCellData(row, column, sheet.getCellRaw(row, column));
  }
}

function shownText(cell: Nullable<ICellData>): string {
  if (!cell) return "";
  if (cell.t === CellValueType.BOOLEAN) return cell.v === 1 || cell.v === true ? "TRUE" : "FALSE";
  if (cell.v === undefined || cell.v === null) return (cell.p?.body?.dataStream ?? "").replace(/\r?\n$/, "");
  return String(cell.v);
}

function gridStyle(style: IStyleData): GridStyle {
  return {
    bold: style.bl === BooleanNumber.TRUE,
    italic: style.it === BooleanNumber.TRUE,
    color: (style.cl?.rgb ?? DEFAULT_COLOUR).toUpperCase(),
    fill: (style.bg?.rgb ?? "").toUpperCase(),
    wrap: style.tb === WrapStrategy.WRAP,
    align: ALIGN.find(([, align]) => align === style.ht)?.[0] ?? "General",
  };
}

function univerStyle({ align, bold, color, fill, italic, wrap }: Partial<GridStyle>): IStyleData {
  const style: Record<string, unknown> = {};
  if (bold !== undefined) style.bl = bold ? BooleanNumber.TRUE : BooleanNumber.FALSE;
  if (italic !== undefined) style.it = italic ? BooleanNumber.TRUE : BooleanNumber.FALSE;
  if (color !== undefined) style.cl = { rgb: color };
  if (fill !== undefined) style.bg = fill === "" ? null : { rgb: fill };
  if (wrap !== undefined) style.tb = wrap ? WrapStrategy.WRAP : WrapStrategy.UNSPECIFIED;
  if (align !== undefined) style.ht = ALIGN.find(([name]) => name === align)?.[1];
  return style as IStyleData;
}

function rowsOf<T>(address: string, read: (row: number, column: number) => T): T[][] {
  const { startRow, endRow, startColumn, endColumn } = readRange(address);
  return Array.from({ length: endRow - startRow + 1 }, (_row, r) => Array.from({ length: endColumn - startColumn + 1 }, (_column, c) => read(startRow + r, startColumn + c)));
}
