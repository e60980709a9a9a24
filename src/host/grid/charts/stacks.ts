import type { ChartSeries } from "./chart-data";

/** One part of a column: which series and which point of it, and from where to where it reaches on the axis of values. */
export interface Part {
  readonly series: number;
  readonly point: number;
  readonly from: number;
  readonly to: number;
}

/** Columns on top of each other: what is above zero goes up from zero, what is below goes down. Gaps take no room. */
export function stacked(series: readonly ChartSeries[]): Part[] {
  const count = Math.max(0, ...series.map(({ points }) => points.length));
  return Array.from({ length: count }, (_column, point) => {
    let [up, down] = [0, 0];
    return series.flatMap(({ points }, s): Part[] => {
      const value = points[point]?.y ?? null;
      if (value === null) return [];
      const from = value >= 0 ? up : down;
      if (value >= 0) up += value;
      else down += value;
      return [{ series: s, point, from, to: from + value }];
    });
  }).flat();
}

/** Columns beside each other, each from zero. */
export function sideBySide(series: readonly ChartSeries[]): Part[] {
  return series.flatMap(({ points }, s) => points.flatMap(({ y }, point): Part[] => (y === null ? [] : [{ series: s, point, from: 0, to: y }])));
}
