import { ALGAE } from "./constants/algae";
import { GROWTH_CURVES, harvestCurve, type CurveName } from "./growth-curves";

/** A growth curve with its parameters: K and B0 in g dry m-2, rate in 1/d. */
export interface Regrowth {
  readonly curve: CurveName;
  readonly most: number;
  readonly stubble: number;
  readonly ratePerDay: number;
}

export interface Interval {
  /** Days between harvests at which the mean growth is highest. */
  readonly bestDays: number;
  /** From and to how many days the mean growth is within 5 % of the highest. */
  readonly lowDays: number;
  readonly highDays: number;
  /** Mean growth at the best interval, g dry m-2 d-1. */
  readonly growthGPerM2Day: number;
}

/** Nobody harvests more often than daily, and a stubble that is past its fastest growth would ask for just that. */
export const SHORTEST_DAYS = 1;
export const FLAT_SHARE = 0.05;

/** The curve that is taken when a unit's own cannot be told: judgement, see the constants. */
export const usualRegrowth: Regrowth = {
  curve: "logistic",
  most: ALGAE.standingCropMost.value,
  stubble: ALGAE.standingCropMost.value * ALGAE.stubbleShare.value,
  ratePerDay: ALGAE.regrowthRate.value,
};

/** Harvested dry mass by the days of regrowth, over those days, g dry m-2 d-1. */
export function meanGrowthGPerM2Day(regrowth: Regrowth, days: number): number {
  return harvestCurve(regrowth.curve).value(days, parametersOf(regrowth)) / days;
}

/**
 * The interval between harvests with the highest mean growth (B(T) - B0) / T, and the range about it that is nearly as good.
 * At the highest the line from the harvest touches the curve: T B'(T) = B(T) - B0, which has one root past the fastest growth.
 * @param regrowth needs 0 < stubble < most and a rate above zero
 */
export function harvestInterval(regrowth: Regrowth): Interval {
  const parameters = parametersOf(regrowth);
  const { growth, inflectionDays } = GROWTH_CURVES[regrowth.curve];
  const mean = (days: number): number => meanGrowthGPerM2Day(regrowth, days);
  const fastest = Math.max(0, inflectionDays(parameters) || 0);
  const touches = (days: number): number => growth(days, parameters) - mean(days);
  const bestDays = Math.max(SHORTEST_DAYS, fastest > 0 ? root(touches, fastest, beyond(touches, fastest)) : 0);
  const top = mean(bestDays);
  const below = (days: number): number => mean(days) - (1 - FLAT_SHARE) * top;
  return {
    bestDays,
    lowDays: below(SHORTEST_DAYS) >= 0 ? SHORTEST_DAYS : root((days) => -below(days), SHORTEST_DAYS, bestDays),
    highDays: root(below, bestDays, beyond(below, bestDays)),
    growthGPerM2Day: top,
  };
}

/** The shortest and longest best interval within the limits of the usual curve's rate and stubble, days. */
export function usualIntervalRange(): { readonly lowDays: number; readonly highDays: number } {
  const { regrowthRate: rate, stubbleShare: share } = ALGAE;
  const most = usualRegrowth.most;
  const corners = [rate.low, rate.high].flatMap((ratePerDay) => [share.low, share.high].map((part) => harvestInterval({ ...usualRegrowth, ratePerDay, stubble: most * part }).bestDays));
  return { lowDays: Math.min(...corners), highDays: Math.max(...corners) };
}

const parametersOf = ({ most, stubble, ratePerDay }: Regrowth): readonly number[] => [most, stubble, ratePerDay];

/** The first of the doublings of `from` at which the falling function is below zero. */
function beyond(falling: (days: number) => number, from: number): number {
  let days = from * 2;
  while (falling(days) > 0) days *= 2;
  return days;
}

/** Where a function that falls from above to below zero between the two days crosses it, to the last digits. */
function root(falling: (days: number) => number, above: number, under: number): number {
  let [low, high] = [above, under];
  for (let step = 0; step < 200 && high - low > 1e-12 * high; step += 1) {
    const middle = (low + high) / 2;
    if (falling(middle) > 0) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
