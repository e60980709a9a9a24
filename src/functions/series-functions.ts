import { forecast } from "../words/forecast";
import { series as words } from "../words/series";
import { harvestCycles, mainReadings } from "../science/budget/series";
import { elementMgPerL, nutrientOf, substanceOf } from "../science/nutrient-forms";
import { Problem } from "../science/problem";
import { cellsOf, choice, single, wantsHeadings } from "./arguments";
import { CellError } from "./cell-error";
import { foodsFrom } from "./foods-range";
import type { Answer } from "./lift";
import { headed as headedColumns } from "./log-columns";
import { logFrom } from "./log-range";

const FORMS = ["NO3", "NO3-N", "PO4", "PO4-P"] as const;

/**
 * The readings of a log with their limits, for a chart: date, lowest, value, highest. Rows without a reading are left out.
 * @customfunction READING_SERIES
 * @param {any[][]} log The log with its heading row: Date, NO3 (mg/L), PO4 (mg/L) ...
 * @param {any[][]} set_up Two columns, name and value: Volume (L), NO3 kit steps, PO4 kit steps ...
 * @param {any[][]} [form] "NO3" (the usual), "NO3-N", "PO4" or "PO4-P": which test, and what it is counted as.
 * @param {boolean} [headings] FALSE leaves out the row of headings.
 * @returns {any[][]} Headings, then one row a reading.
 * @example =ALGAL.READING_SERIES(Log!A1:H114,'Set-up'!A2:B8,"NO3")
 */
export function READING_SERIES(log: any[][], set_up: any[][], form?: any[][], headings?: boolean): any[][] {
  const wanted = single(choice("form", form, FORMS, forecast.unknownForm, "NO3")) ?? "NO3";
  refuseTotalNitrogen(log, wanted);
  const { log: read } = logFrom(log, set_up, nutrientOf(wanted), foodsFrom(null));
  const factor = 1 / elementMgPerL({ unit: "mg/L", form: wanted });
  // Above the kit's scale there is no highest and no value.
  const told = mainReadings(read).map(({ day, reading: { low, value, high, censored } }) => [day, low * factor, censored === "above" ? "" : value * factor, censored === "above" ? "" : high * factor]);
  // A reading that cannot be used stands there as what it is, an error with its sentence; a chart passes over it.
  const bad = read.bad.filter(({ about }) => about === "reading").map(({ day, sentence }) => [day, "", new CellError("#VALUE!", sentence), ""]);
  const rows = [...told, ...bad].sort((a, b) => (a[0] as number) - (b[0] as number));
  return headed(words.readings(wanted), rows, headings);
}

/**
 * The harvests of a log with the growth that each ended, for a chart: date, screen, days, drained and dry mass, growth.
 * @customfunction HARVEST_SERIES
 * @param {any[][]} log The log with its heading row: Date, Harvest left (g), Harvest right (g) ...
 * @param {any[][]} set_up Two columns, name and value: Volume (L), Lit area left (m2), Dry fraction, Started ...
 * @param {boolean} [headings] FALSE leaves out the row of headings.
 * @returns {any[][]} Headings, then one row a harvest.
 * @example =ALGAL.HARVEST_SERIES(Log!A1:H114,'Set-up'!A2:B8)
 */
export function HARVEST_SERIES(log: any[][], set_up: any[][], headings?: boolean): any[][] {
  const { log: read, setUp } = logFrom(log, set_up, "N", foodsFrom(null));
  const rows = harvestCycles(read, setUp).map(({ day, screen, days, isFirst, unread, drainedG, dryG, growth }) => [
    day, screen, days ?? "", drainedG, dryG.value, growth?.value ?? "", growth?.low ?? "", growth?.high ?? "", unread ?? (isFirst ? words.firstHarvest : ""),
  ]);
  return headed(words.harvests, rows, headings);
}

/** Total nitrogen is more than nitrate, and is not to be shown as it. */
function refuseTotalNitrogen(log: unknown, wanted: string): void {
  for (const { heading, column } of headedColumns(cellsOf(log))) {
    if (column.kind === "reading" && wanted.startsWith("NO3") && substanceOf(column.basis.form) === "total nitrogen") throw new Problem("value", words.totalNitrogen(heading));
  }
}

function headed(heading: readonly string[], rows: Answer[][], wanted: unknown): Answer[][] {
  if (wantsHeadings(wanted)) return [[...heading], ...rows];
  return rows.length > 0 ? rows : [[""]];
}
