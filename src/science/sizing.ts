import { science as words } from "../words/science";
import { ALGAE, GROWTH_BAND, type Setting } from "./constants/algae";
import { PRACTICE } from "./constants/practice";
import { Problem } from "./problem";
import { quantileOfSorted, seededRandom, type Random } from "./seeded";
import { draw, rectangular, triangular } from "./uncertain";

/** What a screen must do and under what conditions. Loads in grams of the element a day, targets in mg of the element per litre. */
export interface SizingCase {
  readonly loadNGPerDay: number;
  readonly loadPGPerDay: number;
  readonly lightMolPerM2Day: number;
  readonly targetNMgPerL: number | null;
  readonly targetPMgPerL: number | null;
  readonly temperatureC: number;
  readonly setting: Setting;
}

const REFERENCE_C = 25;

/** Growth that the light can carry, held to the band of the setting, slowed by thin water and by cold, g dry m-2 d-1. */
export function growthFor(
  { lightMolPerM2Day, targetNMgPerL, targetPMgPerL, temperatureC }: SizingCase,
  knobs: { lightYield: number; band: number; halfN: number; halfP: number; q10: number },
): number {
  const byLight = Math.min(knobs.lightYield * lightMolPerM2Day, knobs.band);
  const byN = targetNMgPerL === null ? 1 : targetNMgPerL / (knobs.halfN + targetNMgPerL);
  const byP = targetPMgPerL === null ? 1 : targetPMgPerL / (knobs.halfP + targetPMgPerL);
  // The scarcer nutrient rules (Liebig's law of the minimum).
  return byLight * Math.min(byN, byP) * knobs.q10 ** ((temperatureC - REFERENCE_C) / 10);
}

export interface AreaRange {
  readonly low: number;
  readonly middle: number;
  readonly high: number;
  /** In what share of the draws nitrogen needed the larger area. */
  readonly nitrogenRules: number;
}

/**
 * Lit area that takes up the load, m2: 10, 50 and 90 % of seeded draws over the ranges of the constants.
 * Area = load / (growth x tissue share), for N and for P; the larger rules.
 * @throws Problem when there is no load, no light, or a target of zero at which nothing grows
 */
export function areaNeeded(wanted: SizingCase, draws: number, seed: number): AreaRange {
  if (wanted.loadNGPerDay === 0 && wanted.loadPGPerDay === 0) throw new Problem("number", words.noLoad);
  if (wanted.lightMolPerM2Day === 0) throw new Problem("divide", words.noLight);
  if (wanted.targetNMgPerL === 0 || wanted.targetPMgPerL === 0) throw new Problem("divide", words.targetZero);
  const random = seededRandom(seed);
  const areas = new Float64Array(draws);
  let nitrogen = 0;
  for (let index = 0; index < draws; index += 1) {
    const growth = drawnGrowth(wanted, random);
    const forN = wanted.loadNGPerDay / (growth * draw(TISSUE_N, random));
    const forP = wanted.loadPGPerDay / (growth * draw(TISSUE_P, random));
    if (forN >= forP) nitrogen += 1;
    areas[index] = Math.max(forN, forP);
  }
  areas.sort();
  return {
    low: quantileOfSorted(areas, 0.1),
    middle: quantileOfSorted(areas, 0.5),
    high: quantileOfSorted(areas, 0.9),
    nitrogenRules: nitrogen / draws,
  };
}

const TISSUE_N = triangular(ALGAE.tissueN);
const TISSUE_P = triangular(ALGAE.tissueP);
const LIGHT_YIELD = triangular(ALGAE.lightYield);
const HALF_N = triangular(ALGAE.halfSaturationN);
const HALF_P = triangular(ALGAE.halfSaturationP);
const Q10 = triangular(ALGAE.q10);

function drawnGrowth(wanted: SizingCase, random: Random): number {
  const { low, high } = GROWTH_BAND[wanted.setting];
  return growthFor(wanted, {
    lightYield: draw(LIGHT_YIELD, random),
    band: draw(rectangular(low, high), random),
    halfN: draw(HALF_N, random),
    halfP: draw(HALF_P, random),
    q10: draw(Q10, random),
  });
}

/** The most that a screen takes up, g of the element a day: growth up to the top of the setting's band, every other constant at its usual value. */
export function capacityGPerDay(litAreaM2: number, tissueShare: number, wanted: SizingCase, lightYield: number): number {
  const growth = growthFor(wanted, {
    lightYield,
    band: GROWTH_BAND[wanted.setting].high,
    halfN: ALGAE.halfSaturationN.value,
    halfP: ALGAE.halfSaturationP.value,
    q10: ALGAE.q10.value,
  });
  return litAreaM2 * growth * tissueShare;
}

/** Lit area by the trade's habit, m2, least and most: both sides of 75 to 100 cm2 of sheet for a daily portion of about 3 g frozen. */
export function habitAreaM2(frozenFoodGPerDay: number): { low: number; high: number } {
  const portions = frozenFoodGPerDay / PRACTICE.habitPortion.value;
  const { low, high } = PRACTICE.habitAreaPerPortion;
  return { low: 2 * low * portions, high: 2 * high * portions };
}
