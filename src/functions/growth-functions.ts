import { growth } from "../words/growth";
import { CURVE_NAMES } from "../science/growth-curves";
import { fitRegrowth, type CurveChoice, type RegrowthFit } from "../science/growth-fit";
import { harvestInterval, usualIntervalRange, usualRegrowth, type Interval } from "../science/harvest-interval";
import { harvestDates, type HarvestDates } from "../science/harvest-dates";
import { choice, single, wantsHeadings } from "./arguments";
import { date } from "./dates-argument";
import { harvestPairs, ownRegrowth } from "./harvest-pairs";
import { liftRows, type Answer } from "./lift";

const CHOICES: readonly CurveChoice[] = [...CURVE_NAMES, "best"];
const NO_TODAY = -1;

/**
 * Regrowth curve of a unit from its harvests, with standard errors and the best interval; an error says why there is none.
 * @customfunction HARVEST_FIT
 * @param {any[][]} days Days since the harvest before, one row a harvest.
 * @param {any[][]} dry_g_m2 Dry mass on 1 m2 of lit area, g: HARVEST_DRY makes drained weight dry, then divide by the lit area.
 * @param {any[][]} [curve] "logistic" (the usual), "gompertz" or "best" (the one with less scatter).
 * @param {boolean} [headings] FALSE leaves out the row of headings.
 * @returns {any[][]} What, value, standard error, unit: one row a figure, a sentence last.
 * @example =ALGAL.HARVEST_FIT(Log!J2:J20,Log!K2:K20)
 */
export function HARVEST_FIT(days: any[][], dry_g_m2: any[][], curve?: any[][], headings?: boolean): any[][] {
  const pairs = harvestPairs(days, dry_g_m2);
  if (pairs.length === 0) return [[""]];
  const fit = fitRegrowth(pairs, chosen(curve));
  const interval = harvestInterval(fit);
  const { fitRows: row, fitUnits: unit } = growth;
  const rows: Answer[][] = [
    [row.most, fit.most, fit.errors.most, unit.mass],
    [row.stubble, fit.stubble, fit.errors.stubble, unit.mass],
    [row.rate, fit.ratePerDay, fit.errors.ratePerDay, unit.rate],
    [row.residual, fit.residualStandardDeviation, "", unit.mass],
    [row.best, interval.bestDays, "", unit.days],
    [row.growth, interval.growthGPerM2Day, "", unit.growth],
    [row.words, [...fitWords(fit), ...intervalWords(interval, fit)].join(" "), "", ""],
  ];
  return wantsHeadings(headings) ? [[...growth.fitHeadings], ...rows] : rows;
}

/**
 * Days between harvests for the most growth: best, lowest, highest (growth within 5 %), growth there, and a sentence.
 * @customfunction HARVEST_INTERVAL
 * @param {any[][]} [days] Days since the harvest before, one row a harvest. With fewer than 4 different ones the usual curve serves.
 * @param {any[][]} [dry_g_m2] Dry mass on 1 m2 of lit area, g: HARVEST_DRY makes drained weight dry, then divide by the lit area.
 * @param {any[][]} [curve] "logistic" (the usual), "gompertz" or "best" (the one with less scatter).
 * @returns {any[][]} Best, low and high interval in days, growth in g dry m-2 d-1, and where they come from.
 * @example =ALGAL.HARVEST_INTERVAL({4;7;9;11;14;18;21;28},{17;41;61;84;116;147;159;172})
 */
export function HARVEST_INTERVAL(days?: any[][], dry_g_m2?: any[][], curve?: any[][]): any[][] {
  const { interval, sentences } = intervalFrom(days, dry_g_m2, curve);
  return [[interval.bestDays, interval.lowDays, interval.highDays, interval.growthGPerM2Day, sentences.join(" ")]];
}

/**
 * Next harvest: best, earliest and latest date (between them growth is within 5 %), and a sentence. Format as dates.
 * @customfunction HARVEST_NEXT
 * @param {any[][]} last_harvest_date Date of the last harvest. One cell or a column.
 * @param {any[][]} [days] Days since the harvest before, one row a harvest. With fewer than 4 different ones the usual curve serves.
 * @param {any[][]} [dry_g_m2] Dry mass on 1 m2 of lit area, g: HARVEST_DRY makes drained weight dry, then divide by the lit area.
 * @param {any[][]} [today] The day to judge from, such as TODAY(); without it nothing is said of overdue.
 * @param {any[][]} [curve] "logistic" (the usual), "gompertz" or "best" (the one with less scatter).
 * @returns {any[][]} Best, earliest and latest date, and a sentence.
 * @example =ALGAL.HARVEST_NEXT(DATE(2026,3,2),,,DATE(2026,3,9))
 */
export function HARVEST_NEXT(last_harvest_date: any[][], days?: any[][], dry_g_m2?: any[][], today?: any[][], curve?: any[][]): any[][] {
  const { interval, sentences } = intervalFrom(days, dry_g_m2, curve);
  return liftRows(
    { last: date("last_harvest_date", last_harvest_date), today: date("today", today, NO_TODAY) },
    (given) => {
      const dates = harvestDates(given.last, interval, given.today === NO_TODAY ? null : given.today);
      return [dates.best, dates.earliest, dates.latest, [...nextWords(dates), ...sentences].join(" ")];
    },
    4,
  );
}

const chosen = (curve: unknown): CurveChoice => single(choice("curve", curve, CHOICES, growth.unknownCurve, "logistic")) ?? "logistic";

/** The interval of the unit's own curve, or of the usual one, and the sentences that say which. */
function intervalFrom(days: unknown, dry: unknown, curve: unknown): { interval: Interval; sentences: string[] } {
  const own = ownRegrowth(harvestPairs(days, dry), chosen(curve));
  const interval = harvestInterval(own.fit ?? usualRegrowth);
  if (own.fit) return { interval, sentences: [...intervalWords(interval, own.fit), ...fitWords(own.fit)] };
  const { lowDays, highDays } = usualIntervalRange();
  return { interval, sentences: [...intervalWords(interval, null), growth.usualCurve(lowDays, highDays), own.reason] };
}

function fitWords(fit: RegrowthFit): string[] {
  return [growth.fitted(growth.curve[fit.curve], fit.pairs, fit.intervals), ...(fit.errors.stubble > fit.stubble ? [growth.stubbleWeak] : [])];
}

function intervalWords({ bestDays, lowDays, highDays }: Interval, fit: RegrowthFit | null): string[] {
  const beyond = fit && bestDays > fit.longestDays ? [growth.beyondLongest(fit.longestDays)] : [];
  const before = fit && bestDays < fit.shortestDays ? [growth.beforeShortest(fit.shortestDays)] : [];
  return [growth.bestRange(bestDays, lowDays, highDays), ...beyond, ...before];
}

function nextWords({ standing }: HarvestDates): string[] {
  if (!standing) return [];
  const { toBest, toEarliest, toLatest } = standing;
  if (toLatest < 0) return [growth.next.overdue(-toLatest, -toBest)];
  if (toEarliest > 0) return [growth.next.wait(toBest, toEarliest)];
  if (toBest > 0) return [growth.next.before(toBest)];
  return [toBest === 0 ? growth.next.today : growth.next.after(-toBest, toLatest)];
}
