import { forecast as words } from "../../words/forecast";
import { Problem } from "../problem";

/** The slopes of the state at a time, written into `slopes`. */
export type Slopes = (t: number, state: Float64Array, slopes: Float64Array) => void;

const C = [0, 1 / 5, 3 / 10, 4 / 5, 8 / 9, 1, 1];
const A = [
  [],
  [1 / 5],
  [3 / 40, 9 / 40],
  [44 / 45, -56 / 15, 32 / 9],
  [19372 / 6561, -25360 / 2187, 64448 / 6561, -212 / 729],
  [9017 / 3168, -355 / 33, 46732 / 5247, 49 / 176, -5103 / 18656],
  [35 / 384, 0, 500 / 1113, 125 / 192, -2187 / 6784, 11 / 84],
];
/** Difference of the fifth and the fourth order: the estimate of the error. */
const E = [71 / 57600, 0, -71 / 16695, 71 / 1920, -17253 / 339200, 22 / 525, -1 / 40];

const MOST_STEPS = 200_000;

/**
 * Integrates a state from one time to another, in place: the explicit Runge-Kutta pair of Dormand and Prince of orders
 * 5 and 4 with a step held by its error (Hairer, Norsett & Wanner 1993, II.4 and II.5). Written here rather than taken
 * from a library because the one at hand has no types and no events, and this is the whole of it.
 * `relative`, `absolute`: tolerances a step; the absolute one in the unit of the state. `firstStep`: where to begin.
 * @returns the step that it would take next, for the stretch that follows
 * @throws Problem where the state changes too fast to be followed
 */
export function integrate(slopes: Slopes, state: Float64Array, from: number, to: number, relative: number, absolute: number, firstStep = 0.1): number {
  const n = state.length;
  const stages = A.map(() => new Float64Array(n));
  const [trial, first] = [new Float64Array(n), stages[0] as Float64Array];
  let t = from;
  let step = firstStep;
  if (to <= from) return step;
  slopes(t, state, first);
  for (let count = 0; t < to; count += 1) {
    if (count > MOST_STEPS || !(step > 0)) throw new Problem("number", words.noEnd);
    const size = Math.min(step, to - t);
    for (let stage = 1; stage < A.length; stage += 1) {
      const weights = A[stage] as number[];
      trial.set(state);
      for (let before = 0; before < stage; before += 1) {
        const weight = size * (weights[before] as number);
        const at = stages[before] as Float64Array;
        if (weight !== 0) for (let i = 0; i < n; i += 1) trial[i] = (trial[i] as number) + weight * (at[i] as number);
      }
      slopes(t + (C[stage] ?? 0) * size, trial, stages[stage] as Float64Array);
    }
    let error = 0;
    for (let i = 0; i < n; i += 1) {
      let off = 0;
      for (let stage = 0; stage < E.length; stage += 1) off += (E[stage] as number) * ((stages[stage] as Float64Array)[i] as number);
      const allowed = absolute + relative * Math.max(Math.abs(state[i] as number), Math.abs(trial[i] as number));
      error = Math.max(error, Math.abs(size * off) / allowed);
    }
    if (error <= 1) {
      t = size === to - t ? to : t + size;
      state.set(trial);
      // The last stage of this step is the first of the next.
      first.set(stages[6] as Float64Array);
    }
    const wanted = size * Math.min(5, Math.max(0.2, 0.9 * Math.max(error, 1e-10) ** -0.2));
    // A step cut short by the end of the stretch says little about the next one.
    step = error <= 1 && size < step ? Math.max(step, wanted) : wanted;
  }
  return step;
}
