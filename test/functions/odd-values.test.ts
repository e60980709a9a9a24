import { errorOf, number, rows, value } from "../call";

describe("shares and contents", () => {
  test("a tissue share of phosphorus above the highest believable is refused, though nitrogen may have it", () => {
    expect(errorOf("HARVEST_FEED_EQUIVALENT", 150, "Mussel", "P", 0.08, 0.035).message).toContain("tissue_share should be a share between 0 and 0.025");
    expect(number("HARVEST_FEED_EQUIVALENT", 150, "Mussel", "N", 0.08, 0.035)).toBeCloseTo((150 * 0.08 * 0.035) / (0.119 / 6.25), 9);
  });
  test("a food without the nutrient is worth no harvest", () => {
    const sheet = [["Food", "Protein (g/100 g)", "P (mg/100 g)"], ["Syrup", 0, 0]];
    expect(errorOf("HARVEST_FEED_EQUIVALENT", 150, "Syrup", "N", null, null, null, sheet)).toMatchObject({ code: "#DIV/0!", message: '"Syrup" holds no N: no amount of it is worth a harvest.' });
  });
});

describe("concentrations", () => {
  test("two figures per kilogram compare without the water's density", () => {
    expect(number("ION_CONVERT", 62.004, "mg/kg NO3", "umol/kg NO3")).toBeCloseTo(1000, 6);
    expect(number("ION_CONVERT", 62.004, "mg/kg NO3", "umol/kg NO3", 35, 25)).toBeCloseTo(1000, 6);
  });
  test("where a function takes no salinity, the sentence says what to do first", () => {
    expect(errorOf("WATER_STORE_N", 10, "mg/kg NO3", 100).message).toContain("turn the figure into mg/L with ION_CONVERT first");
  });
});

describe("water changes", () => {
  test("a zero for the new water is purified water, with a kit or without", () => {
    expect(value("CHANGE_N_EXPORT", 20, "mg/L NO3", 50, 0)).toBe(value("CHANGE_N_EXPORT", 20, "mg/L NO3", 50));
    expect(value("CHANGE_N_EXPORT", 20, "mg/L NO3", 50, 0, "0 5 10 20 40")).toBe(value("CHANGE_N_EXPORT", 20, "mg/L NO3", 50, null, "0 5 10 20 40"));
  });
  test("a change of everything reaches what the new water carries, and nothing less", () => {
    expect(value("CHANGE_COUNT", 40, 10, 1, 10)).toBe(1);
    expect(errorOf("CHANGE_COUNT", 40, 9, 1, 10).code).toBe("#NUM!");
    expect(errorOf("CHANGE_COUNT", 40, 10, 0.5, 10).code).toBe("#NUM!");
  });
});

describe("a Foods sheet", () => {
  const sheet = (headings: unknown[], ...body: unknown[][]): unknown[][] => [headings, ...body];
  test("phosphorus in g/100 g is a thousand times that in mg/100 g, and a per cent is refused", () => {
    const mg = sheet(["Food", "Protein (g/100 g)", "P (mg/100 g)"], ["Mix", 20, 300]);
    const g = sheet(["Food", "Protein", "P (g / 100 g)"], ["Mix", 20, 0.3]);
    expect(value("FOOD_P_CONTENT", "Mix", g)).toBeCloseTo(number("FOOD_P_CONTENT", "Mix", mg), 12);
    expect(errorOf("FOOD_P_CONTENT", "Mix", sheet(["Food", "Protein (g/100 g)", "P (%)"], ["Mix", 20, 0.3])).message).toContain('The unit "%" of the heading "P (%)"');
  });
  test("a row with figures and no name, or a name that stands twice, is refused and named", () => {
    const headings = ["Food", "Protein (g/100 g)", "P (mg/100 g)"];
    expect(errorOf("FOOD_N_CONTENT", "Cod", sheet(headings, ["Mix", 20, 300], ["", 10, 100])).message).toBe("Foods, row 3: Food is needed and is empty.");
    expect(errorOf("FOOD_N_CONTENT", "Cod", sheet(headings, ["Mix", 20, 300], ["mix ", 10, 100])).message).toBe('Foods, row 3: "mix" stands there twice.');
  });
});

describe("a log", () => {
  const log = (reading: unknown): unknown[][] => [["Date", "NO3 (mg/L)"], [46000, reading], [46007, 10]];
  test("a truth value is no reading", () => {
    expect((rows("BUDGET_N", log(true), [["Volume (L)", 100]], "whole", null, false)[0] ?? [])[10]).toContain("Row 2, NO3 (mg/L): true is not understood as a reading");
  });
  test("a volume below zero is asked to be more than zero", () => {
    expect(errorOf("BUDGET_N", log(10), [["Volume (L)", -5]]).message).toBe("Set-up, Volume: Volume should be more than 0 L, and is -5.");
  });
  test("0 for the headings leaves them out, as FALSE does", () => {
    expect(rows("BUDGET_N", log(10), [["Volume (L)", 100]], "whole", null, 0)).toEqual(rows("BUDGET_N", log(10), [["Volume (L)", 100]], "whole", null, false));
  });
});
