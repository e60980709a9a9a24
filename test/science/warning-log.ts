import { rows } from "../call";

/** Columns of the log below. */
export const [DATE, FOOD, FEED, NO3, PO4, HARVEST, FED_BACK, CHANGE, NH4, PH, TEMPERATURE, LEVEL] = Array.from({ length: 12 }, (_, place) => place) as [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11];

export const SET_UP: readonly (readonly unknown[])[] = [
  ["Volume (L)", 200], ["NO3 kit steps", 0.5], ["PO4 kit steps", 0.02], ["NH4 kit steps", 0.05], ["Retained", 0], ["Dry fraction", 0.08], ["Tissue N", 0.035], ["Tissue P", 0.00233],
  ["Lit area (m2)", 0.4], ["Light (umol m-2 s-1)", 250], ["Light hours", 12], ["Salinity", 35],
];

/** The set-up with some rows put in place of those of the same name, or left out with null. */
export const setUpWith = (changed: Record<string, unknown>): unknown[][] => {
  const merged = new Map<unknown, unknown>([...(SET_UP as [unknown, unknown][]), ...Object.entries(changed)]);
  return [...merged].filter(([, value]) => value !== null).map((row) => [...row]);
};

/**
 * A log without fault, 70 days: 3.11 g of untreated shrimp a day brings 0.1 g N and 0.0067 g P; a harvest of 500 g drained each
 * fortnight takes 1.4 g N and 0.093 g P; tests each week show the same. Row n of the sheet is lines[n - 1].
 */
export function cleanLog(change: (lines: unknown[][]) => void = () => undefined, days = 70): unknown[][] {
  const lines: unknown[][] = [["Date", "Food", "Feed (g)", "NO3 (mg/L)", "PO4 (mg/L)", "Harvest (g)", "Fed back (g)", "Water change (L)", "NH4 (mg/L)", "pH", "Temperature (C)", "Light level (%)"]];
  for (let day = 0; day <= days; day += 1) {
    const week = day % 7 === 0;
    lines.push([46000 + day, "Shrimp, untreated", 3.11, week ? 10 : "", week ? 0.6 : "", day > 0 && day % 14 === 0 ? 500 : "", "", "", "", "", "", ""]);
  }
  change(lines);
  return lines;
}

/** Sets one column of given rows of the sheet, or of all rows that hold something there. */
export const put = (lines: unknown[][], column: number, values: Record<number, unknown>): void => {
  for (const [row, value] of Object.entries(values)) (lines[Number(row) - 1] as unknown[])[column] = value;
};
export const putAll = (lines: unknown[][], column: number, value: (now: number, day: number) => unknown): void =>
  lines.slice(1).forEach((line, day) => {
    if (line[column] !== "") line[column] = value(line[column] as number, day);
  });

export interface Raised {
  readonly row: unknown;
  readonly day: unknown;
  readonly severity: unknown;
  readonly sentence: string;
  readonly check: string;
  readonly code: string;
}

export function raised(log: unknown[][], setUp: readonly (readonly unknown[])[] = SET_UP): Raised[] {
  return rows("BUDGET_WARNINGS", log, setUp, null, false).map(([row, day, severity, sentence, check, code]) => ({ row, day, severity, sentence: String(sentence), check: String(check), code: String(code) }));
}

export const only = (code: string, log: unknown[][], setUp?: readonly (readonly unknown[])[]): Raised[] => raised(log, setUp).filter((one) => one.code === code);
