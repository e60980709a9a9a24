import type { CalculatedSheet } from "../../src/host/engine/engine";
import { insertWeekly } from "../../src/workbook/weekly/insert-weekly";
import { FOODS } from "../../src/science/constants/foods";
import { PLACES, WEEKLY_KEYS, weeklySheets } from "../../src/workbook/weekly/weekly-sheets";
import { weekly } from "../../src/words/weekly";
import { rows } from "../call";
import { calculatedGrid, errors, type Typed } from "./calculated";
import { excelTests } from "./excel-tests";
import type { MemoryGrid } from "./memory-grid";

const { engine, open } = excelTests();
let grid: MemoryGrid;
beforeEach(() => {
  grid = open(["Sheet1"]);
});

const calculated = (typed: Typed = {}): Promise<Map<string, CalculatedSheet>> => calculatedGrid(engine(), grid, typed);

/** What a new keeper types in the first week. */
const WEEK: Record<string, string | number> = {
  "Set-up!B5": 265, "Set-up!B6": "0 5 10 20 40", "Set-up!B8": 0.12,
  ...Object.fromEntries(Array.from({ length: 7 }, (_, day) => [[`Log!A${4 + day}`, 46100 + day], [`Log!B${4 + day}`, "Mysids, frozen"], [`Log!C${4 + day}`, 3]]).flat()),
  "Log!D4": 10, "Log!D10": 20, "Log!F10": 60,
};

it("adds the six sheets behind the others, the set-up in front with its first cell chosen, and touches no sheet that stands", async () => {
  grid.put("Sheet1", "A1", "mine");
  expect(await insertWeekly()).toEqual(["Set-up", "Log", "Balance", "Charts", "Foods", "Sources"]);
  expect(grid.sheetNames()).toEqual(["Sheet1", "Set-up", "Log", "Balance", "Charts", "Foods", "Sources"]);
  expect(grid.selection()).toEqual({ sheet: "Set-up", address: "B5" });
  expect(grid.sheets.byName("Sheet1").cells.get("A1")).toEqual({ value: "mine" });
});

it("takes free names beside sheets of the same name, and its formulas follow", async () => {
  await insertWeekly();
  expect(await insertWeekly()).toEqual(["Set-up 2", "Log 2", "Balance 2", "Charts 2", "Foods 2", "Sources 2"]);
  const formula = grid.sheets.byName("Balance 2").cells.get("A10")?.formula;
  expect(formula).toContain("'Log 2'!$A$3:$J$2000");
  expect(formula).toContain("'Set-up 2'!$A$5:$B$22");
  expect(grid.state.current().tables.map(({ name }) => name)).toEqual(["AlgalLog", "AlgalFoods", "AlgalLog_2", "AlgalFoods_2"]);
});

it("shows no error cell while it is empty, and says what is needed next", async () => {
  await insertWeekly();
  const sheets = await calculated();
  expect(errors(sheets)).toEqual([]);
  expect(sheets.get("Balance")?.values.get("B3")).toContain('The set-up does not give "Volume (L)"');
});

it.each([
  ["the volume alone", ["Set-up!B5"]],
  ["one day without a reading", ["Set-up!B5", "Log!A4", "Log!B4", "Log!C4"]],
  ["a figure before its date", ["Set-up!B5", "Log!C4"]],
  ["two days without a reading", ["Set-up!B5", "Log!A4", "Log!C4", "Log!B4", "Log!A5", "Log!B5", "Log!C5"]],
  ["one reading", ["Set-up!B5", "Set-up!B6", "Log!A4", "Log!D4", "Log!A5", "Log!C5", "Log!B5"]],
])("shows no error cell on a half-filled sheet: %s", async (_, cells) => {
  await insertWeekly();
  const sheets = await calculated(Object.fromEntries(cells.map((cell) => [cell, WEEK[cell] ?? ""])));
  expect(errors(sheets)).toEqual([]);
});

