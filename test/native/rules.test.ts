import fs from "node:fs";
import path from "node:path";
import type { BookCell } from "../../src/files/book";
import { writeBook } from "../../src/files/new-book";
import { readBook } from "../../src/files/read-book";
import metadata from "../../src/functions/generated/functions.json";
import { RULES } from "../../src/native/rules";
import { excelTests } from "../workbook/excel-tests";
import { pairOf } from "./judging";

const { engine } = excelTests();

test("every function has a rule, and the README says which become plain formulas and which values", () => {
  const names = metadata.functions.map(({ name }) => name).sort();
  expect([...RULES.keys()].sort()).toEqual(names);
  const readme = fs.readFileSync(path.join(__dirname, "../../README.md"), "utf8");
  const row = (title: string): string[] => [...(readme.split("\n").find((line) => line.startsWith(`| ${title}`)) ?? "").matchAll(/`([A-Z_]+)`/g)].map(([, name = ""]) => name);
  const frozen = names.filter((name) => RULES.get(name)?.kind === "frozen");
  expect(row("Plain formulas, live").sort()).toEqual(names.filter((name) => !frozen.includes(name)));
  const values = [...row("Values: a fit"), ...row("Values: random draws"), ...row("Values: other")].filter((name) => name !== "SCRUBAREA_HABIT");
  expect(values.sort()).toEqual(frozen);
});

/** One formula over a few cells, as it stands in the copy. */
async function written(formula: string, cells: Readonly<Record<string, number | string>>): Promise<string | undefined> {
  const given: [string, BookCell][] = Object.entries(cells).map(([address, value]) => [address, { value }]);
  const file = await writeBook({ sheets: [{ name: "Log", cells: new Map([...given, ["H1", { value: null, formula }]]) }], names: [], date1904: false });
  const { copy } = await pairOf("one", file, engine());
  return (await readBook(copy.file)).sheets.find(({ name }) => name === "Log")?.cells.get("H1")?.formula;
}

test.each([
  ["a harvest with its own dry fraction", "ALGAL.HARVEST_DRY(A1,B1)", { A1: 150, B1: 0.085 }, 'IF(LEN(A1)=0,"",IF(OR(A1<0,A1>1000000000000,AND(B1<>"",OR(B1<0,B1>0.5))),NA(),A1*IF(LEN(B1)=0,Sources!$B$5,B1)))'],
  ["the light of a day", "ALGAL.LIGHT_DAILY(A1,14)", { A1: 270 }, 'IF(LEN(A1)=0,"",IF(OR(A1<0,A1>5000),NA(),A1*3600*14/1000000))'],
  ["a reading whose text is known", "ALGAL.READING_HIGH(A1)", { A1: "<0.2" }, 'IF(LEN(A1)=0,"",IF(A1<>"<0.2",NA(),0.2))'],
  ["a call in the keeper's own formula", "ROUND(ALGAL.FOOD_N_CONTENT(A1),4)", { A1: "Cod" }, "ROUND((IF(LEN(A1)=0,\"\",INDEX('Workings ranges'!$B$7:$B$49,MATCH(SUBSTITUTE(SUBSTITUTE(TRIM(A1),\"*\",\"~*\"),\"?\",\"~?\"),'Workings ranges'!$A$7:$A$49,0)))),4)"],
])("%s is written so that a person can read it", async (_what, formula, cells, text) => {
  expect(await written(formula, cells)).toBe(text);
});
