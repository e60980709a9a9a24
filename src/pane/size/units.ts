/** The two systems of units that the screen can show; light, concentrations and grams of N and P are the same in both. */
export type Units = "metric" | "us";

/** What a figure measures, where that depends on the units. */
export type Dimension = "volume" | "mass" | "temperature" | "length" | "none";

const LITRES_PER_GALLON = 3.785411784;
const GRAMS_PER_OUNCE = 28.349523125;
const CM_PER_INCH = 2.54;
const M2_PER_SQUARE_FOOT = 0.09290304;

/** How many of the metric unit one US unit is: litres, grams, centimetres (exact by definition). */
const FACTOR = { volume: LITRES_PER_GALLON, mass: GRAMS_PER_OUNCE, length: CM_PER_INCH } as const;

export function toMetric(value: number, dimension: Dimension, units: Units): number {
  if (units === "metric" || dimension === "none") return value;
  return dimension === "temperature" ? ((value - 32) * 5) / 9 : value * FACTOR[dimension];
}

export function fromMetric(value: number, dimension: Dimension, units: Units): number {
  if (units === "metric" || dimension === "none") return value;
  return dimension === "temperature" ? (value * 9) / 5 + 32 : value / FACTOR[dimension];
}

/** A number as a person writes it: so many significant digits, no power of ten, no zeros behind. */
export function plain(value: number, digits: number): string {
  const rounded = Number(value.toPrecision(digits));
  const decimals = rounded === 0 ? 0 : Math.max(0, digits - 1 - Math.floor(Math.log10(Math.abs(rounded))));
  return Number(rounded.toFixed(Math.min(20, decimals))).toLocaleString("en", { maximumFractionDigits: 20, useGrouping: false });
}

/** The unit in which areas up to this one are told so that the figures are short: m2 or cm2, ft2 or in2. */
export function areaUnit(largestM2: number, units: Units): { readonly name: "m2" | "cm2" | "ft2" | "in2"; readonly perM2: number } {
  if (units === "metric") return largestM2 < 0.1 ? { name: "cm2", perM2: 10_000 } : { name: "m2", perM2: 1 };
  const feet = 1 / M2_PER_SQUARE_FOOT;
  return largestM2 * feet < 1 ? { name: "in2", perM2: 144 * feet } : { name: "ft2", perM2: feet };
}
