import { writeBook } from "../../src/files/new-book";
import { readBook } from "../../src/files/read-book";
import { nativeCopy } from "../../src/native/native-copy";
import { excelTests } from "../workbook/excel-tests";
import { OWN_FOODS } from "./random-calls";
import { sheetOfRows } from "./entry-sheets";
import { calculated, edited } from "./judging";

/** The keeper's own foods in a copy: our functions take that sheet as a whole, and refuse it as a whole. Invented. */
const { engine } = excelTests();
let copy: Uint8Array;

beforeAll(async () => {
  const results = new Map([
    ["A1", { value: "Cod" }],
    ["B1", { value: null, formula: "ALGAL.FEEDLOAD_N(10,A1,,Foods!A1:G5,0)" }],
    ["B2", { value: null, formula: "ALGAL.FOOD_P_CONTENT(\"House mix\",Foods!A1:G5)" }],
    ["B3", { value: null, formula: "ALGAL.FEEDLOAD_N(10,A1,,Blank!A1:G5,0)" }],
    ["B4", { value: null, formula: "ALGAL.HARVEST_DRY(A5,A6)" }],
    ["A5", { value: 100 }],
    ["A6", { value: 0.1 }],
  ]);
  const file = await writeBook({ sheets: [{ name: "Results", cells: results }, sheetOfRows("Foods", OWN_FOODS), { name: "Blank", cells: new Map() }], names: [], date1904: false });
  const made = await nativeCopy(await calculated(file, engine()), (book) => (engine().open(book), engine().calculate()), { title: "foods.xlsx", day: "2026-11-26" });
  expect(made.frozen).toEqual([]);
  copy = made.file;
});

async function shown(changes: Readonly<Record<string, number | string>>): Promise<unknown[]> {
  const file = await edited(copy, Object.entries(changes).map(([place, value]) => ({ sheet: place.split("!")[0] ?? "", address: place.split("!")[1] ?? "", value })));
  engine().open(await readBook(file));
  const values = (await engine().calculate()).find(({ name }) => name === "Results")?.values;
  return ["B1", "B2", "B3", "B4"].map((cell) => {
    const value = values?.get(cell);
    return typeof value === "object" ? value.code : value;
  });
}

/** By hand: 240 mg P in 100 g; 250 with the change. */
test("another figure of a food is followed", async () => {
  const before = await shown({});
  expect(before[1]).toBeCloseTo(0.0024, 12);
  expect(before[0]).toBe(before[2]);
  expect(await shown({ "Foods!E2": 250 })).toEqual([before[0], expect.closeTo(0.0025, 12), before[2], 10]);
});

test.each([
  ["a text for a figure", { "Foods!B3": "much" }],
  ["a figure above the most", { "Foods!B3": 101 }],
  ["a factor below 4", { "Foods!F3": 2 }],
  ["a food without its phosphorus", { "Foods!E3": "" }],
  ["a food that is named twice", { "Foods!A3": "house MIX" }],
  ["another heading", { "Foods!E1": "P (g/100 g)" }],
  ["a half-filled new row", { "Foods!A5": "New mix" }],
  ["a row below", { "Foods!A6": "New mix" }],
])("%s leaves no food to any formula", async (_what, changes) => {
  expect((await shown(changes)).slice(0, 2)).toEqual(["#N/A", "#N/A"]);
});

test("a new food in a blank row is known, and one on a sheet that was blank is not", async () => {
  const [own] = await shown({ "Foods!A5": "Kelp crumbs", "Foods!B5": 10, "Foods!E5": 100, "Results!A1": "Kelp crumbs" });
  expect(own).toBeCloseTo((10 * 0.1) / 6.25, 12);
  expect((await shown({ "Blank!A1": "Food" }))[2]).toBe("#N/A");
});

test("a star in a food's name stands for no other letters, and of two faults the first argument's decides", async () => {
  expect((await shown({ "Results!A1": "Co*" }))[0]).toBe("#N/A");
  expect([(await shown({ "Results!A5": -1, "Results!A6": 7 }))[3], (await shown({ "Results!A6": 0.6 }))[3]]).toEqual(["#N/A", "#N/A"]);
});
