import { GROWTH_CURVES } from "../growth-curves";
import { harvestInterval, usualRegrowth } from "../harvest-interval";
import type { Crop } from "./model";

/** Relative crop b between harvests, db/dt = g b (1 - b / most), uptake in proportion to b. A harvest leaves the share `keep`. */
export const logisticCrop = (ratePerDay: number, most: number, start: number, keep: number): Crop => ({
  factor: (days, left) => (most * left) / (left + (most - left) * Math.exp(-ratePerDay * days)),
  leaves: (factor) => keep * factor,
  atStart: start,
});

/**
 * A screen on the usual regrowth curve, whose uptake follows its growth: slow on the bare screen, fastest in the middle,
 * nearly nothing on one that is overgrown. 1 is the mean growth of a screen that is harvested at its best interval, so
 * that the uptake of sizing and capacity, which are such means, holds for a screen that is kept so.
 */
export function usualCrop(daysSinceHarvest: number): Crop {
  // What stands at the start is told by the days since the last harvest; a harvest takes all but the stubble.
  return {
    factor: (days, left) => GROWTH_CURVES.logistic.growth(days + left, USUAL) / USUAL_GROWTH,
    leaves: () => 0,
    atStart: daysSinceHarvest,
  };
}

const USUAL = [usualRegrowth.most, usualRegrowth.stubble, usualRegrowth.ratePerDay];
const USUAL_GROWTH = harvestInterval(usualRegrowth).growthGPerM2Day;
