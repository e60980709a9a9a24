import fs from "node:fs";
import path from "node:path";
import { FOODS } from "../../src/science/constants/foods";
import { SOURCES } from "../../src/science/constants/sources";
import { number } from "../call";

/** USDA National Nutrient Database SR26 (2013), file ABBREV: an extract, columns as printed there. */
const usda = fs
  .readFileSync(path.join(__dirname, "data/usda-sr26-foods.csv"), "utf8")
  .trim()
  .split("\n")
  .slice(1)
  .map((line) => {
    const [ndb = "", ...rest] = line.split(",");
    const [water, protein, phosphorus] = rest.slice(-3).map(Number);
    return { ndb, description: rest.slice(0, -3).join(",").replace(/"/g, ""), water, protein: protein ?? 0, phosphorus: phosphorus ?? 0 };
  });

const byNumber = new Map(FOODS.filter((food) => food.source === "usda-sr26" && food.proteinMark === "read").map((food) => [food.locator.replace("NDB ", ""), food]));

test("the extract has the rows that the foods table claims", () => {
  expect(usda.length).toBe(32);
  expect(byNumber.size).toBe(32);
});

describe("foods carry the figures of USDA SR26", () => {
  test.each(usda)("$ndb $description", ({ ndb, water, protein, phosphorus }) => {
    const food = byNumber.get(ndb);
    expect(food?.waterPercent?.value).toBe(water);
    expect(food?.proteinPercent.value).toBe(protein);
    expect(food?.phosphorusMgPer100g.value).toBe(phosphorus);
    // FOOD_DES of the same release lists the factor 6.25 for these foods: N is the protein divided by it.
    expect(number("FOOD_N_CONTENT", food?.name)).toBeCloseTo(protein / 6.25 / 100, 12);
    expect(number("FOOD_P_CONTENT", food?.name)).toBeCloseTo(phosphorus / 100_000, 12);
  });
});

/** N per cent as printed in the reference table (protein / 6.25), to half of the last digit. */
test.each([
  ["15270", 3.22],
  ["15149", 2.18],
  ["15172", 1.93],
  ["01137", 5.4],
  ["11446", 0.93],
  ["11667", 9.2],
  ["18375", 6.47],
])("NDB %s holds %d per cent N", (ndb, expected) => {
  expect(Math.abs(100 * number("FOOD_N_CONTENT", byNumber.get(ndb)?.name) - expected)).toBeLessThanOrEqual(0.005);
});

test("there are at least 30 foods, each with limits around its value and a source that exists", () => {
  expect(FOODS.length).toBeGreaterThanOrEqual(30);
  for (const food of FOODS) {
    for (const range of [food.proteinPercent, food.phosphorusMgPer100g, food.waterPercent, food.portionG]) {
      if (!range) continue;
      expect(range.low).toBeLessThanOrEqual(range.value);
      expect(range.value).toBeLessThanOrEqual(range.high);
    }
    expect(SOURCES[food.source].citation.length).toBeGreaterThan(10);
  }
});
