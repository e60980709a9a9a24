import type { ChartData } from "../../src/host/grid/charts/chart-data";
import { drawChart } from "../../src/host/grid/charts/picture";
import { type DrawnPoint, pointAfter, pointAt } from "../../src/host/grid/charts/drawn-point";
import type { Shape } from "../../src/host/grid/charts/shape";

const FIRST_DAY = 46_023;
const of = (name: string, ys: readonly (number | null)[], from = 0, step = 1) => ({ name, points: ys.map((y, i) => ({ x: from + step * i, y })) });
const base: ChartData = { kind: "scatter", type: "XYScatterLines", title: "Nitrate", xTitle: "Date", yTitle: "mg/L", legend: true, axis: "dates", names: [], series: [] };
const lines: ChartData = { ...base, series: [of("lowest", [5, 10, null, 20], FIRST_DAY, 7), of("highest", [15, 20, null, null], FIRST_DAY, 7)] };
const stack: ChartData = { ...base, kind: "stack", type: "ColumnStacked", axis: "names", names: ["May", "June"], series: [of("in", [6, 2]), of("out", [-3, -1])] };

function drawn(data: ChartData, width = 640, height = 320): { picture: Shape; points: readonly DrawnPoint[] } {
  const drawing = drawChart(data, width, height, "Charts!B5:D400", "c1");
  if (!("picture" in drawing)) throw new Error(drawing.sentence);
  return drawing;
}
const picture = (data: ChartData, width = 640, height = 320): Shape => drawn(data, width, height).picture;
const all = (shape: Shape): Shape[] => [shape, ...shape.inside.flatMap((one) => (typeof one === "string" ? [] : all(one)))];
const classed = (shape: Shape, name: string): Shape[] => all(shape).filter(({ at }) => String(at.class ?? "").split(" ").includes(name));
const ofSeries = (shape: Shape, name: string): Shape => all(shape).find(({ at }) => at["data-series"] === name) ?? shape;
const texts = (shape: Shape): string[] => all(shape).filter(({ tag }) => tag === "text").map(({ inside }) => String(inside[0]));
const number = (shape: Shape | undefined, name: string): number => Number(shape?.at[name]);

describe("lines", () => {
  it("have a mark at every value and are parted by a gap", () => {
    const lowest = ofSeries(picture(lines), "lowest");
    expect(classed(lowest, "mark")).toHaveLength(3);
    const d = String(classed(lowest, "line")[0]?.at.d);
    expect(d).toMatch(/^M[\d.]+ [\d.]+L[\d.]+ [\d.]+M[\d.]+ [\d.]+$/);
    const [x1 = 0, y1 = 0, x2 = 0, y2 = 0, x4 = 0, y4 = 0] = (d.match(/[\d.]+/g) ?? []).map(Number);
    // Days at 0, 7 and 21; values 5, 10 and 20: the third place lies three times as far as the second.
    expect((x4 - x1) / (x2 - x1)).toBeCloseTo(3, 2);
    expect((y4 - y1) / (y2 - y1)).toBeCloseTo(3, 2);
  });

  it("are told apart by dashes and by the shape of their marks", () => {
    const [one, two] = ["lowest", "highest"].map((name) => ofSeries(picture(lines), name));
    const look = (series: Shape | undefined) => (series ? [classed(series, "line")[0]?.at["stroke-dasharray"], String(classed(series, "mark")[0]?.at.d).replace(/[\d. -]+/g, "")] : []);
    expect(look(one)[0]).not.toBe(look(two)[0]);
    expect(look(one)[1]).not.toBe(look(two)[1]);
  });

  it("stand over days, with the titles and the legend, and say what the last values are", () => {
    const drawn = picture(lines);
    expect(texts(drawn)).toEqual(expect.arrayContaining(["Nitrate", "lowest", "highest", "mg/L", "Date", "2026-01-01", "2026-01-15", "0", "20"]));
    expect([drawn.at.role, drawn.at["aria-label"]]).toEqual(["img", "Nitrate. Lines with marks, mg/L. lowest: 3 values, the last 20 (2026-01-22). highest: 2 values, the last 20 (2026-01-08)."]);
    expect(texts(picture({ ...lines, legend: false }))).not.toContain("lowest");
  });

  it("say the value of each mark", () => {
    const says = ["lowest, 2026-01-01: 5 mg/L", "lowest, 2026-01-08: 10 mg/L", "lowest, 2026-01-22: 20 mg/L", "highest, 2026-01-01: 15 mg/L", "highest, 2026-01-08: 20 mg/L"];
    expect(drawn(lines).points.map((point) => point.says)).toEqual(says);
  });

  it("show one value alone, and many without a tick over the other", () => {
    expect(classed(picture({ ...base, series: [of("one", [7], FIRST_DAY)] }), "mark")).toHaveLength(1);
    const many = picture({ ...base, series: [of("many", Array.from({ length: 400 }, (_y, i) => i % 9), FIRST_DAY)] });
    expect(classed(many, "mark")).toHaveLength(400);
    const days = classed(many, "tick").filter(({ inside }) => /^\d{4}-/.test(String(inside[0]))).map(({ at }) => Number(at.x));
    expect(days.slice(1).every((x, i) => x - (days[i] ?? 0) > 62)).toBe(true);
  });
});

