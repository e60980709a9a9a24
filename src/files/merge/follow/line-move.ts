import { type CellRange, columnLetters, GRID_COLUMNS, GRID_ROWS, rangeAddress } from "../../address";
import { listedRanges, rangeOf } from "../../rule-ranges";

/** Whole rows or columns of a sheet that were put in before a place, or taken out from it. */
export interface LineMove {
  readonly sheetId: string;
  readonly along: "columns" | "rows";
  readonly way: "delete" | "insert";
  /** Counted from 0. */
  readonly first: number;
  readonly count: number;
}

/** One after the other, all of one sheet. */
export type SheetMoves = readonly Omit<LineMove, "sheetId">[];

export const ROWS = "rows";
export const COLUMNS = "columns";

/** Where a row or column stands after the moves; undefined for one that was taken out. */
export function movedLine(line: number, along: LineMove["along"], moves: SheetMoves): number | undefined {
  let at = line;
  for (const move of moves) {
    if (move.along !== along || at < move.first) continue;
    if (move.way === "insert") at += move.count;
    else if (at < move.first + move.count) return undefined;
    else at -= move.count;
  }
  return at;
}

/** The first and last line of a stretch after the moves; undefined where nothing of it is left. Lines that come inside belong to it. */
export function movedSpan(first: number, last: number, along: LineMove["along"], moves: SheetMoves): readonly [first: number, last: number] | undefined {
  let [start, end] = [first, last];
  for (const { along: lines, count, first: at, way } of moves) {
    if (lines !== along) continue;
    if (way === "insert") [start, end] = [start >= at ? start + count : start, end >= at ? end + count : end];
    else {
      const behind = at + count;
      [start, end] = [start < at ? start : Math.max(at, start - count), end >= behind ? end - count : Math.min(end, at - 1)];
      if (start > end) return undefined;
    }
  }
  return [start, end];
}

/** Whole columns stay whole, however many rows come or go. */
export function movedRange(range: CellRange, moves: SheetMoves): CellRange | undefined {
  const wholeColumns = range.startRow === 0 && range.endRow === GRID_ROWS - 1;
  const wholeRows = range.startColumn === 0 && range.endColumn === GRID_COLUMNS - 1;
  const rows = wholeColumns ? ([range.startRow, range.endRow] as const) : movedSpan(range.startRow, range.endRow, ROWS, moves);
  const columns = wholeRows ? ([range.startColumn, range.endColumn] as const) : movedSpan(range.startColumn, range.endColumn, COLUMNS, moves);
  return rows && columns ? { startRow: rows[0], endRow: Math.min(rows[1], GRID_ROWS - 1), startColumn: columns[0], endColumn: Math.min(columns[1], GRID_COLUMNS - 1) } : undefined;
}

/** Ranges separated by blanks, without those of which nothing is left: "A1:B2 D4". What is no range stays. */
export function movedList(list: string, moves: SheetMoves): string {
  return list.trim().split(/\s+/).flatMap((one) => {
    if (listedRanges(one).length === 0) return [one];
    const range = movedRange(rangeOf(one), moves);
    return range ? [addressLike(range, one)] : [];
  }).join(" ");
}

/** Written as the other is: "A:C", "2:5", "B7:B7" or "B7". */
export function addressLike(range: CellRange, like: string): string {
  if (/^\$?[A-Za-z]+:/.test(like)) return `${columnLetters(range.startColumn)}:${columnLetters(range.endColumn)}`;
  if (/^\$?\d+:/.test(like)) return `${range.startRow + 1}:${range.endRow + 1}`;
  const address = rangeAddress(range);
  const [from, to] = like.split(":");
  return to !== undefined && to === from && !address.includes(":") ? `${address}:${address}` : address;
}
