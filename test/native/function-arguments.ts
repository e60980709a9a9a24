/** What may stand in an argument of a function, for random calls. Limits are those within which most answers are no errors. */
export type Kind =
  | { readonly kind: "number"; readonly from: number; readonly to: number; readonly whole?: boolean }
  | { readonly kind: "word"; readonly of: readonly string[] }
  | { readonly kind: "reading"; readonly scale: number }
  | { readonly kind: "kit"; readonly scale: number }
  | { readonly kind: "food" }
  | { readonly kind: "foods" }
  | { readonly kind: "left out" };
export type ArgumentKind = Kind & { readonly optional?: boolean; /** Taken whole for every cell. */ readonly whole?: boolean };

const number = (from: number, to: number): Kind => ({ kind: "number", from, to });
const word = (...of: string[]): Kind => ({ kind: "word", of });
const optional = <K extends Kind>(kind: K): K & { optional: true } => ({ ...kind, optional: true });
const kit = (scale: number): ArgumentKind => ({ kind: "kit", scale, optional: true, whole: true });
const reading = (scale: number): Kind => ({ kind: "reading", scale });
const FOODS: ArgumentKind = { kind: "foods", optional: true, whole: true };
const FOOD: Kind = { kind: "food" };
const SHARE = number(0.01, 0.9);
const HOW = optional(word("drained", "pressed", "Pressed"));
const N_BASIS = word("mg/L NO3", "NO3-N", "ug/L NO2", "umol/L N", "mg/L as NH4", "mmol/L NO3");
const P_BASIS = word("mg/L PO4", "PO4-P", "ug/L P", "umol/L P", "mg/L P2O5", "mmol/L P2O5");
const KG_BASIS = word("mg/kg NO3", "umol/kg N", "ug/kg NO2-N");
const SETTING = optional(word("weak", "ordinary", "strong", "Outdoor"));
const [LIGHT, AREA, WHOLE_TIMES] = [number(2, 60), number(0.02, 2), { kind: "number", from: 0, to: 12, whole: true } as Kind];
const feedLoad = [number(0, 20), FOOD, optional(word("g", "portions", "G")), FOODS, optional(number(0, 0.4))];
const exported = (most: number): ArgumentKind[] => [number(5, 400), optional(number(0.03, 0.2)), optional(number(0.001, most)), optional(SHARE), HOW];
const store = (basis: Kind, scale: number): ArgumentKind[] => [reading(scale), basis, number(20, 2000), kit(scale)];
const change = (basis: Kind, scale: number): ArgumentKind[] => [reading(scale), basis, number(2, 200), optional(reading(scale / 10)), kit(scale)];
const capacity = (most: number): ArgumentKind[] => [AREA, LIGHT, optional(number(0, 50)), optional(number(0, 2)), optional(number(10, 32)), SETTING, optional(number(0.001, most)), optional(number(0.1, 1.5))];
const readingAndKit: ArgumentKind[] = [reading(20), kit(20)];

