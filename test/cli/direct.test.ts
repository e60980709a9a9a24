import fs from "node:fs";
import path from "node:path";
import { directAnswers } from "../../src/cli/direct";
import { engineAtHand, type EngineLater } from "../../src/cli/engine-later";
import { functionNames } from "../../src/cli/functions";
import { type Recalculation, recalculate } from "../../src/cli/recalculate";
import { cellAddress, readCell } from "../../src/files/address";
import type { Book, BookCell } from "../../src/files/book";
import { readBook } from "../../src/files/read-book";
import { writeBook } from "../../src/files/new-book";
import { generatedLog } from "../native/generated-logs";
import { excelTests } from "../workbook/excel-tests";

/** What is worked out beside the engine is what the engine works out. */
const { engine } = excelTests();
const SAMPLES = path.join(__dirname, "../../samples");

type Cells = Readonly<Record<string, BookCell>>;

const book = (cells: Cells): Book => ({ sheets: [{ name: "Log", cells: new Map(Object.entries(cells)) }], names: [], date1904: false });
const formula = (text: string): BookCell => ({ value: null, formula: text });
const answersIn = (given: Book) => [...(directAnswers(given).answers.get("Log")?.keys() ?? [])];

async function held(given: Book): Promise<number> {
  engine().open(given);
  const calculated = new Map((await engine().calculate()).map(({ name, values }) => [name, values]));
  let count = 0;
  for (const [sheet, answers] of directAnswers(given).answers) {
    for (const [address, rows] of answers) {
      const { row, column } = readCell(address) ?? { row: 0, column: 0 };
      rows.forEach((values, r) =>
        values.forEach((value, c) => {
          const place = cellAddress(row + r, column + c);
          const other = calculated.get(sheet)?.get(place) ?? "";
          const agrees = typeof value === "number" ? Math.abs(value - Number(other)) <= 1e-13 * Math.abs(value) : value === other;
          expect([sheet, address, place, agrees]).toEqual([sheet, address, place, true]);
          count += 1;
        }),
      );
    }
  }
  return count;
}

test("in the samples", async () => {
  let count = 0;
  for (const file of fs.readdirSync(SAMPLES).filter((name) => name.endsWith(".xlsx"))) count += await held(await readBook(fs.readFileSync(path.join(SAMPLES, file))));
  expect(count).toBeGreaterThan(40);
});

test("in invented workbooks of all functions", async () => {
  let count = 0;
  for (let seed = 300; seed < 320; seed += 1) count += await held(await readBook(await writeBook(generatedLog(seed).book)));
  expect(count).toBeGreaterThan(25);
});

/** Ten days of an invented tank, its volume in J1:K1. */
const DAYS: Cells = Object.fromEntries([
  ...["Date", "Food", "Feed (g)", "NO3 (mg/L)", "Harvest (g)"].map((heading, column) => [cellAddress(0, column), { value: heading }] as const),
  ...Array.from({ length: 10 }, (_, day) => [
    [cellAddress(day + 1, 0), { value: 46_000 + day }] as const,
    [cellAddress(day + 1, 1), { value: "Mysids, frozen" }] as const,
    [cellAddress(day + 1, 2), { value: 4 + (day % 3) }] as const,
    ...(day % 4 === 0 ? [[cellAddress(day + 1, 3), { value: day === 4 ? "<0.5" : 10 + day }] as const] : []),
    ...(day === 8 ? [[cellAddress(day + 1, 4), { value: 120 }] as const] : []),
  ]).flat(),
  ["J1", { value: "Volume (L)" }],
  ["K1", { value: 200 }],
]);
const BUDGET = formula("ALGAL.BUDGET_N(A1:E11,J1:K1)");

