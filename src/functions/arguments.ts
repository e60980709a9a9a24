import { functions as words } from "../words/functions";
import { science } from "../words/science";
import { numberFromText } from "../science/number-text";
import { Problem } from "../science/problem";
import { isCellError } from "./cell-error";

/** What a cell can hold when it reaches a function. */
export type Cell = unknown;
export type Cells = readonly (readonly Cell[])[];

/** One argument as a function wants it: its cells, how one cell is read, and what a blank means. */
export interface Argument<T> {
  readonly name: string;
  readonly cells: Cells;
  readonly read: (cell: Cell) => T;
  /** The value of a blank or omitted argument; undefined: without it there is no answer, and the result is blank. */
  readonly blank?: T;
}

export const isBlank = (cell: Cell): boolean => cell === null || cell === undefined || (typeof cell === "string" && cell.trim() === "");

/** Rows of cells from whatever the host hands over: a range, one value, or nothing. */
export function cellsOf(argument: unknown): Cells {
  if (!Array.isArray(argument)) return [[argument]];
  return argument.length > 0 && Array.isArray(argument[0]) ? (argument as Cells) : [argument as Cell[]];
}

/** A number from one cell. Text that reads as a number counts; a truth value, a date text or words do not. */
export function numberIn(name: string, cell: Cell): number {
  if (isCellError(cell)) throw cell;
  const value = typeof cell === "number" ? cell : typeof cell === "string" ? numberFromText(cell) : null;
  if (value === null || !Number.isFinite(value)) throw new Problem("value", science.notANumber(name, cell));
  if (Math.abs(value) > 1e12) throw new Problem("value", science.tooLarge(name));
  return value;
}

export function textIn(name: string, cell: Cell): string {
  if (isCellError(cell)) throw cell;
  if (typeof cell === "string") return cell.trim();
  if (typeof cell === "number") return String(cell);
  throw new Problem("value", words.textWanted(name));
}

/** A number of `least` or more (more than `least` with `open`), up to `most`. */
export interface Limits {
  readonly least?: number;
  readonly open?: boolean;
  readonly most?: number;
  readonly unit: string;
}

export function within(name: string, value: number, { least = 0, open = false, most, unit }: Limits): number {
  if (open && value === least && least === 0) throw new Problem("divide", science.zeroDivisor(name));
  if (most !== undefined && (value < least || value > most)) throw new Problem("value", science.outOfRange(name, least, most, unit, value));
  if (value < least) throw new Problem("value", (open ? science.notAbove : science.tooLow)(name, least, unit, value));
  return value;
}

/** A share between 0 and `most`: 5 % is 0.05. A figure above it is most often a per cent written without its sign. */
export function shareWithin(name: string, value: number, most: number): number {
  if (value < 0 || value > most) throw new Problem("value", science.notAShare(name, most, value));
  return value;
}

/** Argument makers: a topic file lists its arguments with these and nothing else. */
export const quantity = (name: string, given: unknown, limits: Limits, blank?: number): Argument<number> => ({
  name,
  cells: cellsOf(given),
  read: (cell) => within(name, numberIn(name, cell), limits),
  blank,
});

export const share = (name: string, given: unknown, most: number, blank?: number): Argument<number> => ({
  name,
  cells: cellsOf(given),
  read: (cell) => shareWithin(name, numberIn(name, cell), most),
  blank,
});

export const word = (name: string, given: unknown, blank?: string): Argument<string> => ({
  name,
  cells: cellsOf(given),
  read: (cell) => textIn(name, cell),
  blank,
});

/** One of a few words, read without regard to case. */
export const choice = <T extends string>(name: string, given: unknown, options: readonly T[], refuse: (written: string) => string, blank?: T): Argument<T> => ({
  name,
  cells: cellsOf(given),
  read: (cell) => {
    const written = textIn(name, cell);
    const found = options.find((option) => option.toLowerCase() === written.toLowerCase());
    if (!found) throw new Problem("value", refuse(written));
    return found;
  },
  blank,
});

/** The single value of an argument that cannot be a range; null when it is blank or left out. */
export function single<T>(argument: Argument<T>): T | null {
  const cell = argument.cells[0]?.[0];
  if (argument.cells.length > 1 || (argument.cells[0]?.length ?? 0) > 1) throw new Problem("value", words.oneValue(argument.name));
  if (isBlank(cell)) return argument.blank ?? null;
  return argument.read(cell);
}

/** Whether the row of headings is wanted. Excel turns a 0 into FALSE for an argument of this type; other hosts hand it on. */
export const wantsHeadings = (headings: unknown): boolean => !(headings === false || headings === 0);
