import { host } from "../../../words/host";
import type { ChartData, ChartPoint } from "./chart-data";
import { isoDate } from "./date-axis";

const words = host.charts;

/** Title, what each series holds, and its last value. */
export function inWords(data: ChartData): string {
  const series = data.series.map(({ name, points }) => {
    const known = points.filter(({ y }) => y !== null);
    const last = known.at(-1);
    const called = name === data.title ? "" : name;
    return last ? words.series(called, known.length, figure(last.y ?? 0), placeInWords(data, last)) : words.emptySeries(called);
  });
  return words.label(data.title, data.kind ? words.kinds[data.kind] : data.type, data.yTitle, series);
}

/** What is said of one value. A series called as its chart is not named again. */
export function pointInWords(data: ChartData, series: number, point: ChartPoint): string {
  const name = data.series[series]?.name ?? "";
  return words.point(name === data.title ? "" : name, placeInWords(data, point), figure(point.y ?? 0), data.yTitle);
}

const figure = (value: number): string => String(Number(value.toPrecision(4)));

function placeInWords({ axis, names }: ChartData, { x }: ChartPoint): string {
  return axis === "dates" ? isoDate(x) : axis === "names" ? (names[x] ?? "") : figure(x);
}
