import { installExcel } from "../../src/host/excel/install";
import { codeOf } from "./batch";
import { MemoryGrid } from "./memory-grid";

let grid: MemoryGrid;
let uninstall: () => void;

beforeEach(() => {
  grid = new MemoryGrid(["Log", "My log"]);
  uninstall = installExcel(grid);
});
afterEach(() => uninstall());

describe("names", () => {
  it("name ranges and constants, and give them back", async () => {
    await Excel.run(async (context) => {
      const { names, worksheets } = context.workbook;
      names.add("Screen_area", worksheets.getItem("My log").getRange("B2:B9"), "lit area");
      names.add("Safety", "=0.7");
      names.load("items/name, items/formula, items/value, items/type, items/scope, items/comment");
      const range = names.getItem("screen_area").getRange().load("address");
      const [noRange, unknown] = [names.getItem("Safety").getRangeOrNullObject(), names.getItemOrNullObject("Other")];
      await context.sync();
      expect(names.items.map(({ comment, formula, name, scope, type, value }) => [name, formula, value, type, scope, comment])).toEqual([
        ["Screen_area", "='My log'!$B$2:$B$9", "'My log'!B2:B9", "Range", "Workbook", "lit area"],
        ["Safety", "=0.7", 0.7, "Double", "Workbook", ""],
      ]);
      expect([range.address, noRange.isNullObject, unknown.isNullObject]).toEqual(["'My log'!B2:B9", true, true]);
    });
  });

  it("belong to a sheet where they were added to it, and are found by getRange there", async () => {
    await Excel.run(async (context) => {
      const sheet = context.workbook.worksheets.getItem("Log");
      sheet.names.add("Area", sheet.getRange("C3"));
      const [own, all] = [sheet.names.getCount(), context.workbook.names.getCount()];
      const cell = sheet.getRange("area").load("address");
      await context.sync();
      expect([own.value, all.value, cell.address]).toEqual([1, 0, "Log!C3"]);
    });
  });

  it.each(["Area", "B2", "two words"])("refuse %j when it is taken or could be something else", async (name) => {
    grid.names.add({ name: "area", formula: "Log!$A$1", comment: "", sheetId: null });
    expect(await codeOf(async (context) => context.workbook.names.add(name, "=1"))).toBe("InvalidArgument");
  });

  it("are deleted", async () => {
    grid.names.add({ name: "Area", formula: "Log!$A$1", comment: "", sheetId: null });
    await Excel.run(async (context) => context.workbook.names.getItem("Area").delete());
    expect(grid.names.list()).toEqual([]);
    expect(await codeOf(async (context) => context.workbook.names.getItem("Area").delete())).toBe("ItemNotFound");
  });
});

describe("XML parts", () => {
  const NAMESPACE = "urn:algal-ledger:test";
  const xml = (text: string) => `<state xmlns="${NAMESPACE}">${text}</state>`;

  it("are kept, found by their namespace, changed and deleted", async () => {
    await Excel.run(async (context) => {
      const { customXmlParts } = context.workbook;
      customXmlParts.add("<other/>");
      const added = customXmlParts.add(xml("1")).load("id, namespaceUri");
      const found = customXmlParts.getByNamespace(NAMESPACE).getOnlyItemOrNullObject();
      found.load("id");
      const before = found.getXml();
      found.setXml(xml("2"));
      const [after, count] = [found.getXml(), customXmlParts.getCount()];
      await context.sync();
      expect([added.id === found.id, added.namespaceUri, before.value, after.value, count.value]).toEqual([true, NAMESPACE, xml("1"), xml("2"), 2]);
      found.delete();
      const gone = customXmlParts.getByNamespace(NAMESPACE).getOnlyItemOrNullObject();
      await context.sync();
      expect(gone.isNullObject).toBe(true);
    });
    expect(grid.state.current().xmlParts.map((part) => part.xml)).toEqual(["<other/>"]);
  });

  it("are not one when there are two", async () => {
    await Excel.run(async (context) => {
      const { customXmlParts } = context.workbook;
      customXmlParts.add(xml("1"));
      customXmlParts.add(xml("2"));
      const only = customXmlParts.getByNamespace(NAMESPACE).getOnlyItemOrNullObject();
      const scoped = customXmlParts.getByNamespace(NAMESPACE).load("items/id");
      await context.sync();
      expect([only.isNullObject, scoped.items.length, new Set(scoped.items.map(({ id }) => id)).size]).toEqual([true, 2, 2]);
    });
    expect(await codeOf(async (context) => context.workbook.customXmlParts.getByNamespace(NAMESPACE).getOnlyItem())).toBe("ItemNotFound");
  });

  it.each(["", "text", "<open>", "<!DOCTYPE x [<!ENTITY y 'z'>]><x>&y;</x>"])("are refused when they are not well-formed: %j", async (text) => {
    expect(await codeOf(async (context) => context.workbook.customXmlParts.add(text))).toBe("InvalidArgument");
  });
});
