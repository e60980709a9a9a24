import { niceStep } from "./ticks";

const DAY_MS = 86_400_000;
/** The serial number of 1970-01-01. */
const UNIX_DAY = 25_569;
/** The last day of the year 9999, beyond which a number is no date. */
const LAST_SERIAL = 2_958_465;
const DAY_STEPS = [1, 2, 7, 14];
const MONTH_STEPS = [1, 2, 3, 6];

/** Parts of a number format that are no letters of a date: texts in quotes, escaped signs, colours and conditions, "General". */
const NO_DATE_PARTS = /"[^"]*"|\\.|\[[^\]]*\]|General/gi;

/** Whether a number format shows a day, a month by name or a year. A time of day alone is none. */
export function showsDate(format: string): boolean {
  return /[dy]|m{3}/i.test(format.replace(NO_DATE_PARTS, ""));
}

/** The day of a serial number of the 1900 date system, "2026-03-02"; the number itself where it is no date. */
export function isoDate(serial: number): string {
  if (!(serial >= 1 && serial < LAST_SERIAL + 1)) return String(Number(serial.toPrecision(6)));
  // Up to the day that never was, 1900-02-29, the numbers are one too high.
  const day = Math.floor(serial) + (serial < 61 ? 1 : 0);
  return new Date((day - UNIX_DAY) * DAY_MS).toISOString().slice(0, 10);
}

/**
 * Days for ticks between two days: every day, second day, week or second week from the first day on; or the firsts of months;
 * or New Year's Days.
 * @param most at least 1
 */
export function dateTicks(first: number, last: number, most: number): number[] {
  const [from, to] = [Math.ceil(first), Math.floor(last)];
  if (to <= from) return [Math.floor(first)];
  const days = DAY_STEPS.find((step) => (to - from) / step + 1 <= most);
  if (days !== undefined) return Array.from({ length: Math.floor((to - from) / days) + 1 }, (_tick, i) => from + i * days);
  for (const months of [...MONTH_STEPS, ...yearSteps(to - from, most)]) {
    const ticks = firstsOfMonths(from, to, months);
    if (ticks.length <= most) return ticks.length > 0 ? ticks : [from];
  }
  return [from];
}

function yearSteps(days: number, most: number): number[] {
  const years = Math.max(1, niceStep(days / 365.25, most));
  return [12, 24, 60].filter((months) => months < 12 * years).concat([12 * years, 24 * years]);
}

/** Months are counted from January of the year 0, so that ticks of three months stand at quarters. */
function firstsOfMonths(from: number, to: number, step: number): number[] {
  const month = (serial: number): number => {
    const date = new Date((serial - UNIX_DAY) * DAY_MS);
    return date.getUTCFullYear() * 12 + date.getUTCMonth();
  };
  const ticks: number[] = [];
  for (let at = Math.floor(month(from) / step) * step; at <= month(to); at += step) {
    const serial = Date.UTC(Math.floor(at / 12), at % 12, 1) / DAY_MS + UNIX_DAY;
    if (serial >= from && serial <= to) ticks.push(serial);
  }
  return ticks;
}
