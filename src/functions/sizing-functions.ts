import { functions } from "../words/functions";
import { science } from "../words/science";
import { sizing as words } from "../words/sizing";
import { ALGAE, GROWTH_BAND, type Setting } from "../science/constants/algae";
import { mostTissue, usualTissue } from "../science/harvest";
import { elementMgPerL, type Nutrient } from "../science/nutrient-forms";
import { areaNeeded, capacityGPerDay, habitAreaM2, shareCarried, type SizingCase } from "../science/sizing";
import { cellsOf, choice, isBlank, quantity, share, single } from "./arguments";
import { lift, liftRows, type Answer } from "./lift";

const SETTINGS = Object.keys(GROWTH_BAND) as Setting[];
const NO_TARGET = -1;
const DRAWS = 10_000;
const SEED = 20260301;

/**
 * Lit area that carries a load, m2: low, middle, high (10, 50, 90 % of draws) and which nutrient rules.
 * @customfunction SCRUBAREA_NEEDED
 * @param {any[][]} load_n_g_day Nitrogen to take up, g a day. One cell or a column.
 * @param {any[][]} load_p_g_day Phosphorus to take up, g a day.
 * @param {any[][]} light_mol_m2_day Light sum on the lit area, mol m-2 d-1 (see LIGHT_DAILY).
 * @param {any[][]} [target_no3_mg_l] Nitrate wanted in the water, mg/L NO3; lower means slower growth.
 * @param {any[][]} [target_po4_mg_l] Phosphate wanted in the water, mg/L PO4; lower means slower growth.
 * @param {any[][]} [temperature_c] Water temperature, degrees C; 25 if left out. Rough outside 18 to 28.
 * @param {any[][]} [setting] "weak", "ordinary" (the usual), "strong" or "outdoor".
 * @param {number} [draws] Number of random draws, 1000 to 1000000; 10000 if left out.
 * @param {any[][]} [load_error] Share by which the load may be off, such as 20%; 0 if left out.
 * @returns {any[][]} Low, middle and high area in m2, what rules and what drives the spread.
 * @example =ALGAL.SCRUBAREA_NEEDED(0.05,0.005,13.7,10,0.3)
 */
export function SCRUBAREA_NEEDED(
  load_n_g_day: any[][],
  load_p_g_day: any[][],
  light_mol_m2_day: any[][],
  target_no3_mg_l?: any[][],
  target_po4_mg_l?: any[][],
  temperature_c?: any[][],
  setting?: any[][],
  draws?: number,
  load_error?: any[][],
): any[][] {
  const count = Math.round(single(quantity("draws", draws, { least: 1000, most: 1_000_000, unit: functions.units.draws }, DRAWS)) ?? DRAWS);
  return liftRows(
    {
      loadN: quantity("load_n_g_day", load_n_g_day, { unit: functions.units.gramsADay }),
      loadP: quantity("load_p_g_day", load_p_g_day, { unit: functions.units.gramsADay }),
      ...conditions(light_mol_m2_day, target_no3_mg_l, target_po4_mg_l, temperature_c, setting),
      loadShare: share("load_error", load_error, 1, 0),
    },
    (given) => {
      const { low, middle, high, nitrogenRules, drivers } = areaNeeded({ ...caseOf(given, given.loadN, given.loadP), loadShare: given.loadShare }, count, SEED);
      return [low, middle, high, [words.rules(nitrogenRules), words.drivers(drivers.filter((one) => one.share >= 0.05).slice(0, 3).map(({ input, share }) => ({ what: words.input[input], share })))].join(" ")];
    },
    4,
  );
}

