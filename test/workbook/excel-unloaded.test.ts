import { installExcel } from "../../src/host/excel/install";
import { MemoryGrid } from "./memory-grid";

let grid: MemoryGrid;
let uninstall: () => void;

beforeEach(async () => {
  grid = new MemoryGrid(["Log"]);
  grid.put("Log", "A1", "Nitrate");
  grid.put("Log", "A2", 4);
  uninstall = installExcel(grid);
  await Excel.run(async ({ workbook }) => {
    const sheet = workbook.worksheets.getItem("Log");
    workbook.tables.add("Log!A1:A2", true).name = "Readings";
    workbook.names.add("Area", sheet.getRange("C3"));
    workbook.customXmlParts.add("<a/>");
    sheet.charts.add("Line", sheet.getRange("A1:A2")).name = "Chart";
    sheet.getRange("A2").conditionalFormats.add("Custom").custom.rule.formula = "=A2>1";
  });
});
afterEach(() => uninstall());

/** Something of the workbook, what is loaded of it, and the reading that must wait. */
type Case = readonly [name: string, make: (workbook: Excel.Workbook) => { load(names: string): unknown }, load: string, read: (thing: never) => unknown];

const sheet = (workbook: Excel.Workbook) => workbook.worksheets.getItem("Log");
const row = <T extends { load(names: string): unknown }>(name: string, make: (workbook: Excel.Workbook) => T, load: string, read: (thing: T) => unknown): Case => [name, make, load, read as (thing: never) => unknown];

const CASES: readonly Case[] = [
  row("the text of a range", (workbook) => sheet(workbook).getRange("A2"), "text", (range) => range.text),
  row("a number format", (workbook) => sheet(workbook).getRange("A2"), "numberFormat", (range) => range.numberFormat),
  row("the place of a used range", (workbook) => sheet(workbook).getUsedRange(), "rowIndex", (range) => range.rowIndex),
  row("a column's width", (workbook) => sheet(workbook).getRange("A2"), "format/columnWidth", (range) => range.format.columnWidth),
  row("a fill", (workbook) => sheet(workbook).getRange("A2"), "format/fill/color", (range) => range.format.fill.color),
  row("a rule for entries", (workbook) => sheet(workbook).getRange("A2").dataValidation, "rule", (rule) => rule.rule),
  row("conditional formats", (workbook) => sheet(workbook).getRange("A2").conditionalFormats, "items", (formats) => formats.items),
  row("whether a sheet is shown", (workbook) => sheet(workbook), "visibility", (one) => one.visibility),
  row("a sheet's place", (workbook) => sheet(workbook), "position", (one) => one.position),
  row("how a sheet prints", (workbook) => sheet(workbook).pageLayout, "orientation", (page) => page.orientation),
  row("the tables", (workbook) => workbook.tables, "items/name", (tables) => tables.items),
  row("a table's name", (workbook) => workbook.tables.getItem("Readings"), "name", (table) => table.name),
  row("a table's columns", (workbook) => workbook.tables.getItem("Readings").columns, "items/name", (columns) => columns.items),
  row("the names", (workbook) => workbook.names, "items", (names) => names.items),
  row("what a name stands for", (workbook) => workbook.names.getItem("Area"), "value", (name) => name.value),
  row("XML parts", (workbook) => workbook.customXmlParts, "items", (parts) => parts.items),
  row("a chart's type", (workbook) => sheet(workbook).charts.getItem("Chart"), "chartType", (chart) => chart.chartType),
  row("a chart's title", (workbook) => sheet(workbook).charts.getItem("Chart").title, "text", (title) => title.text),
  row("the series of a chart", (workbook) => sheet(workbook).charts.getItem("Chart").series, "items/name", (all) => all.items),
];

it.each(CASES)("refuses %s before the load, and before the sync, and gives it then", async (_name, make, load, read) => {
  await Excel.run(async (context) => {
    const thing = make(context.workbook);
    const notLoaded = expect.objectContaining({ code: "PropertyNotLoaded" });
    await context.sync();
    expect(() => read(thing as never)).toThrow(notLoaded);
    thing.load(load);
    expect(() => read(thing as never)).toThrow(notLoaded);
    await context.sync();
    expect(read(thing as never)).not.toBeUndefined();
  });
});

it.each([
  ["a count", (workbook: Excel.Workbook) => workbook.worksheets.getCount(), 1],
  ["a count of tables", (workbook: Excel.Workbook) => workbook.tables.getCount(), 1],
  ["an XML text", (workbook: Excel.Workbook) => workbook.customXmlParts.getByNamespace("").getOnlyItem().getXml(), "<a/>"],
])("refuses %s before the sync that settles it", async (_name, ask, answer) => {
  await Excel.run(async (context) => {
    const result = ask(context.workbook);
    expect(() => result.value).toThrow(expect.objectContaining({ code: "ValueNotLoaded" }));
    await context.sync();
    expect(result.value).toBe(answer);
  });
});

it("changes nothing before sync", async () => {
  await Excel.run(async (context) => {
    const before = JSON.stringify([grid.state.current(), grid.sheetNames(), grid.names.list(), [...grid.diary]]);
    const { workbook } = context;
    workbook.worksheets.add("Other").freezePanes.freezeRows(1);
    workbook.tables.getItem("Readings").name = "Renamed";
    workbook.names.getItem("Area").delete();
    workbook.customXmlParts.add("<b/>");
    sheet(workbook).pageLayout.orientation = "Landscape";
    sheet(workbook).charts.getItem("Chart").delete();
    sheet(workbook).getRange("A1:A2").clear();
    expect(JSON.stringify([grid.state.current(), grid.sheetNames(), grid.names.list(), [...grid.diary]])).toBe(before);
    await context.sync();
    expect([grid.sheetNames(), grid.state.current().tables[0]?.name, grid.names.list(), grid.sheets.used("Log", true)]).toEqual([["Log", "Other"], "Renamed", [], null]);
  });
});
