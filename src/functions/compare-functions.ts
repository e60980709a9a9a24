import { compare as words } from "../words/compare";
import { compareScreens, type ScreenCycles } from "../science/budget/compare";
import { LIGHT_CEILING } from "../science/constants/light-ceiling";
import type { SetUp } from "../science/budget/log";
import { wantsHeadings } from "./arguments";
import { foodsFrom } from "./foods-range";
import { accountsFrom } from "./log-range";

/**
 * Screens side by side, first harvest apart from later ones: growth per area and day, N and P out, per mol of light, per kWh.
 * @customfunction HARVEST_COMPARE
 * @param {any[][]} log The log with its heading row: Date, Harvest left (g), Harvest right (g), Light level (%) ...
 * @param {any[][]} set_up Two columns, name and value: Volume (L), Lit area left (m2), Light (umol m-2 s-1), Watts (W) ...
 * @param {any[][]} [foods] Your Foods sheet with its heading row.
 * @param {boolean} [headings] FALSE leaves out the row of headings.
 * @returns {any[][]} One or two rows a screen.
 * @example =ALGAL.HARVEST_COMPARE(Log!A1:H114,'Set-up'!A2:B8)
 */
export function HARVEST_COMPARE(log: any[][], set_up: any[][], foods?: any[][], headings?: boolean): any[][] {
  const { N, P } = accountsFrom(log, set_up, foodsFrom(foods));
  // A harvest that cannot be read is missing from these figures: it is said on every row, so that none passes for whole.
  const unread = [...N.log.bad, ...N.log.unusable].filter(({ about }) => about === "harvest" || about === "light");
  const [first] = unread;
  const missing = first ? [words.remark.unread(unread.length, first.sentence)] : [];
  const rows = compareScreens(N.log, N.setUp, P.setUp).map((one) => rowOf(one, N.setUp, missing));
  return wantsHeadings(headings) ? [[...words.headings], ...rows] : rows;
}

function rowOf(one: ScreenCycles, setUp: SetUp, missing: readonly string[]): (string | number)[] {
  const unit = setUp.units.find(({ name }) => name === one.screen);
  const weighed = one.cycle !== "neverWeighed";
  const timed = weighed && one.days > 0;
  const figure = (value: number | null, known: boolean): number | string => (known && value !== null ? value : "");
  return [
    one.screen || words.screen,
    words.cycle[one.cycle],
    one.harvests,
    timed ? one.days : "",
    figure(one.drainedG, weighed),
    figure(one.dryG.value, timed),
    figure(one.growth?.value ?? null, timed),
    figure(one.growth?.low ?? null, timed),
    figure(one.growth?.high ?? null, timed),
    figure(one.nitrogenGPerDay, timed),
    figure(one.phosphorusGPerDay, timed),
    figure(one.lightYield, timed),
    figure(one.dryGPerKWh, timed),
    [...missing, ...remarks(one, unit, timed)].join(" "),
  ];
}

function remarks(one: ScreenCycles, unit: SetUp["units"][number] | undefined, timed: boolean): string[] {
  const said: string[] = [];
  if (one.cycle === "neverWeighed") said.push(words.remark.neverWeighed);
  if (one.cycle === "first") said.push(words.remark.first);
  if (one.cycle === "later" && one.harvests === 1) said.push(words.remark.few);
  if (one.cycle === "first" && !timed) said.push(words.remark.noStart);
  if ((one.lightYield ?? 0) > LIGHT_CEILING.lightYieldMost.value) said.push(words.remark.aboveCeiling);
  const { rows } = words;
  const missing = [
    ...(unit?.litAreaM2 === null ? [rows.area] : []),
    ...(one.lightYield === null && unit?.umolPerM2S === null ? [rows.light] : []),
    ...(one.lightYield === null && unit?.hoursPerDay === null ? [rows.hours] : []),
    ...(one.dryGPerKWh === null && unit?.watts === null ? [rows.watts] : []),
  ];
  if (timed && missing.length > 0) said.push(words.remark.needs(missing));
  return said;
}
