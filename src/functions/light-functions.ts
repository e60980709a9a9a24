import { functions } from "../words/functions";
import { growth } from "../words/growth";
import { PRACTICE } from "../science/constants/practice";
import { lightDailyMolPerM2, lightFromWatts } from "../science/light";
import { lampKWh, lightYieldGPerMol } from "../science/light-yield";
import { quantity, share } from "./arguments";
import { lift, liftRows } from "./lift";

/**
 * Light sum of a day, mol m-2 d-1. For an interval with dimmer phases: SUMPRODUCT(ALGAL.LIGHT_DAILY(light,hours,level),days).
 * @customfunction LIGHT_DAILY
 * @param {any[][]} light_umol_m2_s Light on the lit area, umol m-2 s-1. One cell or a range.
 * @param {any[][]} hours_per_day Hours lit a day, 0 to 24.
 * @param {any[][]} [level] Share of full light in a dimmed phase, such as 60%; 1 (full) if left out.
 * @returns {any[][]} Light sum, mol m-2 d-1.
 * @example =ALGAL.LIGHT_DAILY(270,14)
 */
export function LIGHT_DAILY(light_umol_m2_s: any[][], hours_per_day: any[][], level?: any[][]): any[][] {
  return lift(
    {
      light: quantity("light_umol_m2_s", light_umol_m2_s, { most: 5000, unit: "umol m-2 s-1" }),
      hours: quantity("hours_per_day", hours_per_day, { most: 24, unit: functions.units.hours }),
      level: share("level", level, 1, 1),
    },
    (given) => lightDailyMolPerM2(given.light * given.level, given.hours),
  );
}

/**
 * Light on the screen estimated from the lamps' watts, umol m-2 s-1. A light meter is better.
 * @customfunction LIGHT_FROM_WATTS
 * @param {any[][]} watts Electric power of the lamps, W. One cell or a range.
 * @param {any[][]} lit_area_m2 Lit area, m2; both sides count when both are lit.
 * @param {any[][]} [efficacy_umol_j] Light from a joule, umol/J; 2.2 if left out (1.2 to 3.0 for LED).
 * @param {any[][]} [reaching_share] Share of the light that reaches the screen; 0.65 if left out.
 * @returns {any[][]} Light, umol m-2 s-1.
 * @example =ALGAL.LIGHT_FROM_WATTS(38,0.2)
 */
export function LIGHT_FROM_WATTS(watts: any[][], lit_area_m2: any[][], efficacy_umol_j?: any[][], reaching_share?: any[][]): any[][] {
  return lift(
    {
      watts: quantity("watts", watts, { unit: "W" }),
      area: quantity("lit_area_m2", lit_area_m2, { open: true, unit: "m2" }),
      efficacy: quantity("efficacy_umol_j", efficacy_umol_j, { most: 5, unit: "umol/J" }, PRACTICE.lampEfficacy.value),
      reaching: share("reaching_share", reaching_share, 1, PRACTICE.lightReaching.value),
    },
    (given) => lightFromWatts(given.watts, given.area, given.efficacy, given.reaching),
  );
}

/**
 * Light yield, g dry per mol of light on the screen, over one interval. Above 1.8 is an error: no alga reaches it.
 * @customfunction LIGHT_YIELD
 * @param {any[][]} dry_g Dry mass of the harvest, g (HARVEST_DRY makes it from the drained weight). One cell or a range.
 * @param {any[][]} lit_area_m2 Lit area, m2; both sides count when both are lit.
 * @param {any[][]} light_mol_m2 Light sum since the harvest before, mol/m2: LIGHT_DAILY x days.
 * @returns {any[][]} Light yield, g dry per mol.
 * @example =ALGAL.LIGHT_YIELD(12,0.2,150)
 */
export function LIGHT_YIELD(dry_g: any[][], lit_area_m2: any[][], light_mol_m2: any[][]): any[][] {
  return lift(
    {
      dry: quantity("dry_g", dry_g, { unit: "g" }),
      area: quantity("lit_area_m2", lit_area_m2, { open: true, unit: "m2" }),
      light: quantity("light_mol_m2", light_mol_m2, { open: true, unit: "mol/m2" }),
    },
    (given) => lightYieldGPerMol(given.dry, given.area, given.light),
  );
}

/** Marks a harvest that was left out; no mass is below zero. */
const UNSTATED = -1;

/**
 * What the lamps use over an interval: kWh, its cost, and kWh for a gram of dry algae, to compare units.
 * @customfunction LIGHT_COST
 * @param {any[][]} watts Electric power of the lamps, W, drivers included. One cell or a column.
 * @param {any[][]} hours_per_day Hours lit a day, 0 to 24.
 * @param {any[][]} days Days of the interval.
 * @param {any[][]} price_per_kwh Price of 1 kWh in your money.
 * @param {any[][]} [dry_g] Dry mass grown in these days, g; the third figure stays blank if left out.
 * @returns {any[][]} kWh, cost, and kWh per g dry.
 * @example =ALGAL.LIGHT_COST(38,14,11,0.3,12)
 */
export function LIGHT_COST(watts: any[][], hours_per_day: any[][], days: any[][], price_per_kwh: any[][], dry_g?: any[][]): any[][] {
  return liftRows(
    {
      watts: quantity("watts", watts, { unit: "W" }),
      hours: quantity("hours_per_day", hours_per_day, { most: 24, unit: functions.units.hours }),
      days: quantity("days", days, { open: true, unit: functions.units.days }),
      price: quantity("price_per_kwh", price_per_kwh, { unit: growth.units.pricePerKwh }),
      dry: quantity("dry_g", dry_g, { open: true, unit: "g" }, UNSTATED),
    },
    (given) => {
      const kWh = lampKWh(given.watts, given.hours, given.days);
      return [kWh, kWh * given.price, given.dry === UNSTATED ? "" : kWh / given.dry];
    },
    3,
  );
}
