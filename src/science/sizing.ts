import { science as words } from "../words/science";
import { ALGAE, GROWTH_BAND, type Setting } from "./constants/algae";
import { PRACTICE } from "./constants/practice";
import { Problem } from "./problem";
import { quantileOfSorted, seededRandom, type Random } from "./seeded";
import { draw, rectangular, triangular, withinShare } from "./uncertain";

/** What a screen must do and under what conditions. Loads in grams of the element a day, targets in mg of the element per litre. */
export interface SizingCase {
  readonly loadNGPerDay: number;
  readonly loadPGPerDay: number;
  readonly lightMolPerM2Day: number;
  readonly targetNMgPerL: number | null;
  readonly targetPMgPerL: number | null;
  readonly temperatureC: number;
  readonly setting: Setting;
  /** By what share of itself the load may be off, the same for N and P; 0 if left out. */
  readonly loadShare?: number;
}

const REFERENCE_C = 25;

/** Growth that the light can carry, held to the band of the setting, slowed by thin water and by cold, g dry m-2 d-1. */
export function growthFor(
  { lightMolPerM2Day, targetNMgPerL, targetPMgPerL, temperatureC }: Pick<SizingCase, "lightMolPerM2Day" | "targetNMgPerL" | "targetPMgPerL" | "temperatureC">,
  knobs: { readonly lightYield: number; readonly band: number; readonly halfN: number; readonly halfP: number; readonly q10: number },
): number {
  const byLight = Math.min(knobs.lightYield * lightMolPerM2Day, knobs.band);
  const byN = targetNMgPerL === null ? 1 : targetNMgPerL / (knobs.halfN + targetNMgPerL);
  const byP = targetPMgPerL === null ? 1 : targetPMgPerL / (knobs.halfP + targetPMgPerL);
  // The scarcer nutrient rules (Liebig's law of the minimum).
  return byLight * Math.min(byN, byP) * knobs.q10 ** ((temperatureC - REFERENCE_C) / 10);
}

/** What is uncertain when a screen is sized. */
export const SIZING_INPUTS = ["load", "lightYield", "band", "halfN", "halfP", "q10", "tissueN", "tissueP"] as const;
export type SizingInput = (typeof SIZING_INPUTS)[number];
type Drawn = Record<SizingInput, number>;

export interface AreaRange {
  readonly low: number;
  readonly middle: number;
  readonly high: number;
  /** In what share of the draws nitrogen needed the larger area. */
  readonly nitrogenRules: number;
  /**
   * Share of the spread that each input drives, largest first: squared correlation with the logarithm of the area,
   * scaled to a sum of 1 (the inputs are drawn independently; Saltelli et al. 2008, correlation measures).
   */
  readonly drivers: readonly { readonly input: SizingInput; readonly share: number }[];
}

/**
 * Lit area that takes up the load, m2: 10, 50 and 90 % of seeded draws over the ranges of the constants.
 * Area = load / (growth x tissue share), for N and for P; the larger rules.
 * @throws Problem when there is no load, no light, or a target of zero at which nothing grows
 */
export function areaNeeded(wanted: SizingCase, draws: number, seed: number): AreaRange {
  refuseNothing(wanted);
  const drawOne = drawerOf(wanted, seed);
  const areas = new Float64Array(draws);
  const moments = momentsOf();
  let nitrogen = 0;
  for (let index = 0; index < draws; index += 1) {
    const drawn = drawOne();
    const growth = growthFor(wanted, drawn);
    const forN = (wanted.loadNGPerDay * drawn.load) / (growth * drawn.tissueN);
    const forP = (wanted.loadPGPerDay * drawn.load) / (growth * drawn.tissueP);
    if (forN >= forP) nitrogen += 1;
    const area = Math.max(forN, forP);
    areas[index] = area;
    moments.add(drawn, Math.log(area));
  }
  areas.sort();
  return {
    low: quantileOfSorted(areas, 0.1),
    middle: quantileOfSorted(areas, 0.5),
    high: quantileOfSorted(areas, 0.9),
    nitrogenRules: nitrogen / draws,
    drivers: moments.shares(),
  };
}

