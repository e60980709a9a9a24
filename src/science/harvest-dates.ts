import { growth as words } from "../words/growth";
import type { Interval } from "./harvest-interval";
import { Problem } from "./problem";

/** Days of the calendar as serial numbers of the workbook. */
export interface HarvestDates {
  readonly best: number;
  readonly earliest: number;
  readonly latest: number;
  /** Days from today to each of them, below zero when it is past; null when today was not given. */
  readonly standing: { readonly toBest: number; readonly toEarliest: number; readonly toLatest: number } | null;
}

/**
 * The next harvest in whole days after the last one, the best day and the span that is nearly as good.
 * @param last,today serials; a time of day in them is dropped, for a keeper plans in days
 * @throws Problem when the last harvest lies after today
 */
export function harvestDates(last: number, { bestDays, lowDays, highDays }: Interval, today: number | null): HarvestDates {
  const day = Math.floor(last);
  const best = day + Math.max(1, Math.round(bestDays));
  const earliest = Math.min(best, day + Math.ceil(lowDays));
  const latest = Math.max(best, day + Math.floor(highDays));
  if (today === null) return { best, earliest, latest, standing: null };
  const now = Math.floor(today);
  if (now < day) throw new Problem("value", words.harvestAfterToday);
  return { best, earliest, latest, standing: { toBest: best - now, toEarliest: earliest - now, toLatest: latest - now } };
}
