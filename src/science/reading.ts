import { science as words } from "../words/science";
import { BUDGET_DEFAULT } from "./constants/practice";
import { halfLastPlace, numberFromText } from "./number-text";
import { Problem } from "./problem";
import { rectangular } from "./uncertain";

/** What is known of the test: the patches of its colour chart, or the smallest step of its display. */
export type Kit = { readonly patches: readonly number[] } | { readonly step: number };

/** A reading in the unit in which it was written. `high` is Infinity when the kit ran out of scale. */
export interface Reading {
  readonly value: number;
  readonly low: number;
  readonly high: number;
  readonly u: number;
  /** "below" the detection limit, "above" the scale, or "no": the kit showed a value. */
  readonly censored: "no" | "below" | "above";
}

const NOT_DETECTED = new Set(["nd", "n.d.", "n.d", "bdl", "not detected", "none", "below detection", "n/d"]);
const UNIT_BEHIND = /^([<>~]?\s*[\d.,]+(?:\s*-\s*[\d.,]+)?)\s*([a-zµμ%][\wµμ/%.-]*.*)$/i;

/** More than any concentration in any unit: a slip, not a reading. */
const MOST = 1e12;

const between = (low: number, high: number, censored: Reading["censored"]): Reading => {
  const { value, u } = rectangular(low, high);
  return { value, low, high, u, censored };
};
const aboveScale = (low: number): Reading => ({ value: low, low, high: Infinity, u: Infinity, censored: "above" });

/**
 * A test reading as the keeper wrote it: 0.08, 0,08, <0.2, 0, nd, 0.08-0.1, ~0.1, >50.
 *
 * On a colour chart the truth lies half-way to the neighbouring patches, anywhere between them, so the value is the
 * middle of these bounds (JCGM 100:2008, 4.3.8). A lowest patch, a 0 or "nd" is a reading below detection: anything
 * from nothing to half of the first step, never a zero. Without a kit the figure is taken to its last place or to
 * plus or minus 10 %, whichever is wider.
 * @throws Problem when the text is no reading, is negative, or is a zero of a kit whose steps are unknown
 */
export function parseReading(written: number | string, kit?: Kit): Reading {
  if (typeof written === "number") return fromNumber(written, written, kit);
  const text = written.trim().toLowerCase().replace(/[–—−]/g, "-").replace(/\s+/g, " ");
  if (NOT_DETECTED.has(text)) return belowDetection(kit);
  const limit = /^([<>~≤≥])=?\s*(.+)$/.exec(text);
  if (limit) return fromSign(limit[1] ?? "", figure(limit[2] ?? "", written), limit[2] ?? "", kit);
  const range = /^([\d.,]+)\s*(?:-|to|\.\.)\s*([\d.,]+)$/.exec(text);
  if (range) {
    const [low, high] = [figure(range[1] ?? "", written), figure(range[2] ?? "", written)];
    if (low > high) throw new Problem("value", words.readingBackwards(written));
    return low === high ? fromNumber(low, range[1] ?? "", kit) : between(low, high, "no");
  }
  return fromNumber(figure(text, written), text, kit);
}

function figure(text: string, written: string): number {
  const value = numberFromText(text);
  if (value !== null) return value;
  const withUnit = UNIT_BEHIND.exec(text);
  throw new Problem("value", withUnit?.[2] ? words.readingWithUnit(written, withUnit[2]) : words.readingNotUnderstood(written));
}

function fromSign(sign: string, value: number, text: string, kit?: Kit): Reading {
  if (value < 0) throw new Problem("value", words.readingNegative(text));
  if (sign === "<" || sign === "≤") {
    if (value === 0) throw new Problem("value", words.readingNotUnderstood(`${sign}${text}`));
    return between(0, value, "below");
  }
  if (sign === ">" || sign === "≥") return aboveScale(value);
  const near = fromNumber(value, text, kit);
  if (near.censored !== "no") return near;
  // "About": twice as wide as the same figure without the sign.
  const half = near.high - near.low;
  return between(Math.max(0, near.value - half), near.value + half, "no");
}

function fromNumber(value: number, written: number | string, kit?: Kit): Reading {
  if (!Number.isFinite(value)) throw new Problem("value", words.readingNotUnderstood(written));
  if (value < 0) throw new Problem("value", words.readingNegative(written));
  if (value > MOST) throw new Problem("value", words.tooLarge("The reading"));
  if (kit && "patches" in kit) return onChart(value, kit.patches, written);
  if (kit) return value === 0 ? between(0, kit.step / 2, "below") : between(Math.max(0, value - kit.step / 2), value + kit.step / 2, "no");
  if (value === 0) return belowDetection(kit);
  const half = Math.max(halfLastPlace(written), value * BUDGET_DEFAULT.kitShare.value);
  return between(Math.max(0, value - half), value + half, "no");
}

function belowDetection(kit?: Kit): Reading {
  if (!kit) throw new Problem("missing", words.zeroWithoutSteps);
  return "patches" in kit ? onChart(0, kit.patches, 0) : between(0, kit.step / 2, "below");
}

function onChart(value: number, patches: readonly number[], written: number | string): Reading {
  const first = patches[0] ?? 0;
  const last = patches[patches.length - 1] ?? 0;
  if (value > last) throw new Problem("value", words.offTheChart(written, last));
  // Paler than a first patch that is not zero: all that is known is that it is less than that patch.
  if (value < first) return between(0, first, "below");
  const above = patches.find((patch) => patch > value);
  const below = patches.reduce<number | null>((best, patch) => (patch < value ? patch : best), null);
  if (below === null) return between(0, (value + (above ?? value)) / 2, "below");
  // The last patch has no neighbour above it: half of the last step is taken on both sides.
  const high = above === undefined ? value + (value - below) / 2 : (value + above) / 2;
  return between((below + value) / 2, high, "no");
}

/** Several readings of one moment: their mean, with limits as wide as the widest of them and wide enough to hold each value. */
export function meanReading(readings: readonly Reading[]): Reading {
  const above = readings.find((reading) => reading.censored === "above");
  if (above) return above;
  const mean = readings.reduce((sum, reading) => sum + reading.value, 0) / readings.length;
  const half = Math.max(...readings.map((reading) => Math.max((reading.high - reading.low) / 2, Math.abs(reading.value - mean))));
  return between(Math.max(0, mean - half), mean + half, readings.every((reading) => reading.censored === "below") ? "below" : "no");
}

/** The kit's steps as a keeper gives them: one number (a meter's step) or the patches in rising order, from cells or one text such as "0 5 10 20". */
export function parseKit(cells: readonly (number | string)[]): Kit {
  const figures = cells.flatMap((cell) => {
    if (typeof cell === "number") return [cell];
    return cell.split(/[;/|\s]+|,\s+/).filter((part) => part !== "").map((part) => {
      const value = numberFromText(part);
      if (value === null) throw new Problem("value", words.stepsNotUnderstood(cell));
      return value;
    });
  });
  if (figures.length === 0 || figures.some((figure) => !(figure >= 0 && figure <= MOST))) throw new Problem("value", words.stepsNotUnderstood(cells.join(" ")));
  if (figures.length === 1) {
    const step = figures[0] ?? 0;
    if (step <= 0) throw new Problem("value", words.stepsNotUnderstood(cells.join(" ")));
    return { step };
  }
  if (figures.some((figure, place) => place > 0 && figure <= (figures[place - 1] ?? 0))) throw new Problem("value", words.stepsNotRising);
  return { patches: figures };
}