/**
 * Share of the load that an area takes up, 10, 50 and 90 % of the same draws: the scarcer of N and P decides. May be above 1.
 * @throws Problem as `areaNeeded`
 */
export function shareCarried(litAreaM2: number, wanted: SizingCase, draws: number, seed: number): { low: number; middle: number; high: number } {
  refuseNothing(wanted);
  const drawOne = drawerOf(wanted, seed);
  const shares = new Float64Array(draws);
  for (let index = 0; index < draws; index += 1) {
    const drawn = drawOne();
    const growthG = litAreaM2 * growthFor(wanted, drawn);
    const ofLoad = (gPerDay: number, tissue: number): number => (gPerDay === 0 ? Infinity : (growthG * tissue) / (gPerDay * drawn.load));
    shares[index] = Math.min(ofLoad(wanted.loadNGPerDay, drawn.tissueN), ofLoad(wanted.loadPGPerDay, drawn.tissueP));
  }
  shares.sort();
  return { low: quantileOfSorted(shares, 0.1), middle: quantileOfSorted(shares, 0.5), high: quantileOfSorted(shares, 0.9) };
}

function refuseNothing(wanted: SizingCase): void {
  if (wanted.loadNGPerDay === 0 && wanted.loadPGPerDay === 0) throw new Problem("number", words.noLoad);
  if (wanted.lightMolPerM2Day === 0) throw new Problem("divide", words.noLight);
  if (wanted.targetNMgPerL === 0 || wanted.targetPMgPerL === 0) throw new Problem("divide", words.targetZero);
}

const TISSUE_N = triangular(ALGAE.tissueN);
const TISSUE_P = triangular(ALGAE.tissueP);
const LIGHT_YIELD = triangular(ALGAE.lightYield);
const HALF_N = triangular(ALGAE.halfSaturationN);
const HALF_P = triangular(ALGAE.halfSaturationP);
const Q10 = triangular(ALGAE.q10);

function drawerOf(wanted: SizingCase, seed: number): () => Drawn {
  const random: Random = seededRandom(seed);
  const { low, high } = GROWTH_BAND[wanted.setting];
  const [load, band] = [withinShare(1, wanted.loadShare ?? 0), rectangular(low, high)];
  return () => ({
    lightYield: draw(LIGHT_YIELD, random),
    band: draw(band, random),
    halfN: draw(HALF_N, random),
    halfP: draw(HALF_P, random),
    q10: draw(Q10, random),
    tissueN: draw(TISSUE_N, random),
    tissueP: draw(TISSUE_P, random),
    load: draw(load, random),
  });
}

/** Running sums for the correlation of each input with an outcome. */
function momentsOf() {
  const sums = SIZING_INPUTS.map(() => ({ x: 0, xx: 0, xy: 0 }));
  let [count, y1, y2] = [0, 0, 0];
  return {
    add(drawn: Drawn, y: number): void {
      count += 1;
      y1 += y;
      y2 += y * y;
      for (let place = 0; place < SIZING_INPUTS.length; place += 1) {
        const sum = sums[place] as { x: number; xx: number; xy: number };
        const x = drawn[SIZING_INPUTS[place] as SizingInput];
        sum.x += x;
        sum.xx += x * x;
        sum.xy += x * y;
      }
    },
    shares(): { input: SizingInput; share: number }[] {
      const squared = sums.map(({ x, xx, xy }) => {
        const spread = (xx - (x * x) / count) * (y2 - (y1 * y1) / count);
        return spread > 1e-12 ? (xy - (x * y1) / count) ** 2 / spread : 0;
      });
      const total = squared.reduce((sum, one) => sum + one, 0);
      return SIZING_INPUTS.map((input, place) => ({ input, share: total > 0 ? (squared[place] ?? 0) / total : 0 })).sort((a, b) => b.share - a.share);
    },
  };
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
