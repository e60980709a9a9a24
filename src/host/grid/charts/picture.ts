import { host } from "../../../words/host";
import { bottomTicks, scale, valueSteps, valueTicks } from "./axes";
import { type ChartData, isEmpty } from "./chart-data";
import { drawColumns } from "./columns";
import type { DrawnPoint } from "./drawn-point";
import { chartFrame, type Frame, textRoom } from "./frame";
import { inWords } from "./in-words";
import { drawLines } from "./lines";
import { hatches } from "./looks";
import { px, type Shape, shape } from "./shape";
import { sideBySide, stacked } from "./stacks";
import { tickText, type ValueAxis, valueAxis } from "./ticks";

const words = host.charts;

/** Less than this is no plot any more. */
const [LEAST_WIDTH, LEAST_HEIGHT] = [60, 40];
/** What stands in a chart's box: its picture, or one sentence that says why there is none. */
export type Drawing = { readonly picture: Shape; readonly points: readonly DrawnPoint[] } | { readonly sentence: string };

/**
 * Draws a chart for a box of so many pixels.
 * @param from the cells that it reads, for the sentence of a chart that has nothing to show
 * @param id of this picture; no other on the page may have it
 */
export function drawChart(data: ChartData, width: number, height: number, from: string, id: string): Drawing {
  if (!data.kind) return { sentence: words.otherType(data.type) };
  if (isEmpty(data)) return { sentence: from === "" ? words.noCells : words.empty(from) };
  const columns = data.kind === "columns" || data.kind === "stack";
  const parts = columns ? (data.kind === "stack" ? stacked : sideBySide)(data.series) : [];
  const ys = columns ? parts.flatMap(({ from: low, to }) => [low, to]) : data.series.flatMap(({ points }) => points.flatMap(({ y }) => (y === null ? [] : [y])));
  const axisFor = (pixels: number): ValueAxis => valueAxis(Math.min(...ys), Math.max(...ys), valueSteps(pixels), columns);
  // The figures take room beside the plot, and the plot's height says how many there are: a first guess gives the room.
  const guess = axisFor(height * 0.6);
  const frame = chartFrame(data, width, height, Math.max(...guess.ticks.map((tick) => textRoom(tickText(tick, guess)))), id);
  const { plot } = frame;
  if (plot.right - plot.left < LEAST_WIDTH || plot.bottom - plot.top < LEAST_HEIGHT) return { sentence: words.tooSmall };
  const axis = axisFor(plot.bottom - plot.top);
  const y = scale(axis.low, axis.high, plot.bottom, plot.top);
  const { ticks, shapes, points } = columns ? drawColumns(data, parts, plot, y, id) : drawLines(data, plot, y);
  return { points, picture: assemble(data, width, height, frame, [...valueTicks(axis, y, plot), ...bottomTicks(ticks, plot), ...shapes], columns ? [hatches(id, data.series.length)] : []) };
}

function assemble(data: ChartData, width: number, height: number, { texts }: Frame, inside: readonly Shape[], before: readonly Shape[]): Shape {
  return shape("svg", { viewBox: `0 0 ${px(width)} ${px(height)}`, role: "img", "aria-label": inWords(data) }, ...before, ...texts, ...inside);
}
