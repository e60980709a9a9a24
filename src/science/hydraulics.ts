import type { Ranged } from "./constants/foods";
import { HYDRAULICS } from "./constants/hydraulics";

/** Flow over screens, L/h, by common practice: width (cm) of each slot x number of slots. */
export function flowNeededLPerH(widthCm: number, slots: number): Ranged {
  const { low, value, high } = HYDRAULICS.flowPerWidth;
  const width = widthCm * slots;
  return { low: low * width, value: value * width, high: high * width };
}

/**
 * How much deeper a float lies under an added mass, mm: mass (kg) / (density (kg/L) x waterplane area (m2)), for kg / (kg/L) / m2 is mm.
 * The law of Archimedes for a float whose sides are upright about the waterline; naval architecture writes it as tonnes
 * per centimetre of immersion, waterplane area x density / 100.
 */
export const sinkageMm = (massKg: number, waterplaneAreaM2: number, densityKgPerL: number): number => massKg / (densityKgPerL * waterplaneAreaM2);
