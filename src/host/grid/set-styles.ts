import { ICommandService, type ICellData, type Nullable, type Worksheet } from "@univerjs/core";
import { SetRangeValuesMutation, SetRangeValuesUndoMutationFactory, SetStyleCommand } from "@univerjs/sheets";
import type { Heights } from "./fit-heights";
import type { OpenWorkbook } from "./open-workbook";

/** Cells by row and column. */
export type Cells = Record<number, Record<number, ICellData>>;
type MaybeCells = Record<number, Record<number, Nullable<ICellData>>>;

/**
 * Styles only, with a mark that says so. Without the mark the grid takes a cell that comes without a formula for one that lost its
 * formula, and calculates everything that depends on it again.
 * @param cellValue what is alike may be one object
 * @param fit gives the rows of the cells their new heights
 */
export function setStyles(open: OpenWorkbook, sheet: Worksheet, cellValue: Cells, fit = (): Heights => ({ redos: [], undos: [] })): void {
  if (Object.keys(cellValue).length === 0) return;
  const { injector, unitId } = open;
  const set = { unitId, subUnitId: sheet.getSheetId(), cellValue, trigger: SetStyleCommand.id };
  // Undo and redo put their own mark in the place of this one, so they carry what the cells hold.
  const before = cellsBefore(sheet, cellValue, (cells) => SetRangeValuesUndoMutationFactory(injector, { ...set, cellValue: cells }).cellValue ?? {});
  const undo = { ...set, options: {}, cellValue: before };
  const redo = { ...set, cellValue: withStyles(before, cellValue) };
  if (!injector.get(ICommandService).syncExecuteCommand(SetRangeValuesMutation.id, set)) throw new Error("The grid refused the style of cells.");
  const heights = fit();
  open.remember([{ id: SetRangeValuesMutation.id, params: redo }, ...heights.redos], [{ id: SetRangeValuesMutation.id, params: undo }, ...heights.undos]);
}

/** What undo puts back. Blank cells that are given one look were all the same before, and most cells of a long column are blank. */
function cellsBefore(sheet: Worksheet, cellValue: Cells, find: (cells: Cells) => MaybeCells): MaybeCells {
  const firstBlank = new Map<ICellData, readonly [row: number, column: number]>();
  const asked: Cells = {};
  eachCell(cellValue, (row, column, cell) => {
    const isBlank = !sheet.getCellRaw(row, column);
    if (isBlank && firstBlank.has(cell)) return;
    if (isBlank) firstBlank.set(cell, [row, column]);
    (asked[row] ??= {})[column] = cell;
  });
  const found = find(asked);
  return mapped(cellValue, (row, column, cell) => {
    if (asked[row]?.[column]) return found[row]?.[column];
    const [likeRow, likeColumn] = firstBlank.get(cell) ?? [row, column];
    return found[likeRow]?.[likeColumn];
  });
}

/** The cells with other styles. */
function withStyles(cells: MaybeCells, styles: Cells): MaybeCells {
  const styled = new Map<ICellData, Map<Nullable<ICellData>, ICellData>>();
  return mapped(styles, (row, column, style) => {
    const cell = cells[row]?.[column];
    const alike = styled.get(style) ?? new Map<Nullable<ICellData>, ICellData>();
    const made = alike.get(cell) ?? { ...cell, s: style.s };
    styled.set(style, alike.set(cell, made));
    return made;
  });
}

function eachCell(cells: Cells, visit: (row: number, column: number, cell: ICellData) => void): void {
  for (const [row, line] of Object.entries(cells)) for (const [column, cell] of Object.entries(line)) visit(Number(row), Number(column), cell);
}

function mapped(cells: Cells, change: (row: number, column: number, cell: ICellData) => Nullable<ICellData>): MaybeCells {
  const result: MaybeCells = {};
  eachCell(cells, (row, column, cell) => {
    (result[row] ??= {})[column] = change(row, column, cell);
  });
  return result;
}
