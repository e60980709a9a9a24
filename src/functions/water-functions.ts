import { functions } from "../words/functions";
import { science } from "../words/science";
import { elementMgPerL, type Nutrient } from "../science/nutrient-forms";
import { Problem } from "../science/problem";
import type { Kit, Reading } from "../science/reading";
import { netVolumeL, storeG } from "../science/water";
import { changesToTarget, readingAfterChanges } from "../science/water-change";
import { quantity, share, word } from "./arguments";
import { lift, type Answer } from "./lift";
import { basisFor, kitFrom, readings } from "./reading-functions";

const CLEAN_WATER: Reading = { value: 0, low: 0, high: 0, u: 0, censored: "no" };

/**
 * Nitrogen dissolved in the water, g: reading as N x volume.
 * @customfunction WATER_STORE_N
 * @param {any[][]} reading Reading as written: 10, <0.2, 5-10. One cell or a range.
 * @param {any[][]} basis Unit and form of the reading, such as "mg/L NO3" or "NO3-N".
 * @param {any[][]} volume_l Water volume, litres.
 * @param {any[][]} [kit_steps] The chart's patches, "0 5 10 20 40" or a range, or one number for a meter's smallest step.
 * @returns {any[][]} Nitrogen, g.
 * @example =ALGAL.WATER_STORE_N(10,"mg/L NO3",265)
 */
export function WATER_STORE_N(reading: any[][], basis: any[][], volume_l: any[][], kit_steps?: any[][]): any[][] {
  return waterStore("N", reading, basis, volume_l, kit_steps);
}

/**
 * Phosphorus dissolved in the water, g: reading as P x volume.
 * @customfunction WATER_STORE_P
 * @param {any[][]} reading Reading as written: 0.08, <0.02, 0.08-0.1. One cell or a range.
 * @param {any[][]} basis Unit and form of the reading, such as "mg/L PO4" or "ug/L P".
 * @param {any[][]} volume_l Water volume, litres.
 * @param {any[][]} [kit_steps] The chart's patches, "0 0.02 0.04 0.08" or a range, or one number for a meter's smallest step.
 * @returns {any[][]} Phosphorus, g.
 * @example =ALGAL.WATER_STORE_P(80,"ug/L P",265)
 */
export function WATER_STORE_P(reading: any[][], basis: any[][], volume_l: any[][], kit_steps?: any[][]): any[][] {
  return waterStore("P", reading, basis, volume_l, kit_steps);
}

/**
 * Water in a filled tank or pond, L: the inside volume less what rock, sand and other things displace.
 * @customfunction NET_VOLUME
 * @param {any[][]} gross_l Inside volume up to the water line, litres, sump included.
 * @param {any[][]} [rock_kg] Rock, kg dry.
 * @param {any[][]} [sand_kg] Sand or gravel, kg dry.
 * @param {any[][]} [other_l] Anything else that displaces water, litres.
 * @returns {any[][]} Net volume, L.
 * @example =ALGAL.NET_VOLUME(300,70,27)
 */
export function NET_VOLUME(gross_l: any[][], rock_kg?: any[][], sand_kg?: any[][], other_l?: any[][]): any[][] {
  return lift(
    {
      gross: quantity("gross_l", gross_l, { open: true, unit: "L" }),
      rock: quantity("rock_kg", rock_kg, { unit: "kg" }, 0),
      sand: quantity("sand_kg", sand_kg, { unit: "kg" }, 0),
      other: quantity("other_l", other_l, { unit: "L" }, 0),
    },
    (given) => netVolumeL(given.gross, given.rock, given.sand, given.other),
  );
}

/**
 * Reading after one or more equal water changes: Cin + (C - Cin)(1 - share)^times.
 * @customfunction CHANGE_RESULT
 * @param {any[][]} reading Reading before, any unit. One cell or a range.
 * @param {any[][]} share Share of the water volume changed each time, such as 25%.
 * @param {any[][]} [incoming] Reading of the new water in the same unit; 0 if left out.
 * @param {any[][]} [times] How many changes; 1 if left out.
 * @returns {any[][]} Reading after, same unit.
 * @example =ALGAL.CHANGE_RESULT(40,25%)
 */
export function CHANGE_RESULT(reading: any[][], share: any[][], incoming?: any[][], times?: any[][]): any[][] {
  return lift(
    {
      reading: quantity("reading", reading, { unit: "" }),
      share: changedShare(share),
      incoming: quantity("incoming", incoming, { unit: "" }, 0),
      times: quantity("times", times, { unit: functions.units.changes, most: 10000 }, 1),
    },
    (given) => readingAfterChanges(given.reading, given.share, given.incoming, wholeTimes(given.times)),
  );
}

