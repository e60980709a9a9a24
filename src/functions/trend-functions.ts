import { trend as words } from "../words/trend";
import { refuseMostlyBelow } from "../science/censored";
import { levelRange } from "../science/level-range";
import type { LevelReading } from "../science/local-level";
import { normalDistribution } from "../science/normal";
import { Problem } from "../science/problem";
import { trendOf, type TrendPoint } from "../science/trend";
import { single, wantsHeadings } from "./arguments";
import { date } from "./dates-argument";
import { datedReadings, type DatedReading } from "./dated-readings";
import type { Answer } from "./lift";
import { kitFrom } from "./reading-functions";

const NO_DAY = -1;
const LEAST_AHEAD_DAYS = 90;
const WEEK_DAYS = 7;
/** The chance above which readings without a trend would look as these do. */
const CHANCE = 0.05;
/** Stands for the open end of a reading above the scale: so many times the highest figure that no slope reaches it. */
const FAR_ABOVE = 1e6;
/** A lower limit this small a share of the upper one is no limit worth a word. */
const NEXT_TO_NOTHING = 0.02;

/**
 * Slope of readings per day with 95 % limits (Theil-Sen, Mann-Kendall), and a sentence. One bad test does not upset it.
 * @customfunction TREND_SLOPE
 * @param {any[][]} dates Dates of the readings, in any order. A column or a row.
 * @param {any[][]} readings As written: 10, <0.2, 0, nd, 5-10, >50. A blank is no reading; below detection counts as a tie.
 * @param {any[][]} [kit_steps] The chart's patches, "0 5 10 20 40" or a range, or one number for a meter's smallest step.
 * @param {boolean} [headings] FALSE leaves out the row of headings.
 * @returns {any[][]} Slope a day, low, high, chance of as much without a trend (p), in words.
 * @example =ALGAL.TREND_SLOPE({46023;46026;46030;46033;46037;46040;46044},{20;20;15;15;10;10;"<5"})
 */
export function TREND_SLOPE(dates: any[][], readings: any[][], kit_steps?: any[][], headings?: boolean): any[][] {
  const found = datedReadings(dates, readings, kitFrom(kit_steps));
  if (found.length === 0) return [[""]];
  refuseMostlyBelow(count(found, "below"), found.length);
  const { points, steepest } = pointsFrom(found);
  const { slopePerDay, low, high, z } = trendOf(points);
  const p = 2 * normalDistribution(-Math.abs(z));
  // Beyond the steepest step that two readings can make the slope only grows with what stands for the open end of the scale.
  const told = (slope: number): Answer => (Math.abs(slope) > steepest ? words.noLimit : slope);
  const row: Answer[] = [told(slopePerDay), told(low), told(high), p, [slopeWords(low, high, p, steepest), ...censoredWords(found)].join(" ")];
  return wantsHeadings(headings) ? [[...words.headings], row] : [row];
}

/**
 * What the water is really at: level and 95 % limits on a day, from all readings; on a later day what a test will read.
 * @customfunction TREND_RANGE
 * @param {any[][]} dates Dates of the readings, in any order. A column or a row.
 * @param {any[][]} readings As written: 10, <0.2, 0, nd, 5-10, >50. A blank is no reading; below detection is never a zero.
 * @param {any[][]} [day] Date asked for; the last reading's date if left out. Later is a forecast of a reading, and wider.
 * @param {any[][]} [kit_steps] The chart's patches, "0 5 10 20 40" or a range, or one number for a meter's smallest step.
 * @returns {any[][]} Level, low, high in the unit of the readings, in words.
 * @example =ALGAL.TREND_RANGE({46023;46026;46030;46033;46037;46040;46044},{20;20;15;15;10;10;"<5"},,"0 5 10 20 40")
 */
export function TREND_RANGE(dates: any[][], readings: any[][], day?: any[][], kit_steps?: any[][]): any[][] {
  const found = datedReadings(dates, readings, kitFrom(kit_steps));
  if (found.length === 0) return [[""]];
  refuseMostlyBelow(count(found, "below"), found.length);
  const asked = single(date("day", day, NO_DAY)) ?? NO_DAY;
  const last = found[found.length - 1]?.day ?? NO_DAY;
  const first = found[0]?.day ?? NO_DAY;
  // As far ahead as the readings reach back, and three months at least: beyond that a level says nothing.
  const farthest = last + Math.max(LEAST_AHEAD_DAYS, last - first);
  if (asked !== NO_DAY && (asked < first || asked > farthest)) throw new Problem("value", words.dayTooFar(Math.round(farthest - last)));
  const { middle, low, high, daysAhead, moved } = levelRange(found.map(levelReading), asked === NO_DAY ? last : asked);
  const open = low < NEXT_TO_NOTHING * high;
  const level = open ? words.levelBelow(high) : words.level(low, high);
  const ahead = open ? words.aheadBelow(daysAhead, high) : words.ahead(daysAhead, low, high);
  return [[middle, low, high, [daysAhead > 0 ? ahead : level, ...(moved ? [] : [words.unmoved])].join(" ")]];
}

const count = (found: readonly DatedReading[], censored: "below" | "above"): number => found.filter(({ reading }) => reading.censored === censored).length;

/** A reading that shows a value counts as that value; one beyond a limit as anything there. */
function pointsFrom(found: readonly DatedReading[]): { points: TrendPoint[]; steepest: number } {
  const highest = Math.max(...found.map(({ reading }) => (reading.censored === "above" ? reading.low : reading.high)));
  const gaps = found.slice(1).map(({ day }, place) => day - (found[place]?.day ?? day)).filter((gap) => gap > 0);
  const points = found.map(({ day, reading: { value, low, high, censored } }): TrendPoint => {
    if (censored === "below") return { day, low, high };
    return censored === "above" ? { day, low, high: FAR_ABOVE * highest } : { day, low: value, high: value };
  });
  return { points, steepest: (2 * highest) / Math.min(...gaps) };
}

function levelReading({ day, reading: { value, low, high, u, censored } }: DatedReading): LevelReading {
  if (censored === "no") return { day, value, variance: u * u, kind: "value" };
  return { day, value: censored === "below" ? high : low, variance: 0, kind: censored };
}

function slopeWords(low: number, high: number, p: number, steepest: number): string {
  if (p > CHANCE || (low <= 0 && high >= 0)) return words.noTrend;
  const [least, most] = low > 0 ? [low, high] : [-high, -low];
  if (most > steepest) return (low > 0 ? words.risingAtLeast : words.fallingAtLeast)(WEEK_DAYS * least);
  return (low > 0 ? words.rising : words.falling)(WEEK_DAYS * least, WEEK_DAYS * most);
}

function censoredWords(found: readonly DatedReading[]): string[] {
  const [below, above] = [count(found, "below"), count(found, "above")];
  return [...(below > 0 ? [words.below(below, found.length)] : []), ...(above > 0 ? [words.above(above, found.length)] : [])];
}
