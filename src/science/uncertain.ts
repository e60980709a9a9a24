import type { Random } from "./seeded";

/** How the truth is spread between the limits (JCGM 101:2008, section 6.4). */
export type Shape = "exact" | "rectangular" | "triangular";

/** A quantity with its limits: best value, lowest, highest and standard uncertainty, all in the quantity's own unit. */
export interface Uncertain {
  readonly value: number;
  readonly low: number;
  readonly high: number;
  readonly u: number;
  readonly shape: Shape;
}

export const exact = (value: number): Uncertain => ({ value, low: value, high: value, u: 0, shape: "exact" });

/** Nothing known but the limits: the best value is the middle, u = width / sqrt 12 (JCGM 100:2008, 4.3.7 and 4.3.8). */
export function rectangular(low: number, high: number): Uncertain {
  if (low === high) return exact(low);
  return { value: (low + high) / 2, low, high, u: (high - low) / Math.sqrt(12), shape: "rectangular" };
}

/** A likely value inside limits: u of a triangular spread with its top at the value (JCGM 100:2008, 4.3.9, for unequal sides). */
export function triangular({ low, value, high }: { low: number; value: number; high: number }): Uncertain {
  if (low === high) return exact(value);
  // The three sides squared: the same sum multiplied out loses all digits, and its sign, where limits nearly touch.
  const spread = (value - low) ** 2 + (high - value) ** 2 + (high - low) ** 2;
  return { value, low, high, u: Math.sqrt(spread / 36), shape: "triangular" };
}

/** The expectation of the spread: the value itself, but off it where the limits are lop-sided. */
export const expectation = ({ shape, low, value, high }: Uncertain): number => (shape === "triangular" ? (low + value + high) / 3 : value);

/** A value known to plus or minus a share of itself, the truth anywhere between. */
export const withinShare = (value: number, share: number): Uncertain => rectangular(value * (1 - share), value * (1 + share));

/** One random draw of the quantity. */
export function draw(quantity: Uncertain, random: Random): number {
  const { low, value, high, shape } = quantity;
  if (shape === "exact") return value;
  const p = random();
  if (shape === "rectangular") return low + p * (high - low);
  const width = high - low;
  const top = (value - low) / width;
  return p < top ? low + Math.sqrt(p * width * (value - low)) : high - Math.sqrt((1 - p) * width * (high - value));
}
