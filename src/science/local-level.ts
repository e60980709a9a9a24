import { trend as words } from "../words/trend";
import { densityOverDistribution, logNormalDistribution } from "./normal";
import { Problem } from "./problem";

/** A reading for the filter: a value, or the limit below or above which it lies ("none": a day without a reading). */
export interface LevelReading {
  readonly day: number;
  readonly value: number;
  /** Variance of this reading alone (u squared of the kit), unit squared; 0 for one below or above a limit. */
  readonly variance: number;
  readonly kind: "value" | "below" | "above" | "none";
}

/** What moves the readings apart: scatter that all readings have on top of their own, and the wandering of the level a day, unit squared. */
export interface LevelVariances {
  readonly scatter: number;
  readonly perDay: number;
}

export interface Level {
  readonly mean: number;
  readonly variance: number;
}

/** One step of the filter: the level expected before the reading (null at an unknown start) and known after it, the reading's error against it. */
export interface FilterStep extends Level {
  readonly day: number;
  readonly expected: Level | null;
  readonly error: number;
  readonly errorVariance: number;
}

export interface Filtered {
  readonly steps: readonly FilterStep[];
  /** Of the readings after the unknown start. */
  readonly logLikelihood: number;
}

/**
 * Local-level filter, y = level + scatter, level = level before + wandering, for readings in the order of their days.
 * The gap in days multiplies the wandering. Without `start` nothing is known before the first reading (exact diffuse start),
 * which must then be a value. A reading beyond a limit counts with its chance Phi((limit - mean) / sd), and the level after
 * it is the normal distribution with the mean and variance of the one cut off there (moment matching).
 * @source Durbin & Koopman 2012, Time Series Analysis by State Space Methods, chapter 2
 */
export function filterLevel(readings: readonly LevelReading[], { scatter, perDay }: LevelVariances, start: Level | null = null): Filtered {
  const steps: FilterStep[] = [];
  let logLikelihood = 0;
  let before: FilterStep | null = null;
  for (const reading of readings) {
    const expected: Level | null = before ? { mean: before.mean, variance: before.variance + perDay * Math.abs(reading.day - before.day) } : start;
    const { level, error, errorVariance, log } = update(expected, reading, scatter);
    logLikelihood += log;
    before = { day: reading.day, expected, ...level, error, errorVariance };
    steps.push(before);
  }
  return { steps, logLikelihood };
}

interface Update {
  readonly level: Level;
  readonly error: number;
  readonly errorVariance: number;
  readonly log: number;
}

function update(expected: Level | null, { value, variance, kind }: LevelReading, scatter: number): Update {
  const noise = scatter + variance;
  if (!expected) {
    if (kind !== "value") throw new Problem("missing", words.noneShown);
    return { level: { mean: value, variance: noise }, error: 0, errorVariance: Infinity, log: 0 };
  }
  if (kind === "none") return { level: expected, error: 0, errorVariance: Infinity, log: 0 };
  const error = value - expected.mean;
  const errorVariance = expected.variance + noise;
  const gain = expected.variance / errorVariance;
  if (kind === "value") {
    const level = { mean: expected.mean + gain * error, variance: gain * noise };
    return { level, error, errorVariance, log: -0.5 * (Math.log(2 * Math.PI * errorVariance) + (error * error) / errorVariance) };
  }
  const side = kind === "below" ? 1 : -1;
  const z = (side * error) / Math.sqrt(errorVariance);
  const push = densityOverDistribution(z);
  const level = { mean: expected.mean - side * gain * Math.sqrt(errorVariance) * push, variance: expected.variance * (1 - gain * push * (push + z)) };
  return { level, error, errorVariance, log: logNormalDistribution(z) };
}

interface Smoothed {
  readonly levels: Level[];
  /** How much of a shift of the first level each level takes over. */
  readonly fromFirst: number[];
}

/** Level at each step given all readings, those after it too (Rauch, Tung & Striebel 1965). */
function smooth(steps: readonly FilterStep[]): Smoothed {
  const levels: Level[] = steps.map(({ mean, variance }) => ({ mean, variance }));
  const shares: number[] = steps.map(() => 1);
  for (let place = steps.length - 2; place >= 0; place -= 1) {
    const [here, later] = [steps[place] as FilterStep, levels[place + 1] as Level];
    const expected = steps[place + 1]?.expected as Level;
    const share = here.variance / expected.variance;
    shares[place] = share;
    levels[place] = { mean: here.mean + share * (later.mean - expected.mean), variance: here.variance + share * share * (later.variance - expected.variance) };
  }
  const first = levels[0]?.variance ?? NaN;
  let path = 1;
  const fromFirst = levels.map(({ variance }, place) => {
    if (place > 0) path *= shares[place - 1] ?? NaN;
    return (path * variance) / first;
  });
  return { levels, fromFirst };
}

/** The levels on the days of all readings, given all of them; and the log likelihood of all but the first value. */
export interface Levels {
  readonly levels: readonly Level[];
  readonly logLikelihood: number;
}

/**
 * Levels of readings in the order of their days, at least one of them a value. The filter starts at the first value; readings
 * beyond a limit that stand before it are then taken back from there, which is the same because a wandering level has no
 * direction in time, and what they tell is handed on to all later days.
 */
export function levelsOf(readings: readonly LevelReading[], variances: LevelVariances): Levels {
  const anchor = firstValue(readings);
  const later = filterLevel(readings.slice(anchor), variances);
  const ahead = smooth(later.steps);
  if (anchor === 0) return { levels: ahead.levels, logLikelihood: later.logLikelihood };
  const start = ahead.levels[0] as Level;
  const back = filterLevel([{ ...(readings[anchor] as LevelReading), kind: "none" }, ...readings.slice(0, anchor).reverse()], variances, start);
  const [anchored, ...earlier] = smooth(back.steps).levels as [Level, ...Level[]];
  const levels = ahead.levels.map(({ mean, variance }, place) => {
    const share = ahead.fromFirst[place] ?? NaN;
    return { mean: mean + share * (anchored.mean - start.mean), variance: variance + share * share * (anchored.variance - start.variance) };
  });
  return { levels: [...earlier.reverse(), ...levels], logLikelihood: later.logLikelihood + back.logLikelihood };
}

/** The log likelihood alone, which needs no look back when the first reading is a value. */
export const levelLikelihood = (readings: readonly LevelReading[], variances: LevelVariances): number =>
  (firstValue(readings) === 0 ? filterLevel(readings, variances) : levelsOf(readings, variances)).logLikelihood;

/** Place of the first reading that is a value. @throws Problem "missing" when there is none */
function firstValue(readings: readonly LevelReading[]): number {
  const place = readings.findIndex(({ kind }) => kind === "value");
  if (place < 0) throw new Problem("missing", words.noneShown);
  return place;
}

/** The level on one day, before, between or after the readings, given all of them. */
export function levelOn(day: number, readings: readonly LevelReading[], variances: LevelVariances): Level {
  const next = readings.findIndex((reading) => reading.day > day);
  const place = next < 0 ? readings.length : next;
  const without: LevelReading = { day, value: NaN, variance: 0, kind: "none" };
  return levelsOf([...readings.slice(0, place), without, ...readings.slice(place)], variances).levels[place] as Level;
}
