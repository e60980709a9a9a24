import { CellError } from "../../src/functions/cell-error";
import { growth as words } from "../../src/words/growth";
import { errorOf, number, rows, value } from "../call";

/** Invented harvests of one unit: days since the harvest before, and g dry on 1 m2 of lit area. */
const DAYS = [[4], [7], [9], [11], [14], [18], [21], [28]];
const DRY = [[17], [41], [61], [84], [116], [147], [159], [172]];

describe("HARVEST_FIT", () => {
  test("a table of figures with standard errors and units, and a sentence last", () => {
    const table = rows("HARVEST_FIT", DAYS, DRY);
    expect(table[0]).toEqual(["What", "Value", "Standard error", "Unit"]);
    expect(table.map((row) => row[0]).slice(1)).toEqual(Object.values(words.fitRows));
    expect(new Set(table.map((row) => row.length))).toEqual(new Set([4]));
    const [, most, stubble, rate, residual, best, growth, sentence] = table;
    for (const row of [most, stubble, rate]) expect(row?.[2]).toBeGreaterThan(0);
    expect(residual?.[1]).toBeLessThan(3);
    expect([residual?.[2], best?.[2], growth?.[2], sentence?.[2], sentence?.[3]]).toEqual(["", "", "", "", ""]);
    expect([most?.[3], rate?.[3], best?.[3], growth?.[3]]).toEqual(["g dry m-2", "1/d", "d", "g dry m-2 d-1"]);
    // The mean growth that the harvests themselves show is 116 / 14 = 8.3 and 84 / 11 = 7.6, with the highest between 14 and 18 days.
    expect(best?.[1]).toBeGreaterThan(13);
    expect(best?.[1]).toBeLessThan(18);
    expect(growth?.[1]).toBeCloseTo(8.3, 0);
    expect(sentence?.[1]).toContain("Fitted to 8 harvests after 8 different intervals (logistic curve).");
  });
  test("without its headings, by FALSE or by 0", () => {
    expect(rows("HARVEST_FIT", DAYS, DRY, null, false)).toEqual(rows("HARVEST_FIT", DAYS, DRY).slice(1));
    expect(rows("HARVEST_FIT", DAYS, DRY, null, 0)).toEqual(rows("HARVEST_FIT", DAYS, DRY).slice(1));
  });
  test("the other curve, and the better of both", () => {
    const of = (curve: string): unknown[][] => rows("HARVEST_FIT", DAYS, DRY, curve);
    expect(of("Gompertz").at(-1)?.[1]).toContain("(Gompertz curve)");
    const scatter = (curve: string): number => of(curve)[4]?.[1] as number;
    expect(scatter("best")).toBe(Math.min(scatter("logistic"), scatter("gompertz")));
    expect(errorOf("HARVEST_FIT", DAYS, DRY, "cubic").message).toBe('The curve should be logistic, gompertz or best, and is "cubic".');
  });
  test("a row lying on its side gives the same, and rows without a weight or days are left out", () => {
    const across = (cells: unknown[][]): unknown[][] => [cells.map((row) => row[0])];
    expect(rows("HARVEST_FIT", across(DAYS), across(DRY))).toEqual(rows("HARVEST_FIT", DAYS, DRY));
    expect(rows("HARVEST_FIT", [...DAYS, [5], [""], [null]], [...DRY, [""], [40], [null]])).toEqual(rows("HARVEST_FIT", DAYS, DRY));
  });
  test.each([
    ["three intervals", [[7], [14], [21]], [[40], [110], [150]], "#N/A", "at least 4 different intervals"],
    ["flat", DAYS, DAYS.map(() => [50]), "#N/A", words.cannotFit.noGrowth],
    ["exploding", DAYS, DAYS.map(([day = 0]) => [Math.exp(0.15 * day)]), "#N/A", words.cannotFit.noTop],
    ["a word among the weights", DAYS, DRY.map((row, place) => (place === 2 ? ["lots"] : row)), "#VALUE!", 'Row 3 of the range: dry_g_m2 should be a number, and "lots" is not one.'],
    ["a negative weight", DAYS, DRY.map((row, place) => (place === 2 ? [-5] : row)), "#VALUE!", "Row 3 of the range: dry_g_m2 should be between 0 and 10000 g dry m-2, and is -5."],
    ["a date in place of days", DAYS.map((row, place) => (place === 1 ? [46000] : row)), DRY, "#VALUE!", "Row 2 of the range: days should be between 0 and 3650 days, and is 46000."],
    ["ranges of different size", DAYS, DRY.slice(1), "#VALUE!", "days and dry_g_m2 are ranges of different size"],
    ["weights forgotten", DAYS, null, "#N/A", "dry_g_m2 is needed and is empty."],
  ] as const)("%s", (_, days, dry, code, sentence) => {
    const error = errorOf("HARVEST_FIT", days, dry);
    expect(error.code).toBe(code);
    expect(error.message).toContain(sentence);
  });
  test("an error of another cell goes through as it is", () => {
    const given = new CellError("#REF!", "gone");
    expect(errorOf("HARVEST_FIT", DAYS, [[given], ...DRY.slice(1)])).toBe(given);
  });
  test("nothing in, nothing out", () => expect(rows("HARVEST_FIT", [[""], [""]], [[""], [""]])).toEqual([[""]]));
});

