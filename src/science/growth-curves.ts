import type { Curve } from "./fit";

/** The two usual curves of regrowth. Parameters of both: the most that the screen holds K, the stubble B0 (g dry m-2), the rate (1/d). */
export const CURVE_NAMES = ["logistic", "gompertz"] as const;
export type CurveName = (typeof CURVE_NAMES)[number];

export interface GrowthCurve {
  /** Standing crop `days` after a harvest, and its slopes in K, B0 and the rate. */
  readonly standing: Curve;
  /** Growth at that moment, g dry m-2 d-1. */
  readonly growth: (days: number, parameters: readonly number[]) => number;
  /** Days from the harvest to the fastest growth; below zero when the stubble is past it already. */
  readonly inflectionDays: (parameters: readonly number[]) => number;
}

/**
 * Logistic (Verhulst): B = K / (1 + (K/B0 - 1) e^(-r t)), fastest r K/4 at K/2.
 * Gompertz: B = K exp(ln(B0/K) e^(-a t)), fastest a K/e at K/e.
 */
export const GROWTH_CURVES: Readonly<Record<CurveName, GrowthCurve>> = {
  logistic: {
    standing: {
      value: (days, [most = NaN, stubble = NaN, rate = NaN]) => (most * stubble) / (stubble + (most - stubble) * Math.exp(-rate * days)),
      slopes: (days, [most = NaN, stubble = NaN, rate = NaN]) => {
        const left = Math.exp(-rate * days);
        const below = stubble + (most - stubble) * left;
        return [(stubble / below) ** 2 * (1 - left), (most / below) ** 2 * left, (most * stubble * (most - stubble) * days * left) / below ** 2];
      },
    },
    growth: (days, parameters) => {
      const [most = NaN, , rate = NaN] = parameters;
      const standing = GROWTH_CURVES.logistic.standing.value(days, parameters);
      return rate * standing * (1 - standing / most);
    },
    inflectionDays: ([most = NaN, stubble = NaN, rate = NaN]) => Math.log(most / stubble - 1) / rate,
  },
  gompertz: {
    standing: {
      value: (days, [most = NaN, stubble = NaN, rate = NaN]) => most * Math.exp(Math.log(stubble / most) * Math.exp(-rate * days)),
      slopes: (days, parameters) => {
        const [most = NaN, stubble = NaN, rate = NaN] = parameters;
        const left = Math.exp(-rate * days);
        const standing = GROWTH_CURVES.gompertz.standing.value(days, parameters);
        return [(standing / most) * (1 - left), (standing / stubble) * left, -standing * Math.log(stubble / most) * days * left];
      },
    },
    growth: (days, parameters) => {
      const [most = NaN, , rate = NaN] = parameters;
      const standing = GROWTH_CURVES.gompertz.standing.value(days, parameters);
      return rate * standing * Math.log(most / standing);
    },
    inflectionDays: ([most = NaN, stubble = NaN, rate = NaN]) => Math.log(Math.log(most / stubble)) / rate,
  },
};

/** What a harvest after `days` takes: what stands less the stubble that it leaves, and its slopes in K, B0 and the rate. */
export function harvestCurve(name: CurveName): Curve {
  const { value, slopes } = GROWTH_CURVES[name].standing;
  return {
    value: (days, parameters) => value(days, parameters) - (parameters[1] ?? NaN),
    slopes: (days, parameters) => slopes(days, parameters).map((slope, place) => (place === 1 ? slope - 1 : slope)),
  };
}
