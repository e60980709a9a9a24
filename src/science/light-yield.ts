import { growth as words } from "../words/growth";
import { LIGHT_CEILING } from "./constants/light-ceiling";
import { Problem } from "./problem";

/**
 * Light yield, g dry per mol of photons on the lit area: dry mass (g) / (lit area (m2) x light sum of the whole interval (mol/m2)).
 * @throws Problem "number" above what any alga can do: then the weight, the area or the light is wrong
 */
export function lightYieldGPerMol(dryG: number, litAreaM2: number, lightMolPerM2: number): number {
  const found = dryG / (litAreaM2 * lightMolPerM2);
  const most = LIGHT_CEILING.lightYieldMost.value;
  if (found > most) throw new Problem("number", words.aboveLightCeiling(found, most));
  return found;
}

/** Electric energy of lamps, kWh. */
export const lampKWh = (watts: number, hoursPerDay: number, days: number): number => (watts * hoursPerDay * days) / 1000;
