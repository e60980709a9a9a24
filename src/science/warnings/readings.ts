import type { ReadingEntry, ReadingSeries } from "../budget/log";
import { ALGAE } from "../constants/algae";
import { LIMITS } from "../constants/limits";
import { trendOf, type TrendPoint } from "../trend";
import { warning, type Account, type Accounts, type Warning, type WarningOf } from "./warning";

/** Readings over which a rise is looked for: more would hide a turn, fewer tell little. */
const TREND_READINGS = 12;
const TREND_DAYS = 120;
/** Readings of nitrogen and phosphorus that are further apart say nothing of each other. */
const SAME_TIME_DAYS = 14;

/** Warnings that the tests alone give: below detection, rising, out of proportion, one nutrient short. */
export function readingWarnings({ N, P }: Accounts): Warning[] {
  const series = [...N.log.series, ...P.log.series];
  return [...series.flatMap(belowDetection), ...series.filter((one) => one.isMain).flatMap(rising), ...proportion(N, P)];
}

/** Once a test, for its latest reading below detection. */
function belowDetection({ name, entries }: ReadingSeries): WarningOf<"BELOW_DETECTION">[] {
  for (let place = entries.length - 1; place >= 0; place -= 1) {
    const entry = entries[place];
    if (entry?.reading.censored === "below") return [warning("BELOW_DETECTION", "note", entry, { test: name })];
  }
  return [];
}

/** The latest readings rise: with four days or more by a trend whose lower limit is above zero, with fewer by limits that lie apart. */
function rising({ name, entries }: ReadingSeries): WarningOf<"READING_RISING">[] {
  const last = entries[entries.length - 1];
  if (!last || last.reading.censored === "above") return [];
  const recent = entries.slice(-TREND_READINGS).filter(({ day, reading }) => day >= last.day - TREND_DAYS && reading.censored !== "above");
  const [first] = recent;
  if (!first || recent.length < 2 || pointOf(last).low <= pointOf(first).high) return [];
  const days = last.day - first.day;
  const rise = recent.length < 4 ? last.reading.value - first.reading.value : steadyRise(recent.map(pointOf)) * days;
  const before = recent.length < 4 ? first.reading.value : last.reading.value - rise;
  // A trend that starts from next to nothing has no percentage that says anything: it is taken from the first reading then.
  const from = before > first.reading.low ? before : first.reading.value;
  return rise > 0 && from > 0 ? [warning("READING_RISING", "caution", last, { test: name, risePercent: (100 * rise) / from, days })] : [];
}

/** A reading with its limits, which are no narrower than a test repeats: a fine scale does not make a sure hand. */
function pointOf({ day, reading: { value, low, high } }: ReadingEntry): TrendPoint {
  const half = LIMITS.repeatShare.value * value;
  return { day, low: Math.max(0, Math.min(low, value - half)), high: Math.max(high, value + half) };
}

/** Slope per day where its lower limit is above zero and the rise over the whole time is more than one reading is unsure by; else 0. */
function steadyRise(points: readonly TrendPoint[]): number {
  const { slopePerDay, low } = trendOf(points);
  const days = (points[points.length - 1]?.day ?? 0) - (points[0]?.day ?? 0);
  const widths = points.map((point) => point.high - point.low).sort((a, b) => a - b);
  return low > 0 && slopePerDay * days > (widths[widths.length >> 1] ?? 0) ? slopePerDay : 0;
}

function proportion(N: Account, P: Account): Warning[] {
  const [n, p] = [latestOfMain(N), latestOfMain(P)];
  if (!n || !p || Math.abs(n.entry.day - p.entry.day) > SAME_TIME_DAYS) return [];
  const later = n.entry.day > p.entry.day ? n.entry : p.entry;
  const short =
    shortOf(n.entry, ALGAE.halfSaturationN.low) && plenty(p.entry, ALGAE.halfSaturationP.value)
      ? { short: n.name, plentiful: p.name }
      : shortOf(p.entry, ALGAE.halfSaturationP.low) && plenty(n.entry, ALGAE.halfSaturationN.value)
        ? { short: p.name, plentiful: n.name }
        : null;
  if (short) return [warning("NUTRIENT_SHORT", "caution", later, short)];
  if (n.entry.reading.censored !== "no" || p.entry.reading.censored !== "no") return [];
  const { low, high } = LIMITS.uptakeRatio;
  const factor = LIMITS.ratioFactor.value;
  const [least, most] = [n.entry.reading.low / p.entry.reading.high, n.entry.reading.high / p.entry.reading.low];
  if (most >= low / factor && least <= high * factor) return [];
  return [warning("NP_RATIO", "note", later, { ratio: n.entry.reading.value / p.entry.reading.value, low, high })];
}

/** The latest reading of the test that is most of what the water holds. */
function latestOfMain({ log }: Account): { name: string; entry: ReadingEntry } | null {
  const main = log.series.find((series) => series.isMain && series.entries.length > 0);
  const entry = main?.entries[main.entries.length - 1];
  return main && entry ? { name: main.name, entry } : null;
}

/** At the lowest figure for half growth every alga is held back. */
const shortOf = ({ reading }: ReadingEntry, half: number): boolean => reading.censored === "below" || reading.value <= half;
const plenty = ({ reading }: ReadingEntry, half: number): boolean => reading.censored !== "below" && reading.low >= LIMITS.plentifulFactor.value * half;
