import { budgetView as words } from "../../words/budget-view";

/** A day of the calendar in words, from a serial of the 1900 date system (from 1 March 1900). */
export const dayText = (serial: number): string => words.date(calendarDay(serial));

/** From one day to another: "26 Apr to 7 May 2026". */
export const daysText = (from: number, to: number): string => words.dates(calendarDay(from), calendarDay(to));

function calendarDay(serial: number): { readonly year: number; readonly month: number; readonly day: number } {
  // 25569 is 1970-01-01.
  const date = new Date((Math.floor(serial) - 25569) * 86_400_000);
  return { year: date.getUTCFullYear(), month: date.getUTCMonth() + 1, day: date.getUTCDate() };
}
