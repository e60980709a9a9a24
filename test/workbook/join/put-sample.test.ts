import { lookAtSelection } from "../../../src/workbook/join/look";
import { putSample } from "../../../src/workbook/join/put-sample";
import { SAMPLE_SET_UP } from "../../../src/workbook/join/sample-log";
import { calculatedGrid, errors } from "../calculated";
import { excelTests } from "../excel-tests";
import type { MemoryGrid } from "../memory-grid";

const { engine, open } = excelTests();
let grid: MemoryGrid;
beforeEach(() => {
  grid = open(["Sheet1"]);
});

/** 25 November 2026 is day 46351 of the 1900 date system. */
const TODAY = Date.UTC(2026, 10, 25);

test("the sample is marked as invented, ends today, asks nothing, and has its account", async () => {
  const { sheet, at, sheets } = await putSample(TODAY);
  expect([sheet, at, sheets]).toEqual(["Sample log", "'Sample log'!I3", ["Join", "Balance", "Charts", "Foods"]]);
  expect(grid.read("Sample log", "A1:A1").values).toEqual([["An invented log: no tank, keeper or reading in it is real."]]);
  expect(grid.read("Sample log", "A67:G67").values[0]).toEqual([46351, "Mussel", 1.8, 22.5, 1.09, "", 18]);
  for (const value of Object.values(SAMPLE_SET_UP)) expect(grid.read("Join", "B5:B22").values.flat()).toContain(value);
  const calculated = await calculatedGrid(engine(), grid);
  expect(errors(calculated)).toEqual([]);
  const balance = calculated.get("Balance")?.values;
  expect(balance?.get("B3") ?? "").toBe("");
  expect(balance?.get("B5")).toMatch(/^Closed to within .* that came in/);
  expect(calculated.get("Sample log")?.values.get("I3")).toBe("Feed in (g N)");
});

test("no column of it is doubtful", async () => {
  const { sheet } = await putSample(TODAY);
  grid.select(sheet, "A5");
  const { columns, found } = await lookAtSelection();
  expect([found.firstDataRow, found.bottom, columns.map(({ meaning }) => meaning)]).toEqual([3, 66, ["Date", "Food", "Feed (g)", "NO3 (mg/L)", "PO4 (mg/L)", "Harvest (g)", "Water change (L)"]]);
});

test("a second one takes names of its own, and one that is stopped leaves nothing", async () => {
  await putSample(TODAY);
  const stopped = AbortSignal.abort();
  await expect(putSample(TODAY, stopped)).rejects.toThrow("Stopped. Nothing was added.");
  expect(grid.sheetNames()).toEqual(["Sheet1", "Sample log", "Join", "Balance", "Charts", "Foods"]);
  expect((await putSample(TODAY)).sheet).toBe("Sample log 2");
});
