import { dateFigures, serialOfText } from "../../../functions/date-text";
import type { Box } from "./boxes";
import { blankAt, cellAt, folded, textAt, type Grid } from "./cells";

/** 1 January 2000 to 31 December 2059 in the 1900 system, and in the 1904 system from 2004: other serials are figures, not the days of a log. */
const [FIRST_SERIAL, LAST_SERIAL] = [36526, 58440];

/** Whether a cell can be the date of a row: a real date, or a date in text. */
export function isDate(cell: unknown): boolean {
  if (typeof cell === "number") return (cell >= FIRST_SERIAL && cell <= LAST_SERIAL) || (Number.isInteger(cell) && serialOfText(String(cell), null, 0) !== null);
  // Every way of writing a date has a figure in it; most texts of a log are names of foods.
  return typeof cell === "string" && /\d/.test(cell) && (serialOfText(cell, null, 0) !== null || isDateFigures(cell));
}

function isDateFigures(text: string): boolean {
  const figures = dateFigures(text);
  if (!figures) return false;
  const numbers = figures.map(Number);
  // A year, and two parts that can be a day and a month in some order.
  return figures.some((part) => part.length === 4 || part.length === 2) && numbers.filter((part) => part >= 1 && part <= 31).length >= 2 && numbers.some((part) => part >= 1 && part <= 12);
}

const DATE_HEADING = /\b(?:date|datum|fecha|day|tag|jour|dia|when)\b/;

/** The column of a block that dates its rows, and the first row with a date; null when there is none. */
export function dateColumnOf(grid: Grid, box: Box): { column: number; first: number } | null {
  let best: { column: number; first: number; score: number } | null = null;
  for (let column = box.left; column <= box.right; column += 1) {
    const dated: number[] = [];
    let filled = 0;
    for (let row = box.top; row <= box.bottom; row += 1) {
      if (isDate(cellAt(grid, row, column))) dated.push(row);
      if (!blankAt(grid, row, column)) filled += 1;
    }
    const first = dated[0];
    if (first === undefined) continue;
    const below = countFilled(grid, column, first, box.bottom);
    const headed = first > box.top && [1, 2, 3].some((up) => first - up >= box.top && DATE_HEADING.test(folded(textAt(grid, first - up, column))));
    const isText = typeof cellAt(grid, first, column) === "string";
    if (dated.length < 0.6 * below || filled === 0 || (!headed && dated.length < 3)) continue;
    // Figures that happen to lie among the serials do not rise row by row.
    if (!headed && !isText && !rises(dated.map((row) => Number(cellAt(grid, row, column))))) continue;
    const score = dated.length * (headed ? 4 : 1) + (isText ? 1 : 0);
    if (!best || score > best.score) best = { column, first, score };
  }
  return best && { column: best.column, first: best.first };
}

function countFilled(grid: Grid, column: number, from: number, to: number): number {
  let count = 0;
  for (let row = from; row <= to; row += 1) if (!blankAt(grid, row, column)) count += 1;
  return count;
}

function rises(values: readonly number[]): boolean {
  const steps = values.slice(1).map((value, place) => value - (values[place] ?? 0));
  const up = steps.filter((step) => step >= 0).length;
  const down = steps.filter((step) => step <= 0).length;
  return Math.max(up, down) >= 0.8 * steps.length && new Set(values).size > values.length / 4;
}

/** Dates in a row of a block, from column to column: the log lies on its side. */
export function hasDatesAcross(grid: Grid, box: Box): boolean {
  for (let row = box.top; row <= Math.min(box.bottom, box.top + 5); row += 1) {
    let count = 0;
    for (let column = box.left; column <= box.right; column += 1) if (isDate(cellAt(grid, row, column))) count += 1;
    if (count >= 3) return true;
  }
  return false;
}

/** A day and a month without a year, such as "3.4." or "31/3". */
export function datesWithoutYear(grid: Grid, box: Box): string | null {
  for (let column = box.left; column <= box.right; column += 1) {
    const texts: string[] = [];
    for (let row = box.top; row <= box.bottom; row += 1) {
      const text = textAt(grid, row, column);
      if (typeof cellAt(grid, row, column) === "string" && /^\d{1,2}[./]\s?\d{1,2}\.?$/.test(text)) texts.push(text);
    }
    if (texts.length >= 3 && DATE_HEADING.test(folded(textAt(grid, box.top, column)))) return texts[0] ?? null;
  }
  return null;
}
