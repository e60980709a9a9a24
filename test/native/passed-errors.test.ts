import type { NewBook } from "../../src/files/new-book-model";
import { writeBook } from "../../src/files/new-book";
import { readBook } from "../../src/files/read-book";
import { outermostCalls } from "../../src/native/formula-calls";
import { passesErrorsOf } from "../../src/native/passed-errors";
import { excelTests } from "../workbook/excel-tests";
import { sheetOfRows } from "./entry-sheets";
import { calculated, cellOf, edited, pairOf } from "./judging";

/** Formulas of a keeper's that have an answer though one of ours inside them is in error. Invented. */
const { engine } = excelTests();
const STORE = "ALGAL.WATER_STORE_N(A1,B1,200)";
const FORMULAS = {
  D1: `IFERROR(${STORE},0)`,
  D2: `IF(ISERROR(${STORE}),-1,${STORE})`,
  D3: `COUNT(${STORE})+SUM(A1:A2)`,
  D4: `ALGAL.HARVEST_DRY(IFERROR(${STORE},50))`,
  D5: `ROUND(1000*IFERROR(${STORE},0),1)&" mg"`,
  D6: "SUM(IFERROR(ALGAL.WATER_STORE_N(A1:A3,B1:B3,200),0))",
  D7: `IFERROR(A1/2,${STORE})`,
  D8: 'IFERROR(ALGAL.FEEDLOAD_N(2,C1),"no such food")',
};

const pair = async (engineAtHand: ReturnType<typeof engine>) => {
  const cells = new Map<string, { value: number | string | null; formula?: string; spill?: string }>(Object.entries({ A1: 10, A2: 20, A3: 5, B1: "mg/L NO3", B2: "mg/L NO3", B3: "mg/L NO3", C1: "Stew" }).map(([address, value]) => [address, { value }]));
  for (const [address, formula] of Object.entries(FORMULAS)) cells.set(address, { value: null, formula, ...(address === "D6" ? { spill: "D6" } : {}) });
  const book: NewBook = { sheets: [{ name: "Log", cells }], names: [], date1904: false };
  return pairOf("Log", await writeBook(book), engineAtHand);
};

test("a copy has no other figure where a word was changed that a plain formula does not follow", async () => {
  const { copy, original } = await pair(engine());
  const change = [{ sheet: "Log", address: "B1", value: "mg/L NO3-N" }];
  const [ours, theirs] = [await readBook(await calculated(await edited(original, change), engine())), await readBook(await calculated(await edited(copy.file, change), engine()))];
  const shown = Object.keys(FORMULAS).map((address) => [address, cellOf(theirs, "Log", address)?.value]);
  expect(shown).toEqual([...["D1", "D2", "D3", "D4", "D5", "D6"].map((address) => [address, "#N/A"]), ["D7", 5], ["D8", "no such food"]]);
  expect(["D1", "D2", "D3"].map((address) => cellOf(ours, "Log", address)?.value)).toEqual([2, 2, 31]);
});

test("another reading is followed, and what answers where ours has no answer stays a value with its own reason", async () => {
  const { copy, original } = await pair(engine());
  expect(copy.frozen.map(({ address, why }) => [address, why])).toEqual([["D8", "passed"]]);
  const change = [{ sheet: "Log", address: "A1", value: 30 }];
  const [ours, theirs] = [await readBook(await calculated(await edited(original, change), engine())), await readBook(await calculated(await edited(copy.file, change), engine()))];
  for (const address of Object.keys(FORMULAS)) {
    const [mine, other] = [cellOf(ours, "Log", address)?.value, cellOf(theirs, "Log", address)?.value];
    if (typeof mine === "number") expect(other).toBeCloseTo(mine, 9);
    else expect([address, other]).toEqual([address, mine]);
  }
});

