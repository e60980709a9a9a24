import { saysTotal } from "../../../functions/log-cells";
import { join as words } from "../../../words/join";
import { both, boxesOf, shareColumns, stepsTo, type Box } from "./boxes";
import { blankAt, cellAt, figureIn, textAt, type Grid } from "./cells";
import { datesWithoutYear, dateColumnOf, hasDatesAcross, isDate } from "./date-column";
import { headingsAbove, type Headings } from "./heading-rows";

/** Where a log lies on a sheet; rows and columns count from 0, and all of them belong to it. */
export interface FoundLog extends Box, Headings {
  readonly firstDataRow: number;
  readonly dateColumn: number;
}
export type LogSearch = FoundLog | { readonly reason: string };

/** Blank rows that a keeper leaves between months or below the headings. */
const MOST_BLANK_ROWS = 3;

/**
 * Finds the log at the selected cell, or the one nearest to it. `top` is the first heading row (the first data row where there is
 * none), `bottom` the last row that belongs to a date; titles above, totals and notes below are left out.
 */
export function findLog(grid: Grid, selected: { readonly row: number; readonly column: number }): LogSearch {
  const boxes = boxesOf(grid);
  if (boxes.length === 0) return { reason: words.notFound.empty };
  const logs = boxes.flatMap((box): { box: Box; log: FoundLog }[] => {
    const log = logIn(grid, box, boxes);
    return log ? [{ box: both(box, log), log }] : [];
  });
  // Of two logs equally near, the one that has headings is the log and the other its continuation.
  const [nearest] = logs.sort((a, b) => stepsTo(a.box, selected) - stepsTo(b.box, selected) || b.log.headingRows.length - a.log.headingRows.length || b.log.bottom - b.log.top - (a.log.bottom - a.log.top));
  return nearest ? nearest.log : { reason: whyNone(grid, boxes) };
}

function whyNone(grid: Grid, boxes: readonly Box[]): string {
  const noYear = boxes.map((box) => datesWithoutYear(grid, box)).find((written) => written !== null);
  if (noYear) return words.notFound.noYear(noYear);
  return boxes.some((box) => hasDatesAcross(grid, box)) ? words.notFound.acrossColumns : words.notFound.noDates;
}

function logIn(grid: Grid, block: Box, boxes: readonly Box[]): FoundLog | null {
  const date = dateColumnOf(grid, block);
  if (!date) return null;
  let box = block;
  let headings = headingsAbove(grid, box, date.first);
  if (headings.headingRows.length === 0) {
    // The headings may stand apart from the data by a blank row.
    const above = boxes.find((one) => one.bottom < box.top && box.top - one.bottom <= MOST_BLANK_ROWS + 1 && shareColumns(one, box) && !dateColumnOf(grid, one));
    const withAbove = above ? headingsAbove(grid, both(box, above), date.first) : headings;
    if (above && withAbove.headingRows.length > 0) [box, headings] = [both(box, above), withAbove];
  }
  box = withSpacedColumns(grid, box, boxes, headings, date.column);
  box = withMonthsBelow(grid, box, boxes, headings, date.column);
  const top = headings.headingRows[0] ?? date.first;
  return { ...box, top, bottom: lastEntry(grid, box, date.column, date.first), ...headings, firstDataRow: date.first, dateColumn: date.column };
}

/** A blank column does not end a log when what lies beyond has its heading in the same row and no dates of its own. */
function withSpacedColumns(grid: Grid, block: Box, boxes: readonly Box[], { headingRows }: Headings, dateColumn: number): Box {
  let box = block;
  const heading = headingRows[headingRows.length - 1];
  if (heading === undefined) return box;
  for (let grown = true; grown; ) {
    grown = false;
    for (const other of boxes) {
      const beside = other.left === box.right + 2 || other.right === box.left - 2;
      if (!beside || dateColumnOf(grid, other) || other.top > heading || other.bottom < heading || other.bottom - heading < 0.3 * (box.bottom - heading)) continue;
      const named = Array.from({ length: other.right - other.left + 1 }, (_, place) => typeof cellAt(grid, heading, other.left + place) === "string").filter(Boolean).length;
      if (named === 0 || (dateColumn >= other.left && dateColumn <= other.right)) continue;
      box = both(box, { ...other, top: Math.max(other.top, box.top), bottom: Math.min(other.bottom, box.bottom) });
      grown = true;
    }
  }
  return box;
}

/** Blocks below with dates in the same column go on with the log, unless they have other headings. */
function withMonthsBelow(grid: Grid, block: Box, boxes: readonly Box[], { headingRows }: Headings, dateColumn: number): Box {
  let box = block;
  const heading = headingRows[headingRows.length - 1];
  for (const other of [...boxes].sort((a, b) => a.top - b.top)) {
    if (other.top <= box.bottom || other.top - box.bottom > MOST_BLANK_ROWS + 1 || other.left > dateColumn || other.right < dateColumn) continue;
    const date = dateColumnOf(grid, other) ?? firstDateIn(grid, other, dateColumn);
    if (!date || date.column !== dateColumn) continue;
    const own = headingsAbove(grid, other, date.first).headingRows;
    const repeats = heading !== undefined && own.every((row) => Array.from({ length: other.right - other.left + 1 }, (_, place) => other.left + place).every((column) => textAt(grid, row, column).toLowerCase() === textAt(grid, heading, column).toLowerCase()));
    if (own.length > 0 && !repeats) continue;
    box = both(box, other);
  }
  return box;
}

function firstDateIn(grid: Grid, box: Box, column: number): { column: number; first: number } | null {
  for (let row = box.top; row <= box.bottom; row += 1) if (isDate(cellAt(grid, row, column))) return { column, first: row };
  return null;
}

/** The last row with a date, and rows below it that have figures and no date, unless they are totals. */
function lastEntry(grid: Grid, box: Box, dateColumn: number, first: number): number {
  let last = first;
  for (let row = first; row <= box.bottom; row += 1) if (isDate(cellAt(grid, row, dateColumn))) last = row;
  const lastDate = last;
  for (let row = lastDate + 1; row <= box.bottom; row += 1) {
    const columns = Array.from({ length: box.right - box.left + 1 }, (_, place) => box.left + place).filter((column) => !blankAt(grid, row, column));
    const figures = columns.filter((column) => typeof cellAt(grid, row, column) === "number");
    if (figures.length === 0 || columns.some((column) => saysTotal(cellAt(grid, row, column))) || figures.some((column) => isReckoned(grid, column, first, lastDate, row))) break;
    last = row;
  }
  return last;
}

/** Whether a figure below a column is its sum or its mean. */
function isReckoned(grid: Grid, column: number, first: number, last: number, row: number): boolean {
  const values: number[] = [];
  for (let one = first; one <= last; one += 1) {
    const value = figureIn(cellAt(grid, one, column));
    if (value !== null) values.push(value);
  }
  const figure = Number(cellAt(grid, row, column));
  const sum = values.reduce((total, value) => total + value, 0);
  const near = (wanted: number): boolean => Math.abs(figure - wanted) <= 1e-6 * Math.max(1, Math.abs(wanted));
  return values.length > 1 && (near(sum) || near(sum / values.length));
}
