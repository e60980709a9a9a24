import { entriesWithin, periodsOf, type Period } from "../budget/period";
import { budgetTerms, type Terms } from "../budget/terms";
import { firstOrder, monteCarlo, type FirstOrder } from "../budget/uncertainty";
import type { RowEntry } from "../budget/log";
import { mostTissue } from "../harvest";
import { expectation } from "../uncertain";
import { latestOf, warning, type Account, type Accounts, type Warning, type WarningOf } from "./warning";

type Unexplained = WarningOf<"UNEXPLAINED_SOURCE"> | WarningOf<"UNEXPLAINED_SINK">;

/** Of many periods some are off by two standard uncertainties by chance; over the whole log there is one comparison. */
const COVERAGE_OF_MANY = 3;
const COVERAGE_OF_ONE = 2;
const LISTED = 3;
/** So many harvests back: what was wrong years ago is history, and stays in the account of the whole log. */
const LATEST_PERIODS = 100;
/** Draws take time: they decide on what is listed, in so many periods at most; the older ones are only counted, by first order. */
const DRAWN = 12;
const DRAWS = 2000;
const SEED = 20260301;

/** Warnings that the budget of one nutrient gives, harvest to harvest and over the whole log. */
export function accountWarnings({ N, P }: Accounts): Warning[] {
  return [N, P].flatMap((account) => {
    const stated = statedTissue(account);
    const { log, setUp } = account;
    const hasReadings = log.series.some((series) => series.isMain && series.entries.length > 0);
    if (!hasReadings || !(log.lastDay > log.firstDay)) return stated;
    const periods = periodsOf(log, setUp, "harvest").slice(-LATEST_PERIODS);
    const found = unexplained(account, periods, COVERAGE_OF_MANY, false);
    const ofWhole = found.warnings.length === 0 && periods.length > 1 ? unexplained(account, periodsOf(log, setUp, "whole"), COVERAGE_OF_ONE, true).warnings : [];
    return [...stated, ...found.warnings, ...ofWhole, ...found.tissue];
  });
}

/** The set-up's tissue content above what any alga holds. */
function statedTissue({ log: { nutrient }, setUp }: Account): WarningOf<"TISSUE_IMPLIED">[] {
  const most = mostTissue(nutrient);
  const above = setUp.units.find((unit) => unit.tissue.value > most);
  return above ? [warning("TISSUE_IMPLIED", "serious", null, { nutrient, share: above.tissue.value, most, stated: true })] : [];
}

/** What each period leaves unexplained, the latest first; about 95 % limits, by draws where first order is no good guide (see `budget`). */
function unexplained({ log, setUp }: Account, periods: readonly Period[], coverage: number, whole: boolean): { warnings: Unexplained[]; tissue: WarningOf<"TISSUE_IMPLIED">[] } {
  const terms = budgetTerms(log, setUp, periods);
  const spreadOf = monteCarlo(terms.quantities, DRAWS, SEED);
  const { nutrient } = log;
  const sources: WarningOf<"UNEXPLAINED_SOURCE">[] = [];
  const sinks: WarningOf<"UNEXPLAINED_SINK">[] = [];
  const tissue: WarningOf<"TISSUE_IMPLIED">[] = [];
  const rows = lastRowOfDay(log.rows);
  const dryMost = Math.max(...setUp.units.flatMap(({ dryFraction }) => [dryFraction.drained, dryFraction.pressed].map((one) => one.high / expectation(one))));
  let drawn = 0;
  for (const period of [...terms.periods].reverse()) {
    if (period.aboveScale || entriesWithin(log.bad, period).length > 0) continue;
    const first = firstOrder(period, terms.quantities);
    const row = rows.get(period.to);
    const at = whole || row === undefined ? null : { day: period.to, row };
    const share = impliedTissue(first, terms, dryMost);
    if (share !== null && share > mostTissue(nutrient)) tissue.push(warning("TISSUE_IMPLIED", "caution", at, { nutrient, share, most: mostTissue(nutrient), stated: false }));
    if (Math.abs(first.expected) <= coverage * first.u) continue;
    const listed = first.expected > 0 ? sinks.length : sources.length;
    const useDraws = (period.censored || first.unlikeNormalShare > 0.5) && listed < LISTED && drawn < DRAWN;
    if (useDraws) drawn += 1;
    const range = useDraws ? spreadOf(period) : { low: first.expected - COVERAGE_OF_ONE * first.u, high: first.expected + COVERAGE_OF_ONE * first.u };
    const days = period.to - period.from;
    if (range.low > 0) sinks.push(warning("UNEXPLAINED_SINK", "caution", at, { nutrient, low: range.low, high: range.high, days, whole }));
    else if (range.high < 0) sources.push(warning("UNEXPLAINED_SOURCE", "caution", at, { nutrient, low: -range.high, high: -range.low, days, whole }));
  }
  return { warnings: [...latestOf(sources.reverse(), LISTED), ...latestOf(sinks.reverse(), LISTED)], tissue: latestOf(tissue.reverse(), 1) };
}

/**
 * The lowest tissue content at which the harvests of a period would have taken all that went missing: the unexplained part falls by
 * one gram for each gram in the harvests, so the content that closes the budget is the expected one plus unexplained / dry mass.
 * Taken at the highest dry fraction, and with three standard uncertainties of all other figures in its favour. Null without a harvest.
 */
function impliedTissue({ parts, expected, u, slopes }: FirstOrder, { quantities, doubts }: Terms, dryMost: number): number | null {
  if (parts.harvestOut <= 0) return null;
  let [dryG, nutrientG, ownVariance] = [0, 0, 0];
  for (const [place, slope] of slopes) {
    const quantity = quantities[place];
    const doubt = doubts[place];
    if (!quantity) continue;
    if (doubt === "tissue") {
      dryG -= slope;
      nutrientG -= slope * expectation(quantity);
    }
    if (doubt === "tissue" || doubt === "dryFraction" || doubt === "standingCrop") ownVariance += (slope * quantity.u) ** 2;
  }
  if (dryG <= 0) return null;
  const rest = Math.sqrt(Math.max(0, u * u - ownVariance));
  return (nutrientG + expected - COVERAGE_OF_MANY * rest) / (dryG * dryMost);
}

function lastRowOfDay(rows: readonly RowEntry[]): Map<number, number> {
  return new Map(rows.map(({ day, row }) => [day, row]));
}
