import { datesAlong, namesAlong, numbersAlong, type Scale, type Tick } from "./axes";
import type { ChartData } from "./chart-data";
import type { DrawnPoint } from "./drawn-point";
import type { Plot } from "./frame";
import { pointInWords } from "./in-words";
import { dash, mark, seriesClass } from "./looks";
import { px, type Shape, shape } from "./shape";

/** Between the data and the edges of the plot, so that no mark is cut. */
const ROOM = 10;

/** The data as they are drawn, and the ticks under them. */
export interface DrawnData {
  readonly ticks: readonly Tick[];
  readonly shapes: readonly Shape[];
  /** Series by series. */
  readonly points: readonly DrawnPoint[];
}

/** A line for each series with a mark at every point; a gap parts the line. */
export function drawLines(data: ChartData, plot: Plot, y: Scale): DrawnData {
  const xs = data.series.flatMap(({ points }) => points.flatMap((point) => (point.y === null ? [] : [point.x])));
  const along = data.axis === "dates" ? datesAlong(xs, plot, ROOM) : data.axis === "numbers" ? numbersAlong(xs, plot, ROOM) : namesAlong(data.names, plot);
  const r = markSize(Math.max(...data.series.map(({ points }) => points.length)));
  const drawn: DrawnPoint[] = [];
  const shapes = data.series.map(({ points, name }, s) => {
    const places = points.map(({ x, y: value }) => (value === null ? null : { x: px(along.x(x)), y: px(y(value)) }));
    const d = places.map((place, i) => (place ? `${i > 0 && places[i - 1] ? "L" : "M"}${place.x} ${place.y}` : "")).join("");
    const marks = points.flatMap((point, i) => {
      const place = places[i];
      if (!place) return [];
      drawn.push({ series: s, left: place.x - r, right: place.x + r, top: place.y - r, bottom: place.y + r, says: pointInWords(data, s, point) });
      return [shape("path", { class: "mark", d: mark(s, place.x, place.y, r) })];
    });
    return shape("g", { class: seriesClass(s), "data-series": name }, shape("path", { class: "line", d, "stroke-dasharray": dash(s) }), ...marks);
  });
  return { ticks: along.ticks, shapes, points: drawn };
}

/** Marks that stand close are small. */
function markSize(points: number): number {
  return points > 120 ? 2 : points > 40 ? 3 : 4;
}
