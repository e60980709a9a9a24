import { BooleanNumber, type ICellData, type Nullable, type Worksheet } from "@univerjs/core";
import { IFunctionService } from "@univerjs/engine-formula";
import { cellAddress, rangeAddress } from "../../files/address";
import { isReadableFormula } from "../../files/formula-grammar";
import { maySpill } from "../../files/may-spill";
import type { NewBook, NewCell, NewName, NewSheet, NewTable } from "../../files/new-book-model";
import { needsOwnTable } from "../../files/stored-references";
import { tableAt } from "../../files/table-part";
import { joinAddress } from "../../functions/cell-address";
import { readRange } from "../engine/address";
import { PIXELS_PER_POINT, widthCharacters } from "../engine/sheet-layout";
import { hasFormula, type SheetReader } from "../engine/sheet-reader";
import { GRID_FONT } from "../engine/snapshot";
import { type BookState, type PlacedRange, stateOnSheets } from "../excel/book-state";
import { fileOfState } from "../excel/file-of-state";
import { headingTexts } from "../excel/heading-texts";
import { intersection, readAnyRange } from "../excel/range-geometry";
import type { GridName } from "../grid-port";
import { bookStyle, hexColour } from "./cell-style";
import type { OpenWorkbook } from "./open-workbook";

/** The open workbook as a file is made of it: cells with their answers, styles, tables, names, and all that the state holds. */
export function bookOfGrid(open: OpenWorkbook, whole: BookState, names: readonly GridName[], title: string): NewBook {
  const { workbook } = open;
  const reader = open.reader();
  const sheets = workbook.getSheets();
  const ids = sheets.map((sheet) => sheet.getSheetId());
  const state = stateOnSheets(whole, new Set(ids));
  const view = {
    sheetName: (id: string) => workbook.getSheetBySheetId(id)?.getName(),
    holdsTexts: (range: PlacedRange) => holdsTexts(workbook.getSheetBySheetId(range.sheetId), reader, range.ref),
  };
  return {
    sheets: sheets.map((sheet): NewSheet => {
      const cells = cellsOf(sheet, reader, writable(open, state.tables.filter(({ sheetId }) => sheetId === sheet.getSheetId())));
      return { name: sheet.getName(), cells, ...layoutOf(sheet), tables: tablesOf(sheet, state, cells), ...fileOfState(state, sheet.getSheetId(), view) };
    }),
    names: names.map(({ formula, name, sheetId }): NewName => ({ name, ref: formula, ...(sheetId !== null && ids.includes(sheetId) ? { sheet: ids.indexOf(sheetId) } : {}) })),
    date1904: false,
    xmlParts: [...state.xmlParts],
    active: ids.indexOf(workbook.getActiveSheet().getSheetId()),
    font: { ...GRID_FONT },
    properties: { ...(title === "" ? {} : { title }), created: `${new Date().toISOString().slice(0, 19)}Z` },
  };
}

/** Whether a file may hold a formula at that cell. */
type Writable = (formula: string, address: string) => boolean;

/** Functions that Excel lets do with other numbers of arguments than the engine: CELL("filename"), SHEETS(A1). */
const TAKES_FEWER_OR_MORE: ReadonlySet<string> = new Set(["CELL", "ODDLYIELD", "REGEXEXTRACT", "REGEXREPLACE", "REGEXTEST", "SHEETS"]);

function writable(open: OpenWorkbook, tables: readonly { readonly name: string; readonly ref: string }[]): Writable {
  const known = open.injector.get(IFunctionService);
  const takes = (name: string, count: number) => {
    if (TAKES_FEWER_OR_MORE.has(name.toUpperCase())) return true;
    const { maxParams = -1, minParams = -1 } = known.getExecutor(name.toUpperCase()) ?? {};
    return (minParams < 0 || count >= minParams) && (maxParams < 0 || count <= maxParams);
  };
  return (formula, address) => isReadableFormula(formula, takes) && (!needsOwnTable(formula) || tableAt(tables, address) !== undefined);
}

/** Addresses of the formulas that a file could not hold, which stand in it as the texts that were typed. */
export function heldAsTexts(open: OpenWorkbook, { sheets }: NewBook): string[] {
  return sheets.flatMap(({ cells, name }) =>
    [...cells].flatMap(([address, { formula, value }]) => {
      const place = formula === undefined && typeof value === "string" && value.startsWith("=") ? readRange(address) : undefined;
      return place && hasFormula(open.sheet(name).getCellRaw(place.startRow, place.startColumn)) ? [joinAddress(name, address)] : [];
    }),
  );
}

function cellsOf(sheet: Worksheet, reader: SheetReader, isWritable: Writable): Map<string, NewCell> {
  const cells = new Map<string, NewCell>();
  const put = (row: number, column: number) => {
    const address = cellAddress(row, column);
    if (cells.has(address)) return;
    const cell = cellAt(sheet, reader, row, column, isWritable);
    if (cell) cells.set(address, cell);
  };
  sheet.getCellMatrix().forValue((row: number, column: number, cell: Nullable<ICellData>) => {
    if (cell) put(row, column);
  });
  // What formulas spilled stands beside the cells.
  reader.forEachValue(sheet, put);
  return cells;
}

