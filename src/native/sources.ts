import type { Constant } from "../science/constants/constant";
import { FOODS, type Food } from "../science/constants/foods";
import { whence } from "../science/constants/whence";
import { native as words } from "../words/native";
import { Draft } from "./draft";

/** A coefficient of a published equation. */
export interface Coefficient {
  readonly name: string;
  readonly value: number;
  readonly unit: string;
  /** Who published it, as the sheet shows it. */
  readonly from: string;
}

/** The columns of the foods, right of the constants. */
const FOOD_COLUMN = 7;
const FIRST_ROW = 4;

/** The sheet of coefficients: each stands there once, with its unit and where it comes from, and the formulas of the copy read it. */
export class Sources {
  readonly draft: Draft;
  private readonly places = new Map<string, number>();
  private foodsPut = false;

  constructor(name: string) {
    this.draft = new Draft(name, [52, 14, 10, 10, 22, 60, 3, 34, 12, 9, 9, 9, 12, 9, 9, 10, 60]);
    this.draft.put(0, 0, words.sources.title, "title");
    this.draft.put(1, 0, words.sources.what, "quiet");
    this.draft.putRow(FIRST_ROW - 1, words.sources.headings, "heading");
  }

  /** The cell of a constant's best value, or of one of its limits. */
  constant(constant: Constant, which: "value" | "low" | "high" = "value"): string {
    const { name, value, low, high, unit, mark, source } = constant;
    const row = this.rowOf(name, () => [name, value, low, high, unit, whence(source, [mark]) || mark]);
    return this.draft.address(row, { value: 1, low: 2, high: 3 }[which]);
  }

  /** The cell of a coefficient. */
  coefficient({ name, value, unit, from }: Coefficient): string {
    return this.draft.address(this.rowOf(name, () => [name, value, "", "", unit, from]), 1);
  }

  /** A row of the built-in foods: the cells of a food's figures. */
  food(food: Food): Record<"name" | "protein" | "proteinLow" | "proteinHigh" | "factor" | "phosphorus" | "phosphorusLow" | "phosphorusHigh" | "portion", string> {
    this.putFoods();
    const at = (column: number): string => this.draft.address(FIRST_ROW + FOODS.findIndex(({ name }) => name === food.name), FOOD_COLUMN + column);
    return { name: at(0), protein: at(1), proteinLow: at(2), proteinHigh: at(3), factor: at(4), phosphorus: at(5), phosphorusLow: at(6), phosphorusHigh: at(7), portion: at(8) };
  }

  private rowOf(name: string, line: () => (string | number)[]): number {
    const known = this.places.get(name);
    if (known !== undefined) return known;
    const row = FIRST_ROW + this.places.size;
    this.places.set(name, row);
    this.draft.putRow(row, line());
    return row;
  }

  private putFoods(): void {
    if (this.foodsPut) return;
    this.foodsPut = true;
    words.sources.foodHeadings.forEach((heading, place) => this.draft.put(FIRST_ROW - 1, FOOD_COLUMN + place, heading, "heading"));
    FOODS.forEach(({ name, proteinPercent: protein, factor, phosphorusMgPer100g: phosphorus, portionG, proteinMark, phosphorusMark, source, locator }, place) => {
      const from = [whence(source, [proteinMark, phosphorusMark]) || proteinMark, locator].join("; ");
      [name, protein.value, protein.low, protein.high, factor, phosphorus.value, phosphorus.low, phosphorus.high, portionG?.value ?? "", from].forEach((content, at) => this.draft.put(FIRST_ROW + place, FOOD_COLUMN + at, content));
    });
  }
}
