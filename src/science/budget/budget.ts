import type { BadEntry, HarvestEntry, Log, SetUp } from "./log";
import { entriesWithin, periodsOf, type PeriodChoice } from "./period";
import type { Uncertain } from "../uncertain";
import { budgetTerms, PARTS, type Doubt, type Part, type PeriodTerms } from "./terms";
import { firstOrder, largestDoubt, monteCarlo, type FirstOrder, type PartValues } from "./uncertainty";

export type VerdictKind = "closed" | "sink" | "source" | "cannotTell";

/** Why a period is less sure than it looks, or cannot be reckoned; `words/budget.ts` has the sentences. */
export type Note =
  | { readonly kind: "badCell"; readonly sentence: string }
  | { readonly kind: "moreBadCells"; readonly count: number }
  | { readonly kind: "noReading" }
  | { readonly kind: "noFeed" }
  | { readonly kind: "aboveScale" }
  | { readonly kind: "belowDetection" }
  | { readonly kind: "interpolated"; readonly days: number }
  | { readonly kind: "estimatedCrop" }
  | { readonly kind: "firstHarvest"; readonly unit: string }
  | { readonly kind: "noHarvest" }
  | { readonly kind: "neverWeighed"; readonly units: readonly string[] }
  /** What the harvests took out as a share of what came in, with its limits. */
  | { readonly kind: "harvestShare"; readonly low: number; readonly high: number }
  | { readonly kind: "fedBack"; readonly grams: number };

/** One period of a budget, grams of the element. Figures are null where they would be a guess. */
export interface BudgetPeriod {
  readonly from: number;
  readonly to: number;
  readonly parts: { readonly [P in keyof PartValues]: number | null };
  readonly unexplained: number | null;
  readonly u: number | null;
  /** Within which the unexplained part lies with about 95 %. */
  readonly range: { readonly low: number; readonly high: number } | null;
  readonly verdict: VerdictKind;
  /** What makes most of the uncertainty. */
  readonly doubt: Doubt | null;
  readonly notes: readonly Note[];
}

const DRAWS = 2000;
const SEED = 20260301;
/** Coverage factor of the verdict (JCGM 100:2008, 6.3: about 95 %). */
const COVERAGE = 2;
/** How many bad cells of a period are named one by one: a cell holds 32,767 characters, and nobody reads more. */
const BAD_CELLS_NAMED = 3;

/**
 * The account of one nutrient, period by period: unexplained = inputs - exports - change in store, with its standard
 * uncertainty. The Monte Carlo spread takes the place of the first-order one where a single quantity that is far from
 * normal (rectangular, or with limits lop-sided about its value) makes more than half of the variance, or a reading was
 * below detection.
 * @throws Problem when the log covers no time
 */
export function budget(log: Log, setUp: SetUp, choice: PeriodChoice): BudgetPeriod[] {
  const { quantities, doubts, periods } = budgetTerms(log, setUp, periodsOf(log, setUp, choice));
  const spreadOf = monteCarlo(quantities, DRAWS, SEED);
  const hasReadings = log.series.some((series) => series.isMain && series.entries.length > 0);
  const firstHarvests = setUp.units.map((_, unit) => log.harvests.find((harvest) => harvest.unit === unit));
  return periods.map((period) => {
    const bad = entriesWithin(log.bad, period);
    const first = firstOrder(period, quantities);
    const reasons = notesOf(log, setUp, firstHarvests, period, bad);
    const notes = bad.length > 0 ? reasons : [...reasons, ...shareOf(period, quantities, first)];
    const base = { from: period.from, to: period.to, notes };
    if (bad.length > 0) return { ...base, parts: blankParts(first.parts, () => null), unexplained: null, u: null, range: null, doubt: null, verdict: "cannotTell" };
    if (!hasReadings || period.aboveScale) {
      const parts = blankParts(first.parts, (part, value) => (part === "storeChange" || (part === "changeOut" && value !== 0) ? null : value));
      return { ...base, parts, unexplained: null, u: null, range: null, doubt: null, verdict: "cannotTell" };
    }
    const useDraws = period.censored || first.unlikeNormalShare > 0.5;
    const spread = useDraws ? spreadOf(period) : null;
    const u = spread ? spread.u : first.u;
    const [low, high] = spread ? [spread.low, spread.high] : [first.expected - COVERAGE * u, first.expected + COVERAGE * u];
    return { ...base, parts: first.parts, unexplained: first.unexplained, u, range: { low, high }, doubt: largestDoubt(period, first, quantities, doubts), verdict: verdictOf(first, low, high) };
  });
}

