import { dot } from "../linear";
import type { Nutrient } from "../nutrient-forms";
import { addOuter, BALANCES, bothTerms, FIGURES, figureOf, isTested, NUTRIENTS, type BothTerms } from "./effects";
import type { BadEntry, Log, SetUp } from "./log";
import { entriesWithin, periodsOf, type Period, type PeriodChoice } from "./period";
import { reconcile, type Reconciled } from "./reconcile";
import { suspects, type Suspect } from "./suspect";
import { budgetTerms, PARTS, type Part } from "./terms";

/** The account of one nutrient, read twice from one log: once for N, once for P. */
export interface Account {
  readonly log: Log;
  readonly setUp: SetUp;
}

export interface ReconciledPart {
  readonly logged: number;
  readonly adjusted: number;
  readonly u: number;
  readonly score: number;
}

export type PeriodState =
  /** All figures fit together within their uncertainties. */
  | "fits"
  /** The misfit is larger than chance allows. */
  | "misfit"
  /** Nothing to close: no test, a cell that cannot be used, a reading above the kit's scale. */
  | "open";

export interface BothPeriod {
  readonly from: number;
  readonly to: number;
  readonly state: PeriodState;
  /** By nutrient; null where that nutrient has no balance to close. */
  readonly parts: Readonly<Record<Nutrient, Readonly<Record<Part, ReconciledPart>> | null>>;
  /** What is left over before the adjustment, with its standard uncertainty. */
  readonly unexplained: Readonly<Record<Nutrient, number | null>>;
  readonly balanceU: Readonly<Record<Nutrient, number>>;
  readonly test: Pick<Reconciled, "chiSquare" | "degreesOfFreedom" | "p"> | null;
  /** The figure that is least believable: where all fits, the one that had to move most. */
  readonly moved: { readonly nutrient: Nutrient; readonly part: Part; readonly score: number } | null;
  readonly suspect: Suspect | null;
  readonly bad: readonly BadEntry[];
  readonly aboveScale: boolean;
}

/** A misfit that chance brings once in twenty. */
const SIGNIFICANT = 0.05;

/**
 * Nitrogen and phosphorus accounts made to close together, period by period: the smallest adjustments, weighed by the
 * uncertainties, that leave nothing unexplained; whether they are believable; and which figure is the least believable.
 * Figures are taken at their expectation (JCGM 100:2008, 4.1.4), which is off the likely value where limits are lop-sided.
 * @throws Problem when the log covers no time
 */
export function budgetBoth(accounts: Readonly<Record<Nutrient, Account>>, choice: PeriodChoice): BothPeriod[] {
  const { N, P } = accounts;
  const periods = periodsOf({ ...N.log, series: [...N.log.series, ...P.log.series] }, N.setUp, choice);
  const terms = NUTRIENTS.map((nutrient) => budgetTerms(accounts[nutrient].log, accounts[nutrient].setUp, periods));
  const tested = NUTRIENTS.map((nutrient) => isTested(accounts[nutrient].log));
  const both = periods.map((period, place): { terms: BothTerms; closes: boolean[]; bad: BadEntry[] } => {
    const bad = NUTRIENTS.map((nutrient) => entriesWithin(accounts[nutrient].log.bad, period));
    return { terms: bothTerms(terms, place), closes: NUTRIENTS.map((_, n) => (tested[n] ?? false) && bad[n]?.length === 0 && !terms[n]?.periods[place]?.aboveScale), bad: once(bad.flat()) };
  });
  const named = suspects(accounts, both.map(({ terms: one, closes }) => ({ ...one, closes })), periods);
  return periods.map((period, place) => {
    const one = both[place];
    const aboveScale = terms.some((nutrient) => nutrient.periods[place]?.aboveScale === true);
    return periodResult(period, one?.terms ?? { figures: [], effects: new Map() }, one?.closes ?? [], one?.bad ?? [], aboveScale, () => named(place));
  });
}

function periodResult({ from, to }: Period, { figures, effects }: BothTerms, closes: readonly boolean[], bad: readonly BadEntry[], aboveScale: boolean, suspectOf: () => Suspect | null): BothPeriod {
  const covariance = Array.from({ length: FIGURES }, () => new Array<number>(FIGURES).fill(0));
  for (const { byU } of effects.values()) addOuter(covariance, byU);
  const balances = BALANCES.filter((_, nutrient) => closes[nutrient]);
  const reconciled = reconcile(figures, covariance, balances);
  const balanceU = { N: balanceUncertainty(covariance, 0), P: balanceUncertainty(covariance, 1) };
  const unexplained = { N: closes[0] ? dot(BALANCES[0] ?? [], figures) : null, P: closes[1] ? dot(BALANCES[1] ?? [], figures) : null };
  if (!reconciled) return { from, to, state: "open", parts: { N: null, P: null }, unexplained, balanceU, test: null, moved: null, suspect: null, bad, aboveScale };
  const partsOf = (nutrient: number): Readonly<Record<Part, ReconciledPart>> | null => {
    if (!closes[nutrient]) return null;
    const entries = PARTS.map((part): [Part, ReconciledPart] => {
      const figure = figureOf(nutrient, part);
      return [part, { logged: figures[figure] ?? 0, adjusted: reconciled.adjusted[figure] ?? 0, u: reconciled.u[figure] ?? 0, score: reconciled.scores[figure] ?? 0 }];
    });
    return Object.fromEntries(entries) as Record<Part, ReconciledPart>;
  };
  const parts = { N: partsOf(0), P: partsOf(1) };
  const { chiSquare, degreesOfFreedom, p } = reconciled;
  const misfit = p < SIGNIFICANT;
  return { from, to, state: misfit ? "misfit" : "fits", parts, unexplained, balanceU, test: { chiSquare, degreesOfFreedom, p }, moved: mostMoved(parts), suspect: misfit ? suspectOf() : null, bad, aboveScale };
}

function balanceUncertainty(covariance: readonly (readonly number[])[], nutrient: number): number {
  const balance = BALANCES[nutrient] ?? [];
  return Math.sqrt(Math.max(0, dot(balance, covariance.map((row) => dot(row, balance)))));
}

function mostMoved(parts: BothPeriod["parts"]): BothPeriod["moved"] {
  const all = NUTRIENTS.flatMap((nutrient) => {
    const ofNutrient = parts[nutrient];
    return ofNutrient ? PARTS.map((part) => ({ nutrient, part, score: ofNutrient[part].score })) : [];
  });
  return all.reduce<BothPeriod["moved"]>((most, one) => (Math.abs(one.score) > Math.abs(most?.score ?? 0) ? one : most), null);
}

/** A bad cell of feed, harvest or water stands in the account of both nutrients: named once. */
function once(bad: readonly BadEntry[]): BadEntry[] {
  return [...new Map(bad.map((one) => [`${one.row} ${one.sentence}`, one])).values()];
}
