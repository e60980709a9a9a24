import type { Book, BookCell } from "../../src/files/book";
import { withoutTableReferences } from "../../src/host/engine/table-references";
import { excelTests } from "../workbook/excel-tests";

/** Formulas that name a table's cells, with the headings of a feeding log: a unit in parentheses. */
const { engine } = excelTests();

const TABLE: Readonly<Record<string, BookCell>> = {
  A1: { value: "Day" }, B1: { value: "Feed (g)" }, C1: { value: "It's [N]" }, D1: { value: "N (g)" },
  A2: { value: "Mon" }, B2: { value: 2 }, C2: { value: 10 },
  A3: { value: "Tue" }, B3: { value: 3 }, C3: { value: 20 },
  A4: { value: "Total" }, B4: { value: 5 },
};

const book = (more: Readonly<Record<string, string>>): Book => ({
  sheets: [
    { name: "My log", cells: new Map([...Object.entries(TABLE), ...Object.entries(more).map(([address, formula]) => [address, { value: null, formula }] as const)]), tables: [{ name: "Feed", ref: "A1:D4", columns: ["Day", "Feed (g)", "It's [N]", "N (g)"], hasHeadings: true, hasTotals: true }] },
  ],
  names: [],
  date1904: false,
});

test.each<[string, string, unknown]>([
  ["F1", "SUM(Feed[Feed (g)])", 5],
  ["F1", "SUM(Feed[[Feed (g)]:[It''s '[N']]])", 35],
  ["D3", "Feed[[#This Row],[Feed (g)]]*2", 6],
  ["D3", "Feed[@[Feed (g)]]*2", 6],
  ["D3", "[@[Feed (g)]]*2", 6],
  ["D3", "ALGAL.FEEDLOAD_N(Feed[[#This Row],[Feed (g)]],\"Cod\")>0", true],
  ["F1", "Feed[[#Totals],[Feed (g)]]", 5],
  ["F1", 'Feed[[#Headers],[Feed (g)]]&"!"', "Feed (g)!"],
  ["F1", "ROWS(Feed[#All])", 4],
  ["F1", '"Feed[Feed (g)]"', "Feed[Feed (g)]"],
])("in %s %s is %p", async (address, formula, answer) => {
  engine().open(book({ [address]: formula }));
  const [sheet] = await engine().calculate();
  expect(sheet?.values.get(address)).toBe(answer);
});

test("what names no such table or column stays as it is", () => {
  for (const formula of ["SUM(Other[Feed (g)])", "SUM(Feed[No such])", "[1]Prices!A1"]) expect(withoutTableReferences(book({ F1: formula })).sheets[0]?.cells.get("F1")?.formula).toBe(formula);
});
