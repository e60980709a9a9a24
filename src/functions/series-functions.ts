import { forecast } from "../words/forecast";
import { series as words } from "../words/series";
import { harvestCycles, mainReadings } from "../science/budget/series";
import { elementMgPerL, nutrientOf } from "../science/nutrient-forms";
import { choice, single } from "./arguments";
import { foodsFrom } from "./foods-range";
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
  const { log: read } = logFrom(log, set_up, nutrientOf(wanted), foodsFrom(null));
  const factor = 1 / elementMgPerL({ unit: "mg/L", form: wanted });
  // Above the kit's scale there is no highest and no value.
  const rows = mainReadings(read).map(({ day, reading: { low, value, high, censored } }) => [day, low * factor, censored === "above" ? "" : value * factor, censored === "above" ? "" : high * factor]);
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
  const rows = harvestCycles(read, setUp).map(({ day, screen, days, drainedG, dryG, growth }) => [
    day, screen, days ?? "", drainedG, dryG.value, growth?.value ?? "", growth?.low ?? "", growth?.high ?? "",
  ]);
  return headed(words.harvests, rows, headings);
}

function headed(heading: readonly string[], rows: (string | number)[][], wanted: unknown): (string | number)[][] {
  if (wanted !== false && wanted !== 0) return [[...heading], ...rows];
  return rows.length > 0 ? rows : [[""]];
}
