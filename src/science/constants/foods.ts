import type { Mark } from "./constant";
import { BUDGET_DEFAULT } from "./practice";
import type { SourceKey } from "./sources";

/** A figure with the limits within which the truth is expected. */
export interface Ranged {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

/** One food as fed: protein and water in g per 100 g, phosphorus in mg per 100 g, portion in g. N = protein / factor, and the factor belongs to the food. */
export interface Food {
  readonly name: string;
  readonly waterPercent: Ranged | null;
  readonly proteinPercent: Ranged;
  /** Nitrogen-to-protein factor with which the protein figure was made. */
  readonly factor: number;
  readonly phosphorusMgPer100g: Ranged;
  readonly portionG: Ranged | null;
  readonly proteinMark: Mark;
  readonly phosphorusMark: Mark;
  readonly source: SourceKey;
  /** Number or place in the source. */
  readonly locator: string;
}

/** A frozen portion of the usual small kind. Common practice, no source. */
const FROZEN_PORTION: Ranged = { value: 3, low: 2, high: 4 };

const around = (value: number): Ranged => ({
  value,
  low: value * (1 - BUDGET_DEFAULT.foodShare.value),
  high: value * (1 + BUDGET_DEFAULT.foodShare.value),
});

/** A row of USDA SR26; its protein is measured N times the database's own factor, 6.25 for these foods. */
function usda(ndb: string, name: string, water: number, protein: number, phosphorus: number): Food {
  return {
    name,
    waterPercent: { value: water, low: water, high: water },
    proteinPercent: around(protein),
    factor: 6.25,
    phosphorusMgPer100g: around(phosphorus),
    portionG: FROZEN_PORTION,
    proteinMark: "read",
    phosphorusMark: "read",
    source: "usda-sr26",
    locator: `NDB ${ndb}`,
  };
}

function other(
  name: string,
  [waterPercent, proteinPercent, phosphorusMgPer100g, portionG]: [Ranged | null, Ranged, Ranged, Ranged | null],
  [proteinMark, phosphorusMark]: [Mark, Mark],
  source: SourceKey,
  locator: string,
): Food {
  return { name, waterPercent, proteinPercent, factor: 6.25, phosphorusMgPer100g, portionG, proteinMark, phosphorusMark, source, locator };
}

const between = (value: number, low: number, high: number): Ranged => ({ value, low, high });

export const FOODS: readonly Food[] = [
  usda("15270", "Shrimp, untreated", 78.45, 20.1, 214),
  usda("15149", "Shrimp, retail (may be treated)", 83.01, 13.61, 244),
  usda("15145", "Crayfish", 82.24, 15.97, 256),
  usda("15139", "Crab", 79.02, 18.06, 229),
  usda("15175", "Squid", 78.55, 15.58, 221),
  usda("15166", "Octopus", 80.25, 14.91, 186),
  usda("15157", "Clam", 78.98, 14.67, 198),
  usda("15164", "Mussel", 80.58, 11.9, 197),
  usda("15169", "Oyster, eastern, cooked", 78.19, 11.42, 194),
  usda("15167", "Oyster, eastern, raw", 89.04, 5.71, 97),
  usda("15172", "Scallop", 82.53, 12.06, 334),
  usda("15266", "Pollock, untreated", 81.99, 17.17, 190),
  usda("15066", "Pollock, retail (may be treated)", 86.75, 12.19, 284),
  usda("15065", "Pollock, Atlantic", 78.18, 19.44, 221),
  usda("15015", "Cod", 81.22, 17.81, 203),
  usda("15236", "Salmon, farmed", 64.89, 20.42, 240),
  usda("15076", "Salmon, wild", 68.5, 19.84, 200),
  usda("15039", "Herring", 72.05, 17.96, 236),
  usda("15099", "Smelt", 78.77, 17.63, 230),
  usda("15261", "Tilapia", 78.08, 20.08, 170),
  usda("15072", "Fish roe", 67.73, 22.32, 402),
  usda("13321", "Beef heart", 77.11, 17.72, 212),
  usda("01125", "Egg yolk, fresh", 52.31, 15.86, 390),
  usda("01137", "Egg yolk, dried", 2.73, 33.73, 1040),
  usda("11446", "Nori, raw", 85.03, 5.81, 58),
  usda("11445", "Kelp, raw", 81.58, 1.68, 42),
  usda("11669", "Wakame, raw", 79.99, 3.03, 80),
  usda("11667", "Spirulina, dried", 4.68, 57.47, 118),
  usda("18375", "Baker's yeast, dry", 5.08, 40.44, 637),
  usda("11457", "Spinach", 91.4, 2.86, 49),
  usda("11251", "Romaine lettuce", 94.61, 1.23, 30),
  usda("11312", "Peas, frozen", 79.98, 5.22, 82),
  other("Krill, whole, frozen", [between(80.5, 77.9, 83.1), between(13.5, 11.9, 15.4), between(300, 200, 400), FROZEN_PORTION], ["read", "from memory"], "krill-encyclopedia", "whole Euphausia superba"),
  other("Krill, peeled", [between(76.4, 76.4, 76.4), between(17.2, 15, 19), between(250, 200, 300), FROZEN_PORTION], ["read", "from memory"], "krill-meat-2012", "proximate composition"),
  other("Brine shrimp, adult, frozen", [between(90, 86, 93), between(5.5, 3.5, 7.5), between(100, 60, 150), FROZEN_PORTION], ["from memory", "from memory"], "memory", "adult Artemia"),
  other("Brine shrimp, newly hatched", [between(88, 84, 90), between(6.3, 5, 8), between(120, 80, 160), null], ["from memory", "from memory"], "memory", "Artemia nauplii"),
  other("Mysids, frozen", [between(82, 78, 86), between(12, 9, 15), between(200, 150, 300), FROZEN_PORTION], ["from memory", "from memory"], "memory", "whole mysids"),
  other("Copepods, marine", [between(81, 75, 87), between(11.2, 7.2, 15), between(160, 100, 250), FROZEN_PORTION], ["computed", "from memory"], "omori-1969", "dry weight 19 % of wet; N 6.1 to 12.6 % of dry"),
  other("Zooplankton, freshwater", [between(90, 86, 93), between(6.1, 5, 7.5), between(100, 58, 146), FROZEN_PORTION], ["computed", "computed"], "andersen-hessen-1991", "N 9.2 to 10.3 %, P 0.58 to 1.46 % of dry weight; 10 % dry from memory"),
  other("Nori sheet, dried", [between(8, 3, 14), between(36, 30, 42), between(360, 350, 700), between(2.5, 2, 3)], ["computed", "computed"], "usda-sr26", "NDB 11446 rescaled to 8 % water"),
  other("Sea lettuce, dried", [between(15, 8, 17), between(20, 7, 26), between(160, 100, 350), null], ["read", "from memory"], "padua-2004", "Ulva, protein of dry weight"),
  other("Dry pellets or flakes", [between(8, 5, 11), between(45, 35, 55), between(1200, 900, 1800), between(0.2, 0.05, 0.5)], ["from memory", "from memory"], "memory", "label ranges of marine dry feeds; a pinch"),
  other("Pond pellets, 30 % protein", [between(8, 5, 11), between(30, 27, 33), between(900, 700, 1200), null], ["read", "read"], "boyd-queiroz", "example feed 4.8 % N, 0.9 % P"),
];
