import { science as words } from "../words/science";
import { Problem } from "./problem";

/** One reading of a trend: the day, and the limits within which it lies (equal for an exact figure; low 0 for one below detection). */
export interface TrendPoint {
  readonly day: number;
  readonly low: number;
  readonly high: number;
}

/** Slope per day with its 95 % limits; the line passes through the medians (Conover's intercept). */
export interface Trend {
  readonly slopePerDay: number;
  readonly low: number;
  readonly high: number;
  readonly intercept: number;
  /** Mann-Kendall: sum of signs, its variance with ties, and the normal score. */
  readonly s: number;
  readonly variance: number;
  readonly z: number;
}

/** 97.5 % point of the standard normal distribution. */
const Z_95 = 1.959963984540054;
/** Pairs grow as the square: 3,000 readings make 4.5 million. */
const MOST_POINTS = 3000;
/** With limits that overlap the slope is found by halving, each step over all pairs. */
const MOST_OVERLAPPING = 1000;

/**
 * Theil-Sen slope with Mann-Kendall statistics and Sen's interval (Gilbert 1987; USEPA 2009 Unified Guidance, chapter 17).
 * Readings of one day are compared with those of other days only. A reading below detection is never given a value: a
 * pair in which the limits overlap is a tie, and the slope is the one at which as many pairs rise as fall (Akritas,
 * Murphy & LaValley 1995), which for exact figures is the median of the pairs' slopes.
 * @throws Problem with fewer than four different days, or more than 3,000 readings
 */
export function trendOf(points: readonly TrendPoint[]): Trend {
  const sorted = [...points].sort((a, b) => a.day - b.day);
  if (new Set(sorted.map((point) => point.day)).size < 4) throw new Problem("missing", words.trendNeedsFour);
  const exact = sorted.every((point) => point.low === point.high);
  const most = exact ? MOST_POINTS : MOST_OVERLAPPING;
  if (sorted.length > most) throw new Problem("value", words.trendTooLong(most));
  const s = signSum(sorted, 0);
  const variance = signVariance(sorted);
  const spread = Z_95 * Math.sqrt(variance);
  const [slopePerDay, low, high] = exact ? exactSlopes(sorted, spread) : overlappingSlopes(sorted, spread);
  const middle = (point: TrendPoint): number => (point.low + point.high) / 2;
  return {
    slopePerDay,
    low,
    high,
    intercept: median(sorted.map(middle)) - slopePerDay * median(sorted.map((point) => point.day)),
    s,
    variance,
    z: s === 0 ? 0 : (s - Math.sign(s)) / Math.sqrt(variance),
  };
}

function exactSlopes(points: readonly TrendPoint[], spread: number): [number, number, number] {
  const slopes: number[] = [];
  points.forEach((a, place) => {
    for (const b of points.slice(place + 1)) if (b.day > a.day) slopes.push((b.low - a.low) / (b.day - a.day));
  });
  slopes.sort((a, b) => a - b);
  const n = slopes.length;
  return [median(slopes), atRank(slopes, (n - spread) / 2), atRank(slopes, (n + spread) / 2 + 1)];
}

/** The value at a rank counted from 1, linear between neighbours, held to the ends. */
function atRank(sorted: readonly number[], rank: number): number {
  const held = Math.min(Math.max(rank, 1), sorted.length) - 1;
  const below = Math.floor(held);
  const low = sorted[below] ?? NaN;
  return low + ((sorted[below + 1] ?? low) - low) * (held - below);
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length >> 1;
  const upper = sorted[half] ?? NaN;
  return sorted.length % 2 === 1 ? upper : ((sorted[half - 1] ?? NaN) + upper) / 2;
}

/** Pairs that rise less pairs that fall once the slope is taken off; limits that overlap are a tie. Falls as the slope grows. */
function signSum(points: readonly TrendPoint[], slope: number): number {
  let sum = 0;
  for (let i = 0; i < points.length; i += 1) {
    const a = points[i] as TrendPoint;
    for (let j = i + 1; j < points.length; j += 1) {
      const b = points[j] as TrendPoint;
      const off = slope * (b.day - a.day);
      if (b.day === a.day) continue;
      if (b.low - off > a.high) sum += 1;
      else if (b.high - off < a.low) sum -= 1;
    }
  }
  return sum;
}

/** Var S = [n(n-1)(2n+5) - sum of t(t-1)(2t+5) over ties] / 18. Readings below one detection limit are ties of each other. */
function signVariance(points: readonly TrendPoint[]): number {
  const n = points.length;
  const term = (t: number): number => t * (t - 1) * (2 * t + 5);
  const ties = (key: (point: TrendPoint) => string): number => {
    const counts = new Map<string, number>();
    for (const point of points) counts.set(key(point), (counts.get(key(point)) ?? 0) + 1);
    return [...counts.values()].reduce((sum, count) => sum + term(count), 0);
  };
  return (term(n) - ties((point) => `${point.low} ${point.high}`)) / 18;
}

/** Where the sign sum passes 0 and the two limits, by halving; a flat stretch gives its middle. */
function overlappingSlopes(points: readonly TrendPoint[], spread: number): [number, number, number] {
  const steepest = points.reduce((most, a) => points.reduce((so, b) => (b.day === a.day ? so : Math.max(so, Math.abs((b.high - a.low) / (b.day - a.day)))), most), 0) + 1;
  const crossing = (level: number, side: "above" | "below"): number => {
    let [low, high] = [-steepest, steepest];
    for (let step = 0; step < 60; step += 1) {
      const middle = (low + high) / 2;
      const sum = signSum(points, middle);
      if (side === "above" ? sum > level : sum >= level) low = middle;
      else high = middle;
    }
    return (low + high) / 2;
  };
  const at = (level: number): number => (crossing(level, "above") + crossing(level, "below")) / 2;
  return [at(0), at(spread), at(-spread)];
}