/** A balance on a sheet of its own, with these formulas around it. */
async function balance(formulas: (budget: string) => Readonly<Record<string, string>>) {
  const log = [["Date", "Food", "Feed (g)", "NO3 (mg/L)", "Harvest (g)"], [46060, "Mussel", 2, 10, ""], [46061, "Mussel", 2, "", ""], [46062, "Mussel", 2, "", ""], [46063, "Mussel", 2, 10, 132]];
  const own = new Map(Object.entries(formulas("ALGAL.BUDGET_N(Log!A1:E5,'Set up'!A1:B1)")).map(([address, formula]) => [address, { value: null, formula }]));
  const book: NewBook = { sheets: [sheetOfRows("Log", log), sheetOfRows("Set up", [["Volume (L)", 265]]), { name: "Own", cells: own }], names: [], date1904: false };
  const { copy, ours } = await pairOf("Own", await writeBook(book), engine());
  const after = async (value: number | string): Promise<unknown[]> => {
    const changed = await readBook(await calculated(await edited(copy.file, [{ sheet: "Log", address: "C3", value }]), engine()));
    return [...own.keys()].map((address) => cellOf(changed, "Own", address)?.value);
  };
  return { before: [...own.keys()].map((address) => cellOf(ours, "Own", address)?.value), frozen: copy.frozen, after };
}

test("nor where an entry of a balance came to be in another error", async () => {
  const { before, after } = await balance((budget) => ({ A1: `IFERROR(INDEX(${budget},2,9),0)`, A2: `COUNT(${budget})`, A3: `INDEX(${budget},2,9)` }));
  expect(before.map((value) => typeof value)).toEqual(["number", "number", "number"]);
  for (const value of await after("#DIV/0!")) expect(value).toMatch(/^#[A-Z]/);
});

test("a verdict that no longer holds is not taken for another one, while what only shows it says so", async () => {
  const verdict = (budget: string): string => `INDEX(${budget},2,11)`;
  const { before, frozen, after } = await balance((budget) => ({
    A1: `IF(LEFT(${verdict(budget)},5)="Unexp",1,0)`,
    A2: `IF(ISNUMBER(SEARCH("source",${verdict(budget)})),"look","fine")`,
    A3: `IF(${verdict(budget)}<>"Closed","open","closed")`,
    A4: `"N: "&${verdict(budget)}`,
    A5: `IF(INDEX(${budget},2,3)="","",INDEX(${budget},2,3)*1000)`,
  }));
  expect(frozen).toEqual([]);
  expect(before.slice(0, 3)).toEqual([1, "look", "open"]);
  const [first, second, third, shown, feed] = await after(4);
  expect([first, second, third]).toEqual(["#N/A", "#N/A", "#N/A"]);
  expect(shown).toBe("N: An entry or a coefficient was changed after the copy was made: this verdict no longer holds.");
  expect(feed).toBeCloseTo((Number(before[4]) * 10) / 8, 9);
});

test.each([
  ["IFERROR(ALGAL.HARVEST_DRY(A1),0)", "IFERROR(ALGAL.HARVEST_DRY(A1),0)"],
  ["1+IFERROR( ROUND(ALGAL.HARVEST_DRY(A1),1),0)*2", "IFERROR( ROUND(ALGAL.HARVEST_DRY(A1),1),0)"],
  ["IFERROR(A1,ALGAL.HARVEST_DRY(A1))", null],
  ["IFERROR(IFERROR(A1,ALGAL.HARVEST_DRY(A1)),(2))", "IFERROR(IFERROR(A1,ALGAL.HARVEST_DRY(A1)),(2))"],
  ["SUM(ALGAL.HARVEST_DRY(A1),COUNT(A1))", null],
  ["ALGAL.HARVEST_DRY(IFERROR(A1,0))", null],
  ['"IFERROR("&ALGAL.HARVEST_DRY(A1)', null],
  ["LET(x,ALGAL.HARVEST_DRY(A1),IFERROR(x,0))", "LET(x,ALGAL.HARVEST_DRY(A1),IFERROR(x,0))"],
])("%s passes over an error of ours in %s", (formula, part) => {
  const found = passesErrorsOf(formula, outermostCalls(formula)[0]!);
  expect(found && formula.slice(found.start, found.end)).toBe(part);
});
