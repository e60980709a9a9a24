import type { ChartState } from "./book-state";
import { itemNotFound } from "./excel-error";
import type { LocalContext } from "./request-context";

/** The chart with an id, as it stands now. Fails for one that is gone. */
export function chartState(local: LocalContext, id: string): ChartState {
  const chart = local.state().charts.find((one) => one.id === id);
  if (!chart) throw itemNotFound("Chart");
  return chart;
}

export function changeChart(local: LocalContext, id: string, change: Partial<ChartState>): void {
  chartState(local, id);
  local.changeState({ charts: local.port.state.current().charts.map((chart) => (chart.id === id ? { ...chart, ...change } : chart)) });
}