function verdictOf({ parts }: FirstOrder, low: number, high: number): VerdictKind {
  if (low > 0) return "sink";
  if (high < 0) return "source";
  return (high - low) / 2 > parts.feedIn + parts.otherIn ? "cannotTell" : "closed";
}

function blankParts(parts: PartValues, take: (part: keyof PartValues, value: number) => number | null): BudgetPeriod["parts"] {
  return Object.fromEntries(Object.entries(parts).map(([part, value]) => [part, take(part as keyof PartValues, value)])) as BudgetPeriod["parts"];
}

/**
 * The part of the input that the harvests carried, with limits of about 95 % that are never below zero: by the relative
 * uncertainties of the two (JCGM 100:2008, 5.1.6), as a factor, because both are far from exact.
 */
function shareOf(period: PeriodTerms, quantities: readonly Uncertain[], { parts }: FirstOrder): Note[] {
  const input = parts.feedIn + parts.otherIn;
  if (!(input > 0) || !(parts.harvestOut > 0)) return [];
  const harvestOnly = relativeU(period, quantities, (part) => part === "harvestOut");
  const inputOnly = relativeU(period, quantities, (part) => part === "feedIn" || part === "otherIn");
  const factor = Math.exp(COVERAGE * Math.hypot(harvestOnly, inputOnly));
  const share = parts.harvestOut / input;
  return [{ kind: "harvestShare", low: share / factor, high: share * factor }];
}

function relativeU(period: PeriodTerms, quantities: readonly Uncertain[], take: (part: Part) => boolean): number {
  const own = Object.fromEntries(PARTS.map((part) => [part, take(part) ? period.ownVariance[part] : 0])) as Record<Part, number>;
  const { expected, u } = firstOrder({ ...period, monomials: period.monomials.filter(({ part }) => take(part)), ownVariance: own }, quantities);
  return expected === 0 ? 0 : u / Math.abs(expected);
}

function notesOf(
  log: Log,
  setUp: SetUp,
  firstHarvests: readonly (HarvestEntry | undefined)[],
  period: PeriodTerms,
  bad: readonly BadEntry[],
): Note[] {
  const notes: Note[] = bad.slice(0, BAD_CELLS_NAMED).map(({ sentence }) => ({ kind: "badCell", sentence }));
  if (bad.length > BAD_CELLS_NAMED) notes.push({ kind: "moreBadCells", count: bad.length - BAD_CELLS_NAMED });
  if (!log.series.some((series) => series.isMain && series.entries.length > 0)) notes.push({ kind: "noReading" });
  if (period.aboveScale) notes.push({ kind: "aboveScale" });
  if (entriesWithin(log.feeds, period).length === 0) notes.push({ kind: "noFeed" });
  if (period.censored) notes.push({ kind: "belowDetection" });
  if (period.readingGapDays >= 1) notes.push({ kind: "interpolated", days: Math.ceil(period.readingGapDays) });
  if (log.harvests.length === 0) notes.push({ kind: "noHarvest" });
  else {
    setUp.units.forEach((unit, place) => {
      const first = firstHarvests[place];
      if (first && entriesWithin([first], period).length > 0) notes.push({ kind: "firstHarvest", unit: unit.name });
    });
    const never = setUp.units.filter((_, place) => !firstHarvests[place]).map((unit) => unit.name);
    if (never.length > 0) notes.push({ kind: "neverWeighed", units: never });
  }
  if (period.estimatedCrop) notes.push({ kind: "estimatedCrop" });
  const fedBack = entriesWithin(log.harvests, period).reduce((sum, harvest) => sum + harvest.drainedG * harvest.fedBackShare, 0);
  if (fedBack > 0) notes.push({ kind: "fedBack", grams: fedBack });
  return notes;
}