describe("HARVEST_INTERVAL", () => {
  test("with enough harvests it is the unit's own, the same as in the fit's table", () => {
    const [[best, low, high, growth, sentence] = []] = rows("HARVEST_INTERVAL", DAYS, DRY);
    const table = rows("HARVEST_FIT", DAYS, DRY);
    expect([best, growth]).toEqual([table[5]?.[1], table[6]?.[1]]);
    expect(low).toBeLessThan(best as number);
    expect(high).toBeGreaterThan(best as number);
    expect(sentence).toContain("Fitted to 8 harvests");
    expect(sentence).not.toContain("usual curve");
  });
  test.each([
    ["nothing", null, null, "there are 0"],
    ["a log without weights so far", DAYS, DAYS.map(() => [""]), "there are 0"],
    ["one harvest", 7, 40, "there is 1"],
    ["three intervals", [[7], [14], [21], [21]], [[40], [110], [150], [148]], "there are 3"],
    ["harvests that tell no curve", DAYS, DAYS.map(() => [50]), words.cannotFit.noGrowth],
  ])("%s: the usual curve, and it says so and why", (_, days, dry, reason) => {
    const [[best, low, high, growth, sentence] = []] = rows("HARVEST_INTERVAL", days, dry);
    // K 200, stubble 20, rate 0.3, maximised apart from this project: 10.6 days and 11.84 g dry m-2 d-1.
    expect(best).toBeCloseTo(10.6, 1);
    expect(growth).toBeCloseTo(11.84, 2);
    expect(low).toBeLessThan(10);
    expect(high).toBeGreaterThan(11);
    expect(sentence).toContain("This is the usual curve, by judgement and not from your unit");
    expect(sentence).toContain(reason);
  });
  test("a wrong cell is an error, not a reason for the usual curve", () => {
    expect(errorOf("HARVEST_INTERVAL", DAYS, DRY.map((row, place) => (place === 0 ? [true] : row))).code).toBe("#VALUE!");
    expect(errorOf("HARVEST_INTERVAL", DAYS, DRY, "spline").code).toBe("#VALUE!");
  });
  test("a best interval that nobody has tried is said to be one", () => {
    const early = [[3], [5], [7], [9], [11], [13], [15]];
    // K 200, stubble 6, rate 0.25: the best is beyond the 15 days of the longest.
    const dry = early.map(([day = 0]) => [200 / (1 + (200 / 6 - 1) * Math.exp(-0.25 * day)) - 6]);
    expect(value("HARVEST_INTERVAL", early, dry)).toBeGreaterThan(15);
    expect(rows("HARVEST_INTERVAL", early, dry)[0]?.[4]).toContain("longer than any interval tried (15 days)");
  });
});

