import { installExcel } from "../../src/host/excel/install";
import { findBudgetFormulas } from "../../src/workbook/budget-formulas";
import { MemoryGrid } from "./memory-grid";

let grid: MemoryGrid;
let uninstall: () => void;

beforeEach(() => {
  grid = new MemoryGrid(["Log", "Nitrogen", "Later"]);
  uninstall = installExcel(grid);
});
afterEach(() => uninstall());

it("finds none in a workbook without a budget", async () => {
  grid.put("Log", "A1", 3, "=ALGAL.FEEDLOAD_N(C2,B2)");
  grid.put("Log", "A2", "ALGAL.BUDGET_N(log, set-up) goes here");
  expect(await findBudgetFormulas()).toEqual({});
});

it("gives the first budget of each nutrient with its sheet", async () => {
  grid.put("Nitrogen", "A9", "From", "=ALGAL.BUDGET_N(Log!A1:H9,Tank!A1:B9)");
  grid.put("Later", "A9", "From", "=ALGAL.BUDGET_N(Log!A1:H99,Tank!A1:B9)");
  grid.put("Later", "B3", "From", "=algal.budget_p(Log!A1:H9,Tank!A1:B9)");
  expect(await findBudgetFormulas()).toEqual({
    N: { formula: "=ALGAL.BUDGET_N(Log!A1:H9,Tank!A1:B9)", sheet: "Nitrogen" },
    P: { formula: "=algal.budget_p(Log!A1:H9,Tank!A1:B9)", sheet: "Later" },
  });
});

it.each([
  ["=INDEX(ALGAL.BUDGET_N(Log!A1:H9,OFFSET(Tank!A1,0,0,9,2),\"harvest\"),ROW()-9,1)", "=ALGAL.BUDGET_N(Log!A1:H9,OFFSET(Tank!A1,0,0,9,2),\"harvest\")"],
  ["=IFERROR(ALGAL.BUDGET_N('Log (old)'!A1:H9,Tank!A1:B9,\"week\"),\"\")", "=ALGAL.BUDGET_N('Log (old)'!A1:H9,Tank!A1:B9,\"week\")"],
  ["=ALGAL.BUDGET_N('Bob''s log)'!A1:H9,Tank!A1:B9)&\")\"", "=ALGAL.BUDGET_N('Bob''s log)'!A1:H9,Tank!A1:B9)"],
])("takes the call out of %s", async (formula, call) => {
  grid.put("Nitrogen", "A9", "From", formula);
  expect((await findBudgetFormulas()).N?.formula).toBe(call);
});

it("reads each sheet once", async () => {
  await findBudgetFormulas();
  expect(grid.diary).toEqual(["read Log!A1:H24", "read Nitrogen!A1:H24", "read Later!A1:H24"]);
});
