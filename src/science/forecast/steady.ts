import type { Nutrient } from "../nutrient-forms";
import type { ForecastCase } from "./model";

/**
 * Where the reading of one nutrient settles: the positive root of (L - U C / (K + C)) / V = r (C - Cin).
 * Load and uptake in mg a day, volume in L, K and Cin in mg/L, r a day. Infinity: it rises without limit, because the
 * load is more than the screen takes up and no water is changed. NaN: nothing comes in or goes out, so it stays as it is.
 */
export function steadyReading(loadMgPerDay: number, uptakeMgPerDay: number, halfSaturation: number, exchangeLPerDay: number, incoming: number): number {
  if (exchangeLPerDay === 0) {
    if (loadMgPerDay === 0) return uptakeMgPerDay > 0 ? 0 : NaN;
    return uptakeMgPerDay > loadMgPerDay ? (halfSaturation * loadMgPerDay) / (uptakeMgPerDay - loadMgPerDay) : Infinity;
  }
  const a = exchangeLPerDay;
  const b = uptakeMgPerDay + exchangeLPerDay * (halfSaturation - incoming) - loadMgPerDay;
  const c = -halfSaturation * (loadMgPerDay + exchangeLPerDay * incoming);
  const root = Math.sqrt(b * b - 4 * a * c);
  // The form without a difference of nearly equal numbers.
  return b > 0 ? (-2 * c) / (b + root) : (root - b) / (2 * a);
}

/**
 * The steady exchange that holds a reading at the same mean as a change of `share` every `everyDays`: with a rise d from
 * change to change the reading goes from Cin + d (1 - f) / f to Cin + d / f, mean Cin + d (1 / f - 1 / 2).
 */
export const exchangePerDay = (share: number, everyDays: number): number => share / (everyDays * (1 - share / 2));

/**
 * Where both nutrients settle, the scarcer holding back the other: the one s at which the scarcity that the readings
 * make is the scarcity that makes the readings. Infinity where one rises without limit. Harvests and changes as events
 * do not count: give the mean uptake, and the exchange of `exchangePerDay`.
 */
export function steadyBoth(one: ForecastCase): Record<Nutrient, number> {
  const exchange = one.exchangePerDay * one.volumeL;
  const { N, P } = one.uptakeMost;
  if (N <= 0 || P <= 0 || exchange === 0) return steadyUnchanged(one, exchange);
  const at = (nutrient: Nutrient, s: number): number => Math.max(0, one.incoming[nutrient] + (one.load[nutrient] - one.uptakeMost[nutrient] * s) / exchange);
  const made = (s: number): number => Math.min(...(["N", "P"] as const).map((nutrient) => at(nutrient, s) / (one.halfSaturation[nutrient] + at(nutrient, s))));
  let [low, high] = [0, 1];
  for (let step = 0; step < 100; step += 1) {
    const middle = (low + high) / 2;
    if (made(middle) > middle) low = middle;
    else high = middle;
  }
  const s = (low + high) / 2;
  // The scarcer one stands where it makes this scarcity; from the balance it would be a small difference of large numbers.
  const scarce = (nutrient: Nutrient): number => (one.halfSaturation[nutrient] * s) / (1 - s);
  const holds = at("N", s) / (one.halfSaturation.N + at("N", s)) <= at("P", s) / (one.halfSaturation.P + at("P", s)) ? "N" : "P";
  return { N: holds === "N" ? scarce("N") : at("N", s), P: holds === "P" ? scarce("P") : at("P", s) };
}

/** Without exchange, or with a nutrient that the screen does not take up. */
function steadyUnchanged(one: ForecastCase, exchange: number): Record<Nutrient, number> {
  const alone = (nutrient: Nutrient): number => steadyReading(one.load[nutrient], one.uptakeMost[nutrient], one.halfSaturation[nutrient], exchange, one.incoming[nutrient]);
  if (one.uptakeMost.N <= 0 || one.uptakeMost.P <= 0) return { N: alone("N"), P: alone("P") };
  const strain = { N: one.load.N / one.uptakeMost.N, P: one.load.P / one.uptakeMost.P };
  if (strain.N === strain.P) return { N: alone("N"), P: alone("P") };
  // The one that comes in less for what the algae need is used up to its half-saturation curve; the other is left over.
  const scarce = strain.N < strain.P ? "N" : "P";
  return { N: Infinity, P: Infinity, [scarce]: alone(scarce) };
}
