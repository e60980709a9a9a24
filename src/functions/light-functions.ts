import { functions } from "../words/functions";
import { PRACTICE } from "../science/constants/practice";
import { lightDailyMolPerM2, lightFromWatts } from "../science/light";
import { quantity, share } from "./arguments";
import { lift } from "./lift";

/**
 * Light sum of a day on the screen, mol m-2 d-1.
 * @customfunction LIGHT_DAILY
 * @param {any[][]} light_umol_m2_s Light on the lit area, umol m-2 s-1. One cell or a range.
 * @param {any[][]} hours_per_day Hours lit a day, 0 to 24.
 * @returns {any[][]} Light sum, mol m-2 d-1.
 * @example =ALGAL.LIGHT_DAILY(270,14)
 */
export function LIGHT_DAILY(light_umol_m2_s: any[][], hours_per_day: any[][]): any[][] {
  return lift(
    {
      light: quantity("light_umol_m2_s", light_umol_m2_s, { most: 5000, unit: "umol m-2 s-1" }),
      hours: quantity("hours_per_day", hours_per_day, { most: 24, unit: functions.units.hours }),
    },
    (given) => lightDailyMolPerM2(given.light, given.hours),
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