describe("HARVEST_NEXT", () => {
  test("whole days after the last harvest, on the usual curve", () => {
    expect(rows("HARVEST_NEXT", 46000)[0]?.slice(0, 3)).toEqual([46011, 46008, 46013]);
    expect(rows("HARVEST_NEXT", 46000)[0]?.[3]).toContain("This is the usual curve");
  });
  test.each([
    [46002, "Wait: the best day is in 9 days, and from 6 days on it is nearly as good."],
    [46007, "Wait: the best day is in 4 days, and from tomorrow it is nearly as good."],
    [46008, "Harvest any day now: the best day is in 3 days."],
    [46010.5, "Harvest any day now: the best day is in 1 day."],
    [46011, "Harvest today: it is the best day."],
    [46012, "Harvest now: the best day was 1 day ago, and the next 1 day is nearly as good."],
    [46013, "Harvest now: the best day was 2 days ago."],
    [46014, "Overdue by 1 day: the best day was 3 days ago."],
    [46020, "Overdue by 7 days: the best day was 9 days ago."],
  ])("seen from day %d: %s", (today, sentence) => {
    expect(String(rows("HARVEST_NEXT", 46000, null, null, today)[0]?.[3]).startsWith(sentence)).toBe(true);
  });
  test("a column of dates gives a row each; a blank stays blank and a bad one harms no other", () => {
    const answer = rows("HARVEST_NEXT", [[46000], [""], ["soon"], [46100]], DAYS, DRY);
    expect(answer.map((row) => row.length)).toEqual([4, 4, 4, 4]);
    expect(answer[1]).toEqual(["", "", "", ""]);
    expect((answer[2]?.[0] as CellError).message).toContain('last_harvest_date should be a date, and "soon" is not one.');
    expect((answer[3]?.[0] as number) - (answer[0]?.[0] as number)).toBe(100);
    const days = (answer[0]?.[0] as number) - 46000;
    expect(days).toBe(Math.round(number("HARVEST_INTERVAL", DAYS, DRY)));
  });
  test.each([["2026-03-02"], [true], [-3], [0]])("%p is no date", (given) => {
    expect(errorOf("HARVEST_NEXT", given)).toMatchObject({ code: "#VALUE!", message: expect.stringContaining("last_harvest_date should be a date") });
  });
  test("a harvest after today is refused", () => expect(errorOf("HARVEST_NEXT", 46000, null, null, 45990).message).toBe("last_harvest_date lies after today: check both dates."));
});

describe("light", () => {
  test("a dimmed phase counts by its level, and full light is the usual", () => {
    expect(number("LIGHT_DAILY", 250, 10, 0.5)).toBeCloseTo(4.5, 12);
    expect(value("LIGHT_DAILY", 250, 10, 1)).toBe(value("LIGHT_DAILY", 250, 10));
    expect(rows("LIGHT_DAILY", 250, [[10], [10]], [[0.5], [""]])).toEqual([[4.5], [9]]);
    expect(errorOf("LIGHT_DAILY", 250, 10, 50).message).toContain("level should be a share between 0 and 1");
  });
  test("yield over an interval, cell for cell, with one cell above the ceiling", () => {
    const answer = rows("LIGHT_YIELD", [[12], [""], [120]], 0.2, 150);
    expect(answer[0]?.[0]).toBeCloseTo(0.4, 12);
    expect(answer[1]).toEqual([""]);
    expect(answer[2]?.[0]).toMatchObject({ code: "#NUM!", message: expect.stringContaining("This would be 4 g dry per mol of light, and no alga reaches 1.8.") });
    expect(errorOf("LIGHT_YIELD", 12, 0, 150).code).toBe("#DIV/0!");
    expect(errorOf("LIGHT_YIELD", 12, 0.2, 0).code).toBe("#DIV/0!");
  });
  test("cost: 100 W for 10 h on 10 days are 10 kWh", () => {
    expect(rows("LIGHT_COST", 100, 10, 10, 0.25, 20)).toEqual([[10, 2.5, 0.5]]);
    expect(rows("LIGHT_COST", 100, 10, 10, 0.25)).toEqual([[10, 2.5, ""]]);
    expect(rows("LIGHT_COST", [[100], [""]], 10, 10, 0.25, 20)).toEqual([[10, 2.5, 0.5], ["", "", ""]]);
    expect(errorOf("LIGHT_COST", 100, 10, 10, 0.25, 0)).toMatchObject({ code: "#DIV/0!" });
    expect(errorOf("LIGHT_COST", 100, 25, 10, 0.25).message).toContain("hours_per_day should be between 0 and 24 hours");
  });
});

describe("water", () => {
  test("flow: 30, 45 and 60 L/h for each centimetre of each slot", () => {
    expect(rows("FLOW_NEEDED", [[10], [""], [20]], 2)).toEqual([[600, 900, 1200], ["", "", ""], [1200, 1800, 2400]]);
    expect(errorOf("FLOW_NEEDED", 10, 1.5).message).toBe("slots should be a whole number, and is 1.5.");
    expect(errorOf("FLOW_NEEDED", 10, 0).message).toContain("slots should be between 1 and 1000");
  });
  test("a lid of 0.68 kg on 0.05 m2 of floats: 13.6 mm in water of 1 kg/L, less in the sea", () => {
    expect(number("FLOAT_DRAFT", 0.68, 0.05, 1)).toBeCloseTo(13.6, 12);
    expect(number("FLOAT_DRAFT", 0.68, 0.05)).toBeCloseTo(13.6 / 1.023343, 4);
    expect(errorOf("FLOAT_DRAFT", 0.68, 0).code).toBe("#DIV/0!");
    expect(errorOf("FLOAT_DRAFT", 0.68, 0.05, 1023).message).toContain("density_kg_l should be between 0.9 and 1.3 kg/L");
  });
});
