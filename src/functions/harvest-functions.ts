import { functions } from "../words/functions";
import { science } from "../words/science";
import { feedLoadG, findFood } from "../science/feed";
import { growthGPerM2Day, harvestDryG, harvestExportG, mostTissue, usualDryFraction, usualTissue, type Draining } from "../science/harvest";
import type { Nutrient } from "../science/nutrient-forms";
import { choice, quantity, share, shareWithin, word } from "./arguments";
import { Problem } from "../science/problem";
import { foodsFrom } from "./foods-range";
import { lift, type Answer } from "./lift";

const DRAININGS: readonly Draining[] = ["drained", "pressed"];
const NUTRIENTS: readonly Nutrient[] = ["N", "P"];

/**
 * Dry mass of a harvest, g: drained weight x dry fraction.
 * @customfunction HARVEST_DRY
 * @param {any[][]} drained_g Weight after draining, g. One cell or a range.
 * @param {any[][]} [dry_fraction] g dry per g drained, from a sample you dried; 0.08 drained or 0.15 pressed if left out.
 * @param {any[][]} [how] "drained" (the usual) or "pressed".
 * @returns {any[][]} Dry mass, g.
 * @example =ALGAL.HARVEST_DRY(150)
 */
export function HARVEST_DRY(drained_g: any[][], dry_fraction?: any[][], how?: any[][]): any[][] {
  return lift(drying(drained_g, dry_fraction, how), (given) => harvestDryG(given.drained, dryFractionOf(given)));
}

/**
 * Nitrogen that left with a harvest, g. Algae fed back to the animals have not left.
 * @customfunction HARVEST_N_EXPORT
 * @param {any[][]} drained_g Weight after draining, g. One cell or a range.
 * @param {any[][]} [dry_fraction] g dry per g drained, from a sample you dried; 0.08 drained or 0.15 pressed if left out.
 * @param {any[][]} [tissue_n] Share of N in the dry algae, such as 3.5%; 0.035 if left out.
 * @param {any[][]} [fed_back_share] Share of the harvest fed back to the animals; 0 if left out.
 * @param {any[][]} [how] "drained" (the usual) or "pressed".
 * @returns {any[][]} Nitrogen, g.
 * @example =ALGAL.HARVEST_N_EXPORT(150,8.5%)
 */
export function HARVEST_N_EXPORT(drained_g: any[][], dry_fraction?: any[][], tissue_n?: any[][], fed_back_share?: any[][], how?: any[][]): any[][] {
  return harvestExport("N", drained_g, dry_fraction, tissue_n, fed_back_share, how);
}

/**
 * Phosphorus that left with a harvest, g. Algae fed back to the animals have not left.
 * @customfunction HARVEST_P_EXPORT
 * @param {any[][]} drained_g Weight after draining, g. One cell or a range.
 * @param {any[][]} [dry_fraction] g dry per g drained, from a sample you dried; 0.08 drained or 0.15 pressed if left out.
 * @param {any[][]} [tissue_p] Share of P in the dry algae, such as 0.35%; 0.0035 if left out.
 * @param {any[][]} [fed_back_share] Share of the harvest fed back to the animals; 0 if left out.
 * @param {any[][]} [how] "drained" (the usual) or "pressed".
 * @returns {any[][]} Phosphorus, g.
 * @example =ALGAL.HARVEST_P_EXPORT(150,8.5%)
 */
export function HARVEST_P_EXPORT(drained_g: any[][], dry_fraction?: any[][], tissue_p?: any[][], fed_back_share?: any[][], how?: any[][]): any[][] {
  return harvestExport("P", drained_g, dry_fraction, tissue_p, fed_back_share, how);
}

/**
 * Growth between two harvests, g dry m-2 d-1: dry mass / lit area / days.
 * @customfunction HARVEST_GROWTH
 * @param {any[][]} drained_g Weight after draining, g. One cell or a range.
 * @param {any[][]} lit_area_m2 Lit area, m2; both sides count when both are lit.
 * @param {any[][]} days Days since the harvest before, or since the unit was started.
 * @param {any[][]} [dry_fraction] g dry per g drained, from a sample you dried; 0.08 drained or 0.15 pressed if left out.
 * @param {any[][]} [how] "drained" (the usual) or "pressed".
 * @returns {any[][]} Growth, g dry m-2 d-1.
 * @example =ALGAL.HARVEST_GROWTH(150,0.2,11,8.5%)
 */
