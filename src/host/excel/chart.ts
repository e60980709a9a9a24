import { chartState, changeChart } from "./chart-state";
import { seriesOf } from "./chart-series";
import { seriesOfRange } from "./chart-source";
import type { ChartState } from "./book-state";
import { ClientObject, type Loadable, type LoadOption } from "./client-object";
import { invalidArgument } from "./excel-error";
import { onlyWhatStands } from "./only-what-stands";
import { targetFinder } from "./range";
import { anyRangeAddress, readAnyRange } from "./range-geometry";
import { needed, rangeIn, type RangeTarget } from "./range-target";
import type { LocalContext } from "./request-context";

type TextName = "categoryTitle" | "title" | "valueTitle";
type Find = () => string | null;

/** The title of a chart or of an axis: a text, or none. */
class LocalTitle extends ClientObject<string> implements Pick<Excel.ChartTitle & Excel.ChartAxisTitle, "context" | "text" | "visible"> {
  protected override readonly readers = { text: (id: string) => chartState(this.local, id)[this.place] ?? "", visible: (id: string) => chartState(this.local, id)[this.place] !== null };

  constructor(local: LocalContext, entity: string, find: Find, private readonly place: TextName) {
    super(local, entity, find);
  }

  get text(): string {
    return this.loadedCopy("text") as string;
  }

  set text(text: string) {
    this.setCopy("text", text, (id) => changeChart(this.local, id, { [this.place]: text }));
  }

  get visible(): boolean {
    return this.loadedCopy("visible") as boolean;
  }

  set visible(visible: boolean) {
    this.setCopy("visible", visible, (id) => {
      if (visible !== (chartState(this.local, id)[this.place] !== null)) changeChart(this.local, id, { [this.place]: visible ? "" : null });
    });
  }

  load(option?: LoadOption): unknown {
    this.queueLoad(option);
    return this;
  }
}

class LocalLegend extends ClientObject<string> implements Pick<Excel.ChartLegend, "context" | "load" | "visible"> {
  protected override readonly readers = { visible: (id: string) => chartState(this.local, id).legend };

  get visible(): boolean {
    return this.loadedCopy("visible") as boolean;
  }

  set visible(legend: boolean) {
    this.setCopy("visible", legend, (id) => changeChart(this.local, id, { legend }));
  }

  load(option?: LoadOption): Excel.ChartLegend {
    this.queueLoad(option);
    return this as Partial<Excel.ChartLegend> as Excel.ChartLegend;
  }
}

type Members = "axes" | "chartType" | "context" | "delete" | "id" | "isNullObject" | "legend" | "load" | "name" | "series" | "setData" | "setPosition" | "title" | "worksheet";

/** A chart: what it draws, kept with the workbook. The grid draws none; the page draws them from the same record. */
class LocalChart extends ClientObject<string> implements Pick<Excel.Chart, Members> {
  protected override readonly readers = {
    id: (id: string) => id,
    name: (id: string) => chartState(this.local, id).name,
    chartType: (id: string) => chartState(this.local, id).type,
  };
  readonly title: Excel.ChartTitle;
  readonly legend: Excel.ChartLegend;
  readonly axes: Excel.ChartAxes;
  readonly series: Excel.ChartSeriesCollection;

  constructor(local: LocalContext, find: Find) {
    super(local, "Chart", find);
    const own = () => this.found();
    const titled = (entity: string, place: TextName): unknown => onlyWhatStands(new LocalTitle(local, entity, own, place), entity);
    this.title = titled("ChartTitle", "title") as Excel.ChartTitle;
    this.legend = onlyWhatStands(new LocalLegend(local, "ChartLegend", own), "ChartLegend") as Partial<Excel.ChartLegend> as Excel.ChartLegend;
    const axis = (place: TextName) => onlyWhatStands({ title: titled("ChartAxisTitle", place) as Excel.ChartAxisTitle }, "ChartAxis") as Excel.ChartAxis;
    this.axes = onlyWhatStands({ categoryAxis: axis("categoryTitle"), valueAxis: axis("valueTitle") }, "ChartAxes") as Excel.ChartAxes;
    this.series = seriesOf(local, own);
  }

  protected override part(name: string): Loadable | undefined {
    return name === "title" || name === "legend" || name === "series" ? (this[name] as Loadable) : undefined;
  }

  get id(): string {
    return this.loadedCopy("id") as string;
  }

  get name(): string {
    return this.loadedCopy("name") as string;
  }

  set name(name: string) {
    this.setCopy("name", name, (id) => {
      const { sheetId } = chartState(this.local, id);
      const taken = this.local.state().charts.some((chart) => chart.id !== id && chart.sheetId === sheetId && chart.name.toLowerCase() === name.toLowerCase());
      if (taken) throw invalidArgument("Chart.name", `the sheet has a chart "${name}".`);
      changeChart(this.local, id, { name });
    });
  }

  get chartType(): Excel.Chart["chartType"] {
    return this.loadedCopy("chartType") as Excel.Chart["chartType"];
  }

  set chartType(type: Excel.Chart["chartType"]) {
    this.setCopy("chartType", type, (id) => changeChart(this.local, id, { type }));
  }

  get worksheet(): Excel.Worksheet {
    return this.local.worksheet(this.below((id) => chartState(this.local, id).sheetId));
  }

  setData(sourceData: Excel.Range, seriesBy: Excel.ChartSeriesBy | `${Excel.ChartSeriesBy}` = "Auto"): void {
    const find = targetFinder(sourceData);
    this.queueWith((id) => changeChart(this.local, id, { series: seriesOfRange(this.local, needed(find(), "Chart.setData"), chartState(this.local, id).type, seriesBy) }));
  }

  /** @param endCell without it the chart keeps its size in cells */
  setPosition(startCell: Excel.Range | string, endCell?: Excel.Range | string): void {
    const [start, end] = [finder(startCell), endCell === undefined ? null : finder(endCell)];
    this.queueWith((id) => {
      const chart = chartState(this.local, id);
      const first = needed(start(chart.sheetId), "Chart.setPosition").range;
      changeChart(this.local, id, { position: end ? anyRangeAddress({ ...first, ...lastOf(needed(end(chart.sheetId), "Chart.setPosition")) }) : positionFrom(chart, first) });
    });
  }

  delete(): void {
    this.queueWith((id) => this.local.changeState({ charts: this.local.port.state.current().charts.filter((chart) => chart.id !== id) }));
  }

  load(option?: LoadOption): Excel.Chart {
    this.queueLoad(option);
    return this as Partial<Excel.Chart> as Excel.Chart;
  }
}

function finder(cell: Excel.Range | string): (sheetId: string) => RangeTarget | null {
  return typeof cell === "string" ? (sheetId) => rangeIn(sheetId, cell) : targetFinder(cell);
}

const lastOf = ({ range }: RangeTarget) => ({ endRow: range.endRow, endColumn: range.endColumn });

function positionFrom({ position }: ChartState, { startRow, startColumn }: RangeTarget["range"]): string {
  const before = readAnyRange(position) ?? { startRow, startColumn, endRow: startRow, endColumn: startColumn };
  return anyRangeAddress({ startRow, startColumn, endRow: startRow + before.endRow - before.startRow, endColumn: startColumn + before.endColumn - before.startColumn });
}

export function chartOf(local: LocalContext, find: Find): Excel.Chart {
  const offered: Partial<Excel.Chart> = onlyWhatStands(new LocalChart(local, find), "Chart");
  return offered as Excel.Chart;
}
