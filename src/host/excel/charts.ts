import { type ChartState, freeName, nextId } from "./book-state";
import { chartOf } from "./chart";
import { seriesOfRange } from "./chart-source";
import { ClientCollection } from "./client-collection";
import type { LoadOption } from "./client-object";
import { onlyWhatStands } from "./only-what-stands";
import { targetFinder } from "./range";
import { anyRangeAddress } from "./range-geometry";
import { needed, type RangeTarget } from "./range-target";
import type { LocalContext } from "./request-context";

type Members = "add" | "context" | "count" | "getCount" | "getItem" | "getItemAt" | "getItemOrNullObject" | "items" | "load";

/** A chart that was given no place stands beside its data, as large as Excel makes one: 8 columns by 15 rows. */
const [COLUMNS, ROWS] = [8, 15];

/** The charts of one sheet. The target is the sheet's id. */
class LocalCharts extends ClientCollection<string, Excel.Chart> implements Pick<Excel.ChartCollection, Members> {
  add(type: Excel.ChartType | `${Excel.ChartType}`, sourceData: Excel.Range, seriesBy: Excel.ChartSeriesBy | `${Excel.ChartSeriesBy}` = "Auto"): Excel.Chart {
    const find = targetFinder(sourceData);
    return this.item(
      this.below((sheetId) => {
        const source = needed(find(), "ChartCollection.add");
        const { charts } = this.local.port.state.current();
        const id = nextId(charts);
        const series = seriesOfRange(this.local, source, type, seriesBy);
        const name = freeName("Chart ", charts.filter((chart) => chart.sheetId === sheetId).map((chart) => chart.name));
        const title = series.length === 1 ? (series[0]?.name ?? null) : null;
        const added: ChartState = { id, sheetId, name, type, title, categoryTitle: null, valueTitle: null, legend: series.length > 1, series, position: beside(source) };
        this.local.changeState({ charts: [...charts, added] });
        return id;
      }),
    );
  }

  load(option?: LoadOption): Excel.ChartCollection {
    this.queueLoadItems(option);
    return this as Partial<Excel.ChartCollection> as Excel.ChartCollection;
  }

  protected override keys(sheetId: string): string[] {
    return this.local.state().charts.filter((chart) => chart.sheetId === sheetId).map(({ id }) => id);
  }

  protected override nameOf(id: string): string {
    return this.local.state().charts.find((chart) => chart.id === id)?.name ?? "";
  }

  protected override item(find: () => string | null): Excel.Chart {
    return chartOf(this.local, find);
  }
}

function beside({ range: { startRow, endColumn } }: RangeTarget): string {
  return anyRangeAddress({ startRow, startColumn: endColumn + 2, endRow: startRow + ROWS - 1, endColumn: endColumn + 1 + COLUMNS });
}

/** @param find gives the sheet's id */
export function chartsOf(local: LocalContext, find: () => string | null): Excel.ChartCollection {
  const offered: Partial<Excel.ChartCollection> = onlyWhatStands(new LocalCharts(local, "ChartCollection", find), "ChartCollection");
  return offered as Excel.ChartCollection;
}