export function HARVEST_GROWTH(drained_g: any[][], lit_area_m2: any[][], days: any[][], dry_fraction?: any[][], how?: any[][]): any[][] {
  return lift(
    {
      ...drying(drained_g, dry_fraction, how),
      area: quantity("lit_area_m2", lit_area_m2, { open: true, unit: "m2" }),
      days: quantity("days", days, { open: true, unit: functions.units.days }),
    },
    (given) => growthGPerM2Day(harvestDryG(given.drained, dryFractionOf(given)), given.area, given.days),
  );
}

/**
 * Feed whose nitrogen or phosphorus a harvest carried away, g of that food.
 * @customfunction HARVEST_FEED_EQUIVALENT
 * @param {any[][]} drained_g Weight after draining, g. One cell or a range.
 * @param {any[][]} food Name of the food as in the foods table.
 * @param {any[][]} [nutrient] "N" (the usual) or "P".
 * @param {any[][]} [dry_fraction] g dry per g drained, from a sample you dried; 0.08 drained or 0.15 pressed if left out.
 * @param {any[][]} [tissue_share] Share of that nutrient in the dry algae; 0.035 for N and 0.0035 for P if left out.
 * @param {any[][]} [fed_back_share] Share of the harvest fed back to the animals; 0 if left out.
 * @param {any[][]} [foods] Your Foods sheet with its heading row.
 * @param {any[][]} [how] "drained" (the usual) or "pressed".
 * @returns {any[][]} Food, g as fed.
 * @example =ALGAL.HARVEST_FEED_EQUIVALENT(150,"Mussel")
 */
export function HARVEST_FEED_EQUIVALENT(
  drained_g: any[][],
  food: any[][],
  nutrient?: any[][],
  dry_fraction?: any[][],
  tissue_share?: any[][],
  fed_back_share?: any[][],
  foods?: any[][],
  how?: any[][],
): any[][] {
  const table = foodsFrom(foods);
  return lift(
    {
      ...drying(drained_g, dry_fraction, how),
      food: word("food", food),
      nutrient: choice("nutrient", nutrient, NUTRIENTS, science.unknownNutrient, "N"),
      tissue: share("tissue_share", tissue_share, mostTissue("N"), UNSTATED),
      fedBack: share("fed_back_share", fed_back_share, 1, 0),
    },
    (given) => {
      const tissue = given.tissue === UNSTATED ? usualTissue(given.nutrient).value : shareWithin("tissue_share", given.tissue, mostTissue(given.nutrient));
      const exported = harvestExportG(given.drained, dryFractionOf(given), tissue, given.fedBack);
      const food = findFood(given.food, table);
      const perGram = feedLoadG(1, food, given.nutrient, 0);
      if (perGram === 0) throw new Problem("divide", science.foodWithout(food.name, given.nutrient));
      return exported / perGram;
    },
  );
}

/** Marks a share that was left out and whose usual value depends on another argument; no share is below zero. */
const UNSTATED = -1;

const drying = (drainedG: unknown, dryFraction: unknown, how: unknown) => ({
  drained: quantity("drained_g", drainedG, { unit: "g" }),
  dryFraction: share("dry_fraction", dryFraction, 0.5, UNSTATED),
  how: choice("how", how, DRAININGS, science.unknownDraining, "drained"),
});

const dryFractionOf = (given: { dryFraction: number; how: Draining }): number =>
  given.dryFraction === UNSTATED ? usualDryFraction(given.how).value : given.dryFraction;

function harvestExport(nutrient: Nutrient, drainedG: unknown, dryFraction: unknown, tissue: unknown, fedBack: unknown, how: unknown): Answer[][] {
  return lift(
    {
      ...drying(drainedG, dryFraction, how),
      tissue: share(nutrient === "N" ? "tissue_n" : "tissue_p", tissue, mostTissue(nutrient), usualTissue(nutrient).value),
      fedBack: share("fed_back_share", fedBack, 1, 0),
    },
    (given) => harvestExportG(given.drained, dryFractionOf(given), given.tissue, given.fedBack),
  );
}
