import { growth as words } from "../words/growth";
import { fitCurve, type Curve, type Fit } from "./fit";
import { CURVE_NAMES, harvestCurve, type CurveName } from "./growth-curves";
import type { Regrowth } from "./harvest-interval";
import { Problem } from "./problem";

/** One harvest: days since the harvest before, and its dry mass on the lit area, g dry m-2. */
export interface HarvestPair {
  readonly days: number;
  readonly dryGPerM2: number;
}

export interface RegrowthFit extends Regrowth {
  /** Standard errors of K and B0 (g dry m-2) and of the rate (1/d). */
  readonly errors: { readonly most: number; readonly stubble: number; readonly ratePerDay: number };
  /** g dry m-2 */
  readonly residualStandardDeviation: number;
  /** Akaike's criterion for few points (Hurvich & Tsai 1989), the lower the better; null with fewer than 6 harvests, where it has no value. */
  readonly aicc: number | null;
  readonly pairs: number;
  readonly intervals: number;
  readonly shortestDays: number;
  readonly longestDays: number;
}

export type CurveChoice = CurveName | "best";

/** Fewer different intervals than this tell no curve of three parameters. */
export const LEAST_INTERVALS = 4;
export const MOST_PAIRS = 1000;
/** Intervals nearer to each other than this are one: the hour of a harvest is no experiment. */
const SAME_INTERVAL_DAYS = 0.5;
/** A top this many times the heaviest harvest has not been seen. */
const MOST_BEYOND_HEAVIEST = 3;
/** Nor is a top known whose standard error is more than this share of it. */
const MOST_ERROR_SHARE = 0.5;
/** Chance at which harvests without any growth in them would pass for a curve. */
const CHANCE = 0.05;
/** Share of the growth to come that the shortest interval may have reached already. */
const LEVELLED = 0.8;
const STARTS = 3;
const RATES = 14;
const STUBBLE_SHARES = [0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.35, 0.5, 0.7];

/**
 * Fits K, B0 and the rate to what harvests took, H(T) = B(T) - B0, by least squares.
 * A harvest never weighs the stubble, so B0 is known only by the shape of the curve: its standard error is often large.
 * The standard errors are those of the curve made straight at its lowest point, so with six or fewer harvests they are too small.
 * @throws Problem "missing", saying why and what to do, where the harvests tell no curve
 */
export function fitRegrowth(pairs: readonly HarvestPair[], choice: CurveChoice): RegrowthFit {
  const intervals = checked(pairs);
  if (choice !== "best") return fitOne(pairs, choice, intervals);
  const outcomes = CURVE_NAMES.map((name): RegrowthFit | Problem => {
    try {
      return fitOne(pairs, name, intervals);
    } catch (error) {
      if (error instanceof Problem) return error;
      throw error;
    }
  });
  // Both curves have three parameters, so the smaller scatter is also the lower AICc.
  const fits = outcomes.filter((one): one is RegrowthFit => !(one instanceof Problem)).sort((a, b) => a.residualStandardDeviation - b.residualStandardDeviation);
  if (fits[0]) return fits[0];
  throw outcomes[0];
}

/** The number of different intervals. */
function checked(pairs: readonly HarvestPair[]): number {
  if (pairs.length > MOST_PAIRS) throw new Problem("value", words.tooManyPairs(MOST_PAIRS));
  for (const { days, dryGPerM2 } of pairs) {
    if (!(days > 0)) throw new Problem("value", words.notAfter(days));
    if (!(dryGPerM2 >= 0)) throw new Problem("value", words.negativeMass(dryGPerM2));
  }
  let intervals = 0;
  let last = -Infinity;
  for (const days of pairs.map((pair) => pair.days).sort((a, b) => a - b)) {
    if (days - last < SAME_INTERVAL_DAYS) continue;
    last = days;
    intervals += 1;
  }
  if (intervals < LEAST_INTERVALS) throw new Problem("missing", words.cannotFit.fewIntervals(intervals, LEAST_INTERVALS));
  if (!growsWithDays(pairs)) throw new Problem("missing", words.cannotFit.noGrowth);
  return intervals;
}

/** Whether the straight line through the harvests rises. */
function growsWithDays(pairs: readonly HarvestPair[]): boolean {
  const days = pairs.reduce((sum, pair) => sum + pair.days, 0) / pairs.length;
  const mass = pairs.reduce((sum, pair) => sum + pair.dryGPerM2, 0) / pairs.length;
  const together = pairs.reduce((sum, pair) => sum + (pair.days - days) * (pair.dryGPerM2 - mass), 0);
  return together > 1e-9 * mass * days;
}