it("gives a first budget after the first week, the same as the function over the same cells", async () => {
  await insertWeekly();
  const sheets = await calculated(WEEK);
  expect(errors(sheets)).toEqual([]);
  const balance = sheets.get("Balance")?.values;
  expect(balance?.get("B3") ?? "").toBe("");
  const log = [
    [...weekly.log.headings],
    ...Array.from({ length: 7 }, (_, day) => [46100 + day, "Mysids, frozen", 3, day === 0 ? 10 : day === 6 ? 20 : "", "", day === 6 ? 60 : "", "", "", "", ""]),
  ];
  const [wanted = []] = rows("BUDGET_N", log, [["Volume (L)", 265], ["NO3 kit steps", "0 5 10 20 40"], ["Lit area (m2)", 0.12]], "harvest", null, false);
  "ABCDEFGHIJK".split("").forEach((column, place) => {
    const got = balance?.get(`${column}11`);
    if (typeof wanted[place] === "number") expect((got as number) / (wanted[place] as number || 1)).toBeCloseTo(wanted[place] === 0 ? 0 : 1, 9);
    else expect(got).toBe(wanted[place]);
  });
  expect(balance?.get("B5")).toBe(wanted[10]);
  const charts = sheets.get("Charts")?.values;
  expect([charts?.get("R5"), charts?.get("S5"), charts?.get("U5")]).toEqual([46100, 7.5, 15]);
  expect([charts?.get("AB5"), charts?.get("AE5")]).toEqual([46106, 60]);
});

it("the foods of its sheet count as the built-in ones do, and a row of the keeper's is found", async () => {
  const planned = weeklySheets(weekly.sheets, weekly.tables);
  const foods = planned.find(({ name }) => name === "Foods")?.cells.slice(2).map((row) => row.slice(0, 9)) ?? [];
  const plain = [["Date", "Food", "Feed (g)", "NO3 (mg/L)"], [46100, foods[3]?.[0], 5, 10], [46107, foods[20]?.[0], 5, 12]];
  expect(foods.slice(1).map(([food]) => food)).toEqual(FOODS.map(({ name }) => name));
  expect(rows("BUDGET_N", plain, [["Volume (L)", 200]], "whole", foods, false)).toEqual(rows("BUDGET_N", plain, [["Volume (L)", 200]], "whole", null, false));
  const own = [...foods, ["My mix", 20, "", "", 300, "", "", "", ""]];
  expect(typeof rows("FEEDLOAD_N", 5, "My mix", null, own)[0]?.[0]).toBe("number");
});

it("sets tables, lists, names, marks, frozen headings and one page's width through the Excel API", async () => {
  await insertWeekly();
  const { tables, validations, conditionalFormats, charts, pages } = grid.state.current();
  expect(tables.map(({ name, ref }) => [name, ref])).toEqual([["AlgalLog", "A3:J63"], ["AlgalFoods", expect.stringMatching(/^A3:J\d+$/)]]);
  expect(validations.some(({ rule }) => JSON.stringify(rule).includes("Foods!$A$4"))).toBe(true);
  expect(conditionalFormats.map(({ formula }) => formula)).toContain('=LEFT($K11,11)="Unexplained"');
  expect(charts.map(({ title, series }) => [title, series.length])).toEqual([[weekly.charts.no3, 3], [weekly.charts.po4, 3], [weekly.charts.nitrogen, 5], [weekly.charts.growth, 1]]);
  expect(Object.values(pages)).toHaveLength(WEEKLY_KEYS.length);
  expect(Object.values(pages).every(({ zoom }) => zoom?.horizontalFitToPages === 1)).toBe(true);
  expect(grid.names.list().map(({ name }) => name)).toEqual(["Algal_set_up", "Algal_log", "Algal_foods"]);
  expect(grid.sheets.frozenRows("Log")).toBe(3);
});

it("the set-up's rows are all understood", () => {
  const filled = weekly.setUp.rows.map(([what]) => [what, ({ "Volume (L)": 200, "NO3 kit steps": "0 5 10", "PO4 kit steps": 0.02, Started: 46000, Food: "Cod" } as Record<string, unknown>)[what] ?? 0.05]);
  const set = filled.map(([what, value]) => (what === "pH" ? [what, 8.1] : what === "Tissue P" ? [what, 0.004] : [what, value]));
  const log = [["Date", "Feed (g)", "NO3 (mg/L)", "PO4 (mg/L)"], [46100, 5, 5, 0.1], [46107, 5, 5, 0.1]];
  expect(typeof rows("BUDGET_N", log, set, "whole", null, false)[0]?.[8]).toBe("number");
  expect(typeof rows("BUDGET_P", log, set, "whole", null, false)[0]?.[8]).toBe("number");
  expect(PLACES.setUp).toBe(`A5:B${4 + weekly.setUp.rows.length}`);
});
