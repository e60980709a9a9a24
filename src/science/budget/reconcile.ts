import { dot, solveCovariance, type Matrix } from "../linear";
import { normalDistribution } from "../normal";

/** Measured figures made to fit their balances, with what that says about them. */
export interface Reconciled {
  readonly adjusted: readonly number[];
  /** Standard uncertainties of the adjusted figures: never larger than before. */
  readonly u: readonly number[];
  /** Each adjustment over the figure's own standard uncertainty; 0 for a figure that is exact. */
  readonly scores: readonly number[];
  /** Global test: chi-square of the misfit, its degrees of freedom, and the chance of a larger one when all is as stated. */
  readonly chiSquare: number;
  readonly degreesOfFreedom: number;
  readonly p: number;
}

/**
 * Weighted least squares under closing constraints, in the Lagrange form x' = x - S At (A S At)^-1 A x
 * (data reconciliation: Kuehn & Davidson 1961; Deming 1943).
 * `x`: n figures as measured; `covariance` S: n x n; `balances` A: rows of n, 1 for what comes in, -1 for what goes out.
 * Balances in which nothing is uncertain are left as they are.
 * @returns null when no balance can be adjusted
 */
export function reconcile(x: readonly number[], covariance: Matrix, balances: Matrix): Reconciled | null {
  const usable = balances.filter((row) => dot(row, times(covariance, row)) > 0);
  if (usable.length === 0) return null;
  // S At, a column a balance; A S At.
  const toBalances = usable.map((row) => times(covariance, row));
  const weights = usable.map((row) => toBalances.map((column) => dot(row, column)));
  const misfits = usable.map((row) => dot(row, x));
  const byFigure = x.map((_, i) => toBalances.map((column) => column[i] ?? 0));
  const solved = solveCovariance(weights, [misfits, ...byFigure]);
  const [multipliers, ...gains] = solved ?? [];
  if (!multipliers) return null;
  const adjustments = x.map((_, i) => dot(byFigure[i] ?? [], multipliers));
  const before = x.map((_, i) => Math.max(0, covariance[i]?.[i] ?? 0));
  const largest = Math.max(...x.map(Math.abs));
  const chiSquare = Math.max(0, dot(misfits, multipliers));
  return {
    // A figure that is adjusted to nothing comes out a hair off it.
    adjusted: x.map((value, i) => (Math.abs(value - (adjustments[i] ?? 0)) < ROUNDING * largest ? 0 : value - (adjustments[i] ?? 0))),
    u: before.map((variance, i) => Math.sqrt(Math.max(0, variance - dot(byFigure[i] ?? [], gains[i] ?? [])))),
    scores: adjustments.map((value, i) => (before[i] ? value / Math.sqrt(before[i] ?? 1) : 0)),
    chiSquare,
    degreesOfFreedom: usable.length,
    p: chanceOfLarger(chiSquare, usable.length),
  };
}

const ROUNDING = 1e-13;
const times = (matrix: Matrix, vector: readonly number[]): number[] => matrix.map((row) => dot(row, vector));

/** Upper tail of the chi-square distribution for 1 or 2 degrees of freedom (closed forms; Abramowitz & Stegun 26.4). */
export function chanceOfLarger(chiSquare: number, degreesOfFreedom: number): number {
  return degreesOfFreedom === 1 ? 2 * normalDistribution(-Math.sqrt(chiSquare)) : Math.exp(-chiSquare / 2);
}