describe("columns", () => {
  it("on top of each other stand on zero from both sides, as long as their values", () => {
    const drawn = picture(stack);
    const [[inMay, inJune], [outMay]] = ["in", "out"].map((name) => classed(ofSeries(drawn, name), "column")) as [Shape[], Shape[]];
    expect(number(inMay, "height") / number(inJune, "height")).toBeCloseTo(3, 1);
    expect(number(inMay, "height") / number(outMay, "height")).toBeCloseTo(2, 1);
    // The foot of what came in is the head of what went out.
    expect(number(inMay, "y") + number(inMay, "height")).toBeCloseTo(number(outMay, "y"), 1);
    expect(number(inMay, "x")).toBe(number(outMay, "x"));
  });

  it("beside each other share a band without touching the next", () => {
    const drawn = picture({ ...stack, kind: "columns", type: "ColumnClustered" });
    const places = ["in", "out"].map((name) => classed(ofSeries(drawn, name), "column").map((column) => [number(column, "x"), number(column, "x") + number(column, "width")]));
    expect(places[0]?.[0]?.[1]).toBeCloseTo(places[1]?.[0]?.[0] ?? 0, 1);
    expect(places[1]?.[0]?.[1]).toBeLessThan(places[0]?.[1]?.[0] ?? 0);
  });

  it("have a hatching each, and their names below", () => {
    const drawn = picture(stack);
    const fills = ["in", "out"].map((name) => classed(ofSeries(drawn, name), "column")[0]?.at.fill);
    expect(fills).toEqual(["url(#c1-hatch-0)", "url(#c1-hatch-1)"]);
    const patterns = all(drawn).filter(({ tag }) => tag === "pattern");
    expect(patterns.map(({ at }) => at.id)).toEqual(["c1-hatch-0", "c1-hatch-1"]);
    expect(JSON.stringify(patterns[0]?.inside)).not.toBe(JSON.stringify(patterns[1]?.inside));
    expect(texts(drawn)).toEqual(expect.arrayContaining(["May", "June", "-4", "0", "6"]));
  });

  it("stand where their days are, and equally far apart where that would make them threads", () => {
    const dated: ChartData = { ...stack, axis: "dates", names: [], series: [{ name: "in", points: [0, 7, 28].map((day) => ({ x: FIRST_DAY + day, y: 2 })) }] };
    const lefts = (data: ChartData) => classed(ofSeries(picture(data), "in"), "column").map((column) => number(column, "x"));
    const [a = 0, b = 0, c = 0] = lefts(dated);
    expect((c - a) / (b - a)).toBeCloseTo(4, 1);
    const [d = 0, e = 0, f = 0] = lefts({ ...dated, series: [{ name: "in", points: [0, 1, 400].map((day) => ({ x: FIRST_DAY + day, y: 2 })) }] });
    expect(e - d).toBeCloseTo(f - e, 1);
  });

  it("leave two on the same day side by side", () => {
    const same: ChartData = { ...stack, kind: "columns", axis: "dates", names: [], series: [{ name: "in", points: [0, 0].map((day) => ({ x: FIRST_DAY + day, y: 2 })) }] };
    const [first, second] = classed(ofSeries(picture(same), "in"), "column");
    expect(number(first, "x") + number(first, "width")).toBeLessThan(number(second, "x"));
  });
});

