import { functions } from "../words/functions";
import { forecast as words } from "../words/forecast";
import { outlookRange, repeated, settled, type Outlook, type OutlookPoint } from "../science/forecast/range";
import { Problem } from "../science/problem";
import { quantity, single } from "./arguments";
import { DRAWS, ION, outlookFrom, restWords, SEED, type OutlookArguments } from "./forecast-arguments";

const MOST_ROWS = 400;
const MOST_DAYS = 3650;

/**
 * Nitrate and phosphate ahead, a row a step: low, middle, high (10, 50, 90 % of draws), with harvests and water changes.
 * @customfunction FORECAST_READING
 * @param {any[][]} no3_mg_l Nitrate now, mg/L NO3; a text such as <2 or 5-10 is a range.
 * @param {any[][]} po4_mg_l Phosphate now, mg/L PO4; a text such as <0.02 or 0.08-0.1 is a range.
 * @param {any[][]} volume_l Water in the whole system, L.
 * @param {any[][]} load_n_g_day Nitrogen that comes in, g a day (see FEEDLOAD_N).
 * @param {any[][]} load_p_g_day Phosphorus that comes in, g a day (see FEEDLOAD_P).
 * @param {any[][]} lit_area_m2 Lit area, m2; both sides count when both are lit.
 * @param {any[][]} light_mol_m2_day Light sum on the lit area, mol m-2 d-1 (see LIGHT_DAILY).
 * @param {any[][]} [days] How many days ahead, up to 3650; 56 if left out.
 * @param {any[][]} [step_days] Days from row to row; 7 if left out.
 * @param {any[][]} [harvest_every_days] Days between harvests; 10 if left out, 0 for none.
 * @param {any[][]} [change_every_days] Days between water changes; 7 if left out.
 * @param {any[][]} [change_share] Share of the water in each change, such as 10%; 0 if left out.
 * @param {any[][]} [events] Rows of day, what (harvest, water change, feed, light), how much (share, or times the start).
 * @param {any[][]} [temperature_c] Water temperature, degrees C; 25 if left out. Rough outside 18 to 28.
 * @param {any[][]} [setting] "weak", "ordinary" (the usual), "strong" or "outdoor".
 * @returns {any[][]} Headings, then a row a step.
 * @example =ALGAL.FORECAST_READING(10,0.3,265,0.05,0.005,0.2,13.7,56,7,10,7,10%)
 */
export function FORECAST_READING(
  no3_mg_l: any[][],
  po4_mg_l: any[][],
  volume_l: any[][],
  load_n_g_day: any[][],
  load_p_g_day: any[][],
  lit_area_m2: any[][],
  light_mol_m2_day: any[][],
  days?: any[][],
  step_days?: any[][],
  harvest_every_days?: any[][],
  change_every_days?: any[][],
  change_share?: any[][],
  events?: any[][],
  temperature_c?: any[][],
  setting?: any[][],
): any[][] {
  const until = daysAhead(days);
  const step = single(quantity("step_days", step_days, { open: true, most: MOST_DAYS, unit: functions.units.days }, 7)) ?? 7;
  const given: OutlookArguments = {
    no3: no3_mg_l, po4: po4_mg_l, volumeL: volume_l, loadN: load_n_g_day, loadP: load_p_g_day, litAreaM2: lit_area_m2, light: light_mol_m2_day,
    harvestEvery: harvest_every_days, changeEvery: change_every_days, changeShare: change_share, events, temperatureC: temperature_c, setting,
  };
  const outlook = outlookFrom(given, until);
  if (!outlook) return [[""]];
  const rows = Math.ceil(until / step - 1e-9) + 1;
  if (rows > MOST_ROWS) throw new Problem("value", words.tooManySteps(MOST_ROWS));
  // The day that was asked for is the last row, also where the steps do not meet it.
  const moments = Array.from({ length: rows }, (_, place) => Math.min(until, place * step));
  const points = outlookRange(outlook, moments, DRAWS, SEED);
  return [[...words.headings], ...points.map((point, place) => [point.day, ...readings(point), place === 0 ? [words.start, happens(outlook, -1, 0)].filter(Boolean).join(", ") : happens(outlook, moments[place - 1] ?? 0, point.day)])];
}

