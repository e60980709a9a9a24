/** What Excel's own library refuses before anything is sent, so that the discipline of load and sync is not only that of the stand-in. */
import { installExcel } from "../../../src/host/excel/install";
import { codeOf } from "../batch";
import { MemoryGrid } from "../memory-grid";
import { OLDEST_EXCEL_API } from "./both-ways";
import { installGenuineExcel } from "./genuine-excel";

let grid: MemoryGrid;
let uninstall: () => void = () => undefined;

function begin(install: (grid: MemoryGrid) => () => void): void {
  grid = new MemoryGrid(["Log", "Other"]);
  grid.put("Log", "A1", "Nitrate");
  grid.put("Log", "A2", 4);
  uninstall = install(grid);
}
afterEach(() => uninstall());

const cell = ({ workbook }: Excel.RequestContext): Excel.Range => workbook.worksheets.getItem("Log").getRange("A2");

/** What both must refuse, with the code of Excel's library. */
const REFUSED: readonly (readonly [what: string, code: string, batch: (context: Excel.RequestContext) => Promise<unknown>])[] = [
  ["a property that was never loaded", "PropertyNotLoaded", async (context) => { const range = cell(context); await context.sync(); return range.values; }],
  ["a property that was loaded and not yet synced", "PropertyNotLoaded", async (context) => cell(context).load("values").values],
  ["a property that the load did not name", "PropertyNotLoaded", async (context) => { const range = cell(context).load("address"); await context.sync(); return range.formulas; }],
  ["the items of a collection before the sync", "PropertyNotLoaded", async ({ workbook }) => workbook.worksheets.load("items/name").items],
  ["a property of items that the load did not name", "PropertyNotLoaded", async (context) => { const sheets = context.workbook.worksheets.load("items/name"); await context.sync(); return sheets.items[0]?.visibility; }],
  ["a property of a part, loaded for the whole only", "PropertyNotLoaded", async (context) => { const range = cell(context).load("address"); await context.sync(); return range.format.columnWidth; }],
  ["whether an object is null, before the sync", "PropertyNotLoaded", async ({ workbook }) => workbook.worksheets.getItemOrNullObject("Gone").isNullObject],
  ["a counted answer before the sync", "ValueNotLoaded", async ({ workbook }) => workbook.worksheets.getCount().value],
  ["a sheet that is not there", "ItemNotFound", async ({ workbook }) => workbook.worksheets.getItem("Gone").load("name")],
  ["rows of another shape than the range", "InvalidArgument", async (context) => void (cell(context).values = [[1, 2]])],
];

describe.each([["the library of Excel", (port: MemoryGrid) => installGenuineExcel(port)], ["the stand-in", (port: MemoryGrid) => installExcel(port)]])("%s", (_who, install) => {
  beforeEach(() => begin(install));

  it.each(REFUSED)("refuses %s: %s", async (_what, code, batch) => expect(await codeOf(batch)).toBe(code));

  it("gives what was loaded after the sync, by each form of load", async () => {
    const seen = await Excel.run(async (context) => {
      const ranges = [cell(context).load("values, address"), cell(context).load(["values", "address"]), cell(context).load({ values: true, address: true })];
      const widths = [cell(context).load("format/columnWidth"), cell(context).load({ format: { columnWidth: true } })];
      await context.sync();
      return [...ranges.map(({ values, address }) => [values, address]), widths.map(({ format }) => format.columnWidth)];
    });
    expect(seen).toEqual([...Array.from({ length: 3 }, () => [[[4]], "Log!A2"]), [48, 48]]);
  });

  it("does nothing below a null object, and gives no property of it", async () => {
    const seen = await Excel.run(async (context) => {
      const range = context.workbook.worksheets.getItemOrNullObject("Gone").getRange("A1").load("values");
      await context.sync();
      range.values = [[1]];
      context.workbook.worksheets.getItemOrNullObject("Gone").delete();
      await context.sync();
      return [range.isNullObject, range.address];
    });
    expect([seen, grid.sheetNames(), grid.diary]).toEqual([[true, undefined], ["Log", "Other"], []]);
  });

  it("drops what is queued behind a request that fails", async () => {
    const code = await codeOf(async (context) => {
      cell(context).values = [[5]];
      context.workbook.worksheets.getItem("Gone").getRange("A1").values = [[6]];
      context.workbook.worksheets.getItem("Other").getRange("A1").values = [[7]];
    });
    expect([code, grid.diary]).toEqual(["ItemNotFound", ["write Log!A2"]]);
  });
});

describe("the library of Excel alone", () => {
  it.each([
    ["a range after the run that made it", "InvalidObjectPath", async () => { const range = await Excel.run(async (context) => cell(context)); range.load("values"); }],
    ["an object of another context", "InvalidRequestContext", () => Excel.run(async (one) => Excel.run(async (other) => other.workbook.names.add("Tank", cell(one))))],
    ["a batch that gives no promise", "RunMustReturnPromise", () => Excel.run((() => undefined) as never)],
    ["the setting of a property that is read only", "InvalidArgument", () => Excel.run(async (context) => cell(context).set({ address: "B1" } as never))],
  ] as const)("refuses %s: %s", async (_what, code, act) => {
    begin((port) => installGenuineExcel(port));
    await expect(act()).rejects.toMatchObject({ code });
  });

  it("refuses a member that is newer than the requirement set of the manifest", async () => {
    begin((port) => installGenuineExcel(port, { newestExcelApi: OLDEST_EXCEL_API }));
    expect(await codeOf(async (context) => cell(context).getSpillingToRangeOrNullObject())).toBe("ApiNotFound");
    expect(await codeOf(async (context) => cell(context).getUsedRangeOrNullObject())).toBe("no error");
  });

  it("finds a sheet again in later batches, whatever its name is by then, and lets its references go at the end", async () => {
    let host: ReturnType<typeof installGenuineExcel>["host"] | undefined;
    begin((port) => { const installed = installGenuineExcel(port); host = installed.host; return installed; });
    await Excel.run(async (context) => {
      const sheet = context.workbook.worksheets.add("New");
      const range = sheet.getRange("A1");
      await context.sync();
      sheet.name = "Renamed";
      await context.sync();
      range.values = [[1]];
      await context.sync();
      expect(host?.references.size).toBe(1);
    });
    expect([grid.read("Renamed", "A1").values, host?.references.size]).toEqual([[[1]], 0]);
  });
});
