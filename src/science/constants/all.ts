import { ALGAE, GROWTH_BAND } from "./algae";
import { ATOMIC_WEIGHT } from "./atomic-weights";
import type { Constant } from "./constant";
import { HYDRAULICS } from "./hydraulics";
import { LIGHT_CEILING } from "./light-ceiling";
import { LIMITS } from "./limits";
import { BUDGET_DEFAULT, PRACTICE } from "./practice";
import { SIZING } from "./sizing-start";

/** Every constant with its range, source and mark, in the order of the help page. */
export const CONSTANTS: readonly Constant[] = Object.values({ ...ATOMIC_WEIGHT, ...ALGAE, ...GROWTH_BAND, ...LIGHT_CEILING, ...PRACTICE, ...HYDRAULICS, ...SIZING, ...BUDGET_DEFAULT, ...LIMITS });
