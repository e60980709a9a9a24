import fs from "node:fs";
import { cellAddress } from "../../src/files/address";
import type { BookCell } from "../../src/files/book";
import { writeBook } from "../../src/files/new-book";
import { readBook } from "../../src/files/read-book";
import { convert } from "../files/libreoffice";
import { buildOnce, ledger, temporaryFolder } from "./run";

/**
 * The keeper's own formulas, calculated by `calc` and by LibreOffice: the functions that a log's workbook uses, over ranges with
 * figures, gaps, zeros and texts. Left out is what the two are known to answer differently by design: truth values in ranges, texts
 * where LibreOffice refuses what Excel leaves out, and dates before 1 March 1900.
 */
const COLUMNS: Readonly<Record<string, readonly (number | string | null)[]>> = {
  A: [45000, 45007, 45014, 45021, 45028, 45035, 45042, 45049],
  B: [3, 1.5, 4, 0, 2.5, 6, 7, 2],
  C: [10, null, 0.5, 20, null, 5, 0, 12.25],
  D: [null, null, null, 4, null, null, null, null],
  E: [null, null, 2, null, null, 5, null, null],
  F: ["fed", "water change", "fed", "Harvest", "fed", "<0.2", "5", "x"],
  G: [-0.4, 0.1, -2.5, 1e-7, 3.25, 1e6, 0.5, -0.05],
};
const ROWS = 8;
const FIGURES = ["B", "C", "D", "E", "G"] as const;

const OF_ONE_RANGE = [
  "SUM({})", "AVERAGE({})", "MEDIAN({})", "MIN({})", "MAX({})", "COUNT({})", "COUNTA({})", "COUNTBLANK({})", "SUMSQ({})", "PRODUCT({})", "AVEDEV({})", "DEVSQ({})", "STDEV({})", "STDEV.S({})", "STDEV.P({})", "VAR({})", "VARP({})",
  "LARGE({},1)", "SMALL({},1)", "PERCENTILE({},0.9)", "QUARTILE({},1)", "SUBTOTAL(9,{})", "SUBTOTAL(1,{})", "SUBTOTAL(7,{})", "SUMIF({},\">0.50\")", "SUMIF($B$1:$B$8,\">=2\",{})", "SUMIF($F$1:$F$8,\"fed\",{})", "AVERAGEIF($F$1:$F$8,\"*e*\",{})",
  "SUMIFS({},$F$1:$F$8,\"fed\",$B$1:$B$8,\">2.0\")", "COUNTIF({},\">0\")", "COUNTIF({},\"<>\")", "COUNTIF({},\"\")", "COUNTIF({},0)", "COUNTIF({},\"<\"&$B$3)", "COUNTIFS({},\">0\",$B$1:$B$8,\"<5\")", "MAXIFS({},$B$1:$B$8,\">2\")", "MINIFS({},$B$1:$B$8,\">99\")",
  "SUMPRODUCT($B$1:$B$8,{})", "SUMPRODUCT(--({}<>\"\"))", "SUMPRODUCT(({}>0.50)*1)", "SUMPRODUCT(($F$1:$F$8=\"fed\")*{})", "SLOPE({},$A$1:$A$8)", "INTERCEPT({},$A$1:$A$8)", "CORREL($A$1:$A$8,{})", "RSQ({},$A$1:$A$8)", "STEYX({},$A$1:$A$8)", "FORECAST(45100,{},$A$1:$A$8)",
  "LOOKUP(9.99E+307,{})", "LOOKUP(2,1/({}<>\"\"),{})", "INDEX({},4)", "MATCH(4,{},0)", "VLOOKUP(4,{},1,FALSE)", "IF(INDEX({},2)=\"\",\"none\",INDEX({},2))", "IFERROR(AVERAGE({}),\"none\")", "SUM(OFFSET({},0,0,3,1))", "ROUND(SUM({})/7,2)", "ROUNDUP(MAX({}),0)", "ROUNDDOWN(MIN({}),1)", "INT(AVERAGE({}))", "MOD(SUM({}),3)",
  "ABS(MIN({}))", "MAX({})-MIN({})", "SUM({})*1E-3", "TEXT(SUM({}),\"0.00\")", "TEXT(MAX({}),\"#,##0.0\")", "SUM({})&\" g\"", "AND(COUNT({})>0,MAX({})>1.0)", "OR(MIN({})<0,MAX({})>.5)", "CHOOSE(2,1,SUM({}))", "SQRT(ABS(SUM({})))", "EXP(-COUNT({}))", "LN(COUNT({})+1)", "POWER(COUNT({}),2)", "-MAX({})^2", "SUM({})%",
];
const OF_CELLS = [
  "A3-A2", "YEAR(A4)", "MONTH(A4)", "DAY(A4)", "WEEKDAY(A4,2)", "ISOWEEKNUM(A4)", "EOMONTH(A1,1)", "EDATE(A1,-3)", "DATE(2024,2,30)", "DATEDIF(A1,A8,\"d\")", "NETWORKDAYS(A1,A4)", "TEXT(A1,\"yyyy-mm-dd\")", "TEXT(A1,\"d mmm yyyy\")", "TEXT(A1,\"ddd\")",
  "LEN(F2)", "LEFT(F2,5)", "RIGHT(F2,3)", "MID(F2,3,4)", "UPPER(F1)", "PROPER(F2)", "TRIM(\"  a  b \")", "SUBSTITUTE(F2,\"a\",\"o\")", "FIND(\"c\",F2)", "SEARCH(\"CH\",F2)", "VALUE(F7)", "F7*2", "F7+B1", "F1&B1", "EXACT(F1,\"Fed\")", "F1=\"FED\"", "REPT(\"ab\",3)", "TEXTJOIN(\", \",TRUE,F1:F3)", "CONCATENATE(F1,\"-\",B1)",
  "ISNUMBER(F7)", "ISTEXT(F1)", "ISBLANK(C2)", "ISBLANK(F1)", "ISERROR(1/B4)", "C2=\"\"", "C2=0", "B4=\"\"", "B4=0", "N(F1)", "T(F1)", "IFERROR(1/B4,\"none\")", "IF(B4,1,2)", "IF(C2>0,1,IF(C3>0,2,3))", "IFS(B1>5,\"a\",TRUE,\"b\")", "SWITCH(B1,3,\"three\",\"other\")", "INDEX(C1:C8,MATCH(A4,A1:A8,0))", "VLOOKUP(A4+2,A1:C8,2,TRUE)", "VLOOKUP(45022,A1:C8,3,FALSE)",
  "INDEX(A1:G8,2,6)", "INDIRECT(\"B\"&3)", "ROWS(A1:C8)", "COLUMNS(A1:C8)", "1-B2/B1", "(B1+B2)*B3", "2^-1", "-B1^2", "10%*B1", "B1<>B2", "CEILING(B2,5)", "FLOOR(B3,3)", "ROUND(-2.5,0)", "ROUND(2.345,2)", "ROUND(1234.5,-2)", "SIGN(G1)", "LOG10(1000)", "LOG(8,2)", "RANK(B3,B1:B8)", "TREND(B1:B2,A1:A2,A5)", "PI()", "DEGREES(PI())",
];

