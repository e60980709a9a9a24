import type { ChartState } from "../../src/host/excel/book-state";
import { chartCells, chartSource } from "../../src/host/grid/charts/chart-cells";
import { chartData, isEmpty } from "../../src/host/grid/charts/chart-data";
import { sideBySide, stacked } from "../../src/host/grid/charts/stacks";
import { MemoryGrid } from "../workbook/memory-grid";

let grid: MemoryGrid;
beforeEach(() => {
  grid = new MemoryGrid(["Charts", "Log 2"]);
});

const at = (ref: string, sheet = "Charts") => ({ sheetId: grid.sheets.byName(sheet).id, ref });
const series = (name: string, values: string, x: string | null, sheet = "Charts") => ({ id: name, name, values: at(values, sheet), xValues: x === null ? null : at(x, sheet) });
function chart(type: string, ...all: ReturnType<typeof series>[]): ChartState {
  return { id: "1", sheetId: at("A1").sheetId, name: "Chart 1", type, title: "Levels", categoryTitle: "Date", valueTitle: "mg/L", legend: true, series: all, position: "J2:Q18" };
}
const column = (letter: string, ...values: unknown[]) => values.forEach((value, i) => value !== "" && grid.put("Charts", `${letter}${i + 1}`, value));
const read = (type: string, ...all: ReturnType<typeof series>[]) => chartData(chart(type, ...all), chartCells(grid));
const dates = (address: string, count: number) => grid.formats.setNumberFormats("Charts", address, Array.from({ length: count }, () => ["yyyy-mm-dd"]));

describe("a scatter chart", () => {
  it("has a gap where a cell is blank or no number, and no point without an X", () => {
    column("A", 1, 2, 3, 4, 5, "later");
    column("B", 10, "", "<5", true, 50, 60);
    const { axis, series: [first] } = read("XYScatterLines", series("NO3", "B1:B8", "A1:A8"));
    expect(axis).toBe("numbers");
    expect(first).toEqual({ name: "NO3", points: [{ x: 1, y: 10 }, { x: 2, y: null }, { x: 3, y: null }, { x: 4, y: null }, { x: 5, y: 50 }] });
  });

  it("has an axis of dates when its X cells are dates, also below a text", () => {
    column("A", "Date", 46_023, 46_030);
    column("B", "NO3", 10, 20);
    dates("A2:A3", 2);
    expect(read("XYScatterLines", series("NO3", "B1:B3", "A1:A3")).axis).toBe("dates");
  });

  it("counts its points where no X is a number", () => {
    column("B", 7, 8);
    expect(read("XYScatterLines", series("NO3", "B1:B2", null)).series[0]?.points).toEqual([{ x: 1, y: 7 }, { x: 2, y: 8 }]);
    expect(read("XYScatterLines", series("NO3", "B1:B2", "A1:A2")).series[0]?.points).toEqual([{ x: 1, y: 7 }, { x: 2, y: 8 }]);
  });
});

describe("a chart with categories", () => {
  it("has names along the axis, and ends with the last row that holds something", () => {
    column("A", "May", "", "July", "", "");
    column("B", 1, 2, "", "", "");
    column("C", "", "", "", 4, "");
    const data = read("ColumnClustered", series("in", "B1:B20", "A1:A20"), series("out", "C1:C20", "A1:A20"));
    expect([data.axis, data.names]).toEqual(["names", ["May", "", "July", ""]]);
    expect(data.series.map(({ points }) => points.map(({ y }) => y))).toEqual([[1, 2, null, null], [null, null, null, 4]]);
  });

  it("has an axis of dates when every category is one", () => {
    column("A", 46_023, 46_037);
    column("B", 1, 2);
    dates("A1:A2", 2);
    const { axis, series: [first] } = read("Line", series("in", "B1:B9", "A1:A9"));
    expect([axis, first?.points]).toEqual(["dates", [{ x: 46_023, y: 1 }, { x: 46_037, y: 2 }]]);
  });

  it("writes dates as names when a text stands between them", () => {
    column("A", 46_023, "open");
    column("B", 1, 2);
    dates("A1:A2", 2);
    const { axis, names } = read("ColumnStacked", series("in", "B1:B2", "A1:A2"));
    expect([axis, names]).toEqual(["names", ["2026-01-01", "open"]]);
  });

  it("counts the rows where there are no categories", () => {
    column("B", 5, 6);
    expect(read("Line", series("in", "B1:B2", null)).names).toEqual(["1", "2"]);
  });
});

describe("what a chart reads", () => {
  it("is empty as long as no cell of a series is a number", () => {
    column("A", 1, 2);
    column("B", "", "soon");
    expect(isEmpty(read("XYScatterLines", series("NO3", "B1:B9", "A1:A9")))).toBe(true);
    grid.put("Charts", "B1", 0);
    expect(isEmpty(read("XYScatterLines", series("NO3", "B1:B9", "A1:A9")))).toBe(false);
  });

  it("is none on a sheet that is gone, and none beyond the end of a sheet", () => {
    const gone = series("NO3", "B1:B9", "A1:A9", "Log 2");
    const whole = series("all", "B:B", null);
    column("B", 3);
    grid.removeSheet("Log 2");
    expect(read("Line", gone).series[0]?.points).toEqual([]);
    expect(read("Line", whole).series[0]?.points).toEqual([{ x: 0, y: 3 }]);
    expect(chartSource(grid, chart("Line", gone))).toBe("");
  });

  it("is said in words with the sheet's name as a formula writes it", () => {
    expect(chartSource(grid, chart("Line", series("a", "B5:B40", "A5:A40", "Log 2"), series("b", "D5:D40", "A5:A40", "Log 2")))).toBe("'Log 2'!B5:D40");
  });

  it("is not read for a type that is not drawn", () => {
    const { kind, type, series: none } = read("Pie", series("NO3", "B1:B2", null));
    expect([kind, type, none]).toEqual([null, "Pie", []]);
  });
});

describe("columns", () => {
  const points = (...ys: (number | null)[]) => ({ name: "", points: ys.map((y, x) => ({ x, y })) });

  it("on top of each other go up from zero with what is above it, and down with what is below", () => {
    expect(stacked([points(3, -1), points(-2, -4), points(5, null)])).toEqual([
      { series: 0, point: 0, from: 0, to: 3 },
      { series: 1, point: 0, from: 0, to: -2 },
      { series: 2, point: 0, from: 3, to: 8 },
      { series: 0, point: 1, from: 0, to: -1 },
      { series: 1, point: 1, from: -1, to: -5 },
    ]);
  });

  it("beside each other stand on zero, gaps left out", () => {
    expect(sideBySide([points(3, null), points(-2, 0)])).toEqual([
      { series: 0, point: 0, from: 0, to: 3 },
      { series: 1, point: 0, from: 0, to: -2 },
      { series: 1, point: 1, from: 0, to: 0 },
    ]);
  });
});
