import { FOODS } from "../../src/science/constants/foods";
import { feedMassG, findFood, foodTable } from "../../src/science/feed";
import { Problem } from "../../src/science/problem";
import { parseGravityReference, salinityFromGravity } from "../../src/science/salinity";
import { trendOf } from "../../src/science/trend";
import { netVolumeL, seawaterDensityKgPerL, storeG } from "../../src/science/water";

const refused = (act: () => unknown): Problem => {
  try {
    act();
  } catch (error) {
    if (error instanceof Problem) return error;
    throw error;
  }
  throw new Error("nothing was refused");
};

describe("the range of the equation of state", () => {
  test("its four edges count, a hair beyond does not", () => {
    for (const [salinity, temperature] of [[0, 10], [42, 10], [35, -2], [35, 40]] as const) expect(seawaterDensityKgPerL(salinity, temperature)).toBeGreaterThan(0.98);
    expect(refused(() => seawaterDensityKgPerL(-0.001, 10)).message).toContain("Salinity should be between 0 and 42");
    expect(refused(() => seawaterDensityKgPerL(42.001, 10)).message).toContain("and is 42.001");
    expect(refused(() => seawaterDensityKgPerL(35, -2.001)).message).toContain("Temperature should be between -2 and 40 degrees C");
    expect(refused(() => seawaterDensityKgPerL(35, 40.001)).kind).toBe("value");
  });
});

describe("water in a filled tank", () => {
  test("rock of 2.8 and sand of 2.7 kg/L take their room: 300 - 28/2.8 - 27/2.7 - 5 = 275 L", () => expect(netVolumeL(300, 28, 27, 5)).toBeCloseTo(275, 12));
  test("a filling as large as the tank leaves nothing, and that is said", () => {
    expect(refused(() => netVolumeL(10, 28, 0, 0)).message).toContain("0 L would be left");
    expect(refused(() => netVolumeL(10, 28, 27, 0)).message).toContain("-10 L would be left");
    expect(netVolumeL(10.1, 28, 0, 0)).toBeCloseTo(0.1, 9);
  });
  test("10 mg/L in 265 L are 2.65 g", () => expect(storeG(10, 265)).toBeCloseTo(2.65, 12));
});

describe("foods by name", () => {
  const table = foodTable(FOODS);
  test("found whatever the case and the blanks", () => expect(findFood("  krill,  WHOLE, frozen ", table).name).toBe("Krill, whole, frozen"));
  test("an unknown name gives the nearest three, those with most words in common first", () => {
    const { message, kind } = refused(() => findFood("frozen mysid", table));
    expect(kind).toBe("missing");
    expect(message).toMatch(/^"frozen mysid" is not in the foods table\. Nearest: Mysids, frozen; [^;]+; [^;]+\.$/);
  });
  test("a name like none gives no neighbours", () => expect(refused(() => findFood("xyzzy", table)).message).toBe('"xyzzy" is not in the foods table: add a row for it to your Foods sheet.'));
  test("words of two letters make no neighbour", () => expect(refused(() => findFood("of in", table)).message).not.toContain("Nearest"));
  test("a portion is weighed by its food, grams as they are", () => {
    const frozen = FOODS.find((food) => food.portionG !== null);
    if (!frozen?.portionG) throw new Error("no food with a portion");
    expect(feedMassG(2, "portions", frozen)).toBe(2 * frozen.portionG.value);
    expect(feedMassG(2, "g", frozen)).toBe(2);
    const bare = { ...frozen, portionG: null };
    expect(refused(() => feedMassG(2, "portions", bare)).message).toContain("weigh ten portions together");
  });
});

describe("reference temperatures of a hydrometer", () => {
  test.each([
    ["25/25", 25, 25], ["25/4", 25, 4], ["20.5/4.25", 20.5, 4.25], [" 60 / 60 F", 140 / 9, 140 / 9], ["77/77f", 25, 25], ["20/20 C", 20, 20], ["20/20°C", 20, 20], ["0/40", 0, 40],
  ])("%s", (written, sample, water) => {
    const { sampleC, waterC } = parseGravityReference(written);
    expect(sampleC).toBeCloseTo(sample, 9);
    expect(waterC).toBeCloseTo(water, 9);
  });
  test.each(["25", "25-25", "41/25", "25/41", "31/77F", "a/b", "125/25", "25/25K"])("%s is none", (written) => expect(refused(() => parseGravityReference(written)).message).toContain("20/20, 25/25, 60/60F or 25/4"));
  test("the salinity of fresh water is 0, and no water has 1.2", () => {
    const at25 = parseGravityReference("25/25");
    expect(salinityFromGravity(1, at25)).toBeCloseTo(0, 6);
    expect(refused(() => salinityFromGravity(1.2, at25)).kind).toBe("number");
    expect(refused(() => salinityFromGravity(0.99, at25)).message).toContain("0.99");
  });
});

test("two readings of one day are compared with those of other days only", () => {
  const point = (day: number, value: number) => ({ day, low: value, high: value });
  // Of the ten pairs the one within day 1 does not count: slopes 1, 3, 1, 1, 1, 1, -1, 0, 1; seven rise, one falls.
  const trend = trendOf([point(0, 0), point(1, 1), point(1, 3), point(2, 2), point(3, 3)]);
  expect(trend.slopePerDay).toBeCloseTo(1, 12);
  expect(trend.s).toBe(6);
});
