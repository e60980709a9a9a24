import { px, type Shape, shape } from "./shape";

/**
 * What tells the series of a chart apart: the dashes of its line and the shape of its marks, or the hatching of its columns.
 * Colour comes on top and never alone. The colours stand in the style sheet, by class.
 */
const COLOURS = 6;
const DASHES = ["none", "8 4", "2 3", "10 3 2 3", "5 2", "1 5"];

type Mark = (x: number, y: number, r: number) => string;

const MARKS: readonly Mark[] = [
  (x, y, r) => `M${px(x - r)} ${px(y)}a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0z`,
  (x, y, r) => `M${px(x - r)} ${px(y - r)}h${2 * r}v${2 * r}h${-2 * r}z`,
  (x, y, r) => `M${px(x)} ${px(y - 1.2 * r)}L${px(x + 1.2 * r)} ${px(y + r)}H${px(x - 1.2 * r)}z`,
  (x, y, r) => `M${px(x)} ${px(y - 1.4 * r)}L${px(x + 1.4 * r)} ${px(y)}L${px(x)} ${px(y + 1.4 * r)}L${px(x - 1.4 * r)} ${px(y)}z`,
  (x, y, r) => `M${px(x)} ${px(y + 1.2 * r)}L${px(x + 1.2 * r)} ${px(y - r)}H${px(x - 1.2 * r)}z`,
  (x, y, r) => `M${px(x - r)} ${px(y)}h${2 * r}M${px(x)} ${px(y - r)}v${2 * r}`,
];

export const seriesClass = (series: number): string => `series-${(series % COLOURS) + 1}`;
export const dash = (series: number): string => DASHES[series % DASHES.length] ?? "none";
export const mark = (series: number, x: number, y: number, r: number): string => (MARKS[series % MARKS.length] ?? (() => ""))(x, y, r);

/** Lines within a tile of 8 by 8, as wide as they are drawn. */
const HATCHES: readonly (readonly Shape[])[] = [
  [shape("rect", { class: "solid", width: 8, height: 8 })],
  [shape("path", { class: "hatch", d: "M-2 2L2 -2M0 8L8 0M6 10L10 6", "stroke-width": 2 })],
  [shape("circle", { class: "solid", cx: 2, cy: 2, r: 1.5 }), shape("circle", { class: "solid", cx: 6, cy: 6, r: 1.5 })],
  [shape("path", { class: "hatch", d: "M0 2H8M0 6H8", "stroke-width": 1.5 })],
  [shape("path", { class: "hatch", d: "M-2 6L2 10M0 0L8 8M6 -2L10 2M-2 2L2 -2M0 8L8 0M6 10L10 6", "stroke-width": 1 })],
  [shape("path", { class: "hatch", d: "M2 0V8M6 0V8", "stroke-width": 1.5 })],
];

/** @param id of the picture; no other on the page has it */
export const hatchId = (id: string, series: number): string => `${id}-hatch-${series}`;

export function hatches(id: string, count: number): Shape {
  return shape(
    "defs",
    {},
    ...Array.from({ length: count }, (_series, s) =>
      shape("pattern", { id: hatchId(id, s), class: seriesClass(s), width: 8, height: 8, patternUnits: "userSpaceOnUse" }, shape("rect", { class: "ground", width: 8, height: 8 }), ...(HATCHES[s % HATCHES.length] ?? [])),
    ),
  );
}