let place: ReturnType<typeof temporaryFolder>;

beforeAll(() => {
  buildOnce();
  place = temporaryFolder();
});
afterAll(() => place.remove());

test("the functions of a log's workbook give what LibreOffice gives", async () => {
  const cells = new Map<string, BookCell>();
  Object.entries(COLUMNS).forEach(([column, values]) => values.forEach((value, row) => value !== null && cells.set(`${column}${row + 1}`, { value })));
  const texts = [...OF_ONE_RANGE.flatMap((text) => FIGURES.map((column) => text.split("{}").join(`$${column}$1:$${column}$${ROWS}`))), ...OF_CELLS];
  const formulas = texts.map((formula, at) => ({ address: cellAddress(at, 9), formula }));
  for (const { address, formula } of formulas) cells.set(address, { value: null, formula });
  fs.writeFileSync(place.at("given.xlsx"), await writeBook({ sheets: [{ name: "Log", cells }], names: [], date1904: false }));
  expect(ledger("calc", place.at("given.xlsx"), "-o", place.at("ours.xlsx")).code).toBe(0);
  const valuesIn = async (file: Uint8Array) => (await readBook(file)).sheets[0]?.cells;
  const theirs = await valuesIn(convert({ "given.xlsx": fs.readFileSync(place.at("given.xlsx")) }, "xlsx", undefined, true)["given.xlsx"] ?? new Uint8Array());
  const ours = await valuesIn(fs.readFileSync(place.at("ours.xlsx")));
  const differing = formulas.flatMap(({ address, formula }) => {
    const [one, other] = [ours?.get(address)?.value ?? null, theirs?.get(address)?.value ?? null];
    const near = typeof one === "number" && typeof other === "number" && Math.abs(one - other) <= 1e-9 * Math.max(Math.abs(one), Math.abs(other));
    // Which error it is, the two do not always agree on.
    const bothErrors = [one, other].every((value) => typeof value === "string" && value.startsWith("#"));
    return near || one === other || bothErrors ? [] : [`${formula}: ours ${JSON.stringify(one)}, theirs ${JSON.stringify(other)}`];
  });
  expect(differing).toEqual([]);
  expect(formulas.length).toBeGreaterThan(400);
});
