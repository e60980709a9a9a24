import { CellError } from "../../src/functions/cell-error";
import { installExcel } from "../../src/host/excel/install";
import { type FoundBudget, readBudgetSource, rowAddress } from "../../src/workbook/budget-source";
import { callIn } from "../../src/workbook/formula-call";
import { MemoryGrid } from "./memory-grid";

let grid: MemoryGrid;
let uninstall: () => void;

const LOG = [["Date", "Feed (g)", "NO3 (mg/L)"], [46000, 3, 10], [46007, 4, ""], [46014, 5, 12]];
const SET_UP = [["Volume (L)", 200], ["Food", "Cod"]];

beforeEach(() => {
  grid = new MemoryGrid(["Nitrogen", "Log", "Tank 2"]);
  uninstall = installExcel(grid);
  fill("Log", 3, 2, LOG);
  fill("Tank 2", 1, 1, SET_UP);
});
afterEach(() => uninstall());

/** @param row,column of the first cell, counted from 1 */
function fill(sheet: string, row: number, column: number, cells: readonly (readonly unknown[])[]): void {
  cells.forEach((line, r) => line.forEach((value, c) => value !== "" && grid.put(sheet, `${String.fromCharCode(64 + column + c)}${row + r}`, value)));
}

const put = (formula: string, address = "A8", sheet = "Nitrogen"): void => grid.put(sheet, address, "From", formula);

async function found(wanted: string | null = null): Promise<Extract<FoundBudget, { kind: "source" }>> {
  const answer = await readBudgetSource(wanted);
  if (answer.kind !== "source") throw new Error(JSON.stringify(answer));
  return answer;
}
async function reason(): Promise<string> {
  const answer = await readBudgetSource(null);
  return answer.kind === "unreadable" ? answer.sentence : answer.kind;
}