/**
 * Lit area by common practice, m2, low and high: both sides of 75 to 100 cm2 for ~3 g of frozen food a day. No source.
 * @customfunction SCRUBAREA_HABIT
 * @param {any[][]} frozen_food_g_day Frozen food fed a day, g. One cell or a column.
 * @param {any[][]} [load_n_g_day] Nitrogen to take up, g a day; with it and the light, the share of the load that it carries.
 * @param {any[][]} [load_p_g_day] Phosphorus to take up, g a day; 0 if left out.
 * @param {any[][]} [light_mol_m2_day] Light sum on the lit area, mol m-2 d-1 (see LIGHT_DAILY).
 * @param {any[][]} [target_no3_mg_l] Nitrate wanted in the water, mg/L NO3; lower means slower growth.
 * @param {any[][]} [target_po4_mg_l] Phosphate wanted in the water, mg/L PO4; lower means slower growth.
 * @param {any[][]} [temperature_c] Water temperature, degrees C; 25 if left out. Rough outside 18 to 28.
 * @param {any[][]} [setting] "weak", "ordinary" (the usual), "strong" or "outdoor".
 * @returns {any[][]} Low and high lit area, m2; with a load, the least and the most of it that they carry, and a sentence.
 * @example =ALGAL.SCRUBAREA_HABIT(3,0.05,0.005,13.7)
 */
export function SCRUBAREA_HABIT(
  frozen_food_g_day: any[][],
  load_n_g_day?: any[][],
  load_p_g_day?: any[][],
  light_mol_m2_day?: any[][],
  target_no3_mg_l?: any[][],
  target_po4_mg_l?: any[][],
  temperature_c?: any[][],
  setting?: any[][],
): any[][] {
  const food = quantity("frozen_food_g_day", frozen_food_g_day, { unit: functions.units.gramsADay });
  const stated = (given: unknown): boolean => !cellsOf(given).flat().every((cell) => isBlank(cell) || cell === 0);
  if (!stated(load_n_g_day) && !stated(load_p_g_day)) return liftRows({ food }, (given) => Object.values(habitAreaM2(given.food)), 2);
  // What the food alone tells is told, also where the light is not known yet.
  if (!stated(light_mol_m2_day)) return liftRows({ food }, (given) => [...Object.values(habitAreaM2(given.food)), "", "", words.habitNeedsLight], 5);
  return liftRows(
    {
      food,
      loadN: quantity("load_n_g_day", load_n_g_day, { unit: functions.units.gramsADay }, 0),
      loadP: quantity("load_p_g_day", load_p_g_day, { unit: functions.units.gramsADay }, 0),
      ...conditions(light_mol_m2_day, target_no3_mg_l, target_po4_mg_l, temperature_c, setting),
    },
    (given) => {
      const { low, high } = habitAreaM2(given.food);
      const wanted = caseOf(given, given.loadN, given.loadP);
      const least = shareCarried(low, wanted, DRAWS, SEED).low;
      const most = shareCarried(high, wanted, DRAWS, SEED).high;
      return [low, high, least, most, words.habitCarries(least, most)];
    },
    5,
  );
}

/**
 * Nitrogen that a screen can take up, g a day: lit area x growth x tissue N, with growth held by light and setting.
 * @customfunction SCRUB_CAPACITY_N
 * @param {any[][]} lit_area_m2 Lit area, m2; both sides count when both are lit. One cell or a range.
 * @param {any[][]} light_mol_m2_day Light sum on the lit area, mol m-2 d-1 (see LIGHT_DAILY).
 * @param {any[][]} [target_no3_mg_l] Nitrate in the water, mg/L NO3; lower means slower growth.
 * @param {any[][]} [target_po4_mg_l] Phosphate in the water, mg/L PO4; lower means slower growth.
 * @param {any[][]} [temperature_c] Water temperature, degrees C; 25 if left out. Rough outside 18 to 28.
 * @param {any[][]} [setting] "weak", "ordinary" (the usual), "strong" or "outdoor".
 * @param {any[][]} [tissue_n] Share of N in the dry algae, such as 3.5%; 0.035 if left out.
 * @param {any[][]} [light_yield] g dry per mol of light; 0.4 if left out (0.2 to 0.8).
 * @returns {any[][]} Nitrogen, g a day.
 * @example =ALGAL.SCRUB_CAPACITY_N(0.2,13.7)
 */
export function SCRUB_CAPACITY_N(
  lit_area_m2: any[][],
  light_mol_m2_day: any[][],
  target_no3_mg_l?: any[][],
  target_po4_mg_l?: any[][],
  temperature_c?: any[][],
  setting?: any[][],
  tissue_n?: any[][],
  light_yield?: any[][],
): any[][] {
  return capacity("N", lit_area_m2, conditions(light_mol_m2_day, target_no3_mg_l, target_po4_mg_l, temperature_c, setting), tissue_n, light_yield);
}

