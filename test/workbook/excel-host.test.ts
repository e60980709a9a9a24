import { installExcel } from "../../src/host/excel/install";
import { codeOf } from "./batch";
import { MemoryGrid } from "./memory-grid";

let grid: MemoryGrid;
let uninstall: () => void;

beforeEach(() => {
  grid = new MemoryGrid(["Log", "My log"]);
  grid.put("Log", "A1", "Feed (g)");
  grid.put("Log", "A2", 2.5);
  grid.put("Log", "B1", "#N/A", "=NA()");
  uninstall = installExcel(grid);
});
afterEach(() => uninstall());

describe("reading", () => {
  it("refuses a property that was never loaded", async () => {
    const batch = Excel.run(async (context) => {
      const range = context.workbook.worksheets.getItem("Log").getRange("A1");
      await context.sync();
      return range.values;
    });
    await expect(batch).rejects.toMatchObject({
      name: "RichApi.Error",
      code: "PropertyNotLoaded",
      debugInfo: { errorLocation: "Range.values" },
      message: expect.stringContaining("'values' is not available"),
    });
  });

  it("refuses a property that was loaded and not yet synced", async () => {
    const code = await codeOf(async (context) => {
      const range = context.workbook.worksheets.getItem("Log").getRange("A1");
      range.load("values");
      return range.values;
    });
    expect(code).toBe("PropertyNotLoaded");
  });

  it("refuses the properties that a load did not name", async () => {
    const code = await codeOf(async (context) => {
      const range = context.workbook.worksheets.getItem("Log").getRange("A1");
      range.load("values");
      await context.sync();
      return range.formulas;
    });
    expect(code).toBe("PropertyNotLoaded");
  });

  it("gives values, formulas, types, address and size after load and sync", async () => {
    const range = await Excel.run(async (context) => {
      const cells = context.workbook.worksheets.getItem("Log").getRange("$B$2:A1");
      cells.load("values, formulas, valueTypes, address, rowCount, columnCount");
      await context.sync();
      return cells;
    });
    expect(range.values).toEqual([["Feed (g)", "#N/A"], [2.5, ""]]);
    expect(range.formulas).toEqual([["Feed (g)", "=NA()"], [2.5, ""]]);
    expect(range.valueTypes).toEqual([["String", "Error"], ["Double", "Empty"]]);
    expect([range.address, range.rowCount, range.columnCount]).toEqual(["Log!A1:B2", 2, 2]);
  });

  it.each([
    ["an array", ["values", "address"]],
    ["flags", { values: true, address: true, formulas: false }],
    ["a select text", { select: "values,address" }],
  ])("takes the names of properties as %s", async (_form, option) => {
    const range = await Excel.run(async (context) => {
      const cell = context.workbook.worksheets.getItem("Log").getRange("A2");
      cell.load(option as string[]);
      await context.sync();
      return cell;
    });
    expect([range.values, range.address]).toEqual([[[2.5]], "Log!A2"]);
    expect(() => range.formulas).toThrow(expect.objectContaining({ code: "PropertyNotLoaded" }));
  });

  it("keeps the copy of the last sync until the next load", async () => {
    await Excel.run(async (context) => {
      const cell = context.workbook.worksheets.getItem("Log").getRange("A2");
      cell.load("values");
      await context.sync();
      grid.put("Log", "A2", 9);
      await context.sync();
      expect(cell.values).toEqual([[2.5]]);
      cell.load("values");
      await context.sync();
      expect(cell.values).toEqual([[9]]);
    });
  });

  it("says which property it does not know", async () => {
    expect(await codeOf(async (context) => context.workbook.worksheets.getItem("Log").getRange("A1").load("colour"))).toBe("InvalidArgument");
  });
});

describe("the queue", () => {
  it("does nothing before sync, and then everything in order", async () => {
    await Excel.run(async (context) => {
      const { worksheets } = context.workbook;
      worksheets.getItem("My log").getRange("B7").select();
      const cell = worksheets.getItem("Log").getRange("A2");
      cell.values = [[3]];
      cell.load("values");
      worksheets.getItem("Log").getRange("C3").select();
      expect(grid.diary).toEqual([]);
      await context.sync();
      expect(grid.diary).toEqual(["select My log!B7", "write Log!A2", "read Log!A2", "select Log!C3"]);
      expect(cell.values).toEqual([[3]]);
    });
  });

  it("does what is still queued at the end of run, and hands on the batch's answer", async () => {
    const answer = await Excel.run(async (context) => {
      context.workbook.worksheets.getItem("Log").getRange("A5").values = [["late"]];
      return 42;
    });
    expect(answer).toBe(42);
    expect(grid.read("Log", "A5").values).toEqual([["late"]]);
  });

  it("does not sync what a failed batch left", async () => {
    const batch = Excel.run(async (context) => {
      context.workbook.worksheets.getItem("Log").getRange("A5").values = [["lost"]];
      throw new Error("the batch's own error");
    });
    await expect(batch).rejects.toThrow("the batch's own error");
    expect(grid.diary).toEqual([]);
  });

  it("drops the requests behind one that failed, and keeps those before it", async () => {
    const code = await codeOf(async (context) => {
      context.workbook.worksheets.getItem("Log").getRange("A5").values = [["before"]];
      context.workbook.worksheets.getItem("Nowhere");
      context.workbook.worksheets.getItem("Log").getRange("A6").values = [["behind"]];
      await context.sync();
    });
    expect(code).toBe("ItemNotFound");
    expect(grid.diary).toEqual(["write Log!A5"]);
  });

  it("writes the rows as they are at sync, as the library of Excel sends them", async () => {
    await Excel.run(async (context) => {
      const rows = [["one"]];
      context.workbook.worksheets.getItem("Log").getRange("A5").values = rows;
      rows[0] = ["two"];
    });
    expect(grid.read("Log", "A5").values).toEqual([["two"]]);
  });

  it("refuses rows of another shape than the range, and writes nothing", async () => {
    const code = await codeOf(async (context) => {
      context.workbook.worksheets.getItem("Log").getRange("A5:B5").values = [["one"]];
    });
    expect(code).toBe("InvalidArgument");
    expect(grid.diary).toEqual([]);
  });
});
