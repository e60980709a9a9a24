import type { Nutrient } from "../nutrient-forms";
import { expectation } from "../uncertain";
import type { Log } from "./log";
import { PARTS, SIGN, type Part, type Terms } from "./terms";

/** Where a nutrient's parts stand among the figures of one period: six of N, then six of P. */
export const NUTRIENTS: readonly Nutrient[] = ["N", "P"];
export const FIGURES = NUTRIENTS.length * PARTS.length;
export const figureOf = (nutrient: number, part: Part): number => nutrient * PARTS.length + PARTS.indexOf(part);

/** What one uncertain quantity does to the figures of a period, g: by its standard uncertainty, and by all of itself. */
export interface Effect {
  readonly byU: number[];
  readonly byWhole: number[];
}

/** One period of both nutrients: the figures at the expectation of every quantity, and what each quantity does to them. */
export interface BothTerms {
  readonly figures: readonly number[];
  readonly effects: ReadonlyMap<string, Effect>;
}

/**
 * The figures of one period with the effects of every quantity, nitrogen and phosphorus together: a quantity of the same
 * name in both (a harvest's weight, the dry fraction, the volume) is one quantity, which makes their errors correlated.
 */
export function bothTerms(terms: readonly Terms[], place: number): BothTerms {
  const figures = new Array<number>(FIGURES).fill(0);
  const effects = new Map<string, Effect>();
  const effectOf = (name: string): Effect => {
    const known = effects.get(name);
    if (known) return known;
    const made = { byU: new Array<number>(FIGURES).fill(0), byWhole: new Array<number>(FIGURES).fill(0) };
    effects.set(name, made);
    return made;
  };
  const add = (list: number[], figure: number, amount: number): void => {
    list[figure] = (list[figure] ?? 0) + amount;
  };
  terms.forEach(({ quantities, names, periods }, nutrient) => {
    const period = periods[place];
    if (!period) return;
    const mean = (quantity: number): number => expectation(quantities[quantity] ?? NOTHING);
    for (const { part, coefficient, factors } of period.monomials) {
      const figure = figureOf(nutrient, part);
      add(figures, figure, factors.reduce((product, factor) => product * mean(factor), coefficient));
      for (const factor of factors) {
        const slope = factors.reduce((product, other) => (other === factor ? product : product * mean(other)), coefficient);
        const effect = effectOf(names[factor] ?? "");
        add(effect.byU, figure, slope * (quantities[factor]?.u ?? 0));
        add(effect.byWhole, figure, slope * mean(factor));
      }
    }
    for (const { part, cause, whole, u } of period.ownErrors) {
      const effect = effectOf(cause);
      add(effect.byU, figureOf(nutrient, part), u);
      add(effect.byWhole, figureOf(nutrient, part), whole);
    }
  });
  return { figures, effects };
}

const NOTHING = { value: 0, low: 0, high: 0, u: 0, shape: "exact" } as const;

/** Rows of 1 for what comes in and -1 for what goes out or stays: one balance a nutrient. */
export const BALANCES: readonly (readonly number[])[] = NUTRIENTS.map((_, nutrient) => {
  const row = new Array<number>(FIGURES).fill(0);
  for (const part of PARTS) row[figureOf(nutrient, part)] = SIGN[part];
  return row;
});

/** Whether a nutrient's water was tested at all: without it there is no balance to close. */
export const isTested = (log: Log): boolean => log.series.some((series) => series.isMain && series.entries.length > 0);

/** Adds v vt to a matrix, in place: the covariance that one cause brings. */
export function addOuter(matrix: number[][], vector: readonly number[]): void {
  const n = vector.length;
  for (let i = 0; i < n; i += 1) {
    const a = vector[i] ?? 0;
    if (a === 0) continue;
    const row = matrix[i] as number[];
    for (let j = 0; j < n; j += 1) row[j] = (row[j] ?? 0) + a * (vector[j] ?? 0);
  }
}
