/** An axis with numbers on it: where it begins and ends, and its ticks from low to high. */
export interface ValueAxis {
  readonly low: number;
  readonly high: number;
  readonly ticks: readonly number[];
  /** Decimal places that tell the ticks apart. */
  readonly decimals: number;
}

/** Values that fill less than this share of the way up from zero get an axis that does not begin at zero. */
const LEAST_SHARE_FROM_ZERO = 1 / 6;

/** The smallest of 1, 2, 5, 10, 20, ... (and 0.5, 0.2, ...) that needs no more than so many steps for the span. */
export function niceStep(span: number, mostSteps: number): number {
  const rough = span / Math.max(1, mostSteps);
  const power = 10 ** Math.floor(Math.log10(rough));
  const factor = [1, 2, 5].find((one) => one * power >= rough * (1 - 1e-9)) ?? 10;
  return factor * power;
}

/**
 * The axis for values between two of them. It begins and ends on a tick, and at zero when asked for, or when the values fill
 * most of the way up from zero anyhow.
 * @param mostSteps at least 1
 */
export function valueAxis(least: number, most: number, mostSteps: number, fromZero: boolean): ValueAxis {
  const reach = Math.max(Math.abs(least), Math.abs(most));
  const zeroToo = fromZero || (least >= 0 && most - least >= LEAST_SHARE_FROM_ZERO * most) || (most <= 0 && most - least >= LEAST_SHARE_FROM_ZERO * reach);
  let [from, to] = zeroToo ? [Math.min(0, least), Math.max(0, most)] : [least, most];
  // One value alone: an axis that ends above it.
  if (from === to) [from, to] = from === 0 ? [0, 1] : zeroToo ? [Math.min(0, from), Math.max(0, to)] : [from - reach / 10, to + reach / 10];
  const step = niceStep(to - from, mostSteps);
  const [first, last] = [Math.floor(from / step + 1e-9), Math.ceil(to / step - 1e-9)];
  const ticks = Array.from({ length: last - first + 1 }, (_tick, i) => tidy((first + i) * step));
  return { low: tidy(first * step), high: tidy(last * step), ticks, decimals: Math.max(0, -Math.floor(Math.log10(step) + 1e-9)) };
}

export function tickText(tick: number, { decimals }: Pick<ValueAxis, "decimals">): string {
  return Math.abs(tick) >= 1e9 || decimals > 9 ? tick.toExponential(1) : tick.toFixed(decimals);
}

/** Without the dust that adding steps leaves: 0.30000000000000004. */
const tidy = (value: number): number => Number(value.toPrecision(12)) + 0;
