import { ALGAE } from "./constants/algae";
import type { Constant } from "./constants/constant";
import type { Nutrient } from "./nutrient-forms";

export type Draining = "drained" | "pressed";

/** Share of dry matter that is taken when the keeper has not dried a sample. */
export const usualDryFraction = (draining: Draining): Constant => (draining === "pressed" ? ALGAE.dryFractionPressed : ALGAE.dryFractionDrained);

export const usualTissue = (nutrient: Nutrient): Constant => (nutrient === "N" ? ALGAE.tissueN : ALGAE.tissueP);

/** The highest tissue share that is believable: more is a wrong weight, a wrong dry fraction or a wrong unit. */
export const mostTissue = (nutrient: Nutrient): number => (nutrient === "N" ? ALGAE.tissueNMost : ALGAE.tissuePMost).value;

/** Dry mass of a harvest, g. */
export const harvestDryG = (drainedG: number, dryFraction: number): number => drainedG * dryFraction;

/** Grams of N or P that left with a harvest. Algae fed back to the animals have not left. */
export const harvestExportG = (drainedG: number, dryFraction: number, tissueShare: number, fedBackShare: number): number =>
  harvestDryG(drainedG, dryFraction) * tissueShare * (1 - fedBackShare);

/** Growth over an interval, g dry m-2 d-1. */
export const growthGPerM2Day = (dryG: number, litAreaM2: number, days: number): number => dryG / (litAreaM2 * days);