describe("answers that spill", () => {
  test("are the engine's, blanks and texts included", async () => {
    expect(await held(book({ ...DAYS, M1: BUDGET, M20: formula("ALGAL.FEEDLOAD_N(C2:C11,B2:B11)"), M40: formula("ALGAL.READING_LOW(D2:D11)") }))).toBeGreaterThan(50);
    expect(answersIn(book({ ...DAYS, M1: BUDGET, M20: formula("ALGAL.FEEDLOAD_N(C2:C11,B2:B11)"), M40: formula("ALGAL.READING_LOW(D2:D11)") }))).toEqual(["M1", "M20", "M40"]);
  });

  test("take the place of what they spilled before", () => {
    expect(answersIn(book({ ...DAYS, M1: { ...BUDGET, value: "Date", spill: "M1:N2" }, N1: { value: "old" }, M2: { value: "old" }, N2: { value: "old" } }))).toEqual(["M1"]);
  });

  test.each<[string, Cells]>([
    ["a filled cell", { N2: { value: "note" } }],
    ["another formula", { N2: formula("1+1") }],
    ["another answer", { N2: formula("ALGAL.FEEDLOAD_N(C2:C11,B2:B11)") }],
    ["what another formula spilled before", { N3: { value: 1, formula: "SEQUENCE(2)", spill: "N3:N4" } }],
  ])("are left to the engine where %s is in the way", (_what, more) => {
    expect(answersIn(book({ ...DAYS, M1: BUDGET, ...more }))).not.toContain("M1");
  });

  test("are left to the engine where a table or merged cells are in the way", () => {
    const { sheets: [sheet] } = book({ ...DAYS, M1: BUDGET });
    if (!sheet) throw new Error("A book has a sheet.");
    for (const more of [{ merges: ["N2:O2"] }, { tables: [{ name: "T", ref: "N2:O9", columns: ["a", "b"], hasHeadings: true, hasTotals: false }] }]) expect(answersIn({ sheets: [{ ...sheet, ...more }], names: [], date1904: false })).toEqual([]);
  });

  test("and so are all where one reads what another spills over", () => {
    expect(answersIn(book({ ...DAYS, M1: BUDGET, Z1: formula("ALGAL.FEEDLOAD_N(N2:N5,B2:B5)") }))).toEqual([]);
  });
});

describe("with formulas of the engine beside them", () => {
  const through = async (cells: Cells): Promise<Recalculation> => recalculate(book(cells), engineAtHand(engine()), functionNames);
  const never: EngineLater = { get: () => Promise.reject(new Error("The engine was begun.")), dispose: () => undefined };

  test("a native formula reads what was worked out, as it reads the engine's", async () => {
    const cells = { ...DAYS, M1: formula("ALGAL.FEEDLOAD_N(C2:C4,B2:B4)"), P1: formula("SUM(M1:M3)"), R1: formula("ALGAL.READING_LOW(D2:D4)"), S1: formula("R2=0"), S2: formula("ISBLANK(R2)"), S3: formula('R2=""'), S4: formula("COUNTA(R1:R3)") };
    expect(answersIn(book(cells))).toEqual(["M1", "R1"]);
    const { results } = await through(cells);
    expect(results.get("Log")?.get("P1")).toBeCloseTo((results.get("Log")?.get("M1") as number[][]).flat().reduce((sum, value) => sum + value, 0), 12);
    engine().open(book(cells));
    const [whole] = await engine().calculate();
    for (const address of ["P1", "S1", "S2", "S3", "S4"]) expect([address, results.get("Log")?.get(address)]).toEqual([address, whole?.values.get(address)]);
  });

  test("a formula that now spills where a blank was read takes it back", async () => {
    const cells = { ...DAYS, Q1: formula('ALGAL.ION_CONVERT(V3:V5,"NO3","NO3-N")'), V1: { value: 1, formula: "SEQUENCE(5)", spill: "V1:V2" } };
    expect(answersIn(book(cells))).toEqual(["Q1"]);
    const rows = (await through(cells)).results.get("Log")?.get("Q1") as number[][];
    expect(rows.map(([value = 0]) => Math.round(100 * value) / 100)).toEqual([0.68, 0.9, 1.13]);
  });

  test("a book of nothing else needs no engine", async () => {
    const { results, errors } = await recalculate(book({ ...DAYS, M1: BUDGET }), never, functionNames);
    expect(errors).toEqual([]);
    expect((results.get("Log")?.get("M1") as unknown[][]).length).toBeGreaterThan(1);
    await expect(recalculate(book({ ...DAYS, M1: BUDGET, A20: formula("1+1") }), never, functionNames)).rejects.toThrow("begun");
  });
});

test.each<[string, Cells]>([
  ["an error", { A1: { value: "#N/A" } }],
  ["a figure in a text", { A1: { value: "2.5" } }],
  ["another formula", { A1: { value: 2, formula: "1+1" } }],
  ["what spills", { A1: { value: 2 }, A3: { value: 1, formula: "SEQUENCE(3)", spill: "A1:A3" } }],
])("%s is the engine's", (_what, cells) => {
  expect(answersIn(book({ ...cells, B1: formula('ALGAL.FEEDLOAD_N(A1,"Cod")') }))).toEqual([]);
});

test.each([["ALGAL.FEEDLOAD_N(A1,B1)+1"], ["IF(TRUE,ALGAL.FEEDLOAD_N(A1,B1))"], ['ALGAL.FEEDLOAD_N(A:A,"Cod")'], ["ALGAL.FEEDLOAD_N(A1)"], ['ALGAL.FEEDLOAD_N(A1,"No such food")'], ["ALGAL.FEEDLOAD_N(-1,B1)"]])("so is %s", (text) => {
  expect(answersIn(book({ A1: { value: 2 }, A2: { value: 3 }, B1: { value: "Cod" }, C1: formula(text) }))).toEqual([]);
});
