import { fitLevelVariances, usualVariances } from "./local-level-fit";
import { levelLikelihood, levelOn, type Level, type LevelReading, type LevelVariances } from "./local-level";
import { normalDistribution, normalQuantile } from "./normal";

/** Level and 95 % limits, in the unit of the readings; all above zero. */
export interface LevelRange {
  readonly middle: number;
  readonly low: number;
  readonly high: number;
  /** Days from the last reading to the day asked for; 0 for a day up to the last reading. */
  readonly daysAhead: number;
  /** Whether the likeliest course has any wandering, or scatter on top of the readings' own uncertainty. */
  readonly moved: boolean;
}

/** How many standard deviations of each kind are tried, up to how many times the usual one. */
const TRIED = 14;
const MOST_TIMES = 5;

/**
 * Where the water is on a day, by the local-level filter with all readings; for a day after the last reading, where a test will read.
 * The level is that of the likeliest variances. From few readings these are poorly known, and limits that take them as known hold
 * far less than 95 % (in simulated tanks with 6 to 12 readings about 75 %): so the limits are those of the average over all pairs of
 * standard deviations, each weighted with its likelihood (flat prior on a standard deviation, Gelman 2006, Bayesian Anal. 1:515).
 * A concentration is not below zero, so every distribution is cut off there.
 * @param readings in the order of their days
 * @throws Problem with readings on fewer than four days, or none that shows a value
 */
export function levelRange(readings: readonly LevelReading[], day: number): LevelRange {
  const likeliest = fitLevelVariances(readings);
  const daysAhead = Math.max(0, day - (readings[readings.length - 1]?.day ?? day));
  const own = readings.filter(({ kind }) => kind === "value").pop()?.variance ?? 0;
  const on = (variances: LevelVariances): Level => {
    const level = levelOn(day, readings, variances);
    return daysAhead > 0 ? { mean: level.mean, variance: level.variance + variances.scatter + own } : level;
  };
  const middle = cutQuantile(on(likeliest), 0.5);
  const parts = weighted(readings, likeliest.logLikelihood).map(({ variances, weight }): Part => ({ ...on(variances), weight }));
  return {
    middle,
    low: Math.min(middle, quantile(parts, 0.025)),
    high: Math.max(middle, quantile(parts, 0.975)),
    daysAhead,
    moved: likeliest.scatter > 0 || likeliest.perDay > 0,
  };
}

/** Pairs of variances with their likelihood against the highest. The standard deviations stand closer together towards zero. */
function weighted(readings: readonly LevelReading[], highest: number): { variances: LevelVariances; weight: number }[] {
  const unit = usualVariances(readings);
  const tried = Array.from({ length: TRIED }, (_, place) => {
    const t = (place + 0.5) / TRIED;
    return { variance: (MOST_TIMES * t * t) ** 2, width: t };
  });
  const pairs = tried.flatMap((one) => tried.map((other) => ({
    variances: { scatter: unit.scatter * one.variance, perDay: unit.perDay * other.variance },
    width: one.width * other.width,
  })));
  const all = pairs.map(({ variances, width }) => ({ variances, weight: width * Math.exp(levelLikelihood(readings, variances) - highest) }));
  const heaviest = Math.max(...all.map(({ weight }) => weight));
  return all.filter(({ weight }) => weight > 1e-4 * heaviest);
}

interface Part extends Level {
  readonly weight: number;
}

/** The p quantile of a mixture of normal distributions cut off at zero, by halving between the quantiles of its parts. */
function quantile(parts: readonly Part[], p: number): number {
  const all = parts.reduce((sum, { weight }) => sum + weight, 0);
  const cut = parts.map(({ mean, variance, weight }) => ({ mean, sd: Math.sqrt(variance), share: weight / all / normalDistribution(mean / Math.sqrt(variance)) }));
  const below = (x: number): number => 1 - cut.reduce((sum, { mean, sd, share }) => sum + share * normalDistribution((mean - x) / sd), 0);
  const ends = parts.map((part) => cutQuantile(part, p));
  let [low, high] = [Math.min(...ends), Math.max(...ends)];
  for (let step = 0; step < 60 && high - low > 1e-7 * high; step += 1) {
    const middle = (low + high) / 2;
    if (below(middle) < p) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** The p quantile of a normal number of which is known that it is above zero. */
function cutQuantile({ mean, variance }: Level, p: number): number {
  const sd = Math.sqrt(variance);
  return Math.max(0, mean - sd * normalQuantile((1 - p) * normalDistribution(mean / sd)));
}
