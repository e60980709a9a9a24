import { installExcel } from "../../src/host/excel/install";
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

/** The code of the error that the batch ends with. */
async function codeOf(batch: (context: Excel.RequestContext) => Promise<unknown>): Promise<string> {
  return Excel.run(batch).then(
    () => "no error",
    (error: OfficeExtension.Error) => error.code,
  );
}

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

  it("writes the rows as they were when they were set", async () => {
    await Excel.run(async (context) => {
      const rows = [["one"]];
      context.workbook.worksheets.getItem("Log").getRange("A5").values = rows;
      rows[0] = ["two"];
    });
    expect(grid.read("Log", "A5").values).toEqual([["one"]]);
  });

  it("refuses rows of another shape than the range, and writes nothing", async () => {
    const code = await codeOf(async (context) => {
      context.workbook.worksheets.getItem("Log").getRange("A5:B5").values = [["one"]];
    });
    expect(code).toBe("InvalidArgument");
    expect(grid.diary).toEqual([]);
  });
});

describe("sheets", () => {
  it("names an unknown sheet at sync, not before", async () => {
    const batch = Excel.run(async (context) => {
      context.workbook.worksheets.getItem("Nowhere").load("name");
      return "reached";
    });
    await expect(batch).rejects.toMatchObject({ code: "ItemNotFound" });
  });

  it("finds a sheet without regard to case and gives its name as written", async () => {
    const name = await Excel.run(async (context) => {
      const sheet = context.workbook.worksheets.getItem("MY LOG").load("name");
      await context.sync();
      return sheet.name;
    });
    expect(name).toBe("My log");
  });

  it("gives a null object for an unknown sheet, and all that hangs on it is null", async () => {
    await Excel.run(async (context) => {
      const sheet = context.workbook.worksheets.getItemOrNullObject("Nowhere");
      const cell = sheet.getRange("A1").load("values");
      cell.select();
      expect(() => sheet.isNullObject).toThrow(expect.objectContaining({ code: "PropertyNotLoaded" }));
      await context.sync();
      expect([sheet.isNullObject, cell.isNullObject, cell.values]).toEqual([true, true, undefined]);
    });
    expect(grid.diary).toEqual([]);
  });

  it("knows that a sheet that was found is no null object", async () => {
    const isNull = await Excel.run(async (context) => {
      const sheet = context.workbook.worksheets.getItemOrNullObject("Log");
      await context.sync();
      return sheet.isNullObject;
    });
    expect(isNull).toBe(false);
  });

  it.each(["items/name", "name", { name: true }])("lists the sheets by load(%j)", async (option) => {
    const names = await Excel.run(async (context) => {
      const sheets = context.workbook.worksheets.load(option as string);
      await context.sync();
      return sheets.items.map((sheet) => sheet.name);
    });
    expect(names).toEqual(["Log", "My log"]);
  });

  it("brings another sheet to the front and leaves the front one's selection alone", async () => {
    grid.select("Log", "C4");
    await Excel.run(async (context) => context.workbook.worksheets.getItem("Log").activate());
    expect(grid.selection()).toEqual({ sheet: "Log", address: "C4" });
    await Excel.run(async (context) => context.workbook.worksheets.getItem("My log").activate());
    expect(grid.activeSheet()).toBe("My log");
  });

  it("gives the selection with its sheet, quoted where it has to be", async () => {
    grid.select("My log", "B2:C3");
    const address = await Excel.run(async (context) => {
      const range = context.workbook.getSelectedRange().load("address");
      await context.sync();
      return range.address;
    });
    expect(address).toBe("'My log'!B2:C3");
  });

  it("refuses an address that is none", async () => {
    expect(await codeOf(async (context) => context.workbook.worksheets.getItem("Log").getRange("Total").select())).toBe("InvalidArgument");
  });
});

describe("what the local host lacks", () => {
  it("is refused when it is set, so that no format is lost in silence", async () => {
    const code = await codeOf(async (context) => {
      context.workbook.worksheets.getItem("Log").getRange("A1").numberFormat = [["0.0"]];
    });
    expect(code).toBe("NotImplemented");
  });

  it("is refused by name when it is called", async () => {
    const batch = Excel.run(async (context) => context.workbook.worksheets.add("Balance"));
    await expect(batch).rejects.toMatchObject({ code: "NotImplemented", message: expect.stringContaining("WorksheetCollection.add") });
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