function cellAt(sheet: Worksheet, reader: SheetReader, row: number, column: number, isWritable: Writable): NewCell | undefined {
  // The cell's own, with that of its row and column: what rules lay over it on the screen is not in it.
  const style = bookStyle(sheet.getComposedCellStyleByCellData(row, column, sheet.getCellRaw(row, column)));
  const value = reader.value(sheet, row, column);
  const text = reader.formula(sheet, row, column);
  const styled = style ? { style } : {};
  if (text === undefined) {
    if (value === "") return style && { value: null, style };
    // A text of several lines is kept by the grid with the line ends of a typewriter.
    return { value: typeof value === "string" ? value.replace(/\r\n?/g, "\n") : value, ...styled };
  }
  const formula = text.replace(/^=/, "");
  // A formula that Excel could not read would make it mend the whole file; as a text it stands where it was typed.
  if (!isWritable(formula, cellAddress(row, column))) return { value: text, ...styled };
  const spill = reader.spill(sheet, row, column);
  if (spill && (spill.endRow > spill.startRow || spill.endColumn > spill.startColumn)) return { value, formula, spill: rangeAddress(spill), ...styled };
  return { value, formula, ...(maySpill(formula) ? { spill: cellAddress(row, column) } : {}), ...styled };
}

function layoutOf(sheet: Worksheet): Partial<NewSheet> {
  const { hidden, showGridlines, tabColor } = sheet.getConfig();
  const { xSplit, ySplit } = sheet.getFreeze();
  const merges = sheet.getMergeData().map((range) => rangeAddress(range));
  const columns = Object.entries(sheet.getColumnManager().getColumnData()).map(([column, data]) => [Number(column), data] as const);
  const rows = Object.entries(sheet.getRowManager().getRowData()).map(([row, data]) => [Number(row), data] as const);
  const columnWidths: number[] = [];
  for (const [column, data] of columns) if (data?.w) columnWidths[column] = widthCharacters(data.w);
  const heights = rows.flatMap(([row, data]) => (data?.h && data.ia === BooleanNumber.FALSE ? [[row + 1, data.h / PIXELS_PER_POINT] as const] : []));
  const hiddenLines = (lines: readonly (readonly [number, Nullable<{ hd?: BooleanNumber }>])[]) => lines.flatMap(([line, data]) => (data?.hd === BooleanNumber.TRUE ? [line + 1] : []));
  const [hiddenColumns, hiddenRows, colour] = [hiddenLines(columns), hiddenLines(rows), hexColour(tabColor)];
  return {
    usualWidth: widthCharacters(sheet.getConfig().defaultColumnWidth),
    columnWidths: Array.from(columnWidths, (width) => width ?? 0),
    ...(ySplit > 0 ? { frozenRows: ySplit } : {}),
    ...(xSplit > 0 ? { frozenColumns: xSplit } : {}),
    ...(merges.length > 0 ? { merges } : {}),
    ...(heights.length > 0 ? { rowHeights: new Map(heights) } : {}),
    ...(hiddenRows.length > 0 ? { hiddenRows } : {}),
    ...(hiddenColumns.length > 0 ? { hiddenColumns } : {}),
    ...(hidden === BooleanNumber.TRUE ? { hidden: true } : {}),
    ...(colour === undefined ? {} : { tabColor: colour }),
    ...(showGridlines === BooleanNumber.FALSE ? { hideGridLines: true } : {}),
  };
}

/** Excel wants the cells of a heading row to be the headings: texts, none blank, none twice. It makes them so itself when they are typed there. */
function tablesOf(sheet: Worksheet, state: BookState, cells: Map<string, NewCell>): NewTable[] {
  return state.tables
    .filter((table) => table.sheetId === sheet.getSheetId())
    .map(({ columns, hasHeadings, hasTotals, name, ref, style }) => {
      const { startRow, startColumn, endColumn } = readRange(ref);
      const addresses = Array.from({ length: endColumn - startColumn + 1 }, (_cell, i) => cellAddress(startRow, startColumn + i));
      if (hasHeadings) {
        const texts = headingTexts(addresses.map((address) => cells.get(address)?.value ?? ""));
        addresses.forEach((address, i) => {
          const before = cells.get(address)?.style;
          cells.set(address, { value: texts[i] ?? "", ...(before ? { style: before } : {}) });
        });
      }
      return { name, ref, style, hasHeadings, hasTotals, columns: [...columns] };
    });
}

/** Judged by the first cell that holds anything. */
function holdsTexts(sheet: Nullable<Worksheet>, reader: SheetReader, ref: string): boolean {
  const range = readAnyRange(ref);
  const part = sheet && range && intersection(range, { startRow: 0, startColumn: 0, endRow: sheet.getRowCount() - 1, endColumn: sheet.getColumnCount() - 1 });
  if (!sheet || !part) return false;
  for (let row = part.startRow; row <= part.endRow; row += 1) {
    for (let column = part.startColumn; column <= part.endColumn; column += 1) {
      const value = reader.value(sheet, row, column);
      if (value !== "") return typeof value === "string";
    }
  }
  return false;
}
