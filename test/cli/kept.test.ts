import { engineAtHand } from "../../src/cli/engine-later";
import { functionNames } from "../../src/cli/functions";
import { recalculate } from "../../src/cli/recalculate";
import type { BookCell, BookSheet } from "../../src/files/book";
import { usableNames } from "../../src/files/usable-names";
import { excelTests } from "../workbook/excel-tests";

/** Formulas that the engine would answer otherwise than Excel keep what is stored, and the reason is told. */
const { engine } = excelTests();

async function calculated(cells: Readonly<Record<string, BookCell>>, more: Partial<BookSheet> = {}) {
  const given = new Map<string, BookCell>([["A1", { value: 1 }], ["A2", { value: 2 }], ["A3", { value: 3 }], ...Object.entries(cells)]);
  return recalculate({ sheets: [{ name: "Log", cells: given, ...more }], names: [], date1904: false }, engineAtHand(engine()), functionNames);
}

test.each<[string, string, Partial<BookSheet>]>([
  ["SUM(A:A A2:A3)", "in common", {}],
  ["SUM((A1,A3))", "in parentheses", {}],
  ["SUM(A1:A3*2)", "own row or column", {}],
  ["SUBTOTAL(9,A1:A3)", "hidden rows", { hiddenRows: [2] }],
  [`1${"+1".repeat(9000)}`, "longer than a formula may be", {}],
])("%# keeps its stored value", async (formula, why, more) => {
  const { results, kept, errors } = await calculated({ C1: { value: 5, formula }, D1: { value: 0, formula: "C1+1" } }, more);
  expect(kept).toEqual([{ address: "Log!C1", sentence: expect.stringContaining(why) }]);
  expect(results.get("Log")?.has("C1")).toBe(false);
  // What reads it is calculated with it.
  expect(results.get("Log")?.get("D1")).toBe(6);
  expect(errors).toEqual([]);
});

test("an array formula is calculated with whole ranges", async () => {
  const { results, kept } = await calculated({ C1: { value: 0, formula: "SUM(A1:A3*2)", spill: "C1", fixedSpill: true } });
  expect([results.get("Log")?.get("C1"), kept]).toEqual([12, []]);
});

describe("names", () => {
  const names = (...entries: Parameters<typeof usableNames>[0]) => usableNames(entries).map(({ name }) => name);

  test("that mean the same everywhere are known", () => {
    expect(names({ name: "Rate", ref: "Log!$A$1" }, { name: "Double", ref: "Rate*2" }, { name: "Own", ref: "Log!$A$1:$A$9", sheet: 1 }, { name: "Column", ref: "Log!$A:$A" }, { name: "Fixed", ref: "0.5" })).toEqual(["Rate", "Double", "Own", "Column", "Fixed"]);
  });

  test("that mean something else on a sheet or in another cell are not", () => {
    expect(names({ name: "Rate", ref: "Log!$A$1" }, { name: "rate", ref: "Other!$A$1", sheet: 1 }, { name: "Row", ref: "Log!$A1" }, { name: "Above", ref: "Log!A1" }, { name: "Lost", ref: "#REF!" }, { name: "_xlnm.Print_Area", ref: "Log!$A$1" })).toEqual([]);
  });

  test("that stand for themselves are not, in a long chain either", () => {
    expect(names({ name: "Aa", ref: "Bb+1" }, { name: "Bb", ref: "Aa+1" }, { name: "Me", ref: "Me" }, { name: "Reads", ref: "Aa*2" })).toEqual(["Reads"]);
    const chain = Array.from({ length: 20_000 }, (_, i) => ({ name: `N_${i}`, ref: i === 19_999 ? "1" : `N_${i + 1}` }));
    expect(names(...chain)).toHaveLength(20_000);
    expect(names(...chain.slice(0, -1), { name: "N_19999", ref: "N_0" })).toEqual([]);
  });
});
