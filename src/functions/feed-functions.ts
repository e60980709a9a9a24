import { functions } from "../words/functions";
import { science } from "../words/science";
import { BUDGET_DEFAULT } from "../science/constants/practice";
import { feedLoadG, feedMassG, findFood, foodContent, type AmountUnit } from "../science/feed";
import type { Nutrient } from "../science/nutrient-forms";
import { choice, quantity, share, word } from "./arguments";
import { foodsFrom } from "./foods-range";
import { lift, type Answer } from "./lift";

const UNITS: readonly AmountUnit[] = ["g", "portions"];

/**
 * Nitrogen that a feed brings into the water, g: mass x N content x (1 - share kept by the animals).
 * @customfunction FEEDLOAD_N
 * @param {any[][]} amount Food fed, in grams or portions (see unit). One cell or a range.
 * @param {any[][]} food Name of the food as in the foods table.
 * @param {any[][]} [unit] "g" (the usual) or "portions".
 * @param {any[][]} [foods] Your Foods sheet with its heading row; its rows add to the built-in foods or replace them.
 * @param {any[][]} [retained_share] Share kept by growing animals, 0 to 1; 0.05 if left out.
 * @returns {any[][]} Nitrogen, g.
 * @example =ALGAL.FEEDLOAD_N(2.5,"Mysids, frozen")
 */
export function FEEDLOAD_N(amount: any[][], food: any[][], unit?: any[][], foods?: any[][], retained_share?: any[][]): any[][] {
  return feedLoad("N", amount, food, unit, foods, retained_share);
}

/**
 * Phosphorus that a feed brings into the water, g: mass x P content x (1 - share kept by the animals).
 * @customfunction FEEDLOAD_P
 * @param {any[][]} amount Food fed, in grams or portions (see unit). One cell or a range.
 * @param {any[][]} food Name of the food as in the foods table.
 * @param {any[][]} [unit] "g" (the usual) or "portions".
 * @param {any[][]} [foods] Your Foods sheet with its heading row; its rows add to the built-in foods or replace them.
 * @param {any[][]} [retained_share] Share kept by growing animals, 0 to 1; 0.05 if left out.
 * @returns {any[][]} Phosphorus, g.
 * @example =ALGAL.FEEDLOAD_P(2,"Mysids, frozen","portions")
 */
export function FEEDLOAD_P(amount: any[][], food: any[][], unit?: any[][], foods?: any[][], retained_share?: any[][]): any[][] {
  return feedLoad("P", amount, food, unit, foods, retained_share);
}

/**
 * Nitrogen in one gram of a food as fed, g: protein divided by the food's own factor.
 * @customfunction FOOD_N_CONTENT
 * @param {any[][]} food Name of the food as in the foods table.
 * @param {any[][]} [foods] Your Foods sheet with its heading row; its rows add to the built-in foods or replace them.
 * @returns {any[][]} Nitrogen, g per g of food.
 * @example =ALGAL.FOOD_N_CONTENT("Mussel")
 */
export function FOOD_N_CONTENT(food: any[][], foods?: any[][]): any[][] {
  return content("N", food, foods);
}

/**
 * Phosphorus in one gram of a food as fed, g.
 * @customfunction FOOD_P_CONTENT
 * @param {any[][]} food Name of the food as in the foods table.
 * @param {any[][]} [foods] Your Foods sheet with its heading row; its rows add to the built-in foods or replace them.
 * @returns {any[][]} Phosphorus, g per g of food.
 * @example =ALGAL.FOOD_P_CONTENT("Mussel")
 */
export function FOOD_P_CONTENT(food: any[][], foods?: any[][]): any[][] {
  return content("P", food, foods);
}

function feedLoad(nutrient: Nutrient, amount: unknown, food: unknown, unit: unknown, foods: unknown, retained: unknown): Answer[][] {
  const table = foodsFrom(foods);
  return lift(
    {
      amount: quantity("amount", amount, { unit: functions.units.gramsOrPortions }),
      food: word("food", food),
      unit: choice("unit", unit, UNITS, science.unknownAmountUnit, "g"),
      retained: share("retained_share", retained, 1, BUDGET_DEFAULT.retained.value),
    },
    (given) => {
      const found = findFood(given.food, table);
      return feedLoadG(feedMassG(given.amount, given.unit, found), found, nutrient, given.retained);
    },
  );
}

function content(nutrient: Nutrient, food: unknown, foods: unknown): Answer[][] {
  const table = foodsFrom(foods);
  return lift({ food: word("food", food) }, (given) => foodContent(findFood(given.food, table), nutrient).value);
}
