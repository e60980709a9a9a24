/** Rows and columns count from 0; both ends belong to the range. */
export interface CellRange {
  startRow: number;
  startColumn: number;
  endRow: number;
  endColumn: number;
}

const CELL = /^\$?([A-Za-z]{1,3})\$?([1-9]\d*)$/;

export function columnLetters(column: number): string {
  let letters = "";
  for (let rest = column + 1; rest > 0; rest = Math.floor((rest - 1) / 26)) letters = String.fromCharCode(65 + ((rest - 1) % 26)) + letters;
  return letters;
}

export function cellAddress(row: number, column: number): string {
  return `${columnLetters(column)}${row + 1}`;
}

export function rangeAddress(range: CellRange): string {
  const start = cellAddress(range.startRow, range.startColumn);
  const end = cellAddress(range.endRow, range.endColumn);
  return start === end ? start : `${start}:${end}`;
}

/** Reads "B7" or "B7:C9", with or without dollar signs, corners in any order; throws a RangeError on anything else. */
export function readRange(address: string): CellRange {
  const [from, to = from, ...rest] = address.split(":");
  const first = readCell(from ?? "");
  const last = readCell(to ?? "");
  if (!first || !last || rest.length > 0) throw new RangeError(`"${address}" is not a cell or a range.`);
  return {
    startRow: Math.min(first.row, last.row),
    startColumn: Math.min(first.column, last.column),
    endRow: Math.max(first.row, last.row),
    endColumn: Math.max(first.column, last.column),
  };
}

function readCell(address: string): { row: number; column: number } | undefined {
  const match = CELL.exec(address);
  if (!match?.[1] || !match[2]) return undefined;
  let column = 0;
  for (const letter of match[1].toUpperCase()) column = column * 26 + letter.charCodeAt(0) - 64;
  return { row: Number(match[2]) - 1, column: column - 1 };
}
