import { trend as words } from "../words/trend";
import { densityOverDistribution, logNormalDistribution, normalQuantile } from "./normal";
import { Problem } from "./problem";

/** One reading of a set: the figure, or the limit below which it lies. Any unit, the same for all. */
export interface SetReading {
  readonly value: number;
  readonly below: boolean;
}

/** Mean and standard deviation in the unit of the readings; those of the natural logarithms too where the spread is lognormal. */
export interface SetSummary {
  readonly mean: number;
  readonly sd: number;
  readonly meanLog: number | null;
  readonly sdLog: number | null;
}

export interface OrderSummary extends SetSummary {
  /** Intercept and slope of the line itself: mean and standard deviation of the logarithms without the robust step. */
  readonly line: { readonly meanLog: number; readonly sdLog: number };
}

export type Spread = "lognormal" | "normal";

/** The share below detection above which nothing but the share itself can be told (Helsel 2012, from memory). */
const MOST_BELOW = 0.8;
const LEAST_SHOWN = 3;

/** @throws Problem "missing" when more than 80 % of the readings lie below detection */
export function refuseMostlyBelow(below: number, all: number): void {
  if (below > MOST_BELOW * all) throw new Problem("missing", words.onlyProportion(below, all));
}

function checked(readings: readonly SetReading[], spread: Spread): void {
  for (const { value } of readings) if (!Number.isFinite(value) || (spread === "lognormal" && value <= 0)) throw new Problem("value", words.notAboveZero(value));
  refuseMostlyBelow(readings.filter(({ below }) => below).length, readings.length);
  if (new Set(readings.filter(({ below }) => !below).map(({ value }) => value)).size < LEAST_SHOWN) throw new Problem("missing", words.tooFewShown(LEAST_SHOWN));
}

/**
 * Robust regression on order statistics: a line through the logarithms that were shown against their normal scores, and from
 * it those that lie below the limits, each at its own score; nothing is set to zero or to half of a limit.
 * @param a constant of the plotting positions, 0 (Weibull) or 0.375 (Blom)
 * @throws Problem with more than 80 % below detection, fewer than three different figures, or a figure that is not above zero
 * @source Helsel & Cohn 1988, Water Resour. Res. 24:1997; USEPA 2009, Unified Guidance, chapter 15
 */
export function robustOrderStatistics(readings: readonly SetReading[], a: 0 | 0.375 = 0): OrderSummary {
  checked(readings, "lognormal");
  const placed = plottingPositions(readings, a).map(({ reading, chance }) => ({ ...reading, score: normalQuantile(chance) }));
  const shown = placed.filter(({ below }) => !below).map(({ value, score }) => ({ log: Math.log(value), score }));
  const middle = meanAndSd(shown.map(({ score }) => score)).mean;
  const logs = meanAndSd(shown.map(({ log }) => log)).mean;
  const slope = sum(shown.map(({ log, score }) => (score - middle) * (log - logs))) / sum(shown.map(({ score }) => (score - middle) ** 2));
  const intercept = logs - slope * middle;
  const filled = placed.map(({ below, value, score }) => (below ? intercept + slope * score : Math.log(value)));
  const ofLogs = meanAndSd(filled);
  return { ...meanAndSd(filled.map(Math.exp)), meanLog: ofLogs.mean, sdLog: ofLogs.sd, line: { meanLog: intercept, sdLog: slope } };
}

/**
 * The chance of a lower figure for each reading, for several limits (Hirsch & Stedinger 1987, as Helsel & Cohn 1988 use it):
 * between two neighbouring limits the shown figures are spread evenly over the chance that lies there, and those below a limit over the chance below it.
 */
function plottingPositions(readings: readonly SetReading[], a: number): { reading: SetReading; chance: number }[] {
  const limits = [...new Set(readings.filter(({ below }) => below).map(({ value }) => value))].sort((x, y) => x - y);
  const edges = [-Infinity, ...limits, Infinity];
  const spread = (group: readonly SetReading[], from: number, width: number): { reading: SetReading; chance: number }[] =>
    group.map((reading, place) => ({ reading, chance: from + (width * (place + 1 - a)) / (group.length + 1 - 2 * a) }));
  const placed: { reading: SetReading; chance: number }[] = [];
  let exceeding = 0;
  for (let step = edges.length - 2; step >= 0; step -= 1) {
    const [from, to] = [edges[step] ?? NaN, edges[step + 1] ?? NaN];
    const between = readings.filter(({ below, value }) => !below && value >= from && value < to).sort((x, y) => x.value - y.value);
    const under = readings.filter(({ below, value }) => (below ? value <= from : value < from)).length;
    // Chance of this limit or more: that of the next one, and of what is left the part that was shown between the two.
    const here = step === 0 ? 1 : exceeding + (between.length / (between.length + under)) * (1 - exceeding);
    const hidden = readings.filter(({ below, value }) => below && value === from);
    placed.push(...spread(between, 1 - here, here - exceeding), ...spread(hidden, 0, 1 - here));
    exceeding = here;
  }
  return placed;
}

