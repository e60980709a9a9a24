import { nextId, type SeriesState } from "./book-state";
import { changeChart, chartState } from "./chart-state";
import { ClientCollection } from "./client-collection";
import { ClientObject, type LoadOption } from "./client-object";
import { itemNotFound } from "./excel-error";
import { onlyWhatStands } from "./only-what-stands";
import { targetFinder } from "./range";
import { needed, placed } from "./range-target";
import type { LocalContext } from "./request-context";

/** A series: the chart's id and its own. */
interface SeriesTarget {
  readonly chart: string;
  readonly id: string;
}

class LocalSeries extends ClientObject<SeriesTarget> implements Pick<Excel.ChartSeries, "context" | "delete" | "isNullObject" | "load" | "name" | "setValues" | "setXAxisValues"> {
  protected override readonly readers = { name: (target: SeriesTarget) => this.state(target).name };

  get name(): string {
    return this.loadedCopy("name") as string;
  }

  set name(name: string) {
    this.setCopy("name", name, (target) => this.change(target, { name }));
  }

  setValues(sourceData: Excel.Range): void {
    const find = targetFinder(sourceData);
    this.queueWith((target) => this.change(target, { values: placed(needed(find(), "ChartSeries.setValues")) }));
  }

  setXAxisValues(sourceData: Excel.Range): void {
    const find = targetFinder(sourceData);
    this.queueWith((target) => this.change(target, { xValues: placed(needed(find(), "ChartSeries.setXAxisValues")) }));
  }

  delete(): void {
    this.queueWith(({ chart, id }) => changeChart(this.local, chart, { series: chartState(this.local, chart).series.filter((one) => one.id !== id) }));
  }

  load(option?: LoadOption): Excel.ChartSeries {
    this.queueLoad(option);
    return this as Partial<Excel.ChartSeries> as Excel.ChartSeries;
  }

  private state({ chart, id }: SeriesTarget): SeriesState {
    const state = chartState(this.local, chart).series.find((one) => one.id === id);
    if (!state) throw itemNotFound("ChartSeries");
    return state;
  }

  private change(target: SeriesTarget, change: Partial<SeriesState>): void {
    this.state(target);
    changeChart(this.local, target.chart, { series: chartState(this.local, target.chart).series.map((one) => (one.id === target.id ? { ...one, ...change } : one)) });
  }
}

/** The series of a chart, in the order in which they are drawn. The target is the chart's id. */
class LocalSeriesCollection extends ClientCollection<string, Excel.ChartSeries> implements Pick<Excel.ChartSeriesCollection, "add" | "context" | "count" | "getCount" | "getItemAt" | "items" | "load"> {
  add(name?: string, index?: number): Excel.ChartSeries {
    return this.item(
      this.below((chart) => {
        const { series } = chartState(this.local, chart);
        const id = nextId(series);
        const added: SeriesState = { id, name: name ?? `Series${series.length + 1}`, values: null, xValues: null };
        const place = index ?? series.length;
        changeChart(this.local, chart, { series: [...series.slice(0, place), added, ...series.slice(place)] });
        return id;
      }),
    );
  }

  load(option?: LoadOption): Excel.ChartSeriesCollection {
    this.queueLoadItems(option);
    return this as Partial<Excel.ChartSeriesCollection> as Excel.ChartSeriesCollection;
  }

  protected override keys(chart: string): string[] {
    return chartState(this.local, chart).series.map(({ id }) => id);
  }

  protected override nameOf(id: string): string {
    return id;
  }

  protected override item(find: () => string | null): Excel.ChartSeries {
    const findSeries = (): SeriesTarget | null => {
      const id = find();
      const chart = this.found();
      return id === null || chart === null ? null : { chart, id };
    };
    const offered: Partial<Excel.ChartSeries> = onlyWhatStands(new LocalSeries(this.local, "ChartSeries", findSeries), "ChartSeries");
    return offered as Excel.ChartSeries;
  }
}

export function seriesOf(local: LocalContext, find: () => string | null): Excel.ChartSeriesCollection {
  const offered: Partial<Excel.ChartSeriesCollection> = onlyWhatStands(new LocalSeriesCollection(local, "ChartSeriesCollection", find), "ChartSeriesCollection");
  return offered as Excel.ChartSeriesCollection;
}
