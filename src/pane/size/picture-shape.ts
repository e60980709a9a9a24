import { habitAreaM2 } from "../../science/sizing";
import type { ScreenPlan } from "../../science/sizing-plan";
import { areaUnit, fromMetric, plain, type Units } from "./units";

/** Where the lines of the picture run, in its own units; y counts down. */
export interface PictureShape {
  readonly areaUnit: string;
  readonly x: readonly Tick[];
  readonly y: readonly Tick[];
  /** Outlines of closed shapes and of a line: "12,30 40,60 ...". */
  readonly range: string;
  readonly likely: string;
  readonly habit: string;
  readonly habitLine: string;
  /** The food as planned. */
  readonly yours: { readonly x: number; readonly low: number; readonly middle: number; readonly high: number };
}

export interface Tick {
  readonly at: number;
  readonly label: string;
}

export const PICTURE = { width: 320, height: 204, left: 38, right: 308, top: 24, bottom: 166 } as const;
/** Marks on an axis, about. */
const TICKS = 4;

/** The picture of area against food. Null when there is nothing to draw. */
export function pictureShape({ areaAtFood, foodGPerDay, frozenFoodGPerDay }: ScreenPlan, units: Units): PictureShape | null {
  const last = areaAtFood[areaAtFood.length - 1];
  const now = areaAtFood.find((point) => point.foodGPerDay === foodGPerDay);
  if (!last || !now || last.area.high <= 0) return null;
  const { name, perM2 } = areaUnit(last.area.high, units);
  const [mostFood, mostArea] = [last.foodGPerDay, last.area.high * 1.02];
  const x = (grams: number): number => round(PICTURE.left + (grams / mostFood) * (PICTURE.right - PICTURE.left));
  const y = (m2: number): number => round(PICTURE.bottom - (m2 / mostArea) * (PICTURE.bottom - PICTURE.top));
  const line = (points: readonly (readonly [number, number])[]): string => points.map(([grams, m2]) => `${x(grams)},${y(m2)}`).join(" ");
  const pick = (limit: "low" | "value" | "high"): [number, number][] => areaAtFood.map(({ foodGPerDay: grams, area }) => [grams, area[limit]]);
  const habit = habitAreaM2((frozenFoodGPerDay / foodGPerDay) * mostFood);
  const mostShown = fromMetric(mostFood, "mass", units);
  return {
    areaUnit: name,
    x: ticks(mostShown).map((value) => ({ at: round(PICTURE.left + (value / mostShown) * (PICTURE.right - PICTURE.left)), label: plain(value, 3) })),
    y: ticks(mostArea * perM2).map((value) => ({ at: y(value / perM2), label: plain(value, 3) })),
    range: line([...pick("high"), ...pick("low").reverse()]),
    likely: line(pick("value")),
    habit: line([[0, 0], [mostFood, habit.high], [mostFood, habit.low]]),
    habitLine: line([[0, 0], [mostFood, (habit.low + habit.high) / 2]]),
    yours: { x: x(now.foodGPerDay), low: y(now.area.low), middle: y(now.area.value), high: y(now.area.high) },
  };
}

/** Round figures from 0 up to a most: steps of 1, 2 or 5 times a power of ten. */
export function ticks(most: number): number[] {
  const rough = most / TICKS;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = ([1, 2, 5, 10].find((one) => one * power >= rough) ?? 10) * power;
  return Array.from({ length: Math.floor(most / step + 1e-9) + 1 }, (_, place) => place * step);
}

const round = (value: number): number => Math.round(value * 10) / 10;
