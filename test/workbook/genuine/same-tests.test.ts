/**
 * The tests of the workbook code, as they stand, with Excel's own client library in the place of the stand-in's client objects: it
 * refuses what is not loaded, parses the forms of load, keeps references and gives null objects, and the stand-in behind it only
 * does what the library sends.
 *
 * Left out: excel-events.test.ts, which is of the stand-in's own refusals, and of the workbook's selection event and `Office`,
 * which are no part of the object model. The tests that calculate whole workbooks (weekly, put-sizing, join) pass too, and take
 * a minute more: EXCEL_LIBRARY=all runs them. same-grid.test.ts holds their workbooks cell for cell all the same.
 */
import { installExcel } from "../../../src/host/excel/install";
import { MemoryGrid } from "../memory-grid";
import { clientLibrary } from "./genuine-excel";

jest.mock("../../../src/host/excel/install", () => ({
  installExcel: (grid: MemoryGrid) => (jest.requireActual("./genuine-excel") as typeof import("./genuine-excel")).installGenuineExcel(grid),
}));

const QUICK = ["budget-formulas", "budget-source", "excel-charts", "excel-host", "excel-names-xml", "excel-ranges", "excel-rules", "excel-sheets", "excel-tables", "excel-unloaded", "problems"];
const CALCULATED = ["weekly", "put-sizing", "join/put-sample", "join/join-log"];

for (const name of process.env.EXCEL_LIBRARY === "all" ? [...QUICK, ...CALCULATED] : QUICK) {
  describe(name, () => {
    require(`../${name}.test`);
  });
}

it("stands on the library itself, not on the stand-in", async () => {
  const uninstall = installExcel(new MemoryGrid(["Log"]));
  const context = await Excel.run(async (one) => one);
  uninstall();
  expect(context).toBeInstanceOf(clientLibrary().Excel.RequestContext);
});
