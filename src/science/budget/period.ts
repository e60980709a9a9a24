import { words as sentences } from "../../words/budget";
import { Problem } from "../problem";
import { lowerBound } from "./concentration";
import type { Log, SetUp } from "./log";

export type PeriodChoice = "harvest" | "reading" | "week" | "month" | "whole";
export const PERIOD_CHOICES: readonly PeriodChoice[] = ["harvest", "reading", "week", "month", "whole"];

/**
 * The days at which periods begin and end, in order, from the log's first day to its last: n + 1 days for n periods.
 * Harvest to harvest is counted by one screen (the first, unless the set-up names another); without a harvest the
 * whole log is one period.
 * @throws Problem when the log covers no time
 */
export function periodDays(log: Log, setUp: SetUp, choice: PeriodChoice): number[] {
  const { firstDay, lastDay } = log;
  if (!(lastDay > firstDay)) throw new Problem("missing", sentences.needsTwoDays);
  const inside = insideDays(log, setUp, choice).filter((day) => day > firstDay && day < lastDay);
  const ordered = [...new Set(inside)].sort((a, b) => a - b);
  return [firstDay, ...ordered, lastDay];
}

/** The entries of a period: after its first day up to its last; the log's first period has its first day too, so no row falls between two. */
export function entriesWithin<T extends { readonly day: number }>(entries: readonly T[], { from, to }: { from: number; to: number }, isFirst: boolean): readonly T[] {
  return entries.slice(lowerBound(entries, (entry) => (isFirst ? entry.day >= from : entry.day > from)), lowerBound(entries, (entry) => entry.day > to));
}

function insideDays(log: Log, setUp: SetUp, choice: PeriodChoice): number[] {
  switch (choice) {
    case "harvest":
      return log.harvests.filter((harvest) => harvest.unit === setUp.periodUnit).map((harvest) => harvest.day);
    case "reading":
      return log.series.flatMap((series) => series.entries.map((entry) => entry.day));
    case "week":
      return steps(log, 7);
    case "month":
      return monthStarts(log);
    case "whole":
      return [];
  }
}

function steps({ firstDay, lastDay }: Log, days: number): number[] {
  const count = Math.floor((lastDay - firstDay) / days);
  return Array.from({ length: count }, (_, place) => firstDay + (place + 1) * days);
}

function monthStarts({ firstDay, lastDay, calendarOffset }: Log): number[] {
  const days: number[] = [];
  for (let day = Math.floor(firstDay) + 1; day <= lastDay; day += 1) {
    if (dayOfMonth(day + calendarOffset) === 1) days.push(day);
  }
  return days;
}

/** Day of the month of an Excel serial (1900 system, from 1 March 1900), by the civil calendar in whole numbers. */
function dayOfMonth(serial: number): number {
  // Days since 0000-03-01, so that the leap day closes the year (25569 is 1970-01-01).
  const days = Math.floor(serial) - 25569 + 719468;
  const dayOfEra = days - 146097 * Math.floor(days / 146097);
  const yearOfEra = Math.floor((dayOfEra - Math.floor(dayOfEra / 1460) + Math.floor(dayOfEra / 36524) - Math.floor(dayOfEra / 146096)) / 365);
  const dayOfYear = dayOfEra - (365 * yearOfEra + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100));
  const month = Math.floor((5 * dayOfYear + 2) / 153);
  return dayOfYear - Math.floor((153 * month + 2) / 5) + 1;
}
