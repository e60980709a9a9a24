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

describe("adding and changing sheets", () => {
  const sheetsOf = () => grid.sheets.list().map(({ name, visible }) => [name, visible]);

  it("adds a sheet behind the last and leaves the front one in front", async () => {
    const count = await Excel.run(async (context) => {
      const { worksheets } = context.workbook;
      const added = worksheets.add("Balance").load("name, id, position, visibility");
      added.getRange("A1").values = [["Week"]];
      const total = worksheets.getCount();
      await context.sync();
      expect([added.name, added.position, added.visibility]).toEqual(["Balance", 2, "Visible"]);
      expect(added.id).toBe(grid.sheets.byName("Balance").id);
      return total.value;
    });
    expect([count, grid.activeSheet()]).toEqual([3, "Log"]);
    expect(grid.read("Balance", "A1").values).toEqual([["Week"]]);
  });

  it("names a sheet without a name by the first free number", async () => {
    await Excel.run(async (context) => {
      context.workbook.worksheets.add();
      context.workbook.worksheets.add();
    });
    expect(grid.sheetNames()).toEqual(["Log", "My log", "Sheet1", "Sheet2"]);
  });

  it.each(["LOG", "", "a/b", "'a", "x".repeat(32)])("refuses the name %j, and adds nothing", async (name) => {
    expect(await codeOf(async (context) => context.workbook.worksheets.add(name))).toBe("InvalidArgument");
    expect(grid.sheetNames()).toEqual(["Log", "My log"]);
  });

  it("renames a sheet, and what hangs on it stays on it", async () => {
    await Excel.run(async (context) => {
      const sheet = context.workbook.worksheets.getItem("Log");
      sheet.name = "Readings";
      const cell = sheet.getRange("A2").load("values, address");
      await context.sync();
      expect([cell.values, cell.address]).toEqual([[[2.5]], "Readings!A2"]);
    });
  });

  it("finds a sheet by its id", async () => {
    const { id } = grid.sheets.byName("My log");
    const name = await Excel.run(async (context) => {
      const sheet = context.workbook.worksheets.getItem(id).load("name");
      await context.sync();
      return sheet.name;
    });
    expect(name).toBe("My log");
  });

  it("moves, hides and deletes sheets, and keeps one in view", async () => {
    await Excel.run(async (context) => {
      const sheet = context.workbook.worksheets.getItem("My log");
      sheet.position = 0;
      sheet.visibility = "VeryHidden";
      await context.sync();
      sheet.load("visibility");
      await context.sync();
      expect(sheet.visibility).toBe("VeryHidden");
    });
    expect(sheetsOf()).toEqual([["My log", false], ["Log", true]]);
    expect(await codeOf(async (context) => context.workbook.worksheets.getItem("Log").delete())).toBe("InvalidArgument");
    await Excel.run(async (context) => {
      const sheet = context.workbook.worksheets.getItem("My log");
      sheet.visibility = "Visible";
      context.workbook.worksheets.getItem("Log").delete();
    });
    expect([sheetsOf(), grid.state.current().veryHidden]).toEqual([[["My log", true]], []]);
  });

  it("fails for what hangs on a sheet that was deleted", async () => {
    const code = await codeOf(async (context) => {
      const sheet = context.workbook.worksheets.getItem("My log");
      sheet.delete();
      sheet.getRange("A1").load("values");
    });
    expect(code).toBe("ItemNotFound");
  });

  it("freezes rows and says which", async () => {
    await Excel.run(async (context) => {
      const { freezePanes } = context.workbook.worksheets.getItem("Log");
      freezePanes.freezeRows(2);
      const frozen = freezePanes.getLocationOrNullObject().load("address");
      await context.sync();
      expect(frozen.address).toBe("Log!1:2");
      freezePanes.unfreeze();
      const none = freezePanes.getLocationOrNullObject();
      await context.sync();
      expect(none.isNullObject).toBe(true);
    });
    expect(grid.sheets.frozenRows("Log")).toBe(0);
  });

  it("keeps how a sheet prints, for the file", async () => {
    await Excel.run(async (context) => {
      const sheet = context.workbook.worksheets.getItem("Log");
      sheet.pageLayout.orientation = "Landscape";
      sheet.pageLayout.zoom = { horizontalFitToPages: 1 };
      sheet.pageLayout.setPrintTitleRows("$1:$1");
      sheet.pageLayout.setPrintArea(sheet.getRange("A1:F40"));
      sheet.pageLayout.load("orientation, zoom");
      const titles = sheet.pageLayout.getPrintTitleRowsOrNullObject().load("address");
      const others = context.workbook.worksheets.getItem("My log").pageLayout.getPrintTitleRowsOrNullObject();
      await context.sync();
      expect([sheet.pageLayout.orientation, sheet.pageLayout.zoom, titles.address, others.isNullObject]).toEqual(["Landscape", { horizontalFitToPages: 1 }, "Log!1:1", true]);
    });
    expect(grid.state.current().pages).toEqual({ id1: { orientation: "Landscape", zoom: { horizontalFitToPages: 1 }, titleRows: "1:1", printArea: "A1:F40" } });
  });
});
