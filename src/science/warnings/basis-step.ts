import { lowerBound } from "../budget/concentration";
import type { ReadingEntry } from "../budget/log";
import { LIMITS } from "../constants/limits";
import { foodContent } from "../feed";
import { latestOf, warning, type Account, type Warning, type WarningOf } from "./warning";

/** Between readings further apart a step is no surprise. */
const MOST_DAYS = 35;
/** Readings that agree to within this factor are one level. */
const SAME_LEVEL = 1.4;
/** Even at the limits of both readings the step must be this large. */
const CLEAR_STEP = 2;
/** A change of so much of the water explains a step. */
const CHANGE_EXPLAINS = 0.3;
/** As does an input that would make so much of it if all of it stayed in the water; most of a usual feed does not. */
const INPUT_EXPLAINS = 0.8;
const LISTED = 5;

/**
 * A reading that is 4.43 times (nitrate) or 3.07 times (phosphate) off those beside it, as NO3 in place of NO3-N or PO4
 * in place of PO4-P would be. Serious where it is one among readings that agree, or where all after it agree with it;
 * a caution for the last reading, which nothing confirms yet.
 */
export function basisWarnings(account: Account): Warning[] {
  return account.log.series.flatMap((series, place) => {
    const substance = account.substances[place];
    if (substance !== "nitrate" && substance !== "phosphate") return [];
    return latestOf(stepsOf(account, series.name, series.entries), LISTED);
  });
}

function stepsOf(account: Account, test: string, entries: readonly ReadingEntry[]): WarningOf<"BASIS_STEP">[] {
  const { nutrient } = account.log;
  const found: WarningOf<"BASIS_STEP">[] = [];
  for (let place = 1; place < entries.length; place += 1) {
    const [twoBefore, before, now, after, twoAfter] = [-2, -1, 0, 1, 2].map((step) => entries[place + step]);
    if (!before || !now || now.day - before.day > MOST_DAYS) continue;
    const factor = factorOf(before, now, nutrient);
    if (factor === null || isExplained(account, before, now)) continue;
    const backAgain = after !== undefined && factorOf(after, now, nutrient) !== null && sameLevel(before, after) && after.day - now.day <= MOST_DAYS;
    const levelBefore = twoBefore !== undefined && sameLevel(twoBefore, before);
    const stays = after !== undefined && sameLevel(now, after) && (twoAfter === undefined || sameLevel(after, twoAfter)) && levelBefore;
    const lastOfAll = after === undefined && levelBefore;
    if (!backAgain && !stays && !lastOfAll) continue;
    found.push(warning("BASIS_STEP", lastOfAll ? "caution" : "serious", now, { test, factor, higher: now.reading.value > before.reading.value, nutrient }));
    // The way back is no second slip.
    if (backAgain) place += 1;
  }
  return found;
}

/** The factor between two readings where it is that of a mixed-up basis, beyond the limits of both; else null. */
function factorOf(a: ReadingEntry, b: ReadingEntry, nutrient: "N" | "P"): number | null {
  if (a.reading.censored !== "no" || b.reading.censored !== "no") return null;
  const [less, more] = a.reading.value < b.reading.value ? [a.reading, b.reading] : [b.reading, a.reading];
  const factor = more.value / less.value;
  const { low, high } = nutrient === "N" ? LIMITS.basisStepN : LIMITS.basisStepP;
  return factor >= low && factor <= high && more.low > CLEAR_STEP * less.high ? factor : null;
}

const sameLevel = (a: ReadingEntry, b: ReadingEntry): boolean =>
  a.reading.censored === "no" && b.reading.censored === "no" && Math.max(a.reading.value, b.reading.value) <= SAME_LEVEL * Math.min(a.reading.value, b.reading.value);

/** Whether water changed away, or what was fed or dosed, could make a good part of the step. */
function isExplained({ log, setUp }: Account, before: ReadingEntry, now: ReadingEntry): boolean {
  const between = <T extends { readonly day: number }>(list: readonly T[]): readonly T[] =>
    list.slice(lowerBound(list, (one) => one.day >= before.day), lowerBound(list, (one) => one.day > now.day));
  const volume = setUp.volumeL.value;
  const kept = between(log.changes).reduce((share, change) => share * Math.max(0, 1 - change.litres / volume), 1);
  if (1 - kept > CHANGE_EXPLAINS) return true;
  const step = now.reading.value - before.reading.value;
  if (step <= 0) return false;
  const fedG = between(log.feeds).reduce((sum, feed) => sum + feed.massG * foodContent(feed.food, log.nutrient).value, 0);
  const dosedG = between(log.otherIn).reduce((sum, entry) => sum + entry.grams, 0);
  return (1000 * (fedG + dosedG)) / volume > INPUT_EXPLAINS * step;
}