/**
 * Censored maximum likelihood: a shown reading counts with its density, one below a limit DL with its chance Phi((DL - mean) / sd).
 * In the form of Olsen 1978 (1/sd and mean/sd) the likelihood has a single top, which Newton's steps find.
 * @returns `sd` and `sdLog` are those of maximum likelihood (divided by n); `logLikelihood` is in the unit of the readings
 * @throws Problem as robustOrderStatistics; for a normal spread figures may be zero or below
 * @source USEPA 2009, Unified Guidance, chapter 15
 */
export function censoredLikelihood(readings: readonly SetReading[], spread: Spread = "lognormal"): SetSummary & { readonly logLikelihood: number } {
  checked(readings, spread);
  const log = spread === "lognormal";
  const raw = readings.map(({ value, below }) => ({ value: log ? Math.log(value) : value, below }));
  const shown = raw.filter(({ below }) => !below).map(({ value }) => value);
  // Scores keep the steps well scaled whatever the unit.
  const { mean: centre, sd: scale } = meanAndSd(shown);
  const { precision, ratio, top } = olsenTop(raw.map(({ value, below }) => ({ value: (value - centre) / scale, below })));
  const [mean, sd] = [centre + (scale * ratio) / precision, scale / precision];
  const logLikelihood = top - shown.length * Math.log(scale) - (log ? sum(shown) : 0);
  if (!log) return { mean, sd, meanLog: null, sdLog: null, logLikelihood };
  const arithmetic = Math.exp(mean + (sd * sd) / 2);
  return { mean: arithmetic, sd: arithmetic * Math.sqrt(Math.expm1(sd * sd)), meanLog: mean, sdLog: sd, logLikelihood };
}

function olsenTop(readings: readonly SetReading[]): { precision: number; ratio: number; top: number } {
  const likelihood = (precision: number, ratio: number): number =>
    precision > 0
      ? sum(readings.map(({ value, below }) => {
        const z = precision * value - ratio;
        return below ? logNormalDistribution(z) : Math.log(precision) - 0.5 * z * z - 0.5 * Math.log(2 * Math.PI);
      }))
      : -Infinity;
  let [precision, ratio] = [1, 0];
  let top = likelihood(precision, ratio);
  for (let step = 0; step < 200; step += 1) {
    // Slopes and curvature in precision and ratio; the curvature is negative everywhere.
    let [sp, sr, pp, pr, rr] = [0, 0, 0, 0, 0];
    for (const { value, below } of readings) {
      const z = precision * value - ratio;
      const push = below ? densityOverDistribution(z) : 0;
      const first = below ? push : -z;
      const second = below ? -push * (push + z) : -1;
      sp += first * value + (below ? 0 : 1 / precision);
      sr -= first;
      pp += second * value * value - (below ? 0 : 1 / (precision * precision));
      pr -= second * value;
      rr += second;
    }
    const determinant = pp * rr - pr * pr;
    const [dp, dr] = [-(rr * sp - pr * sr) / determinant, -(pp * sr - pr * sp) / determinant];
    if (!Number.isFinite(dp) || !Number.isFinite(dr)) break;
    let part = 1;
    while (part > 1e-10 && !(likelihood(precision + part * dp, ratio + part * dr) >= top - 1e-13 * (1 + Math.abs(top)))) part /= 2;
    precision += part * dp;
    ratio += part * dr;
    top = likelihood(precision, ratio);
    if (Math.abs(dp) < 1e-10 * precision && Math.abs(dr) < 1e-10 * (1 + Math.abs(ratio))) return { precision, ratio, top };
  }
  throw new Problem("number", words.notSettled);
}

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);

function meanAndSd(values: readonly number[]): { mean: number; sd: number } {
  const mean = sum(values) / values.length;
  return { mean, sd: Math.sqrt(sum(values.map((value) => (value - mean) ** 2)) / (values.length - 1)) };
}
