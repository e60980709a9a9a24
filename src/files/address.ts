/** Rows and columns count from 0; both ends belong to the range. */
export interface CellRange {
  startRow: number;
  startColumn: number;
  endRow: number;
  endColumn: number;
}

export interface CellPlace {
  row: number;
  column: number;
}

/** The size of a worksheet in a file. */
export const GRID_ROWS = 1_048_576;
export const GRID_COLUMNS = 16_384;

const CELL = /^\$?([A-Za-z]{1,3})\$?([1-9]\d{0,6})$/;

export function columnLetters(column: number): string {
  let letters = "";
  for (let rest = column + 1; rest > 0; rest = Math.floor((rest - 1) / 26)) letters = String.fromCharCode(65 + ((rest - 1) % 26)) + letters;
  return letters;
}

export function columnNumber(letters: string): number {
  let column = 0;
  for (let i = 0; i < letters.length; i += 1) column = column * 26 + (letters.charCodeAt(i) & 31);
  return column - 1;
}

export function cellAddress(row: number, column: number): string {
  return `${columnLetters(column)}${row + 1}`;
}

export function rangeAddress(range: CellRange): string {
  const start = cellAddress(range.startRow, range.startColumn);
  const end = cellAddress(range.endRow, range.endColumn);
  return start === end ? start : `${start}:${end}`;
}

/** Reads "B7", with or without dollar signs; undefined for anything that is not a cell of a worksheet. */
export function readCell(address: string): CellPlace | undefined {
  const match = CELL.exec(address);
  if (!match?.[1] || !match[2]) return undefined;
  const place = { row: Number(match[2]) - 1, column: columnNumber(match[1]) };
  return place.row < GRID_ROWS && place.column < GRID_COLUMNS ? place : undefined;
}

/** Reads "B7" or "B7:C9", corners in any order; undefined for anything else. */
export function readRange(address: string): CellRange | undefined {
  const cut = address.indexOf(":");
  const first = readCell(cut < 0 ? address : address.slice(0, cut));
  const last = cut < 0 ? first : readCell(address.slice(cut + 1));
  if (!first || !last) return undefined;
  return {
    startRow: Math.min(first.row, last.row),
    startColumn: Math.min(first.column, last.column),
    endRow: Math.max(first.row, last.row),
    endColumn: Math.max(first.column, last.column),
  };
}

export function contains(range: CellRange, row: number, column: number): boolean {
  return row >= range.startRow && row <= range.endRow && column >= range.startColumn && column <= range.endColumn;
}

/** Whether two ranges have a cell in common. */
export function meets(one: CellRange, other: CellRange): boolean {
  return one.startRow <= other.endRow && other.startRow <= one.endRow && one.startColumn <= other.endColumn && other.startColumn <= one.endColumn;
}

/** Every cell of the range, row by row. */
export function* cellsOf(range: CellRange): Generator<CellPlace> {
  for (let row = range.startRow; row <= range.endRow; row += 1) {
    for (let column = range.startColumn; column <= range.endColumn; column += 1) yield { row, column };
  }
}

/** A sheet's name as a formula writes it before "!". Quotes are always right; plain names go without. */
export function sheetReference(name: string): string {
  const plain = /^[\p{L}_][\p{L}\p{N}_]*$/u.test(name) && !/^([A-Za-z]{1,3}\d+|[Rr]\d*[Cc]\d*|true|false)$/i.test(name);
  return plain ? name : `'${name.replace(/'/g, "''")}'`;
}
