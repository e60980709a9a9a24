import type { Kind } from "../../../../src/workbook/join/recognise/vocabulary";

/** Logs of keepers who do not exist: every one is invented, headings and figures alike. */
export interface InventedLog {
  readonly name: string;
  readonly language: "English" | "German" | "French" | "Spanish";
  /** Written to be hard to read. */
  readonly awkward: boolean;
  readonly grid: readonly (readonly unknown[])[];
  readonly formulas?: readonly (readonly unknown[])[];
  readonly selected: { readonly row: number; readonly column: number };
  /** Where the log lies, counted from 0: first heading row, left, last entry, right, first data row, row of units. */
  readonly at: { readonly top: number; readonly left: number; readonly bottom: number; readonly right: number; readonly first: number; readonly units: number | null };
  readonly columns: readonly Truth[];
  readonly dateOrder?: "dmy" | "mdy" | "ymd";
}

/** What a column truly is. `ask`: it cannot be known from the sheet, and `meaning` (the keeper's own answer) has to be among the choices. */
export interface Truth {
  readonly kind: Kind;
  readonly meaning: string | null;
  readonly ask: boolean;
}

export const is = (kind: Kind, meaning: string): Truth => ({ kind, meaning, ask: false });
export const ask = (kind: Kind, meaning: string): Truth => ({ kind, meaning, ask: true });
export const alone: Truth = { kind: "leftAlone", meaning: null, ask: false };
export const DATE: Truth = is("date", "Date");

/** 9 December 2025 as a date of a workbook. */
export const FIRST = 46000;

/** `count` rows, one for each day or each `step` days; what a day says is a function of its number. */
export const days = (count: number, cells: (day: number) => readonly unknown[], step = 1): unknown[][] => Array.from({ length: count }, (_, day) => [FIRST + day * step, ...cells(day)]);
/** The same with the dates as text. */
export const textDays = (count: number, shown: (date: Date) => string, cells: (day: number) => readonly unknown[], step = 1): unknown[][] =>
  days(count, cells, step).map(([serial, ...rest]) => [shown(new Date((Number(serial) - 25569) * 86_400_000)), ...rest]);

export const every = (day: number, each: number, value: unknown): unknown => (day % each === 0 ? value : "");
/** A figure that wanders a little, the same in every run. */
export const about = (middle: number, day: number, decimals = 1): number => Number((middle * (1 + 0.12 * Math.sin(day * 1.7))).toFixed(decimals));
export const comma = (value: number): string => String(value).replace(".", ",");
export const two = (value: number): string => String(value).padStart(2, "0");
