import { type CellRange, columnLetters, columnNumber, GRID_COLUMNS, GRID_ROWS, rangeAddress, readRange } from "../../files/address";

const ROWS = /^\$?([1-9]\d{0,6})(?::\$?([1-9]\d{0,6}))?$/;
const COLUMNS = /^\$?([A-Za-z]{1,3}):\$?([A-Za-z]{1,3})$/;

export const WHOLE_SHEET: CellRange = { startRow: 0, startColumn: 0, endRow: GRID_ROWS - 1, endColumn: GRID_COLUMNS - 1 };

/** Reads "B7:C9", "A:C" and "2:5", with or without dollar signs; undefined for anything else. */
export function readAnyRange(address: string): CellRange | undefined {
  const columns = COLUMNS.exec(address);
  if (columns?.[1] && columns[2]) {
    const [first, last] = [columnNumber(columns[1]), columnNumber(columns[2])].sort((a, b) => a - b) as [number, number];
    return last < GRID_COLUMNS ? { ...WHOLE_SHEET, startColumn: first, endColumn: last } : undefined;
  }
  const rows = ROWS.exec(address);
  if (rows?.[1] && address.includes(":")) {
    const [first, last] = [Number(rows[1]) - 1, Number(rows[2]) - 1].sort((a, b) => a - b) as [number, number];
    return last < GRID_ROWS ? { ...WHOLE_SHEET, startRow: first, endRow: last } : undefined;
  }
  return readRange(address);
}

/** Writes "B7:C9", and "A:C" or "2:5" for whole columns and rows, as Excel does. */
export function anyRangeAddress(range: CellRange): string {
  if (hasWholeRows(range)) return `${range.startRow + 1}:${range.endRow + 1}`;
  if (hasWholeColumns(range)) return `${columnLetters(range.startColumn)}:${columnLetters(range.endColumn)}`;
  return rangeAddress(range);
}

export const rowsOf = ({ startRow, endRow }: CellRange): number => endRow - startRow + 1;
export const columnsOf = ({ startColumn, endColumn }: CellRange): number => endColumn - startColumn + 1;

const hasWholeRows = ({ startColumn, endColumn }: CellRange): boolean => startColumn === 0 && endColumn === GRID_COLUMNS - 1;
const hasWholeColumns = ({ startRow, endRow }: CellRange): boolean => startRow === 0 && endRow === GRID_ROWS - 1;

/** Whether whole rows or columns are meant: of these Excel gives and takes no single cells. */
export const isUnbounded = (range: CellRange): boolean => hasWholeRows(range) || hasWholeColumns(range);

export const entireRows = (range: CellRange): CellRange => ({ ...range, startColumn: 0, endColumn: GRID_COLUMNS - 1 });
export const entireColumns = (range: CellRange): CellRange => ({ ...range, startRow: 0, endRow: GRID_ROWS - 1 });

export function intersection(a: CellRange, b: CellRange): CellRange | null {
  const both = {
    startRow: Math.max(a.startRow, b.startRow),
    startColumn: Math.max(a.startColumn, b.startColumn),
    endRow: Math.min(a.endRow, b.endRow),
    endColumn: Math.min(a.endColumn, b.endColumn),
  };
  return both.startRow <= both.endRow && both.startColumn <= both.endColumn ? both : null;
}

export function covers(outer: CellRange, inner: CellRange): boolean {
  return outer.startRow <= inner.startRow && outer.endRow >= inner.endRow && outer.startColumn <= inner.startColumn && outer.endColumn >= inner.endColumn;
}

/** What is left of a range when another is cut out of it: up to four ranges. */
export function without(range: CellRange, cut: CellRange): CellRange[] {
  const hole = intersection(range, cut);
  if (!hole) return [range];
  const { startRow, endRow } = hole;
  return [
    { ...range, endRow: startRow - 1 },
    { ...range, startRow: endRow + 1 },
    { ...range, startRow, endRow, endColumn: hole.startColumn - 1 },
    { ...range, startRow, endRow, startColumn: hole.endColumn + 1 },
  ].filter((part) => rowsOf(part) > 0 && columnsOf(part) > 0);
}

/** undefined when the range would leave the sheet. */
export function moved(range: CellRange, rows: number, columns: number): CellRange | undefined {
  return onSheet({ startRow: range.startRow + rows, endRow: range.endRow + rows, startColumn: range.startColumn + columns, endColumn: range.endColumn + columns });
}

/** Its last row and column are moved, its first cell stays; undefined when nothing would be left, or the sheet's edge is crossed. */
export function resized(range: CellRange, rows: number, columns: number): CellRange | undefined {
  return onSheet({ ...range, endRow: range.endRow + rows, endColumn: range.endColumn + columns });
}

export function onSheet(range: CellRange): CellRange | undefined {
  const whole = Object.values(range).every(Number.isInteger);
  return whole && covers(WHOLE_SHEET, range) && rowsOf(range) > 0 && columnsOf(range) > 0 ? range : undefined;
}
