import type { BookChart, BookSeries, ChartKind } from "./book-extras";
import { attribute, decodeText, isTrue, walkXml } from "./xml";

type ReadChart = Omit<BookChart, "name" | "position">;

interface ReadSeries extends BookSeries {
  hasNoMarkers: boolean;
  hasNoLine: boolean;
  isSmooth: boolean;
}

/** Every kind of plot that a chart may hold; more than one in a chart is a combination that the grid has not. */
const PLOTS = /^(area|area3D|bar|bar3D|bubble|doughnut|line|line3D|ofPie|pie|pie3D|radar|scatter|stock|surface|surface3D)Chart$/;
/** A range of one sheet, with its sheet's name and in one piece. */
const RANGE = /^('(?:[^'[\]]|'')+'|[^'!,()[\]]+)!\$?[A-Z]{1,3}\$?\d+(:\$?[A-Z]{1,3}\$?\d+)?$/;

/** Reads the part of one chart; undefined for one that the grid cannot show as it is. */
export function readChartPart(xml: string, part: string): ReadChart | undefined {
  const path: string[] = [];
  const plots: { element: string; direction: string; grouping: string }[] = [];
  const series: ReadSeries[] = [];
  const titles: { chart: string | null; axes: Map<string, string | null> } = { chart: null, axes: new Map() };
  const axisPositions: { element: string; position: string; title: string | null }[] = [];
  let legend = false;
  let strange = false;
  let text = "";

  const within = (name: string) => path.includes(name);
  const lastSeries = () => series[series.length - 1];
  walkXml(xml, part, {
    open(tag) {
      const parent = path[path.length - 1];
      path.push(tag.local);
      const [plot, axis, current] = [plots[plots.length - 1], axisPositions[axisPositions.length - 1], lastSeries()];
      const value = attribute(tag, "val") ?? "";
      text = tag.local === "f" || tag.local === "v" || tag.local === "t" ? "" : text;
      if (parent === "plotArea" && PLOTS.test(tag.local)) plots.push({ element: tag.local, direction: "col", grouping: "" });
      else if (plot && tag.local === "barDir") plot.direction = value;
      else if (plot && tag.local === "grouping") plot.grouping = value;
      else if (tag.local === "ser") series.push({ name: "", values: null, xValues: null, hasNoMarkers: false, hasNoLine: false, isSmooth: false });
      else if (tag.local === "legend" && parent === "chart") legend = true;
      else if (tag.local === "title" && parent === "chart") titles.chart = "";
      else if (parent === "plotArea" && /^(cat|date|ser|val)Ax$/.test(tag.local)) axisPositions.push({ element: tag.local, position: "", title: null });
      else if (axis && tag.local === "title" && /Ax$/.test(parent ?? "")) axis.title = "";
      else if (axis && tag.local === "axPos") axis.position = value;
      else if (current && tag.local === "symbol" && parent === "marker" && path[path.length - 3] === "ser") current.hasNoMarkers = value === "none";
      else if (current && tag.local === "noFill" && parent === "ln" && path[path.length - 4] === "ser") current.hasNoLine = true;
      else if (current && tag.local === "smooth" && parent === "ser") current.isSmooth = isTrue(attribute(tag, "val") ?? "1");
    },
    text(piece) {
      text += piece;
    },
    close(tag) {
      path.pop();
      const current = lastSeries();
      if (tag.local === "f" && current && within("ser")) strange ||= !takeReference(current, path, text);
      else if (tag.local === "v" && current && within("ser") && within("tx")) current.name = decodeText(text);
      else if (tag.local === "t" && within("title")) {
        const axis = axisPositions[axisPositions.length - 1];
        if (axis && within("plotArea")) axis.title = (axis.title ?? "") + text;
        else if (!within("plotArea")) titles.chart = (titles.chart ?? "") + text;
      }
    },
  });

  const kind = plots.length === 1 && plots[0] ? kindOf(plots[0], series) : undefined;
  if (kind === undefined || strange || series.length === 0 || axisPositions.length !== 2) return undefined;
  const [across, up] = [axisPositions.find(({ position }) => position === "b" || position === "t"), axisPositions.find(({ position }) => position === "l" || position === "r")];
  return {
    kind,
    title: titles.chart,
    categoryTitle: across?.title ?? null,
    valueTitle: up?.title ?? null,
    legend,
    series: series.map(({ name, values, xValues }) => ({ name, values, xValues })),
  };
}

/** @returns whether the reference is one that the grid can hold */
function takeReference(series: ReadSeries, path: readonly string[], text: string): boolean {
  if (path.includes("tx")) return true;
  const place = path.includes("val") || path.includes("yVal") ? "values" : path.includes("cat") || path.includes("xVal") ? "xValues" : undefined;
  // Error bars and labels have references too: they are no part of what the grid shows.
  if (place === undefined || path.includes("errBars") || path.includes("extLst")) return true;
  series[place] = text;
  return RANGE.test(text);
}

function kindOf({ direction, element, grouping }: { direction: string; element: string; grouping: string }, series: readonly ReadSeries[]): ChartKind | undefined {
  const all = (test: (one: ReadSeries) => boolean) => series.every(test);
  if (series.some(({ isSmooth }) => isSmooth)) return undefined;
  if (element === "scatterChart") return all(({ hasNoLine }) => hasNoLine) ? "XYScatter" : all(({ hasNoMarkers }) => hasNoMarkers) ? "XYScatterLinesNoMarkers" : "XYScatterLines";
  if (element === "lineChart" && grouping === "standard") return all(({ hasNoMarkers }) => hasNoMarkers) ? "Line" : "LineMarkers";
  if (element === "barChart" && direction === "col" && grouping === "clustered") return "ColumnClustered";
  return element === "barChart" && direction === "col" && grouping === "stacked" ? "ColumnStacked" : undefined;
}
