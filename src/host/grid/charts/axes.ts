import { dateTicks, isoDate } from "./date-axis";
import { type Plot, textRoom } from "./frame";
import { px, type Shape, shape } from "./shape";
import { tickText, valueAxis, type ValueAxis } from "./ticks";

/** A tick of the lower edge. */
export interface Tick {
  readonly at: number;
  readonly label: string;
}

/** From a value to its place in the picture. */
export type Scale = (value: number) => number;

const ROOM_PER_VALUE = 36;
/** A date is "2026-03-02". */
const ROOM_PER_DATE = textRoom("2026-03-02") + 14;

export function scale(from: number, to: number, first: number, last: number): Scale {
  return to === from ? () => (first + last) / 2 : (value) => first + ((value - from) / (to - from)) * (last - first);
}

export const valueSteps = (pixels: number): number => Math.max(1, Math.floor(pixels / ROOM_PER_VALUE));

export function valueTicks(axis: ValueAxis, y: Scale, { left, right }: Plot): Shape[] {
  return axis.ticks.flatMap((tick) => [
    shape("line", { class: tick === 0 && axis.low < 0 ? "axis" : "grid-line", x1: px(left), x2: px(right), y1: px(y(tick)), y2: px(y(tick)) }),
    shape("text", { class: "tick", x: px(left - 6), y: px(y(tick) + 4), "text-anchor": "end" }, tickText(tick, axis)),
  ]);
}

/** The lower edge of the plot with its ticks. */
export function bottomTicks(ticks: readonly Tick[], { left, right, bottom }: Plot): Shape[] {
  const inside = (at: number, label: string): number => Math.min(right + 4 - textRoom(label) / 2, Math.max(textRoom(label) / 2 + 4, at));
  return [
    shape("line", { class: "axis", x1: px(left), x2: px(right), y1: px(bottom), y2: px(bottom) }),
    ...ticks.flatMap(({ at, label }) => [
      shape("line", { class: "axis", x1: px(at), x2: px(at), y1: px(bottom), y2: px(bottom + 4) }),
      shape("text", { class: "tick", x: px(inside(at, label)), y: px(bottom + 16), "text-anchor": "middle" }, label),
    ]),
  ];
}

export interface AlongX {
  readonly x: Scale;
  readonly ticks: readonly Tick[];
}

/** Days from the first to the last, with room for the marks or the columns at both ends. */
export function datesAlong(xs: readonly number[], { left, right }: Plot, room: number): AlongX {
  const [first, last] = [Math.min(...xs), Math.max(...xs)];
  const x = scale(first, last, left + room, right - room);
  const most = Math.max(1, Math.floor((right - left - 2 * room) / ROOM_PER_DATE) + 1);
  return { x, ticks: dateTicks(first, last, most).map((day) => ({ at: x(day), label: isoDate(day) })) };
}

export function numbersAlong(xs: readonly number[], { left, right }: Plot, room: number): AlongX {
  const axis = valueAxis(Math.min(...xs), Math.max(...xs), Math.max(1, Math.floor((right - left) / 70)), false);
  const x = scale(axis.low, axis.high, left + room, right - room);
  return { x, ticks: axis.ticks.map((tick) => ({ at: x(tick), label: tickText(tick, axis) })) };
}

/** Names in bands of one width; where they would touch, every second, third, ... is shown. */
export function namesAlong(names: readonly string[], { left, right }: Plot): AlongX {
  const band = (right - left) / Math.max(1, names.length);
  const x: Scale = (index) => left + (index + 0.5) * band;
  const every = Math.max(1, Math.ceil((Math.max(...names.map(textRoom), 0) + 10) / band));
  return { x, ticks: names.flatMap((label, i) => (i % every === 0 ? [{ at: x(i), label }] : [])) };
}
