import { BUDGET_DEFAULT } from "../../science/constants/practice";
import type { Nutrient } from "../../science/nutrient-forms";
import { FoodsBlock } from "../foods";
import type { Rule } from "../rule";

const feedLoad = (nutrient: Nutrient): Rule => ({
  kind: "cells",
  whole: [3],
  write: (writer) => {
    const foods = FoodsBlock.of(writer.workspace, writer.range(3));
    const food = writer.needed(1);
    const portions = writer.word(2, "g").toLowerCase() === "portions" ? `*${foods.figure(food, "portion")}` : "";
    return `${writer.number(0)}${portions}*${foods.figure(food, nutrient)}*(1-${writer.share(4, 1, writer.constant(BUDGET_DEFAULT.retained))})`;
  },
});

const foodContent = (nutrient: Nutrient): Rule => ({ kind: "cells", whole: [1], write: (writer) => FoodsBlock.of(writer.workspace, writer.range(1)).figure(writer.needed(0), nutrient) });

/** What a feed brings, and what a food holds. */
export const feedRules: Readonly<Record<string, Rule>> = {
  FEEDLOAD_N: feedLoad("N"),
  FEEDLOAD_P: feedLoad("P"),
  FOOD_N_CONTENT: foodContent("N"),
  FOOD_P_CONTENT: foodContent("P"),
};
