import { installExcel } from "../../src/host/excel/install";
import { showCell, stillWrong, watchCells } from "../../src/workbook/problems";
import { MemoryGrid } from "./memory-grid";

let grid: MemoryGrid;
let uninstall: () => void;
let syncs: number;

const FORMULA = '=ALGAL.LIGHT_DAILY("x",9)';
const problem = (address: string, origin = address) => ({ address, origin, functionName: "ALGAL.LIGHT_DAILY", sentence: "no number" });

beforeEach(() => {
  grid = new MemoryGrid(["Log", "My log"]);
  uninstall = installExcel(grid);
  syncs = 0;
});
afterEach(() => uninstall());

/** Counts the syncs of the batches that follow. */
function countSyncs(): void {
  const run = Excel.run.bind(Excel) as (options: Excel.RunOptions, batch: (context: Excel.RequestContext) => Promise<unknown>) => Promise<unknown>;
  Object.assign(globalThis, {
    Excel: {
      RangeValueType: Excel.RangeValueType,
      run: (options: Excel.RunOptions, batch: (context: Excel.RequestContext) => Promise<unknown>) =>
        run(options, (context) => {
          const sync = context.sync.bind(context);
          context.sync = (async (value?: unknown) => {
            syncs += 1;
            return sync(value);
          }) as typeof context.sync;
          return batch(context);
        }),
    },
  });
}

describe("showCell", () => {
  it.each([
    ["Log!B7", { sheet: "Log", address: "B7" }],
    ["'My log'!B7", { sheet: "My log", address: "B7" }],
    ["'My log'!$B$7", { sheet: "My log", address: "B7" }],
  ])("goes to %s", async (address, selection) => {
    await showCell(address);
    expect(grid.selection()).toEqual(selection);
  });

  it("stays on the sheet in front when the address names none", async () => {
    grid.select("My log", "A1");
    await showCell("C3");
    expect(grid.selection()).toEqual({ sheet: "My log", address: "C3" });
  });

  it("says which sheet is gone, and moves nothing", async () => {
    await expect(showCell("Balance!B7")).rejects.toMatchObject({ name: "WorkbookProblem", message: 'The workbook has no sheet "Balance" now.' });
    expect(grid.diary).toEqual([]);
  });

  it("says that a cell could not be shown when the host refuses", async () => {
    grid.select = () => {
      throw new Error("hidden");
    };
    await expect(showCell("Log!B7")).rejects.toThrow("Log!B7 could not be shown.");
  });
});

describe("stillWrong", () => {
  it("keeps a cell that shows an error of an ALGAL formula", async () => {
    grid.put("Log", "B7", "#VALUE!", FORMULA);
    expect(await stillWrong([problem("Log!B7")])).toEqual([problem("Log!B7")]);
  });

  it("drops a cell whose formula was deleted, one that has its answer now, and one on a sheet that is gone", async () => {
    grid.put("Log", "B7", "#VALUE!", FORMULA);
    grid.put("Log", "B8", 4.2, FORMULA);
    grid.put("My log", "B9", "#VALUE!", FORMULA);
    grid.empty("Log", "B7");
    grid.removeSheet("My log");
    expect(await stillWrong([problem("Log!B7"), problem("Log!B8"), problem("'My log'!B9")])).toEqual([]);
  });

  it("drops a cell that another formula holds now, even one that mentions ALGAL in a text", async () => {
    grid.put("Log", "B7", "#N/A", "=NA()");
    grid.put("Log", "B8", "#VALUE!", '=1+"ALGAL.LIGHT_DAILY(x)"');
    grid.put("Log", "B9", "#VALUE!", "ALGAL.LIGHT_DAILY");
    expect(await stillWrong([problem("Log!B7"), problem("Log!B8"), problem("Log!B9")])).toEqual([]);
  });

  it("keeps an error inside a spilled answer by the formula of its first cell", async () => {
    grid.put("Log", "B2", 3, "=ALGAL.LIGHT_DAILY(A2:A4,9)");
    grid.put("Log", "B3", "#VALUE!");
    const spilled = problem("Log!B3", "Log!B2");
    expect(await stillWrong([spilled])).toEqual([spilled]);
    grid.empty("Log", "B2");
    expect(await stillWrong([spilled])).toEqual([]);
  });

  it("keeps a blocked spill, and a formula in small letters", async () => {
    grid.put("Log", "B7", "#SPILL!", "=algal.budget_n(A1:F9,H1:I9)");
    expect(await stillWrong([problem("Log!B7")])).toHaveLength(1);
  });

  it("does not take a text that begins like an error for one", async () => {
    grid.put("Log", "B7", "#VALUE! is what the cell showed", FORMULA);
    expect(await stillWrong([problem("Log!B7")])).toEqual([]);
  });

  it("asks for a thousand cells in one sync, each cell once a property", async () => {
    const all = Array.from({ length: 1000 }, (_cell, row) => problem(`Log!B${row + 1}`, "Log!B1"));
    grid.put("Log", "B1", "#VALUE!", FORMULA);
    for (let row = 2; row <= 1000; row += 1) grid.put("Log", `B${row}`, "#VALUE!");
    countSyncs();
    expect(await stillWrong(all)).toHaveLength(1000);
    // One of the batch and the one with which run ends.
    expect(syncs).toBe(2);
    expect(grid.diary).toHaveLength(2000);
  });

  it("asks nothing when there is nothing to check", async () => {
    countSyncs();
    expect(await stillWrong([])).toEqual([]);
    expect(syncs).toBe(0);
  });
});

describe("watchCells", () => {
  it("calls the listener after changes until it is ended", async () => {
    let heard = 0;
    const end = await watchCells(() => {
      heard += 1;
    });
    // Excel tells of an event in a later turn.
    const later = () => new Promise((resolve) => setImmediate(resolve));
    grid.put("Log", "A1", 1);
    await later();
    const afterOne = heard;
    await end();
    grid.put("Log", "A1", 2);
    await later();
    expect(afterOne).toBeGreaterThan(0);
    expect([heard, grid.listenerCount]).toEqual([afterOne, 0]);
  });
});
