import fs from "node:fs";
import path from "node:path";
import { writeBook } from "../../src/files/new-book";
import { readBook } from "../../src/files/read-book";
import { buildOnce, ledger, temporaryFolder } from "./run";

let place: ReturnType<typeof temporaryFolder>;
beforeAll(buildOnce, 300_000);
beforeEach(async () => {
  place = temporaryFolder();
  const cells = new Map(Object.entries({ A1: { value: 40 }, B1: { value: 0, formula: "ALGAL.CHANGE_COUNT(A1,10,0.2)" }, C1: { value: 0, formula: "B1+1" } }));
  fs.writeFileSync(place.at("book.xlsx"), await writeBook({ sheets: [{ name: "Log", cells }], names: [], date1904: false }));
});
afterEach(() => place.remove());

test("hand-over calculates, freezes ours, keeps native formulas and puts a cover in front", async () => {
  const before = fs.readFileSync(place.at("book.xlsx"));
  expect(ledger("hand-over", place.at("book.xlsx"), "-o", place.at("copy.xlsx"), "--values")).toEqual({ out: "1 cell frozen on 1 sheet; a cover sheet says what was done.\n", err: "", code: 0 });
  const { sheets } = await readBook(fs.readFileSync(place.at("copy.xlsx")));
  expect(sheets.map(({ name }) => name)).toEqual(["Cover", "Log"]);
  // By hand: 40 x 0.8^7 = 8.4, and 40 x 0.8^6 = 10.5 is still above 10.
  expect(["B1", "C1"].map((cell) => [sheets[1]?.cells.get(cell)?.value, sheets[1]?.cells.get(cell)?.formula])).toEqual([[7, undefined], [8, "B1+1"]]);
  expect(fs.readFileSync(place.at("book.xlsx")).equals(before)).toBe(true);
});

test.each([
  [["hand-over"], 2, "Give one workbook to hand over"],
  [["hand-over", "book.xlsx"], 2, "Say where the copy goes"],
  [["hand-over", "book.xlsx", "-o", "copy.xlsx"], 2, "Say what becomes of the ALGAL formulas"],
  [["hand-over", "none.xlsx", "-o", "copy.xlsx", "--values"], 1, "There is no such file."],
  [["hand-over", "book.xlsx", "-o", "book.xlsx", "--values"], 1, "The copy would replace the workbook itself"],
  [["hand-over", "book.xlsx", "-o", "copy.xls", "--values"], 1, "ends in .xlsx"],
])("%j is refused in one sentence, and nothing is written", (given, code, sentence) => {
  const ran = ledger(...given.map((one) => (/\.xlsx?$/.test(one) ? place.at(one) : one)));
  expect(ran.code).toBe(code);
  expect(ran.err).toContain(sentence);
  expect(ran.err.trimEnd().split("\n")).toHaveLength(1);
  expect(fs.readdirSync(path.dirname(place.at("book.xlsx")))).toEqual(["book.xlsx"]);
});

test("a workbook without a formula of ours is not copied", async () => {
  fs.writeFileSync(place.at("plain.xlsx"), await writeBook({ sheets: [{ name: "Log", cells: new Map([["A1", { value: 1 }]]) }], names: [], date1904: false }));
  const ran = ledger("hand-over", place.at("plain.xlsx"), "-o", place.at("copy.xlsx"), "--values");
  expect([ran.code, ran.err.includes("No cell has an ALGAL formula"), fs.existsSync(place.at("copy.xlsx"))]).toEqual([1, true, false]);
});