function fitOne(pairs: readonly HarvestPair[], name: CurveName, intervals: number): RegrowthFit {
  const xs = pairs.map(({ days }) => days);
  const ys = pairs.map(({ dryGPerM2 }) => dryGPerM2);
  const curve = harvestCurve(name);
  const starts = startsFrom(curve, xs, ys);
  const bounded = onLogScale(curve, 3 * MOST_BEYOND_HEAVIEST * Math.max(...ys), 20 / Math.min(...xs));
  const rough = lowest(starts.map((start) => fitCurve(bounded, xs, ys, start)));
  const likely = fromLogScale(rough?.parameters ?? starts[0] ?? []);
  // The same lowest point once more in K, B0 and the rate themselves, for their standard errors.
  const natural = rough && fitCurve(curve, xs, ys, likely);
  const fit = natural && inRange(natural.parameters) ? natural : null;
  const reason = refusal(curve, fit, fit?.parameters ?? likely, xs, ys);
  if (!fit || reason !== null) throw new Problem("missing", reason ?? words.cannotFit.notSettled);
  const [most = NaN, stubble = NaN, ratePerDay = NaN] = fit.parameters;
  const [mostError = NaN, stubbleError = NaN, rateError = NaN] = fit.errors;
  return {
    curve: name,
    most,
    stubble,
    ratePerDay,
    errors: { most: mostError, stubble: stubbleError, ratePerDay: rateError },
    residualStandardDeviation: fit.residualStandardDeviation,
    aicc: aicc(fit.residualSumOfSquares, xs.length),
    pairs: xs.length,
    intervals,
    shortestDays: Math.min(...xs),
    longestDays: Math.max(...xs),
  };
}

const inRange = ([most = NaN, stubble = NaN, rate = NaN]: readonly number[]): boolean => stubble > 0 && most > stubble && rate > 0;

/** Why a fit is not shown, or null. `likely` are the likeliest parameters, also where nothing settled. */
function refusal(curve: Curve, fit: Fit | null, likely: readonly number[], xs: readonly number[], ys: readonly number[]): string | null {
  const [most = NaN, stubble = NaN, rate = NaN] = likely;
  const mean = ys.reduce((sum, y) => sum + y, 0) / ys.length;
  const about = ys.reduce((sum, y) => sum + (y - mean) ** 2, 0);
  // F of the curve against one mean for all: with two extra parameters the chance of as much has the closed form (rest / about)^(df / 2).
  if (fit && (fit.residualSumOfSquares / about) ** (fit.degreesOfFreedom / 2) > CHANCE) return words.cannotFit.scatter;
  const levelled = stubble > most / 2 || curve.value(Math.min(...xs), likely) > LEVELLED * (most - stubble);
  const [mostError = NaN, , rateError = NaN] = fit?.errors ?? [];
  const topUnseen = most > MOST_BEYOND_HEAVIEST * Math.max(...ys) || mostError > MOST_ERROR_SHARE * most;
  if (fit && !topUnseen && mostError >= 0 && rateError <= rate) return null;
  if (levelled) return words.cannotFit.levelled;
  return topUnseen ? words.cannotFit.noTop : words.cannotFit.notSettled;
}

/**
 * The likeliest rate for each of the likeliest stubble shares, from a coarse net, on the log scale; K follows by plain least squares.
 * Different shares, because neighbours on the net would only run down to the same lowest point.
 */
function startsFrom(curve: Curve, xs: readonly number[], ys: readonly number[]): number[][] {
  const slowest = 0.3 / Math.max(...xs);
  const fastest = 8 / Math.min(...xs);
  const rates = Array.from({ length: RATES }, (_, step) => slowest * (fastest / slowest) ** (step / (RATES - 1)));
  const net = STUBBLE_SHARES.map((share) => rates.map((rate) => {
    const unit = xs.map((x) => curve.value(x, [1, share, rate]));
    const most = unit.reduce((sum, u, place) => sum + u * (ys[place] ?? NaN), 0) / unit.reduce((sum, u) => sum + u * u, 0);
    const rest = unit.reduce((sum, u, place) => sum + ((ys[place] ?? NaN) - most * u) ** 2, 0);
    return { rest, start: [Math.log(most), Math.log(share / (1 - share)), Math.log(rate)] };
  }).reduce((best, one) => (one.rest < best.rest ? one : best)));
  return net.sort((a, b) => a.rest - b.rest).slice(0, STARTS).map(({ start }) => start);
}

/** From ln K, the logit of B0/K and ln rate: there no step can leave 0 < B0 < K. */
function fromLogScale([logMost = NaN, logit = NaN, logRate = NaN]: readonly number[]): [number, number, number] {
  const most = Math.exp(logMost);
  return [most, most / (1 + Math.exp(-logit)), Math.exp(logRate)];
}

/**
 * Where the harvests tell no curve, the lowest point lies at an endless K or rate, and the way there takes long:
 * the search turns back well after the place where it is refused.
 */
function onLogScale(curve: Curve, highestMost: number, highestRate: number): Curve {
  return {
    value: (x, parameters) => {
      const natural = fromLogScale(parameters);
      return natural[0] > highestMost || natural[2] > highestRate ? NaN : curve.value(x, natural);
    },
    slopes: (x, parameters) => {
      const natural = fromLogScale(parameters);
      const [most, stubble, rate] = natural;
      const [inMost = NaN, inStubble = NaN, inRate = NaN] = curve.slopes(x, natural);
      return [most * inMost + stubble * inStubble, stubble * (1 - stubble / most) * inStubble, rate * inRate];
    },
  };
}

function lowest(fits: readonly (Fit | null)[]): Fit | null {
  return fits.reduce((best, fit) => (fit && (!best || fit.residualSumOfSquares < best.residualSumOfSquares) ? fit : best), null);
}

/** Three parameters and the scatter itself make four. */
function aicc(residualSumOfSquares: number, pairs: number): number | null {
  const k = 4;
  if (pairs - k - 1 <= 0) return null;
  return pairs * Math.log(residualSumOfSquares / pairs) + 2 * k + (2 * k * (k + 1)) / (pairs - k - 1);
}
