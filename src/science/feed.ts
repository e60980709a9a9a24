import { science as words } from "../words/science";
import type { Food } from "./constants/foods";
import type { Nutrient } from "./nutrient-forms";
import { Problem } from "./problem";
import { triangular, type Uncertain } from "./uncertain";

/** Foods by their name in lower case. */
export type FoodTable = ReadonlyMap<string, Food>;

export const foodKey = (name: string): string => name.trim().toLowerCase().replace(/\s+/g, " ");

export const foodTable = (foods: Iterable<Food>): FoodTable => new Map([...foods].map((food) => [foodKey(food.name), food]));

/** The food of that name. @throws Problem with the nearest names when there is none */
export function findFood(name: string, table: FoodTable): Food {
  const found = table.get(foodKey(name));
  if (found) return found;
  throw new Problem("missing", words.unknownFood(name, nearest(name, table)));
}

function nearest(name: string, table: FoodTable): string[] {
  const wanted = foodKey(name).split(/[^\p{L}\p{N}]+/u).filter((word) => word.length > 2);
  const shares = [...table.values()].map((food) => {
    const key = foodKey(food.name);
    return { name: food.name, hits: wanted.filter((word) => key.includes(word.slice(0, 5))).length };
  });
  return shares.filter((food) => food.hits > 0).sort((a, b) => b.hits - a.hits).slice(0, 3).map((food) => food.name);
}

/** Grams of N or P in one gram of the food as fed, with its limits. N = protein / the food's own factor. */
export function foodContent(food: Food, nutrient: Nutrient): Uncertain {
  const [ranged, divisor] = nutrient === "N" ? [food.proteinPercent, 100 * food.factor] : [food.phosphorusMgPer100g, 100_000];
  return triangular({ low: ranged.low / divisor, value: ranged.value / divisor, high: ranged.high / divisor });
}

export type AmountUnit = "g" | "portions";

/** Grams of food in an amount of grams or portions. @throws Problem when the food's portion is not known */
export function feedMassG(amount: number, unit: AmountUnit, food: Food): number {
  if (unit === "g") return amount;
  if (!food.portionG) throw new Problem("missing", words.noPortion(food.name));
  return amount * food.portionG.value;
}

/** Grams of N or P that a feed brings into the water: what the animals keep does not arrive. */
export const feedLoadG = (massG: number, food: Food, nutrient: Nutrient, retainedShare: number): number =>
  massG * foodContent(food, nutrient).value * (1 - retainedShare);
