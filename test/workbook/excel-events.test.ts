import { installExcel } from "../../src/host/excel/install";
import { codeOf } from "./batch";
import { MemoryGrid } from "./memory-grid";

let grid: MemoryGrid;
let uninstall: () => void;

beforeEach(() => {
  grid = new MemoryGrid(["Log", "My log"]);
  grid.put("Log", "A1", "Feed (g)");
  grid.put("Log", "A2", 2.5);
  uninstall = installExcel(grid);
});
afterEach(() => uninstall());

describe("what the local host lacks", () => {
  it("is refused when it is set, so that no format is lost in silence", async () => {
    const code = await codeOf(async (context) => {
      context.workbook.worksheets.getItem("Log").getRange("A1").rowHidden = true;
    });
    expect(code).toBe("NotImplemented");
  });

  it("is refused by name when it is called", async () => {
    const batch = Excel.run(async (context) => context.workbook.worksheets.getLast());
    await expect(batch).rejects.toMatchObject({ code: "NotImplemented", message: expect.stringContaining("WorksheetCollection.getLast") });
    expect(await codeOf(async (context) => context.workbook.worksheets.getItem("Log").set)).toBe("NotImplemented");
  });

  it("turns a fault of the grid into an error of the API's kind", async () => {
    grid.read = () => {
      throw new TypeError("the grid is busy");
    };
    const batch = Excel.run(async (context) => {
      context.workbook.worksheets.getItem("Log").getRange("A1").load("values");
    });
    await expect(batch).rejects.toMatchObject({ code: "GeneralException", message: "the grid is busy" });
  });
});

describe("events and Office", () => {
  it("hears changes from the sync that adds the handler to the sync that removes it", async () => {
    let heard = 0;
    const handler = await Excel.run(async (context) => {
      const added = context.workbook.worksheets.onChanged.add(async () => {
        heard += 1;
      });
      grid.put("Log", "A9", 1);
      await context.sync();
      return added;
    });
    expect(heard).toBe(0);
    grid.put("Log", "A9", 2);
    expect(heard).toBe(1);
    await Excel.run(handler.context, async (context) => {
      handler.remove();
      await context.sync();
    });
    grid.put("Log", "A9", 3);
    expect([heard, grid.listenerCount]).toEqual([1, 0]);
  });

  it("says where something was typed, for every sheet or for one", async () => {
    const [all, one]: [string[][], string[][]] = [[], []];
    await Excel.run(async (context) => {
      const { worksheets } = context.workbook;
      worksheets.onChanged.add(async ({ address, changeType, worksheetId }) => all.push([worksheetId, address, changeType]));
      worksheets.getItem("My log").onChanged.add(async ({ address, worksheetId }) => one.push([worksheetId, address]));
      await context.sync();
    });
    grid.put("Log", "A9", 1);
    grid.put("My log", "B2", 2);
    expect(all).toEqual([["id1", "A9", "RangeEdited"], ["id2", "B2", "RangeEdited"]]);
    expect(one).toEqual([["id2", "B2"]]);
  });

  it("hears selections, and sheets that come to the front once each", async () => {
    const heard: string[][] = [];
    await Excel.run(async (context) => {
      const { workbook } = context;
      workbook.worksheets.onSelectionChanged.add(async ({ address, worksheetId }) => heard.push(["selected", worksheetId, address]));
      workbook.worksheets.onActivated.add(async ({ worksheetId }) => heard.push(["in front", worksheetId]));
      workbook.worksheets.getItem("Log").onActivated.add(async ({ worksheetId }) => heard.push(["log in front", worksheetId]));
      workbook.onSelectionChanged.add(async () => heard.push(["workbook"]));
      await context.sync();
    });
    grid.select("Log", "C3");
    grid.select("My log", "A1:B2");
    expect(heard).toEqual([["selected", "id1", "C3"], ["workbook"], ["selected", "id2", "A1:B2"], ["in front", "id2"], ["workbook"]]);
    grid.select("Log", "A1");
    expect(heard.slice(5)).toEqual([["selected", "id1", "A1"], ["in front", "id1"], ["log in front", "id1"], ["workbook"]]);
  });

  it("gives no argument that the grid does not know", async () => {
    const codes: string[] = [];
    await Excel.run(async (context) => {
      context.workbook.worksheets.onCalculated.add(async (args) => {
        try {
          codes.push(args.address);
        } catch (error) {
          codes.push((error as OfficeExtension.Error).code);
        }
      });
      await context.sync();
    });
    grid.put("Log", "A9", 1);
    expect(codes).toEqual(["NotImplemented"]);
  });

  it("is ready as Excel, and has no theme of its own", async () => {
    const seen: unknown[] = [];
    const info = await Office.onReady((ready) => seen.push(ready.host));
    expect([info.host, seen]).toEqual(["Excel", ["Excel"]]);
    expect(Office.context.officeTheme).toBeUndefined();
  });

  it("puts back what stood on the global object before", () => {
    const inner = installExcel(new MemoryGrid(["Other"]));
    const innerExcel = Excel;
    inner();
    expect(Excel).not.toBe(innerExcel);
    uninstall();
    expect("Excel" in globalThis).toBe(false);
  });
});
