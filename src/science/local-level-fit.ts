import { trend as words } from "../words/trend";
import { levelLikelihood, type LevelReading, type LevelVariances } from "./local-level";
import { Problem } from "./problem";

export interface LevelFit extends LevelVariances {
  readonly logLikelihood: number;
}

const MOST_READINGS = 3000;
const LEAST_DAYS = 4;
/** Shares of the usual variance that a first look tries; less than the least of them is nothing. */
const NET = Array.from({ length: 8 }, (_, step) => Math.log(10) * (step - 5.5));
const LEAST_LOG = Math.log(1e-7);
const STEP = 0.003;

type Free = readonly ("scatter" | "perDay")[];

/**
 * Variances of a local-level model by maximum likelihood, with an exact diffuse start. Where nothing of a variance is needed
 * to explain the readings it is 0; both of them only where every reading has a variance of its own.
 * A level whose limits take them as known is too sure of itself where the readings are few: see level-range.
 * @throws Problem "missing" with readings on fewer than four days, "value" with more than 3,000
 * @source Durbin & Koopman 2012, section 2.10
 */
export function fitLevelVariances(readings: readonly LevelReading[]): LevelFit {
  if (new Set(readings.map(({ day }) => day)).size < LEAST_DAYS) throw new Problem("missing", words.levelNeedsFour);
  if (readings.every(({ kind }) => kind !== "value")) throw new Problem("missing", words.noneShown);
  if (readings.length > MOST_READINGS) throw new Problem("value", words.levelTooLong(MOST_READINGS));
  const unit = usualVariances(readings);
  const at = (free: Free, logs: readonly number[]): LevelVariances => {
    const part = (name: "scatter" | "perDay"): number => (free.includes(name) ? unit[name] * Math.exp(logs[free.indexOf(name)] ?? NaN) : 0);
    return { scatter: part("scatter"), perDay: part("perDay") };
  };
  const top = (free: Free): LevelFit | null => {
    const logs = climb((point) => levelLikelihood(readings, at(free, point)), free.length);
    if (!logs) return null;
    const variances = at(free, logs);
    return { ...variances, logLikelihood: levelLikelihood(readings, variances) };
  };
  const own = readings.every(({ kind, variance }) => kind !== "value" || variance > 0);
  const ways: Free[] = own ? [[], ["perDay"], ["scatter"], ["scatter", "perDay"]] : [["perDay"], ["scatter"], ["scatter", "perDay"]];
  const fits = ways.map(top).filter((fit): fit is LevelFit => fit !== null && Number.isFinite(fit.logLikelihood));
  // A larger model must be better by more than the last digits.
  const best = fits.reduce<LevelFit | null>((so, fit) => (so && fit.logLikelihood <= so.logLikelihood + 1e-9 ? so : fit), null);
  if (!best) throw new Problem("number", words.notSettled);
  return best;
}

/** The size of the variances: half of the mean square of the steps from value to value, and its like a day. */
export function usualVariances(readings: readonly LevelReading[]): LevelVariances {
  const values = readings.filter(({ kind }) => kind === "value");
  const steps = values.slice(1).map((reading, place) => reading.value - (values[place]?.value ?? NaN));
  const own = values.reduce((sum, { variance }) => sum + variance, 0) / values.length;
  const scatter = Math.max(steps.reduce((sum, step) => sum + step * step, 0) / (2 * Math.max(1, steps.length)), own);
  if (!(scatter > 0)) throw new Problem("missing", words.allTheSame);
  const days = (readings[readings.length - 1]?.day ?? NaN) - (readings[0]?.day ?? NaN);
  return { scatter, perDay: (scatter * readings.length) / days };
}

/** The highest point of a function of up to two logarithms: the best of a net, then Newton's steps; null when it runs out of the net at the bottom. */
function climb(height: (point: readonly number[]) => number, dimensions: number): readonly number[] | null {
  if (dimensions === 0) return [];
  const net = dimensions === 1 ? NET.map((x) => [x]) : NET.flatMap((x) => NET.map((y) => [x, y]));
  const start = net.map((point) => ({ point, at: height(point) })).reduce((so, one) => (one.at > so.at ? one : so));
  let [point, at] = [start.point as readonly number[], start.at];
  for (let step = 0; step < 100; step += 1) {
    const move = newtonMove(height, point, at);
    let part = 1;
    let next = point;
    let higher = at;
    do {
      next = point.map((x, place) => x + part * (move[place] ?? 0));
      higher = height(next);
      part /= 2;
    } while (!(higher >= at - 1e-12 * Math.abs(at)) && part > 1e-6);
    const moved = Math.max(...next.map((x, place) => Math.abs(x - (point[place] ?? 0))));
    if (higher >= at - 1e-12 * Math.abs(at)) [point, at] = [next, higher];
    if (point.some((x) => x < LEAST_LOG)) return null;
    if (moved < 1e-9) break;
  }
  return point;
}

/** Newton's move from differences of the fourth order, or uphill where the ground is not curved downward; no move is longer than 1. */
function newtonMove(height: (point: readonly number[]) => number, point: readonly number[], at: number): number[] {
  const shifted = (...shifts: number[]): number => height(point.map((x, place) => x + STEP * (shifts[place] ?? 0)));
  const axis = (place: number, by: number): number => shifted(...point.map((_, other) => (other === place ? by : 0)));
  const around = point.map((_, place) => [-2, -1, 1, 2].map((by) => axis(place, by)) as [number, number, number, number]);
  const slope = around.map(([a, b, c, d]) => (a - 8 * b + 8 * c - d) / (12 * STEP));
  const bend = around.map(([a, b, c, d]) => (-a + 16 * b - 30 * at + 16 * c - d) / (12 * STEP * STEP));
  const [sx = 0, sy = 0] = slope;
  const [xx = 0, yy = 0] = bend;
  let move = slope.map((s, place) => ((bend[place] ?? 0) < 0 ? -s / (bend[place] ?? NaN) : Math.sign(s)));
  if (point.length === 2) {
    const xy = (shifted(1, 1) - shifted(1, -1) - shifted(-1, 1) + shifted(-1, -1)) / (4 * STEP * STEP);
    const determinant = xx * yy - xy * xy;
    if (xx < 0 && determinant > 0) move = [-(yy * sx - xy * sy) / determinant, -(xx * sy - xy * sx) / determinant];
  }
  const longest = Math.max(1, ...move.map(Math.abs));
  return move.map((one) => one / longest);
}