/** The functions that become plain formulas, with their arguments. */
export const TRANSLATED: Readonly<Record<string, readonly ArgumentKind[]>> = {
  FEEDLOAD_N: feedLoad,
  FEEDLOAD_P: feedLoad,
  FOOD_N_CONTENT: [FOOD, FOODS],
  FOOD_P_CONTENT: [FOOD, FOODS],
  HARVEST_DRY: [number(5, 400), optional(number(0.03, 0.2)), HOW],
  HARVEST_N_EXPORT: exported(0.07),
  HARVEST_P_EXPORT: exported(0.02),
  HARVEST_GROWTH: [number(5, 400), AREA, number(2, 30), optional(number(0.03, 0.2)), HOW],
  HARVEST_FEED_EQUIVALENT: [number(5, 400), FOOD, optional(word("N", "P", "p")), optional(number(0.03, 0.2)), optional(number(0.001, 0.02)), optional(SHARE), FOODS, HOW],
  READING_VALUE: readingAndKit,
  READING_LOW: readingAndKit,
  READING_HIGH: readingAndKit,
  READING_UNCERTAINTY: readingAndKit,
  ION_CONVERT: [number(0, 50), N_BASIS, N_BASIS],
  NP_RATIO: [number(0.5, 50), N_BASIS, number(0.01, 3), P_BASIS, optional(word("mass", "moles", "Moles"))],
  WATER_STORE_N: store(N_BASIS, 20),
  WATER_STORE_P: store(P_BASIS, 0.5),
  NET_VOLUME: [number(150, 900), optional(number(0, 60)), optional(number(0, 40)), optional(number(0, 20))],
  CHANGE_RESULT: [number(1, 80), number(0, 1), optional(number(0, 5)), optional(WHOLE_TIMES)],
  CHANGE_COUNT: [number(1, 80), number(4, 40), number(0.05, 1), optional(number(0, 4))],
  CHANGE_N_EXPORT: change(N_BASIS, 20),
  CHANGE_P_EXPORT: change(P_BASIS, 0.5),
  LIGHT_DAILY: [number(20, 900), number(4, 20), optional(number(0, 1))],
  LIGHT_FROM_WATTS: [number(5, 200), AREA, optional(number(1, 3)), optional(SHARE)],
  LIGHT_YIELD: [number(1, 30), AREA, number(200, 3000)],
  LIGHT_COST: [number(5, 200), number(4, 20), number(3, 30), number(0.05, 0.6), optional(number(1, 40))],
  FLOW_NEEDED: [number(5, 60), optional({ kind: "number", from: 1, to: 4, whole: true })],
  FLOAT_DRAFT: [number(0, 3), AREA, optional(number(0.95, 1.1))],
  SCRUB_CAPACITY_N: capacity(0.07),
  SCRUB_CAPACITY_P: capacity(0.02),
  SCRUBAREA_HABIT: [number(0, 20)],
  STEADY_READING: [number(0, 0.2), number(0, 0.2), number(50, 900), optional(word("NO3", "NO3-N", "po4", "PO4-P")), optional(number(0, 0.6)), optional(number(0, 5))],
  SEAWATER_DENSITY: [number(0, 42), number(0, 40)],
  SALINITY_FROM_CONDUCTIVITY: [number(20, 58), number(15, 33)],
  OXYGEN_SATURATION: [number(0, 40), optional(number(0, 42)), optional(number(0.7, 1.05))],
  AMMONIA_UNIONISED: [number(0, 4), number(6, 9), number(2, 30), optional(number(0, 40))],
  ALKALINITY_SHIFT: [number(0, 10), word("ammonification", "nitrification", "Nitrate uptake", "ammonium uptake", "denitrification"), optional(word("meq/L", "dkh", "mg/L CaCO3"))],
};

/** The same function with other arguments, where a case of its own is wanted. */
export const MORE_SHAPES: readonly (readonly [string, readonly ArgumentKind[]])[] = [
  ["ION_CONVERT", [number(0, 50), P_BASIS, P_BASIS]],
  ["ION_CONVERT", [number(0, 50), KG_BASIS, N_BASIS, number(0, 40), number(2, 32)]],
  ["ION_CONVERT", [number(0, 50), N_BASIS, KG_BASIS, number(0, 40), number(2, 32)]],
  ["ION_CONVERT", [number(0, 50), KG_BASIS, KG_BASIS]],
  ["SCRUBAREA_HABIT", [number(1, 20), number(0.01, 0.2), optional(number(0.001, 0.02))]],
  ["READING_VALUE", [reading(0.5), kit(0.5)]],
  ["READING_HIGH", [reading(0.5), kit(0.5)]],
  ["READING_UNCERTAINTY", [reading(0.5), kit(0.5)]],
];

/** Calls that stay values, and what else they are made of. */
export const FROZEN: readonly (readonly [string, readonly ArgumentKind[]])[] = [
  ["SALINITY_FROM_SG", [number(1.001, 1.03), word("25/25", "20/20", "60/60F")]],
  ["SCRUBAREA_NEEDED", [number(0.01, 0.2), number(0.001, 0.02), LIGHT]],
];