/**
 * What different changes would make of the readings, a row for each: less food, more screen, more light, water changes.
 * @customfunction FORECAST_WHATIF
 * @param {any[][]} no3_mg_l Nitrate now, mg/L NO3; a text such as <2 or 5-10 is a range.
 * @param {any[][]} po4_mg_l Phosphate now, mg/L PO4; a text such as <0.02 or 0.08-0.1 is a range.
 * @param {any[][]} volume_l Water in the whole system, L.
 * @param {any[][]} load_n_g_day Nitrogen that comes in, g a day (see FEEDLOAD_N).
 * @param {any[][]} load_p_g_day Phosphorus that comes in, g a day (see FEEDLOAD_P).
 * @param {any[][]} lit_area_m2 Lit area, m2; both sides count when both are lit.
 * @param {any[][]} light_mol_m2_day Light sum on the lit area, mol m-2 d-1 (see LIGHT_DAILY).
 * @param {any[][]} [days] After how many days, up to 3650; 56 if left out.
 * @param {any[][]} [harvest_every_days] Days between harvests; 10 if left out, 0 for none.
 * @param {any[][]} [change_every_days] Days between water changes; 7 if left out.
 * @param {any[][]} [change_share] Share of the water in each change, such as 10%; 0 if left out.
 * @param {any[][]} [temperature_c] Water temperature, degrees C; 25 if left out. Rough outside 18 to 28.
 * @param {any[][]} [setting] "weak", "ordinary" (the usual), "strong" or "outdoor".
 * @returns {any[][]} Headings, then a row for each change: readings then, and where they settle.
 * @example =ALGAL.FORECAST_WHATIF(10,0.3,265,0.05,0.005,0.2,13.7,56,10,7,10%)
 */
export function FORECAST_WHATIF(
  no3_mg_l: any[][],
  po4_mg_l: any[][],
  volume_l: any[][],
  load_n_g_day: any[][],
  load_p_g_day: any[][],
  lit_area_m2: any[][],
  light_mol_m2_day: any[][],
  days?: any[][],
  harvest_every_days?: any[][],
  change_every_days?: any[][],
  change_share?: any[][],
  temperature_c?: any[][],
  setting?: any[][],
): any[][] {
  const until = daysAhead(days);
  const outlook = outlookFrom(
    {
      no3: no3_mg_l, po4: po4_mg_l, volumeL: volume_l, loadN: load_n_g_day, loadP: load_p_g_day, litAreaM2: lit_area_m2, light: light_mol_m2_day,
      harvestEvery: harvest_every_days, changeEvery: change_every_days, changeShare: change_share, temperatureC: temperature_c, setting,
    },
    until,
  );
  if (!outlook) return [[""]];
  const fed = (factor: number): Outlook => ({ ...outlook, loadGPerDay: { N: outlook.loadGPerDay.N * factor, P: outlook.loadGPerDay.P * factor } });
  const options: [keyof typeof words.option, Outlook][] = [
    ["asItIs", outlook],
    ["lessFood", fed(0.75)],
    ["halfFood", fed(0.5)],
    ["moreArea", { ...outlook, litAreaM2: outlook.litAreaM2 * 1.5 }],
    ["twiceArea", { ...outlook, litAreaM2: outlook.litAreaM2 * 2 }],
    ["moreLight", { ...outlook, lightMolPerM2Day: outlook.lightMolPerM2Day * 1.25 }],
    ["change", { ...outlook, changes: [...outlook.changes, { share: 0.1, everyDays: 7 }], events: [...outlook.events, ...repeated(7, until, (day) => ({ day, kind: "change", share: 0.1 }))] }],
    ["noHarvest", { ...outlook, harvestEveryDays: 0, events: outlook.events.filter(({ kind }) => kind !== "harvest") }],
  ];
  return [
    [...words.optionHeadings],
    ...options.map(([name, one]) => {
      const [point] = outlookRange(one, [until], DRAWS, SEED);
      return [words.option[name], ...(point ? readings(point) : []), ...settles(one)];
    }),
  ];
}

const daysAhead = (days: unknown): number => single(quantity("days", days, { open: true, most: MOST_DAYS, unit: functions.units.days }, 56)) ?? 56;

function readings({ reading }: OutlookPoint): number[] {
  return (["N", "P"] as const).flatMap((nutrient) => [reading[nutrient].low, reading[nutrient].middle, reading[nutrient].high].map((value) => Math.max(0, value) / ION[nutrient]));
}

/** What happens after one row's day, up to and with the next one's. */
function happens({ events }: Outlook, after: number, until: number): string {
  const kinds = events.filter(({ day }) => day > after && day <= until).map(({ kind }) => words.event[kind]);
  return [...new Set(kinds)].map((name) => (kinds.filter((one) => one === name).length > 1 ? `${kinds.filter((one) => one === name).length} x ${name}` : name)).join(", ");
}

function settles(outlook: Outlook): (number | string)[] {
  const rest = settled(outlook);
  return (["N", "P"] as const).map((nutrient) => restWords(rest[nutrient]) ?? rest[nutrient] / ION[nutrient]);
}
