import { growth } from "../words/growth";
import { flowNeededLPerH, sinkageMm } from "../science/hydraulics";
import { Problem } from "../science/problem";
import { seawaterDensityKgPerL } from "../science/water";
import { quantity } from "./arguments";
import { lift, liftRows } from "./lift";

/** Sea water of salinity 35 at 25 degrees C, kg/L. */
const USUAL_DENSITY = seawaterDensityKgPerL(35, 25);

/**
 * Flow over screens by common practice, L/h: low, usual, high, from 30 to 60 L/h for 1 cm of width. No source.
 * @customfunction FLOW_NEEDED
 * @param {any[][]} width_cm Width of the sheet at its slot, cm. One cell or a column.
 * @param {any[][]} [slots] Number of such sheets, each with its own slot; 1 if left out. Both faces of a sheet share one slot.
 * @returns {any[][]} Low, usual and high flow, L/h.
 * @example =ALGAL.FLOW_NEEDED(25)
 */
export function FLOW_NEEDED(width_cm: any[][], slots?: any[][]): any[][] {
  return liftRows(
    { width: quantity("width_cm", width_cm, { most: 2000, unit: "cm" }), slots: quantity("slots", slots, { least: 1, most: 1000, unit: growth.units.slots }, 1) },
    (given) => {
      if (!Number.isInteger(given.slots)) throw new Problem("value", growth.wholeSlots(given.slots));
      const { low, value, high } = flowNeededLPerH(given.width, given.slots);
      return [low, value, high];
    },
    3,
  );
}

/**
 * How much deeper a float lies under an added mass, mm: mass / (density x waterplane area). For upright sides.
 * @customfunction FLOAT_DRAFT
 * @param {any[][]} mass_kg Mass added, kg, such as a lid, lamps or wet algae. One cell or a range.
 * @param {any[][]} waterplane_area_m2 Area that the floats cut out of the water's surface, m2; leave out the open water between them.
 * @param {any[][]} [density_kg_l] Density of the water, kg/L; 1.0233 (sea water) if left out, 0.997 for fresh (see SEAWATER_DENSITY).
 * @returns {any[][]} Added draft, mm.
 * @example =ALGAL.FLOAT_DRAFT(0.68,0.05)
 */
export function FLOAT_DRAFT(mass_kg: any[][], waterplane_area_m2: any[][], density_kg_l?: any[][]): any[][] {
  return lift(
    {
      mass: quantity("mass_kg", mass_kg, { unit: "kg" }),
      area: quantity("waterplane_area_m2", waterplane_area_m2, { open: true, unit: "m2" }),
      density: quantity("density_kg_l", density_kg_l, { least: 0.9, most: 1.3, unit: "kg/L" }, USUAL_DENSITY),
    },
    (given) => sinkageMm(given.mass, given.area, given.density),
  );
}
