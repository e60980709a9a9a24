import fs from "node:fs";
import path from "node:path";
import { directNumbers } from "../../src/cli/direct";
import type { Book, BookCell } from "../../src/files/book";
import { readBook } from "../../src/files/read-book";
import { writeBook } from "../../src/files/new-book";
import { generatedLog } from "../native/generated-logs";
import { excelTests } from "../workbook/excel-tests";

/** What is worked out beside the engine is what the engine works out. */
const { engine } = excelTests();
const SAMPLES = path.join(__dirname, "../../samples");

const book = (cells: Readonly<Record<string, BookCell>>): Book => ({ sheets: [{ name: "Log", cells: new Map(Object.entries(cells)) }], names: [], date1904: false });

async function held(given: Book): Promise<number> {
  const direct = directNumbers(given);
  engine().open(given);
  const calculated = new Map((await engine().calculate()).map(({ name, values }) => [name, values]));
  let count = 0;
  for (const [sheet, numbers] of direct) {
    for (const [address, value] of numbers) {
      const other = Number(calculated.get(sheet)?.get(address));
      expect([sheet, address, Math.abs(value - other) <= 1e-13 * Math.abs(value)]).toEqual([sheet, address, true]);
      count += 1;
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

test.each([
  ["a blank", { A1: { value: null } }],
  ["an error", { A1: { value: "#N/A" } }],
  ["a figure in a text", { A1: { value: "2.5" } }],
  ["another formula", { A1: { value: 2, formula: "1+1" } }],
  ["what spills", { A1: { value: 2 }, A3: { value: 1, formula: "SEQUENCE(3)", spill: "A1:A3" } }],
] as const)("%s is the engine's", (_what, cells) => {
  expect(directNumbers(book({ ...cells, B1: { value: null, formula: 'ALGAL.FEEDLOAD_N(A1,"Cod")' } })).size).toBe(0);
});

test.each([["ALGAL.FEEDLOAD_N(A1,B1)+1"], ["IF(TRUE,ALGAL.FEEDLOAD_N(A1,B1))"], ['ALGAL.FEEDLOAD_N(A1:A2,"Cod")'], ["ALGAL.FEEDLOAD_N(A1)"], ['ALGAL.FEEDLOAD_N(A1,"No such food")'], ["ALGAL.FEEDLOAD_N(-1,B1)"]])("so is %s", (formula) => {
  expect(directNumbers(book({ A1: { value: 2 }, A2: { value: 3 }, B1: { value: "Cod" }, C1: { value: null, formula } })).size).toBe(0);
});
