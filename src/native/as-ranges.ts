import { type CellRange, rangeAddress, readCell } from "../files/address";

/** Cells in order, those that follow each other down a column as one range: "H2:H114", "K5". */
export function asRanges(cells: readonly string[]): string[] {
  const ranges: CellRange[] = [];
  const endingAt = new Map<string, CellRange>();
  for (const cell of cells) {
    const place = readCell(cell);
    if (!place) return [...cells];
    const above = endingAt.get(`${place.column} ${place.row - 1}`);
    const range = above ?? { startRow: place.row, startColumn: place.column, endRow: place.row, endColumn: place.column };
    if (!above) ranges.push(range);
    range.endRow = place.row;
    endingAt.delete(`${place.column} ${place.row - 1}`);
    endingAt.set(`${place.column} ${place.row}`, range);
  }
  return ranges.map(rangeAddress);
}
