import { type CellRange, columnLetters, columnNumber, GRID_COLUMNS, GRID_ROWS, rangeAddress, readRange } from "./address";

/** Ranges of a rule as a file lists them. Excel writes whole columns and rows as ranges from edge to edge. */
export function storedRanges(ranges: string): string {
  return ranges.trim().split(/\s+/).map((one) => rangeAddress(rangeOf(one))).join(" ");
}

/** The ranges of a list, whole columns and rows as "A:C" and "2:5". What is no range is left out. */
export function listedRanges(list: string): string[] {
  return list.trim().split(/\s+/).flatMap((one) => {
    const range = readRange(one) ?? linesOf(one);
    return range && range.endRow < GRID_ROWS && range.endColumn < GRID_COLUMNS && range.startRow <= range.endRow && range.startColumn <= range.endColumn ? [shortAddress(range)] : [];
  });
}

/** @throws RangeError for what is no range */
export function rangeOf(address: string): CellRange {
  const range = readRange(address) ?? linesOf(address);
  if (!range) throw new RangeError(`"${address}" is not a range.`);
  return range;
}

function linesOf(address: string): CellRange | undefined {
  const columns = /^\$?([A-Za-z]{1,3}):\$?([A-Za-z]{1,3})$/.exec(address);
  if (columns?.[1] && columns[2]) return { startRow: 0, endRow: GRID_ROWS - 1, startColumn: columnNumber(columns[1]), endColumn: columnNumber(columns[2]) };
  const rows = /^\$?([1-9]\d{0,6}):\$?([1-9]\d{0,6})$/.exec(address);
  return rows ? { startRow: Number(rows[1]) - 1, endRow: Number(rows[2]) - 1, startColumn: 0, endColumn: GRID_COLUMNS - 1 } : undefined;
}

function shortAddress(range: CellRange): string {
  if (range.startColumn === 0 && range.endColumn === GRID_COLUMNS - 1) return `${range.startRow + 1}:${range.endRow + 1}`;
  if (range.startRow === 0 && range.endRow === GRID_ROWS - 1) return `${columnLetters(range.startColumn)}:${columnLetters(range.endColumn)}`;
  return rangeAddress(range);
}