/**
 * How many equal water changes bring a reading down to a target.
 * @customfunction CHANGE_COUNT
 * @param {any[][]} reading Reading now, any unit. One cell or a range.
 * @param {any[][]} target Reading wanted, same unit.
 * @param {any[][]} share Share of the water volume changed each time, such as 25%.
 * @param {any[][]} [incoming] Reading of the new water in the same unit; 0 if left out.
 * @returns {any[][]} Number of changes.
 * @example =ALGAL.CHANGE_COUNT(40,10,20%)
 */
export function CHANGE_COUNT(reading: any[][], target: any[][], share: any[][], incoming?: any[][]): any[][] {
  return lift(
    {
      reading: quantity("reading", reading, { unit: "" }),
      target: quantity("target", target, { unit: "" }),
      share: changedShare(share),
      incoming: quantity("incoming", incoming, { unit: "" }, 0),
    },
    (given) => {
      if (given.share === 0) throw new Problem("divide", science.zeroDivisor("share"));
      return changesToTarget(given.reading, given.target, given.share, given.incoming);
    },
  );
}

/**
 * Nitrogen that leaves with a water change, g, less what the new water brings.
 * @customfunction CHANGE_N_EXPORT
 * @param {any[][]} reading Reading before the change, as written. One cell or a range.
 * @param {any[][]} basis Unit and form of the readings, such as "mg/L NO3".
 * @param {any[][]} changed_l Water taken out, litres.
 * @param {any[][]} [incoming] Reading of the new water on the same basis; 0 if left out.
 * @param {any[][]} [kit_steps] The chart's patches, "0 5 10 20 40" or a range, or one number for a meter's smallest step.
 * @returns {any[][]} Nitrogen, g.
 * @example =ALGAL.CHANGE_N_EXPORT(20,"mg/L NO3",50)
 */
export function CHANGE_N_EXPORT(reading: any[][], basis: any[][], changed_l: any[][], incoming?: any[][], kit_steps?: any[][]): any[][] {
  return changeExport("N", reading, basis, changed_l, incoming, kit_steps);
}

/**
 * Phosphorus that leaves with a water change, g, less what the new water brings.
 * @customfunction CHANGE_P_EXPORT
 * @param {any[][]} reading Reading before the change, as written. One cell or a range.
 * @param {any[][]} basis Unit and form of the readings, such as "mg/L PO4".
 * @param {any[][]} changed_l Water taken out, litres.
 * @param {any[][]} [incoming] Reading of the new water on the same basis; 0 if left out.
 * @param {any[][]} [kit_steps] The chart's patches, "0 0.02 0.04 0.08" or a range, or one number for a meter's smallest step.
 * @returns {any[][]} Phosphorus, g.
 * @example =ALGAL.CHANGE_P_EXPORT(0.3,"mg/L PO4",50)
 */
export function CHANGE_P_EXPORT(reading: any[][], basis: any[][], changed_l: any[][], incoming?: any[][], kit_steps?: any[][]): any[][] {
  return changeExport("P", reading, basis, changed_l, incoming, kit_steps);
}

/** A zero that somebody writes for new water is purified water, not a test that shows nothing. */
function newWater(given: unknown, kit: Kit | undefined): ReturnType<typeof readings> {
  const tested = readings("incoming", given, kit, CLEAN_WATER);
  return { ...tested, read: (cell) => (cell === 0 ? { known: CLEAN_WATER, written: cell } : tested.read(cell)) };
}

const changedShare = (given: unknown) => share("share", given, 1);

function wholeTimes(times: number): number {
  if (!Number.isInteger(times)) throw new Problem("value", science.wholeChanges(times));
  return times;
}

/** A reading that has a value; one above the kit's scale has none. */
function valueOf({ known, written }: { known: Reading; written: unknown }): number {
  if (known.censored === "above") throw new Problem("missing", science.aboveTheKit(written));
  return known.value;
}

function waterStore(nutrient: Nutrient, reading: unknown, basis: unknown, volumeL: unknown, kitSteps: unknown): Answer[][] {
  return lift(
    { reading: readings("reading", reading, kitFrom(kitSteps)), basis: word("basis", basis), volumeL: quantity("volume_l", volumeL, { unit: "L" }) },
    (given) => storeG(valueOf(given.reading) * elementMgPerL(basisFor(nutrient, given.basis)), given.volumeL),
  );
}

function changeExport(nutrient: Nutrient, reading: unknown, basis: unknown, changedL: unknown, incoming: unknown, kitSteps: unknown): Answer[][] {
  const kit = kitFrom(kitSteps);
  return lift(
    {
      reading: readings("reading", reading, kit),
      basis: word("basis", basis),
      changedL: quantity("changed_l", changedL, { unit: "L" }),
      incoming: newWater(incoming, kit),
    },
    (given) => storeG((valueOf(given.reading) - valueOf(given.incoming)) * elementMgPerL(basisFor(nutrient, given.basis)), given.changedL),
  );
}
