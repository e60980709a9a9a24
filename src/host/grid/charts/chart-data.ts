import type { ChartState, PlacedRange, SeriesState } from "../../excel/book-state";
import { isoDate, showsDate } from "./date-axis";

export type ChartKind = "scatter" | "line" | "columns" | "stack";

const KINDS: Readonly<Record<string, ChartKind>> = { XYScatterLines: "scatter", Line: "line", ColumnClustered: "columns", ColumnStacked: "stack" };

/** How the grid's cells are read for a chart. Rows of the range; none for a range that is gone. */
export interface ChartCells {
  values(range: PlacedRange): readonly (readonly unknown[])[];
  /** The number format of the cell that is the so-manieth of the range, row by row. */
  format(range: PlacedRange, index: number): string;
}

export interface ChartPoint {
  /** A number or a serial date along the axis; on an axis of names the place of the name, counted from 0. */
  readonly x: number;
  /** null is a gap: the cell is blank, or holds a text, a truth value or an error. */
  readonly y: number | null;
}

export interface ChartSeries {
  readonly name: string;
  readonly points: readonly ChartPoint[];
}

/** What a chart shows, read from its cells. */
export interface ChartData {
  /** null for a type that is not drawn here. */
  readonly kind: ChartKind | null;
  readonly type: string;
  readonly title: string;
  readonly xTitle: string;
  readonly yTitle: string;
  readonly legend: boolean;
  readonly axis: "dates" | "numbers" | "names";
  /** Of an axis of names. */
  readonly names: readonly string[];
  readonly series: readonly ChartSeries[];
}

export function chartData(chart: ChartState, cells: ChartCells): ChartData {
  const { type, title, categoryTitle, valueTitle, legend } = chart;
  const kind = KINDS[type] ?? null;
  const shown = { kind, type, title: title ?? "", xTitle: categoryTitle ?? "", yTitle: valueTitle ?? "", legend };
  if (!kind) return { ...shown, axis: "names", names: [], series: [] };
  return { ...shown, ...(kind === "scatter" ? scatter(chart.series, cells) : byCategory(chart.series, cells)) };
}

/** Whether no series has a value. */
export function isEmpty({ series }: Pick<ChartData, "series">): boolean {
  return series.every(({ points }) => points.every(({ y }) => y === null));
}

const numberIn = (cell: unknown): number | null => (typeof cell === "number" && Number.isFinite(cell) ? cell : null);

/** Each series has X values of its own. Points are counted 1, 2, 3 where no X is a number. */
function scatter(series: readonly SeriesState[], cells: ChartCells): Pick<ChartData, "axis" | "names" | "series"> {
  const read = series.map(({ name, values, xValues }) => {
    const xs = line(xValues, cells).map(numberIn);
    const counted = xs.every((x) => x === null);
    const points = line(values, cells).flatMap((cell, i): ChartPoint[] => {
      const x = counted ? i + 1 : (xs[i] ?? null);
      return x === null ? [] : [{ x, y: numberIn(cell) }];
    });
    return { name, points, dated: !counted && hasDates(xValues, xs, cells) };
  });
  return { axis: read.length > 0 && read.every(({ dated }) => dated) ? "dates" : "numbers", names: [], series: read.map(({ name, points }) => ({ name, points })) };
}

/** The first series says the categories of all. Rows at the end that hold neither a category nor a value are left out. */
function byCategory(series: readonly SeriesState[], cells: ChartCells): Pick<ChartData, "axis" | "names" | "series"> {
  const categories = series[0]?.xValues ?? null;
  const labels = line(categories, cells);
  const columns = series.map(({ values }) => line(values, cells).map(numberIn));
  const count = Math.max(0, ...[labels.map((label) => (isBlank(label) ? null : label)), ...columns].map(filled));
  const xs = Array.from({ length: count }, (_x, i) => numberIn(labels[i]));
  const dateFormat = hasDates(categories, xs, cells);
  const dated = dateFormat && xs.every((x) => x !== null);
  const name = (i: number): string => {
    if (!categories) return String(i + 1);
    const label = labels[i];
    return isBlank(label) ? "" : typeof label === "number" && dateFormat ? isoDate(label) : String(label);
  };
  return {
    axis: dated ? "dates" : "names",
    names: dated ? [] : xs.map((_x, i) => name(i)),
    series: series.map(({ name: called }, s) => ({ name: called, points: xs.map((x, i): ChartPoint => ({ x: dated ? (x ?? 0) : i, y: columns[s]?.[i] ?? null })) })),
  };
}

/** How long a line is without the nulls at its end. */
function filled(cells: readonly unknown[]): number {
  let length = cells.length;
  while (length > 0 && cells[length - 1] === null) length -= 1;
  return length;
}

const isBlank = (cell: unknown): boolean => cell === undefined || cell === null || cell === "";

function line(range: PlacedRange | null, cells: ChartCells): readonly unknown[] {
  return range ? cells.values(range).flat() : [];
}

function hasDates(range: PlacedRange | null, xs: readonly (number | null)[], cells: ChartCells): boolean {
  const first = xs.findIndex((x) => x !== null);
  return range !== null && first >= 0 && showsDate(cells.format(range, first));
}