describe("the values of a picture", () => {
  const middle = ({ left, right, top, bottom }: DrawnPoint): [number, number] => [(left + right) / 2, (top + bottom) / 2];

  it("are met by the pointer on them or near them, and nowhere else", () => {
    const { points } = drawn(lines);
    points.forEach((point, i) => {
      const [x, y] = middle(point);
      expect(pointAt(points, x, y)).toBe(i);
      expect(pointAt(points, x + 7, y - 7)).toBe(i);
      expect(pointAt(points, x + 30, y + 30)).not.toBe(i);
    });
    expect(pointAt(points, 1, 1)).toBe(-1);
    expect(pointAt([], 1, 1)).toBe(-1);
  });

  it("lie where their columns are, the ones on top of each other too", () => {
    const { points, picture: whole } = drawn({ ...stack, series: [of("in", [6, 2]), of("other", [3, 4])] });
    const columns = ["in", "other"].flatMap((name) => classed(ofSeries(whole, name), "column"));
    expect(points.map((point) => point.says)).toEqual(["in, May: 6 mg/L", "in, June: 2 mg/L", "other, May: 3 mg/L", "other, June: 4 mg/L"]);
    points.forEach((point, i) => {
      expect([point.left, point.top, point.right - point.left, point.bottom - point.top].map((one, place) => Math.abs(one - number(columns[i], ["x", "y", "width", "height"][place] ?? "")) < 0.02)).toEqual([true, true, true, true]);
      expect(pointAt(points, ...middle(point))).toBe(i);
      // All of a column is its value, not its middle alone.
      expect(pointAt(points, point.left + 1, point.bottom - 1)).toBe(i);
    });
  });

  it("are walked through by the arrows: along a series, to the same place of another, and no further than the ends", () => {
    const { points } = drawn(lines);
    const walk = (from: number, ...keys: string[]) => keys.reduce((at, key) => pointAfter(key, points, at) ?? NaN, from);
    expect(walk(-1, "ArrowLeft")).toBe(2);
    expect(walk(2, "ArrowLeft")).toBe(1);
    expect(walk(2, "ArrowRight")).toBe(2);
    expect(walk(2, "Home", "ArrowLeft")).toBe(0);
    expect(walk(0, "End")).toBe(2);
    // Over 2026-01-22 the second series has nothing: its nearest value is the one of 2026-01-08.
    expect(walk(2, "ArrowDown")).toBe(4);
    expect(walk(0, "ArrowDown")).toBe(3);
    expect(walk(4, "ArrowUp")).toBe(1);
    expect(walk(4, "ArrowDown")).toBe(4);
    expect(pointAfter("a", points, 0)).toBeUndefined();
    expect(pointAfter("End", [], -1)).toBeUndefined();
  });

  it("are said without the series' name where it is the chart's", () => {
    expect(drawn({ ...base, series: [of("Nitrate", [7], FIRST_DAY)] }).points[0]?.says).toBe("2026-01-01: 7 mg/L");
  });
});

describe("every picture", () => {
  it.each([["lines", lines], ["a stack", stack], ["columns", { ...stack, kind: "columns" as const }]])("keeps %s within its box at many sizes, or says that it is too small", (_name, data) => {
    for (const [width, height] of [[900, 340], [400, 260], [200, 180], [120, 90], [20, 10], [0, 0]] as const) {
      const drawing = drawChart(data, width, height, "Charts!B5:D400", "c1");
      if (!("picture" in drawing)) {
        expect(drawing.sentence).toBe("Too small to draw: make the columns under it wider.");
        expect(width).toBeLessThan(400);
        continue;
      }
      expect(JSON.stringify(drawing.picture)).not.toMatch(/NaN|Infinity|null/);
      for (const column of classed(drawing.picture, "column")) {
        expect(number(column, "x")).toBeGreaterThanOrEqual(0);
        expect(number(column, "x") + number(column, "width")).toBeLessThanOrEqual(width);
        expect(number(column, "height")).toBeGreaterThanOrEqual(0);
      }
    }
  });

  it("is a sentence while there is nothing to draw, and for a type that is not drawn", () => {
    const say = (data: ChartData, from = "Charts!B5:D400") => drawChart(data, 640, 320, from, "c1");
    expect(say({ ...lines, series: [of("lowest", [null, null])] })).toEqual({ sentence: "Fills when there are numbers in Charts!B5:D400." });
    expect(say({ ...lines, series: [] }, "")).toEqual({ sentence: "The cells of this chart are gone. Delete it, or take the deletion back with Ctrl+Z." });
    expect(say({ ...lines, kind: null, type: "Pie" })).toEqual({ sentence: 'This page draws lines and columns, not a chart of the type "Pie". Excel draws it.' });
  });
});
