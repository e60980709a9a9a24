import { installExcel } from "../../src/host/excel/install";
import { codeOf } from "./batch";
import { MemoryGrid } from "./memory-grid";

let grid: MemoryGrid;
let uninstall: () => void;

beforeEach(() => {
  grid = new MemoryGrid(["Log", "My charts"]);
  const rows = [["Week", "Nitrate", "Phosphate"], ["one", 4, 0.1], ["two", 3, 0.2]];
  rows.forEach((row, r) => row.forEach((value, c) => grid.put("Log", `${"ABC"[c]}${r + 1}`, value)));
  uninstall = installExcel(grid);
});
afterEach(() => uninstall());

const log = (context: Excel.RequestContext) => context.workbook.worksheets.getItem("Log");
const chart = () => grid.state.current().charts[0];
const series = () => chart()?.series.map(({ name, values, xValues }) => [name, values?.ref, xValues?.ref]);

it("makes a series of each column, named by its heading, over the texts in front", async () => {
  await Excel.run(async (context) => log(context).charts.add("Line", log(context).getRange("A1:C3")));
  expect(series()).toEqual([["Nitrate", "B2:B3", "A2:A3"], ["Phosphate", "C2:C3", "A2:A3"]]);
  expect([chart()?.name, chart()?.type, chart()?.title, chart()?.legend, chart()?.position]).toEqual(["Chart 1", "Line", null, true, "E1:L15"]);
});

it("takes numbers in front as a series, dates and the X of a scatter chart as what stands under it", async () => {
  [[1, 2], [3, 4], [5, 6]].forEach((row, r) => row.forEach((value, c) => grid.put("My charts", `${"AB"[c]}${r + 1}`, value)));
  const add = (type: "Line" | "XYScatter") =>
    Excel.run(async (context) => {
      const sheet = context.workbook.worksheets.getItem("My charts");
      sheet.charts.add(type, sheet.getRange("A1:B3"));
    });
  await add("Line");
  await add("XYScatter");
  grid.formats.setNumberFormats("My charts", "A1:A3", [["d mmm"], ["d mmm"], ["d mmm"]]);
  await add("Line");
  expect(grid.state.current().charts.map((one) => one.series.map(({ values, xValues }) => [values?.ref, xValues?.ref]))).toEqual([
    [["A1:A3", undefined], ["B1:B3", undefined]],
    [["B1:B3", "A1:A3"]],
    [["B1:B3", "A1:A3"]],
  ]);
});

it("goes by rows when it is told, or when there are more columns than rows", async () => {
  await Excel.run(async (context) => log(context).charts.add("ColumnClustered", log(context).getRange("A1:C3"), "Rows"));
  expect(series()).toEqual([["one", "B2:C2", "B1:C1"], ["two", "B3:C3", "B1:C1"]]);
});

it("keeps titles, series, place and size, with what they are drawn from on another sheet", async () => {
  await Excel.run(async (context) => {
    const sheet = context.workbook.worksheets.getItem("My charts");
    const added = sheet.charts.add("XYScatterLines", log(context).getRange("B1:B3"));
    added.name = "Nitrate";
    added.title.text = "Nitrate, mg/L";
    added.axes.categoryAxis.title.text = "Day";
    added.axes.valueAxis.title.text = "mg/L";
    added.legend.visible = true;
    const more = added.series.add("Phosphate");
    more.setValues(log(context).getRange("C2:C3"));
    more.setXAxisValues(log(context).getRange("A2:A3"));
    added.series.getItemAt(0).delete();
    added.setPosition("B2", "I16");
    added.load("name, chartType");
    added.title.load("text");
    added.series.load("items/name");
    await context.sync();
    expect([added.name, added.chartType, added.title.text, added.series.items.map(({ name }) => name)]).toEqual(["Nitrate", "XYScatterLines", "Nitrate, mg/L", ["Phosphate"]]);
    added.setPosition("C3");
  });
  expect(chart()).toEqual({
    id: "1",
    sheetId: "id2",
    name: "Nitrate",
    type: "XYScatterLines",
    title: "Nitrate, mg/L",
    categoryTitle: "Day",
    valueTitle: "mg/L",
    legend: true,
    series: [{ id: "2", name: "Phosphate", values: { sheetId: "id1", ref: "C2:C3" }, xValues: { sheetId: "id1", ref: "A2:A3" } }],
    position: "C3:J17",
  });
});

it("is found by its name on its sheet, and deleted", async () => {
  await Excel.run(async (context) => {
    log(context).charts.add("Line", log(context).getRange("A1:C3")).name = "Nutrients";
    log(context).charts.load("items/name, count");
    const [known, other] = [log(context).charts.getItemOrNullObject("nutrients"), log(context).charts.getItemOrNullObject("Chart 1")];
    const { charts } = log(context);
    charts.load("items/name");
    await context.sync();
    expect([known.isNullObject, other.isNullObject, charts.items.map(({ name }) => name)]).toEqual([false, true, ["Nutrients"]]);
    known.delete();
  });
  expect(grid.state.current().charts).toEqual([]);
});

it("refuses the name of another chart of the sheet", async () => {
  const code = await codeOf(async (context) => {
    log(context).charts.add("Line", log(context).getRange("A1:C3"));
    log(context).charts.add("Line", log(context).getRange("A1:C3")).name = "chart 1";
  });
  expect(code).toBe("InvalidArgument");
});

it("tells the page when what it draws has changed", async () => {
  let told = 0;
  const end = grid.state.onChange(() => (told += 1));
  await Excel.run(async (context) => log(context).charts.add("Line", log(context).getRange("A1:C3")));
  end();
  await Excel.run(async (context) => log(context).charts.getItemAt(0).delete());
  expect(told).toBe(1);
});
