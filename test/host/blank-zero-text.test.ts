import type { BookCell } from "../../src/files/book";
import { excelTests } from "../workbook/excel-tests";

/**
 * What Excel makes of a 0, a blank cell, an empty text and figures in a text. The answers are Excel's documented ones (a blank cell
 * equals both 0 and ""; a number never equals a text; text in a sum of two cells is #VALUE!; an empty text is not blank), and each
 * is asked for twice, because the engine's own memory of a column used to change them.
 */
const { engine } = excelTests();

const ENTRIES: Readonly<Record<string, BookCell>> = { A1: { value: 0 }, A2: { value: 1 }, A4: { value: "x" }, A5: { value: null, formula: '""' }, A6: { value: "0" } };

test.each<[string, unknown]>([
  ['IF(A1="",1,2)', 2],
  ['IF(A1<>"",1,2)', 1],
  ['IF(OR(A1="",A1>5),1,2)', 2],
  ['IF(A1="","",ALGAL.READING_HIGH(A1,5))', 2.5],
  ['IF(A3="",1,2)', 1],
  ["IF(A3=0,1,2)", 1],
  ['IF(A5="",1,2)', 1],
  ["IF(A5=0,1,2)", 2],
  ["A5=0", false],
  ["ISBLANK(A5)", false],
  ["ISBLANK(A3)", true],
  ["COUNTA(A1:A6)", 5],
  ["COUNTBLANK(A1:A6)", 2],
  ["IF(A6=0,1,2)", 2],
  ['IF(A6="0",1,2)', 1],
  ['SUMPRODUCT(--(A1:A6=""))', 2],
  ["SUMPRODUCT(--(A1:A6=0))", 2],
  ["SUM(A1:A6)", 1],
])("%s is %p", async (formula, answer) => {
  engine().open({ sheets: [{ name: "Log", cells: new Map([...Object.entries(ENTRIES), ...["D1", "D2", "D3"].map((address) => [address, { value: null, formula }] as const)]) }], names: [], date1904: false });
  const [sheet] = await engine().calculate();
  expect(["D1", "D2", "D3"].map((address) => sheet?.values.get(address))).toEqual([answer, answer, answer]);
});

test("an empty text is no number", async () => {
  engine().open({ sheets: [{ name: "Log", cells: new Map([...Object.entries(ENTRIES), ["D1", { value: null, formula: "A5+1" }]]) }], names: [], date1904: false });
  const [sheet] = await engine().calculate();
  expect(sheet?.values.get("D1")).toMatchObject({ code: "#VALUE!" });
});