describe("readBudgetSource", () => {
  it("finds none where no cell calls a budget", async () => {
    grid.put("Log", "A1", "ALGAL.BUDGET_N(log, set-up) goes here");
    put('="ALGAL.BUDGET_N(Log!B3:D6,1)"');
    put("=ALGAL.BUDGET_WARNINGS(Log!B3:D6,'Tank 2'!A1:B2)", "B8");
    expect(await readBudgetSource(null)).toEqual({ kind: "none" });
  });

  it("reads what the formula reads, out of an INDEX about it, quotes and dollar signs taken off", async () => {
    put("=INDEX(ALGAL.BUDGET_P(Log!$B$3:$D$6,'Tank 2'!$A$1:$B$2,\"week\"),ROW()-7,1)");
    const { names, chosen, source } = await found();
    expect([names, chosen]).toEqual([["Log"], "Log"]);
    expect(source).toEqual({ log: LOG, setUp: SET_UP, period: "week", foods: null, formulaAt: "Nitrogen!A8", logPlace: { sheet: "Log", secondRow: 4, firstColumn: 2, lastColumn: 4 } });
  });

  it("reads all ranges of one formula and no other cell of them, and takes an argument that is left out as blank", async () => {
    put("=ALGAL.BUDGET_BOTH(Log!B3:D6,'Tank 2'!A1:B2,,Log!B3:C4,FALSE)");
    grid.diary.length = 0;
    const { source } = await found();
    expect([source.period, source.foods]).toEqual([null, [["Date", "Feed (g)"], [46000, 3]]]);
    const readings = new Set(grid.diary.filter((entry) => /Log!B3:D6|Tank 2!A1:B2|Log!B3:C4/.test(entry)));
    expect([...readings].sort()).toEqual(["read Log!B3:C4", "read Log!B3:D6", "read Tank 2!A1:B2"]);
  });

  it("hands over an error of a cell as an error, not as a text", async () => {
    grid.put("Log", "D4", "#DIV/0!", "=1/0");
    put("=ALGAL.BUDGET_N(Log!B3:D6,'Tank 2'!A1:B2)");
    expect(((await found()).source.log as unknown[][])[1]?.[2]).toEqual(new CellError("#DIV/0!", "The cell shows #DIV/0!."));
  });

  it("reads ranges of the formula's own sheet, and of whole columns from row 1", async () => {
    fill("Log", 1, 8, SET_UP);
    put("=ALGAL.BUDGET_N(B3:D6,Log!H:I)", "A2", "Log");
    const { source } = await found();
    expect([source.log, (source.setUp as unknown[][]).slice(0, 2)]).toEqual([LOG, SET_UP]);
    put("=ALGAL.BUDGET_N(Log!B:D,'Tank 2'!A1:B2)");
    expect((await found()).source.log).toEqual([["", "", ""], ["", "", ""], ...LOG]);
    expect((await found()).source.logPlace?.secondRow).toBe(2);
  });

  it("reads tables and names", async () => {
    await Excel.run(async ({ workbook: { tables, names, worksheets } }) => {
      tables.add("Log!B3:D6", true).name = "Diary";
      names.add("Tank", worksheets.getItem("Tank 2").getRange("A1:B2"));
    });
    put("=ALGAL.BUDGET_N(Diary[#All],Tank)");
    const { chosen, source } = await found();
    expect([chosen, source.log, source.setUp, source.logPlace?.secondRow]).toEqual(["Diary", LOG, SET_UP, 4]);
    put("=ALGAL.BUDGET_N(Diary[[#All],[Feed (g)]:[NO3 (mg/L)]],Diary)");
    const part = (await found()).source;
    expect([part.log, part.setUp, part.logPlace]).toEqual([LOG.map((row) => row.slice(1)), LOG.slice(1), { sheet: "Log", secondRow: 4, firstColumn: 3, lastColumn: 4 }]);
  });

  it("reads a log that LOG_READ reads, and knows where its rows stand", async () => {
    fill("Log", 10, 2, [["wann", "Futter g", "Nitrat"], ["Tag", "", "mg/l"], ["1.3.2026", "2,5", "5-10"], ["8.3.2026", "", ""]]);
    fill("Tank 2", 5, 1, [["Date", "Feed (g)", "NO3 (mg/L)"]]);
    put("=ALGAL.BUDGET_N(ALGAL.LOG_READ(Log!B10:D13,'Tank 2'!A5:C5,3,\"dmy\"),'Tank 2'!A1:B2,\"whole\")");
    const { source } = await found();
    expect(source.log).toEqual([["Date", "Feed (g)", "NO3 (mg/L)"], ["", "", ""], [46082, 2.5, "5-10"], [46089, "", ""]]);
    expect(source.logPlace && [3, 4].map((row) => rowAddress(source.logPlace as never, row))).toEqual(["Log!B12:D12", "Log!B13:D13"]);
  });

  it("says what LOG_READ says when it cannot read", async () => {
    fill("Tank 2", 5, 1, [["Date", "Feed (g)", "Nonsense (x)"]]);
    put("=ALGAL.BUDGET_N(ALGAL.LOG_READ(Log!B3:D6,'Tank 2'!A5:C5),'Tank 2'!A1:B2)");
    expect(await reason()).toMatch(/^ALGAL\.LOG_READ: .*Nonsense/);
  });

  it("names each log once and gives the one that is wanted", async () => {
    put("=ALGAL.BUDGET_N(Log!$B$3:$D$6,'Tank 2'!A1:B2)");
    put("=ALGAL.BUDGET_P(Log!B3:D6,'Tank 2'!A1:B2)", "B8");
    put("=ALGAL.BUDGET_N('Tank 2'!D1:F9,'Tank 2'!A1:B2)", "C8");
    expect((await found()).names).toEqual(["Log", "Tank 2"]);
    expect((await found("Tank 2")).source.formulaAt).toBe("Nitrogen!C8");
    expect((await found("gone")).chosen).toBe("Log");
  });

  it.each([
    ["=ALGAL.BUDGET_N(OFFSET(Log!B3,0,0,4,3),'Tank 2'!A1:B2)", 'The pane cannot follow "OFFSET(Log!B3,0,0,4,3)" in the budget\'s formula.'],
    ["=ALGAL.BUDGET_N(Gone!B3:D6,'Tank 2'!A1:B2)", '"Gone!B3:D6" in the budget\'s formula leads to no cells.'],
    ["=ALGAL.BUDGET_N(NoSuchName,'Tank 2'!A1:B2)", '"NoSuchName" in the budget\'s formula leads to no cells.'],
    ["=ALGAL.BUDGET_N(Log!B3:D6)", "The formula in Nitrogen!A8 needs two ranges"],
    ["=ALGAL.BUDGET_N(ALGAL.NET_VOLUME(1),'Tank 2'!A1:B2)", 'The pane cannot follow "ALGAL.NET_VOLUME"'],
  ])("says why it cannot read %s", async (formula, sentence) => {
    put(formula);
    expect(await reason()).toContain(sentence);
  });
});

describe("callIn", () => {
  const text = (formula: string): unknown => callIn(formula, ["BUDGET_N"])?.args.map((one) => (one.kind === "reference" ? one.text : one.kind === "value" ? one.value : one.name));
  it.each<[string, unknown]>([
    ["=ALGAL.BUDGET_N('Bob''s log, old)'!A1:H9,B1:C9)", ["'Bob''s log, old)'!A1:H9", "B1:C9"]],
    ["=IFERROR(algal.budget_n(A1:B2,C1:D2,\"a \"\"b\"\", c\",,TRUE),\"\")", ["A1:B2", "C1:D2", 'a "b", c', null, true]],
    ["=ALGAL.BUDGET_N(T[[#All],[A, '] )]:[B]], IF(1,C1:D2,E1:F2) , -2.5)", ["T[[#All],[A, '] )]:[B]]", "IF(1,C1:D2,E1:F2)", -2.5]],
    ["=ALGAL.BUDGET_N(ALGAL.LOG_READ(A1:B2,{\"a\",\"b\"}),C1)", ["LOG_READ", "C1"]],
    ["=ALGAL.BUDGET_N()", []],
    ["=ALGAL.BUDGET_N(A1:B2", undefined],
    ["A text with ALGAL.BUDGET_N(1,2)", undefined],
    ["=\"ALGAL.BUDGET_N(\"&A1&\")\"", undefined],
  ])("takes %s apart", (formula, expected) => {
    expect(text(formula)).toEqual(expected);
  });
});
