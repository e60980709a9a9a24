import { functions } from "../words/functions";
import { forecast as words } from "../words/forecast";
import { ALGAE } from "../science/constants/algae";
import { daysToTarget, drawnForecasts, settled, spreadOf, type Outlook } from "../science/forecast/range";
import { exchangePerDay, steadyReading } from "../science/forecast/steady";
import { elementMgPerL, nutrientOf, type Nutrient } from "../science/nutrient-forms";
import { choice, quantity, share, single } from "./arguments";
import { DRAWS, ION, outlookFrom, restWords, SEED } from "./forecast-arguments";
import { lift } from "./lift";

const FORMS = ["NO3", "NO3-N", "PO4", "PO4-P"] as const;
/** How far ahead a target is looked for. */
const AHEAD_DAYS = 365;
/** Day by day for two months, then every fifth day: between them the course is nearly straight. */
const LOOKED_AT = [...Array.from({ length: 60 }, (_, day) => day), ...Array.from({ length: 62 }, (_, place) => 60 + 5 * place)].filter((day) => day <= AHEAD_DAYS);

/**
 * Reading at which the water settles when load and uptake stay as they are, mg/L; or the text "rises without limit".
 * @customfunction STEADY_READING
 * @param {any[][]} load_g_day Nitrogen (or phosphorus) that comes in, g a day. One cell or a range.
 * @param {any[][]} uptake_g_day The most that the screen takes up, g a day (see SCRUB_CAPACITY_N).
 * @param {any[][]} volume_l Water in the whole system, L.
 * @param {any[][]} [form] "NO3" (the usual), "NO3-N", "PO4" or "PO4-P": what the answer counts.
 * @param {any[][]} [change_share_week] Share of the water changed each week, such as 10%; 0 if left out.
 * @param {any[][]} [incoming_mg_l] What the new water carries, mg/L in that form; 0 if left out.
 * @returns {any[][]} Reading, mg/L in that form.
 * @example =ALGAL.STEADY_READING(0.05,0.06,265,"NO3",10%)
 */
export function STEADY_READING(load_g_day: any[][], uptake_g_day: any[][], volume_l: any[][], form?: any[][], change_share_week?: any[][], incoming_mg_l?: any[][]): any[][] {
  return lift(
    {
      load: quantity("load_g_day", load_g_day, { unit: functions.units.gramsADay }),
      uptake: quantity("uptake_g_day", uptake_g_day, { unit: functions.units.gramsADay }),
      volume: quantity("volume_l", volume_l, { open: true, unit: "L" }),
      form: choice("form", form, FORMS, words.unknownForm, "NO3"),
      change: share("change_share_week", change_share_week, 1, 0),
      incoming: quantity("incoming_mg_l", incoming_mg_l, { most: 1000, unit: "mg/L" }, 0),
    },
    (given) => {
      const toElement = elementMgPerL({ unit: "mg/L", form: given.form });
      const half = nutrientOf(given.form) === "N" ? ALGAE.halfSaturationN.value : ALGAE.halfSaturationP.value;
      const exchange = given.change > 0 ? exchangePerDay(given.change, 7) * given.volume : 0;
      const rest = steadyReading(1000 * given.load, 1000 * given.uptake, half, exchange, given.incoming * toElement);
      return restWords(rest) ?? rest / toElement;
    },
  );
}

/**
 * Days until a reading meets a target: low, middle, high (10, 50, 90 % of the draws that get there), and a sentence.
 * @customfunction DAYS_TO_TARGET
 * @param {any[][]} target_mg_l The reading wanted, mg/L in the form of the next argument.
 * @param {any[][]} form "NO3" or "PO4": which reading the target is of.
 * @param {any[][]} no3_mg_l Nitrate now, mg/L NO3; a text such as <2 or 5-10 is a range.
 * @param {any[][]} po4_mg_l Phosphate now, mg/L PO4; a text such as <0.02 or 0.08-0.1 is a range.
 * @param {any[][]} volume_l Water in the whole system, L.
 * @param {any[][]} load_n_g_day Nitrogen that comes in, g a day (see FEEDLOAD_N).
 * @param {any[][]} load_p_g_day Phosphorus that comes in, g a day (see FEEDLOAD_P).
 * @param {any[][]} lit_area_m2 Lit area, m2; both sides count when both are lit.
 * @param {any[][]} light_mol_m2_day Light sum on the lit area, mol m-2 d-1 (see LIGHT_DAILY).
 * @param {any[][]} [harvest_every_days] Days between harvests; 10 if left out, 0 for none.
 * @param {any[][]} [change_every_days] Days between water changes; 7 if left out.
 * @param {any[][]} [change_share] Share of the water in each change, such as 10%; 0 if left out.
 * @param {any[][]} [temperature_c] Water temperature, degrees C; 25 if left out. Rough outside 18 to 28.
 * @param {any[][]} [setting] "weak", "ordinary" (the usual), "strong" or "outdoor".
 * @returns {any[][]} Low, middle, high in days, and a sentence.
 * @example =ALGAL.DAYS_TO_TARGET(5,"NO3",20,0.3,265,0.03,0.003,0.3,13.7,10,7,10%)
 */
export function DAYS_TO_TARGET(
  target_mg_l: any[][],
  form: any[][],
  no3_mg_l: any[][],
  po4_mg_l: any[][],
  volume_l: any[][],
  load_n_g_day: any[][],
  load_p_g_day: any[][],
  lit_area_m2: any[][],
  light_mol_m2_day: any[][],
  harvest_every_days?: any[][],
  change_every_days?: any[][],
  change_share?: any[][],
  temperature_c?: any[][],
  setting?: any[][],
): any[][] {
  const target = single(quantity("target_mg_l", target_mg_l, { most: 1000, unit: "mg/L" }));
  const wanted = single(choice("form", form, ["NO3", "PO4"] as const, words.unknownTarget));
  const outlook = outlookFrom(
    {
      no3: no3_mg_l, po4: po4_mg_l, volumeL: volume_l, loadN: load_n_g_day, loadP: load_p_g_day, litAreaM2: lit_area_m2, light: light_mol_m2_day,
      harvestEvery: harvest_every_days, changeEvery: change_every_days, changeShare: change_share, temperatureC: temperature_c, setting,
    },
    AHEAD_DAYS,
  );
  if (target === null || wanted === null || !outlook) return [["", "", "", ""]];
  const nutrient = nutrientOf(wanted);
  const element = target * elementMgPerL({ unit: "mg/L", form: wanted });
  const start = outlook.start[nutrient];
  if (start.low <= element && element <= start.high) return [[0, 0, 0, words.there]];
  const found = drawnForecasts(outlook, LOOKED_AT, DRAWS, SEED).map((course) => daysToTarget(course, nutrient, element));
  const met = found.filter(Number.isFinite);
  const below = start.high < element;
  // A handful of draws that get there is no answer.
  if (met.length < DRAWS / 10) {
    const where = rests(outlook, nutrient, wanted);
    return [["", "", "", below ? words.staysBelow(AHEAD_DAYS, where) : `${words.never(AHEAD_DAYS, where)} ${words.change}`]];
  }
  const { low, middle, high } = spreadOf(met);
  return [[low, middle, high, (below ? words.risesTo : words.reaches)(low, high, met.length / DRAWS)]];
}

function rests(outlook: Outlook, nutrient: Nutrient, form: string): string {
  const reading = settled(outlook)[nutrient];
  return restWords(reading) ?? words.restsAt(reading / ION[nutrient], form);
}
