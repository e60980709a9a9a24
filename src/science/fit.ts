import { solveLinear } from "./linear";

/** A curve with its parameters: the value at x, and its slope in each parameter. */
export interface Curve {
  readonly value: (x: number, parameters: readonly number[]) => number;
  readonly slopes: (x: number, parameters: readonly number[]) => readonly number[];
}

export interface Fit {
  readonly parameters: readonly number[];
  /** Standard errors of the parameters. */
  readonly errors: readonly number[];
  readonly residualSumOfSquares: number;
  readonly residualStandardDeviation: number;
  readonly degreesOfFreedom: number;
}

const MOST_STEPS = 2000;
const SETTLED = 1e-14;

/**
 * Least squares by Levenberg and Marquardt with the curve's own slopes, each parameter on its own scale.
 * Written here because the package at hand, with its default settings, fails the NIST certified fits of this very form.
 * @returns null when it does not settle, when a parameter cannot be told (its slope is nothing), or with too few points
 */
export function fitCurve(curve: Curve, xs: readonly number[], ys: readonly number[], start: readonly number[]): Fit | null {
  const degreesOfFreedom = xs.length - start.length;
  if (degreesOfFreedom < 1) return null;
  let parameters = [...start];
  let sum = sumOfSquares(curve, xs, ys, parameters);
  if (!Number.isFinite(sum)) return null;
  let damping = 1e-3;
  let settled = false;
  for (let step = 0; step < MOST_STEPS && !settled; step += 1) {
    const { matrix, gradient } = normalEquations(curve, xs, ys, parameters);
    const move = solveScaled(matrix, gradient, damping);
    if (!move) return null;
    const next = parameters.map((value, place) => value + (move[place] ?? 0));
    const nextSum = sumOfSquares(curve, xs, ys, next);
    if (nextSum <= sum) {
      const small = move.every((change, place) => Math.abs(change) <= 1e-11 * (Math.abs(next[place] ?? 0) + 1e-11));
      settled = small || sum === 0 || (sum - nextSum) / sum < SETTLED;
      parameters = next;
      sum = nextSum;
      damping = Math.max(damping / 5, 1e-14);
    } else {
      // No way down however short the step: this is the bottom, as far as the arithmetic goes.
      if (damping > 1e14) settled = true;
      damping *= 4;
    }
  }
  if (!settled) return null;
  const inverse = invertScaled(normalEquations(curve, xs, ys, parameters).matrix);
  if (!inverse) return null;
  const variance = sum / degreesOfFreedom;
  return {
    parameters,
    errors: inverse.map((row, place) => Math.sqrt(Math.max(0, (row[place] ?? 0) * variance))),
    residualSumOfSquares: sum,
    residualStandardDeviation: Math.sqrt(variance),
    degreesOfFreedom,
  };
}

function sumOfSquares(curve: Curve, xs: readonly number[], ys: readonly number[], parameters: readonly number[]): number {
  const sum = xs.reduce((total, x, place) => total + ((ys[place] ?? NaN) - curve.value(x, parameters)) ** 2, 0);
  return Number.isFinite(sum) ? sum : Infinity;
}

function normalEquations(curve: Curve, xs: readonly number[], ys: readonly number[], parameters: readonly number[]): { matrix: number[][]; gradient: number[] } {
  const n = parameters.length;
  const matrix = Array.from({ length: n }, () => new Array<number>(n).fill(0));
  const gradient = new Array<number>(n).fill(0);
  xs.forEach((x, place) => {
    const slopes = curve.slopes(x, parameters);
    const residual = (ys[place] ?? NaN) - curve.value(x, parameters);
    slopes.forEach((slope, i) => {
      gradient[i] = (gradient[i] ?? 0) + slope * residual;
      const row = matrix[i] as number[];
      slopes.forEach((other, j) => (row[j] = (row[j] ?? 0) + slope * other));
    });
  });
  return { matrix, gradient };
}

/** Scales a matrix to ones on its diagonal; null when a parameter has no effect at all. */
function scalesOf(matrix: readonly (readonly number[])[]): number[] | null {
  const scales = matrix.map((row, place) => Math.sqrt(row[place] ?? 0));
  return scales.every((scale) => Number.isFinite(scale) && scale > 0) ? scales : null;
}

function solveScaled(matrix: readonly (readonly number[])[], right: readonly number[], damping: number): number[] | null {
  const scales = scalesOf(matrix);
  if (!scales) return null;
  const scaled = matrix.map((row, i) => row.map((value, j) => value / ((scales[i] ?? 1) * (scales[j] ?? 1)) + (i === j ? damping : 0)));
  const solved = solveLinear(scaled, [right.map((value, i) => value / (scales[i] ?? 1))]);
  return solved?.[0]?.map((value, i) => value / (scales[i] ?? 1)) ?? null;
}

function invertScaled(matrix: readonly (readonly number[])[]): number[][] | null {
  const scales = scalesOf(matrix);
  if (!scales) return null;
  const scaled = matrix.map((row, i) => row.map((value, j) => value / ((scales[i] ?? 1) * (scales[j] ?? 1))));
  const unit = scaled.map((_, i) => scaled.map((__, j) => (i === j ? 1 : 0)));
  return solveLinear(scaled, unit)?.map((row, i) => row.map((value, j) => value / ((scales[i] ?? 1) * (scales[j] ?? 1)))) ?? null;
}
