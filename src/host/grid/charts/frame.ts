import type { ChartData } from "./chart-data";
import { dash, hatchId, mark, seriesClass } from "./looks";
import { px, type Shape, shape } from "./shape";

/** Where the data are drawn: the picture without its texts. */
export interface Plot {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

export interface Frame {
  readonly plot: Plot;
  /** Title, legend and the titles of the axes. */
  readonly texts: readonly Shape[];
}

const EDGE = 12;
const TITLE_LINE = 18;
const LEGEND_LINE = 18;
const KEY = 30;
const TICK_LINE = 16;
/** Pixels of a letter in the middle: a little more than it takes, so that nothing is cut. */
const TITLE_LETTER = 7.6;
const LETTER = 6.3;

export const textRoom = (text: string): number => text.length * LETTER;

/** @param ticksRoom the pixels that the figures beside the axis of values take */
export function chartFrame(data: ChartData, width: number, height: number, ticksRoom: number, id: string): Frame {
  const texts: Shape[] = [];
  let y = EDGE;
  for (const line of lines(data.title, (width - 2 * EDGE) / TITLE_LETTER)) {
    y += TITLE_LINE;
    texts.push(shape("text", { class: "title", x: EDGE, y: y - 5 }, line));
  }
  if (data.legend) {
    const { rows, shapes } = legend(data, y + 2, width - 2 * EDGE, id);
    texts.push(...shapes);
    y += rows * LEGEND_LINE + 2;
  }
  if (data.yTitle !== "") {
    y += TICK_LINE;
    texts.push(shape("text", { class: "axis-title", x: EDGE, y: y - 2 }, data.yTitle));
  }
  const plot = { left: EDGE + ticksRoom + 6, right: width - EDGE - 4, top: y + 14, bottom: height - EDGE - TICK_LINE - (data.xTitle === "" ? 0 : TICK_LINE) };
  if (data.xTitle !== "") texts.push(shape("text", { class: "axis-title", x: px(plot.right), y: px(height - EDGE + 1), "text-anchor": "end" }, data.xTitle));
  return { plot, texts };
}

/** Words on as many lines as they need. */
function lines(text: string, letters: number): string[] {
  const found: string[] = [];
  for (const word of text.split(/\s+/).filter(Boolean)) {
    const last = found.at(-1);
    if (last !== undefined && last.length + 1 + word.length <= letters) found[found.length - 1] = `${last} ${word}`;
    else found.push(word);
  }
  return found;
}

function legend({ series, kind }: ChartData, top: number, width: number, id: string): { rows: number; shapes: Shape[] } {
  let [x, row] = [0, 0];
  const shapes = series.map(({ name }, s) => {
    const room = KEY + 6 + textRoom(name) + 14;
    if (x > 0 && x + room > width) [x, row] = [0, row + 1];
    const [left, middle] = [EDGE + x, top + row * LEGEND_LINE + LEGEND_LINE / 2];
    x += room;
    return shape("g", { class: `key ${seriesClass(s)}` }, ...(kind === "scatter" || kind === "line" ? lineKey(s, left, middle) : columnKey(s, left, middle, id)), shape("text", { x: px(left + KEY + 6), y: middle + 4 }, name));
  });
  return { rows: series.length > 0 ? row + 1 : 0, shapes };
}

function lineKey(series: number, x: number, y: number): Shape[] {
  return [shape("path", { class: "line", d: `M${px(x)} ${y}h${KEY}`, "stroke-dasharray": dash(series) }), shape("path", { class: "key-mark", d: mark(series, x + KEY / 2, y, 4) })];
}

function columnKey(series: number, x: number, y: number, id: string): Shape[] {
  return [shape("rect", { class: "column", x: px(x), y: y - 6, width: KEY, height: 12, fill: `url(#${hatchId(id, series)})` })];
}
