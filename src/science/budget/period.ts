import { words as sentences } from "../../words/budget";
import { Problem } from "../problem";
import { lowerBound } from "./concentration";
import type { Log, SetUp } from "./log";

export type PeriodChoice = "harvest" | "reading" | "week" | "month" | "whole";
export const PERIOD_CHOICES: readonly PeriodChoice[] = ["harvest", "reading", "week", "month", "whole"];

/** A stretch of the log, and whether what happened at the very moment of an end belongs to it. */
export interface Period {
  readonly from: number;
  readonly to: number;
  readonly withFrom: boolean;
  readonly withTo: boolean;
}

/**
 * The periods of a log in order, from its first day to its last; each entry lies in exactly one.
 *
 * A harvest or a reading closes its period, so what is logged with it belongs to the period that it ends. A week or a
 * month closes when its last day is over: what is logged on the first of a month belongs to that month.
 * Harvest to harvest is counted by one screen (the first, unless the set-up names another); without a harvest the
 * whole log is one period.
 * @throws Problem when the log covers no time
 */
export function periodsOf(log: Log, setUp: SetUp, choice: PeriodChoice): Period[] {
  const { firstDay, lastDay } = log;
  if (!(lastDay > firstDay)) throw new Problem("missing", sentences.needsTwoDays);
  const inside = insideDays(log, setUp, choice).filter((day) => day > firstDay && day < lastDay);
  const ordered = [...new Set(inside)].sort((a, b) => a - b);
  const days = [firstDay, ...ordered, lastDay];
  const opens = choice === "week" || choice === "month";
  return days.slice(0, -1).map((from, place) => ({ from, to: days[place + 1] ?? from, withFrom: opens || place === 0, withTo: !opens || place === days.length - 2 }));
}

/** The entries of a period, from a list in order of day. */
export function entriesWithin<T extends { readonly day: number }>(entries: readonly T[], { from, to, withFrom, withTo }: Period): readonly T[] {
  return entries.slice(
    lowerBound(entries, (entry) => (withFrom ? entry.day >= from : entry.day > from)),
    lowerBound(entries, (entry) => (withTo ? entry.day > to : entry.day >= to)),
  );
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
