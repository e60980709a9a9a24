import { installExcel } from "../../src/host/excel/install";
import { codeOf } from "./batch";
import { MemoryGrid } from "./memory-grid";

let grid: MemoryGrid;
let uninstall: () => void;

beforeEach(() => {
  grid = new MemoryGrid(["Log", "My log"]);
  const rows = [["Date", "Nitrate", ""], [46000, 4, 1], [46007, 3, 2]];
  rows.forEach((row, r) => row.forEach((value, c) => value !== "" && grid.put("Log", `${"ABC"[c]}${r + 1}`, value)));
  uninstall = installExcel(grid);
});
afterEach(() => uninstall());

/** Makes the table of the test's log. */
async function withTable<T>(batch: (table: Excel.Table, context: Excel.RequestContext) => Promise<T>): Promise<T> {
  return Excel.run(async (context) => {
    const table = context.workbook.tables.add("Log!A1:C3", true);
    table.name = "Log";
    return batch(table, context);
  });
}

it("makes a table of a range, names its blank heading and writes no other", async () => {
  await withTable(async (table, context) => {
    table.load("name, id, style, showTotals, showHeaders");
    table.columns.load("items/name, items/index");
    const [all, head, body] = [table.getRange().load("address"), table.getHeaderRowRange().load("values"), table.getDataBodyRange().load("address")];
    await context.sync();
    expect([table.name, table.style, table.showTotals, table.showHeaders]).toEqual(["Log", "TableStyleMedium2", false, true]);
    expect(table.columns.items.map(({ index, name }) => [index, name])).toEqual([[0, "Date"], [1, "Nitrate"], [2, "Column3"]]);
    expect([all.address, head.values, body.address]).toEqual(["Log!A1:C3", [["Date", "Nitrate", "Column3"]], "Log!A2:C3"]);
  });
  expect(grid.read("Log", "A1:C1").values).toEqual([["Date", "Nitrate", "Column3"]]);
});

it("makes headings texts that differ", async () => {
  [2024, "N", "n", "N2"].forEach((heading, c) => grid.put("My log", `${"ABCD"[c]}1`, heading));
  await Excel.run(async (context) => context.workbook.worksheets.getItem("My log").tables.add("A1:D1", true));
  expect(grid.read("My log", "A1:D1").values).toEqual([["2024", "N", "n2", "N22"]]);
  expect(grid.state.current().tables[0]?.ref).toBe("A1:D2");
});

it("finds tables in the workbook, on a sheet and in a range", async () => {
  await withTable(async (_table, context) => {
    const { tables, worksheets } = context.workbook;
    tables.load("items/name");
    const [here, there] = [worksheets.getItem("Log").tables.getCount(), worksheets.getItem("My log").tables.getCount()];
    const first = worksheets.getItem("Log").getRange("B2").getTables(false).getFirst().load("name");
    const none = worksheets.getItem("Log").getRange("B2").getTables(true).load("items");
    const [known, unknown] = [tables.getItemOrNullObject("LOG"), tables.getItemOrNullObject("Other")];
    const body = unknown.getDataBodyRange();
    await context.sync();
    expect([tables.items.map(({ name }) => name), here.value, there.value, first.name, none.items]).toEqual([["Log"], 1, 0, "Log", []]);
    expect([known.isNullObject, unknown.isNullObject, body.isNullObject]).toEqual([false, true, true]);
  });
  expect(await codeOf(async (context) => context.workbook.tables.getItem("Other"))).toBe("ItemNotFound");
});

it.each([
  ["Log!C3:D9", "a part of another table"],
  ["Nowhere!A1:B2", "no sheet"],
])("refuses to make a table of %s: %s", async (address) => {
  await withTable(async () => undefined);
  expect(await codeOf(async (context) => context.workbook.tables.add(address, true))).toBe("InvalidArgument");
});

it.each(["A1", "two words", "", "R1C1", "Taken"])("refuses the name %j", async (name) => {
  grid.names.add({ name: "Taken", formula: "1", comment: "", sheetId: null });
  expect(await codeOf(async (context) => (context.workbook.tables.add("Log!A1:C3", true).name = name))).toBe("InvalidArgument");
});

it("adds rows at the end, formulas with addresses, and keeps what stands below", async () => {
  await withTable(async (table, context) => {
    table.rows.add(undefined, [[46014, 2, "=B4*2"]]);
    table.rows.load("count");
    const body = table.getDataBodyRange().load("address, formulas");
    await context.sync();
    expect([body.address, body.formulas[2], table.rows.count]).toEqual(["Log!A2:C4", [46014, 2, "=B4*2"], 3]);
  });
  grid.put("Log", "B5", "a note of the keeper");
  expect(await codeOf(async (context) => context.workbook.tables.getItem("Log").rows.add(undefined, [[1, 2, 3]]))).toBe("InvalidArgument");
  expect(grid.read("Log", "A5:C5").values).toEqual([["", "a note of the keeper", ""]]);
});

it.each([
  ["rows of another width", (table: Excel.Table) => table.rows.add(undefined, [[1, 2]]), "InvalidArgument"],
  ["rows in between", (table: Excel.Table) => table.rows.add(0, [[1, 2, 3]]), "NotImplemented"],
  ["columns in between", (table: Excel.Table) => table.columns.add(1), "NotImplemented"],
  ["columns of another height", (table: Excel.Table) => table.columns.add(undefined, [["pH"], [8]]), "InvalidArgument"],
  ["a row of totals", (table: Excel.Table) => (table.showTotals = true), "NotImplemented"],
])("refuses %s", async (_what, act, code) => {
  expect(await codeOf(async () => withTable(async (table) => act(table)))).toBe(code);
});

it("adds a column at the right with its heading, and takes the last away again", async () => {
  await withTable(async (table, context) => {
    const column = table.columns.add(undefined, [["pH"], [8.1], [8.2]]).load("name, index");
    const cells = column.getDataBodyRange().load("address, values");
    await context.sync();
    expect([column.name, column.index, cells.address, cells.values]).toEqual(["pH", 3, "Log!D2:D3", [[8.1], [8.2]]]);
    table.columns.getItem("pH").delete();
    const all = table.getRange().load("address");
    await context.sync();
    expect(all.address).toBe("Log!A1:C3");
  });
  expect(grid.sheets.used("Log", true)).toBe("A1:C3");
});

it("resizes with the headings in their row, leaves its cells when converted, and takes them when deleted", async () => {
  await withTable(async (table, context) => {
    table.resize("A1:C9");
    const all = table.getRange().load("address");
    await context.sync();
    expect(all.address).toBe("Log!A1:C9");
  });
  expect(await codeOf(async (context) => context.workbook.tables.getItem("Log").resize("A2:C9"))).toBe("InvalidArgument");
  await Excel.run(async (context) => context.workbook.tables.getItem("Log").convertToRange());
  expect([grid.state.current().tables, grid.sheets.used("Log", true)]).toEqual([[], "A1:C3"]);
  await withTable(async (table) => table.delete());
  expect([grid.state.current().tables, grid.sheets.used("Log", true)]).toEqual([[], null]);
});

it("is gone with its sheet, and its name is free", async () => {
  await withTable(async () => undefined);
  await Excel.run(async (context) => {
    context.workbook.worksheets.getItem("Log").delete();
    context.workbook.tables.load("items");
    await context.sync();
    expect(context.workbook.tables.items).toEqual([]);
  });
});
