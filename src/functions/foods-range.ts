import { functions as words } from "../words/functions";
import { FOODS, type Food, type Ranged } from "../science/constants/foods";
import { BUDGET_DEFAULT } from "../science/constants/practice";
import { foodTable, type FoodTable } from "../science/feed";
import { Problem } from "../science/problem";
import { cellsOf, isBlank, numberIn, textIn, within, type Cell } from "./arguments";

const OWN_FOODS = foodTable(FOODS);
const HEADING = { food: "Food", protein: "Protein (g/100 g)", phosphorus: "P (mg/100 g)", factor: "Factor", portion: "Portion (g)" } as const;

/** The headings of a Foods sheet, in the order in which the sheet has them. Low and high columns may stand beside each figure. */
export const FOODS_HEADINGS = HEADING;

/**
 * The foods that a function may use: the built-in table, with the keeper's rows added or put in place of rows of the same name.
 * `given`: a range with a heading row (Food, Protein (g/100 g), P (mg/100 g); Factor, Portion (g) and "... low", "... high" are optional), or nothing.
 * @throws Problem naming the row that cannot be used
 */
export function foodsFrom(given: unknown): FoodTable {
  const cells = cellsOf(given);
  if (cells.every((row) => row.every(isBlank))) return OWN_FOODS;
  const place = headingPlaces(cells[0] ?? []);
  const rows = cells.slice(1).flatMap((row, index) => {
    if (isBlank(row[place("food")])) return [];
    try {
      return [keeperFood(row, place)];
    } catch (error) {
      if (error instanceof Problem) throw new Problem(error.kind, words.foodsRowWrong(index + 2, error.message));
      throw error;
    }
  });
  return new Map([...OWN_FOODS, ...foodTable(rows)]);
}

type Place = (key: keyof typeof HEADING, limit?: "low" | "high") => number;

function headingPlaces(headings: readonly Cell[]): Place {
  const plain = headings.map((cell) => (isBlank(cell) ? "" : textIn("Foods", cell).toLowerCase().replace(/\s+/g, " ")));
  const bare = (text: string): string => text.replace(/\s*\(.*?\)/g, "").trim();
  const place: Place = (key, limit) => {
    const wanted = bare(HEADING[key].toLowerCase()) + (limit ? ` ${limit}` : "");
    return plain.findIndex((heading) => bare(heading) === wanted);
  };
  for (const key of ["food", "protein", "phosphorus"] as const) {
    if (place(key) < 0) throw new Problem("value", words.headingMissing("Foods", HEADING[key]));
  }
  return place;
}

function keeperFood(row: readonly Cell[], place: Place): Food {
  const figure = (key: keyof typeof HEADING, most: number, unit: string): Ranged | null => {
    const cell = row[place(key)];
    if (place(key) < 0 || isBlank(cell)) return null;
    const value = within(HEADING[key], numberIn(HEADING[key], cell), { most, unit });
    const side = (limit: "low" | "high", otherwise: number): number => {
      const at = row[place(key, limit)];
      return place(key, limit) < 0 || isBlank(at) ? otherwise : within(HEADING[key], numberIn(HEADING[key], at), { most, unit });
    };
    const spread = BUDGET_DEFAULT.foodShare.value;
    return { value, low: Math.min(value, side("low", value * (1 - spread))), high: Math.max(value, side("high", value * (1 + spread))) };
  };
  const protein = figure("protein", 100, "g/100 g");
  const phosphorus = figure("phosphorus", 5000, "mg/100 g");
  if (!protein) throw new Problem("missing", words.needed(HEADING.protein));
  if (!phosphorus) throw new Problem("missing", words.needed(HEADING.phosphorus));
  const factor = figure("factor", 10, "g protein/g N")?.value ?? 6.25;
  if (factor < 4) throw new Problem("value", words.factorTooLow(factor));
  return {
    name: textIn(HEADING.food, row[place("food")]),
    waterPercent: null,
    proteinPercent: protein,
    factor,
    phosphorusMgPer100g: phosphorus,
    portionG: figure("portion", 100_000, "g"),
    proteinMark: "judgement",
    phosphorusMark: "judgement",
    source: "judgement",
    locator: "the keeper's own Foods sheet",
  };
}
