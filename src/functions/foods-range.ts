import { functions as words } from "../words/functions";
import { FOODS, type Food, type Ranged } from "../science/constants/foods";
import { BUDGET_DEFAULT } from "../science/constants/practice";
import { foodKey, foodTable, type FoodTable } from "../science/feed";
import { Problem } from "../science/problem";
import { cellsOf, isBlank, numberIn, textIn, within, type Cell } from "./arguments";
import { splitHeading } from "./log-headings";

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
  const nameAt = place("food")?.at ?? 0;
  const figureAt = [place("protein")?.at ?? 0, place("phosphorus")?.at ?? 0];
  const rows: Food[] = [];
  const names = new Set<string>();
  cells.slice(1).forEach((row, index) => {
    if (isBlank(row[nameAt]) && figureAt.every((at) => isBlank(row[at]))) return;
    try {
      if (isBlank(row[nameAt])) throw new Problem("missing", words.needed(HEADING.food));
      const food = keeperFood(row, place);
      if (names.has(foodKey(food.name))) throw new Problem("value", words.foodTwice(food.name));
      names.add(foodKey(food.name));
      rows.push(food);
    } catch (error) {
      if (error instanceof Problem) throw new Problem(error.kind, words.foodsRowWrong(index + 2, error.message));
      throw error;
    }
  });
  return new Map([...OWN_FOODS, ...foodTable(rows)]);
}

/** Factors to the units of our own headings, by the unit in the brackets of the keeper's; null: none is looked for. A per cent is not among them, for 20 and a cell formatted 20% would differ by a hundred. */
const UNITS: Readonly<Record<keyof typeof HEADING, Readonly<Record<string, number>> | null>> = {
  food: null,
  protein: { "": 1, "g/100 g": 1, g: 1 },
  phosphorus: { "": 1, "mg/100 g": 1, mg: 1, "g/100 g": 1000 },
  factor: null,
  portion: { "": 1, g: 1 },
};

/** Where a figure stands in a row, and what turns it into our unit; null when the sheet has no such column. */
type Place = (key: keyof typeof HEADING, limit?: "low" | "high") => { readonly at: number; readonly factor: number } | null;

function headingPlaces(headings: readonly Cell[]): Place {
  const written = headings.map((cell) => (isBlank(cell) ? "" : textIn("Foods", cell)));
  const columns = written.map((heading) => splitHeading(heading));
  const places = new Map<string, { at: number; factor: number }>();
  for (const key of Object.keys(HEADING) as (keyof typeof HEADING)[]) {
    const units = UNITS[key];
    for (const limit of ["", " low", " high"]) {
      const at = columns.findIndex(({ name }) => name.toLowerCase() === splitHeading(HEADING[key]).name.toLowerCase() + limit);
      if (at < 0) continue;
      const unit = (columns[at]?.unit ?? "").toLowerCase().replace(/\s*\/\s*100\s*g/, "/100 g");
      const factor = units ? units[unit] : 1;
      if (factor === undefined) throw new Problem("value", words.foodsUnitUnknown(written[at] ?? "", unit, Object.keys(units ?? {}).filter(Boolean).join(", ")));
      places.set(key + limit, { at, factor });
    }
  }
  for (const key of ["food", "protein", "phosphorus"] as const) {
    if (!places.has(key)) throw new Problem("value", words.headingMissing("Foods", HEADING[key]));
  }
  return (key, limit) => places.get(limit ? `${key} ${limit}` : key) ?? null;
}

function keeperFood(row: readonly Cell[], place: Place): Food {
  const figureAt = (key: keyof typeof HEADING, limit: "low" | "high" | undefined, most: number, unit: string): number | null => {
    const found = place(key, limit);
    const cell = found ? row[found.at] : null;
    return !found || isBlank(cell) ? null : within(HEADING[key], numberIn(HEADING[key], cell) * found.factor, { most, unit });
  };
  const figure = (key: keyof typeof HEADING, most: number, unit: string): Ranged | null => {
    const value = figureAt(key, undefined, most, unit);
    if (value === null) return null;
    const spread = BUDGET_DEFAULT.foodShare.value;
    const [low, high] = [figureAt(key, "low", most, unit) ?? value * (1 - spread), figureAt(key, "high", most, unit) ?? value * (1 + spread)];
    return { value, low: Math.min(value, low), high: Math.max(value, high) };
  };
  const protein = figure("protein", 100, "g/100 g");
  const phosphorus = figure("phosphorus", 5000, "mg/100 g");
  if (!protein) throw new Problem("missing", words.needed(HEADING.protein));
  if (!phosphorus) throw new Problem("missing", words.needed(HEADING.phosphorus));
  const factor = figure("factor", 10, "g protein/g N")?.value ?? 6.25;
  if (factor < 4) throw new Problem("value", words.factorTooLow(factor));
  return {
    name: textIn(HEADING.food, row[place("food")?.at ?? 0]),
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