/**
 * Phosphorus that a screen can take up, g a day: lit area x growth x tissue P, with growth held by light and setting.
 * @customfunction SCRUB_CAPACITY_P
 * @param {any[][]} lit_area_m2 Lit area, m2; both sides count when both are lit. One cell or a range.
 * @param {any[][]} light_mol_m2_day Light sum on the lit area, mol m-2 d-1 (see LIGHT_DAILY).
 * @param {any[][]} [target_no3_mg_l] Nitrate in the water, mg/L NO3; lower means slower growth.
 * @param {any[][]} [target_po4_mg_l] Phosphate in the water, mg/L PO4; lower means slower growth.
 * @param {any[][]} [temperature_c] Water temperature, degrees C; 25 if left out. Rough outside 18 to 28.
 * @param {any[][]} [setting] "weak", "ordinary" (the usual), "strong" or "outdoor".
 * @param {any[][]} [tissue_p] Share of P in the dry algae, such as 0.35%; 0.0035 if left out.
 * @param {any[][]} [light_yield] g dry per mol of light; 0.4 if left out (0.2 to 0.8).
 * @returns {any[][]} Phosphorus, g a day.
 * @example =ALGAL.SCRUB_CAPACITY_P(0.2,13.7)
 */
export function SCRUB_CAPACITY_P(
  lit_area_m2: any[][],
  light_mol_m2_day: any[][],
  target_no3_mg_l?: any[][],
  target_po4_mg_l?: any[][],
  temperature_c?: any[][],
  setting?: any[][],
  tissue_p?: any[][],
  light_yield?: any[][],
): any[][] {
  return capacity("P", lit_area_m2, conditions(light_mol_m2_day, target_no3_mg_l, target_po4_mg_l, temperature_c, setting), tissue_p, light_yield);
}

const conditions = (light: unknown, targetNo3: unknown, targetPo4: unknown, temperatureC: unknown, setting: unknown) => ({
  light: quantity("light_mol_m2_day", light, { most: 80, unit: "mol m-2 d-1" }),
  targetNo3: quantity("target_no3_mg_l", targetNo3, { most: 1000, unit: "mg/L" }, NO_TARGET),
  targetPo4: quantity("target_po4_mg_l", targetPo4, { most: 100, unit: "mg/L" }, NO_TARGET),
  temperatureC: quantity("temperature_c", temperatureC, { least: 5, most: 35, unit: functions.units.celsius }, 25),
  setting: choice("setting", setting, SETTINGS, science.unknownSetting, "ordinary"),
});

interface GivenConditions {
  readonly light: number;
  readonly targetNo3: number;
  readonly targetPo4: number;
  readonly temperatureC: number;
  readonly setting: Setting;
}

function caseOf(given: GivenConditions, loadN: number, loadP: number): SizingCase {
  const asElement = (target: number, form: "NO3" | "PO4"): number | null => (target === NO_TARGET ? null : target * elementMgPerL({ unit: "mg/L", form }));
  return {
    loadNGPerDay: loadN,
    loadPGPerDay: loadP,
    lightMolPerM2Day: given.light,
    targetNMgPerL: asElement(given.targetNo3, "NO3"),
    targetPMgPerL: asElement(given.targetPo4, "PO4"),
    temperatureC: given.temperatureC,
    setting: given.setting,
  };
}

function capacity(nutrient: Nutrient, area: unknown, given: ReturnType<typeof conditions>, tissue: unknown, lightYield: unknown): Answer[][] {
  return lift(
    {
      ...given,
      area: quantity("lit_area_m2", area, { unit: "m2" }),
      tissue: share(nutrient === "N" ? "tissue_n" : "tissue_p", tissue, mostTissue(nutrient), usualTissue(nutrient).value),
      lightYield: quantity("light_yield", lightYield, { most: 1.8, unit: "g/mol" }, ALGAE.lightYield.value),
    },
    (values) => capacityGPerDay(values.area, values.tissue, caseOf(values, 0, 0), values.lightYield),
  );
}
