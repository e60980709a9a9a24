import type { Nutrient } from "../nutrient-forms";
import { integrate } from "./integrate";

type Both = Readonly<Record<Nutrient, number>>;

/** Something that happens at one moment, days from the start. On one day a harvest comes before a change. */
export type ForecastEvent =
  | { readonly day: number; readonly kind: "harvest" }
  /** Share of the water replaced. */
  | { readonly day: number; readonly kind: "change"; readonly share: number }
  /** From this day on, the load and the uptake are this many times what they were at the start. */
  | { readonly day: number; readonly kind: "feed"; readonly factor: number }
  | { readonly day: number; readonly kind: "light"; readonly factor: number };

/** How strongly the screen takes up: 1 is `uptakeMost`. Known beforehand from the days of the harvests. */
export interface Crop {
  /** Factor `days` after the harvest, from what the harvest before left. */
  readonly factor: (days: number, left: number) => number;
  /** What a harvest leaves, from the factor at that moment. */
  readonly leaves: (factor: number) => number;
  readonly atStart: number;
}

/** A screen whose uptake does not change with its crop. */
export const STEADY_CROP: Crop = { factor: () => 1, leaves: () => 1, atStart: 1 };

/** A tank to look ahead in. Concentrations in mg of the element per litre, loads and uptake in mg of the element a day. */
export interface ForecastCase {
  readonly volumeL: number;
  readonly start: Both;
  readonly load: Both;
  /** Uptake where nothing is scarce; its two figures are in the ratio of the tissue. Zero for a nutrient that plays no part. */
  readonly uptakeMost: Both;
  readonly halfSaturation: Both;
  /** Water exchanged all the time, share a day, and what the new water carries. */
  readonly exchangePerDay: number;
  readonly incoming: Both;
  readonly crop: Crop;
  readonly events: readonly ForecastEvent[];
}

/** The water at one moment, just after whatever happens then, and what went where since the start (mg of the element). */
export interface ForecastPoint {
  readonly day: number;
  readonly reading: Both;
  readonly takenUp: Both;
  /** Net of what the new water brought. */
  readonly changedOut: Both;
  readonly loaded: Both;
}

const NUTRIENTS: readonly Nutrient[] = ["N", "P"];
const ORDER: Readonly<Record<ForecastEvent["kind"], number>> = { harvest: 0, change: 1, feed: 2, light: 3 };
/** Tight enough for the published fixtures; a spread of many draws can do with less. */
export const FINE = { relative: 1e-10, absolute: 1e-11 };
export const COARSE = { relative: 1e-5, absolute: 1e-7 };

/**
 * Nitrogen and phosphorus ahead: dC/dt = (load - uptake) / V - r (C - Cin), uptake = most x crop x min over N and P of
 * C / (K + C), so that the scarcer nutrient holds back both (Liebig's law of the minimum; Michaelis & Menten 1913).
 * `days`: the moments wanted, rising, from 0.
 */
export function forecast(one: ForecastCase, days: readonly number[], tolerance = FINE): ForecastPoint[] {
  const events = one.events.filter((event) => event.day >= 0).sort((a, b) => a.day - b.day || ORDER[a.kind] - ORDER[b.kind]);
  // Readings, uptake so far, changed out so far, load so far: each N, P.
  const state = new Float64Array([one.start.N, one.start.P, 0, 0, 0, 0, 0, 0]);
  let [harvestDay, left, feed, light] = [0, one.crop.atStart, 1, 1];
  const { volumeL, load, uptakeMost, exchangePerDay, incoming, crop } = one;
  // Written out for both nutrients: this is called some hundred thousand times for a spread.
  const slopes = (t: number, at: Float64Array, into: Float64Array): void => {
    const [n, p] = [at[0] as number, at[1] as number];
    const held = light * crop.factor(t - harvestDay, left) * scarcity(one, n, p);
    const [uptakeN, uptakeP] = [uptakeMost.N * held, uptakeMost.P * held];
    const [exchangedN, exchangedP] = [exchangePerDay * (n - incoming.N), exchangePerDay * (p - incoming.P)];
    into[0] = (load.N * feed - uptakeN) / volumeL - exchangedN;
    into[1] = (load.P * feed - uptakeP) / volumeL - exchangedP;
    into[2] = uptakeN;
    into[3] = uptakeP;
    into[4] = exchangedN * volumeL;
    into[5] = exchangedP * volumeL;
    into[6] = load.N * feed;
    into[7] = load.P * feed;
  };
  let [t, next, step] = [0, 0, 0.1];
  const happen = (event: ForecastEvent): void => {
    switch (event.kind) {
      case "feed":
        feed = event.factor;
        return;
      case "light":
        light = event.factor;
        return;
      case "harvest":
        left = one.crop.leaves(one.crop.factor(event.day - harvestDay, left));
        harvestDay = event.day;
        return;
      case "change":
        NUTRIENTS.forEach((nutrient, place) => {
          const moved = event.share * ((state[place] ?? 0) - one.incoming[nutrient]);
          state[place] = (state[place] ?? 0) - moved;
          state[place + 4] = (state[place + 4] ?? 0) + moved * one.volumeL;
        });
    }
  };
  return days.map((day): ForecastPoint => {
    for (let event = events[next]; event && event.day <= day; event = events[next]) {
      step = integrate(slopes, state, t, event.day, tolerance.relative, tolerance.absolute, step);
      t = event.day;
      happen(event);
      next += 1;
    }
    step = integrate(slopes, state, t, day, tolerance.relative, tolerance.absolute, step);
    t = day;
    const pair = (place: number): Both => ({ N: state[place] ?? NaN, P: state[place + 1] ?? NaN });
    return { day, reading: pair(0), takenUp: pair(2), changedOut: pair(4), loaded: pair(6) };
  });
}

/** How far the scarcer nutrient holds growth back, 0 to 1. A nutrient that the screen does not take up holds nothing back. */
function scarcity({ uptakeMost, halfSaturation }: ForecastCase, n: number, p: number): number {
  // The arithmetic may come out a hair below nothing.
  const byN = uptakeMost.N > 0 ? Math.max(0, n) / (halfSaturation.N + Math.max(0, n)) : 1;
  const byP = uptakeMost.P > 0 ? Math.max(0, p) / (halfSaturation.P + Math.max(0, p)) : 1;
  return Math.min(byN, byP);
}
