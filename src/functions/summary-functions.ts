import { summary as words } from "../words/summary";
import { robustOrderStatistics, type SetReading } from "../science/censored";
import { Problem } from "../science/problem";
import { science } from "../words/science";
import { parseReading } from "../science/reading";
import { type Cell, cellsOf, isBlank, wantsHeadings } from "./arguments";
import { isCellError } from "./cell-error";
import { kitFrom } from "./reading-functions";

/**
 * Mean and spread of readings of which some are below detection, without putting a zero or half a limit in their place.
 * @customfunction READING_SUMMARY
 * @param {any[][]} readings As written: 10, <0.2, 0, nd, 5-10. A blank is no reading.
 * @param {any[][]} [kit_steps] The chart's patches, "0 5 10 20 40" or a range, or one number for a meter's smallest step.
 * @param {boolean} [headings] FALSE leaves out the row of headings.
 * @returns {any[][]} Mean, standard deviation, readings, below detection, in words.
 * @example =ALGAL.READING_SUMMARY({20;20;15;"<5";10;7;"<5"})
 */
export function READING_SUMMARY(readings: any[][], kit_steps?: any[][], headings?: boolean): any[][] {
  const kit = kitFrom(kit_steps);
  const set = cellsOf(readings).flat().filter((cell) => !isBlank(cell)).map((cell): SetReading => setReading(cell, kit));
  if (set.length === 0) return [[""]];
  const below = set.filter((one) => one.below).length;
  const { mean, sd } = below === 0 ? plainSummary(set.map(({ value }) => value)) : robustOrderStatistics(set, 0.375);
  const row = [mean, sd, set.length, below, words.sentence(below, set.length)];
  return wantsHeadings(headings) ? [[...words.headings], row] : [row];
}

function plainSummary(values: readonly number[]): { mean: number; sd: number | "" } {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  // One reading has no spread.
  return { mean, sd: values.length < 2 ? "" : Math.sqrt(values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (values.length - 1)) };
}

/** A reading below detection is known by its limit only; one above the scale has no place in a mean. */
function setReading(cell: Cell, kit: ReturnType<typeof kitFrom>): SetReading {
  if (isCellError(cell)) throw cell;
  if (typeof cell !== "number" && typeof cell !== "string") throw new Problem("value", science.readingNotUnderstood(cell));
  const { value, high, censored } = parseReading(cell, kit);
  if (censored === "above") throw new Problem("value", words.aboveScale(String(cell)));
  return censored === "below" ? { value: high, below: true } : { value, below: false };
}
