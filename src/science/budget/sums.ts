import type { Uncertain } from "../uncertain";

/** A quantity times an exact factor. */
export function scaled({ value, low, high, u, shape }: Uncertain, factor: number): Uncertain {
  return { value: value * factor, low: low * factor, high: high * factor, u: u * factor, shape };
}

/** The harvests of one screen share its dry fraction, so their limits add. */
export function sumOf(parts: readonly Uncertain[]): Uncertain {
  const total = (of: (part: Uncertain) => number): number => parts.reduce((sum, part) => sum + of(part), 0);
  return { value: total((part) => part.value), low: total((part) => part.low), high: total((part) => part.high), u: total((part) => part.u), shape: parts[0]?.shape ?? "exact" };
}
