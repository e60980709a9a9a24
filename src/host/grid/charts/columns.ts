import { datesAlong, namesAlong, type Scale, type Tick } from "./axes";
import type { ChartData } from "./chart-data";
import { isoDate } from "./date-axis";
import type { DrawnPoint } from "./drawn-point";
import type { Plot } from "./frame";
import { pointInWords } from "./in-words";
import type { DrawnData } from "./lines";
import { hatchId, seriesClass } from "./looks";
import { px, type Shape, shape } from "./shape";
import type { Part } from "./stacks";

/** Columns stand where their days are on an axis of dates, unless that leaves less than this for one. */
const LEAST_BAND = 10;
const MOST_BAND = 80;
/** The share of its band that a column, or a group of them, fills. */
const FILLED = 0.72;

/** @param id of the picture, under which its hatchings are known */
export function drawColumns(data: ChartData, parts: readonly Part[], plot: Plot, y: Scale, id: string): DrawnData {
  const { ticks, band, middle } = columnsAlong(data, plot);
  const group = Math.min(band, MOST_BAND) * FILLED;
  const beside = data.kind === "columns";
  const width = beside ? group / data.series.length : group;
  const points: DrawnPoint[] = [];
  const column = (part: Part): Shape[] => {
    const point = data.series[part.series]?.points[part.point];
    if (!point) return [];
    const left = middle(part.point) - group / 2 + (beside ? part.series * width : 0);
    const [top, bottom] = [y(Math.max(part.from, part.to)), y(Math.min(part.from, part.to))];
    points.push({ series: part.series, left, right: left + width, top, bottom, says: pointInWords(data, part.series, point) });
    return [shape("rect", { class: part.from === part.to ? "column nothing" : "column", x: px(left), y: px(top), width: px(width), height: px(bottom - top), fill: `url(#${hatchId(id, part.series)})` })];
  };
  const shapes = data.series.map(({ name }, s) => shape("g", { class: seriesClass(s), "data-series": name }, ...parts.filter(({ series }) => series === s).flatMap(column)));
  return { ticks, shapes, points };
}

interface ColumnsAlong {
  readonly ticks: readonly Tick[];
  readonly band: number;
  /** The middle of a column, counted from 0. */
  readonly middle: (column: number) => number;
}

/** On an axis of dates a column is as wide as the shortest time between two days allows; where that is too little, all are equally far apart. */
function columnsAlong(data: ChartData, plot: Plot): ColumnsAlong {
  const xs = (data.series[0]?.points ?? []).map(({ x }) => x);
  const width = plot.right - plot.left;
  if (data.axis === "dates") {
    const days = [...xs].sort((a, b) => a - b);
    const [first = 0, last = first] = [days[0], days.at(-1)];
    const shortest = Math.min(...days.slice(1).map((day, i) => day - (days[i] ?? day)));
    const band = days.length === 1 ? MOST_BAND : Math.min(MOST_BAND, (width * shortest) / (last - first + shortest));
    if (band >= LEAST_BAND) {
      const { x, ticks } = datesAlong(xs, plot, band / 2 + 4);
      return { ticks, band, middle: (column) => x(xs[column] ?? first) };
    }
  }
  const { x, ticks } = namesAlong(data.axis === "dates" ? xs.map(isoDate) : data.names, plot);
  return { ticks, band: width / Math.max(1, xs.length), middle: x };
}
