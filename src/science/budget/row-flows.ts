import { feedLoadG } from "../feed";
import type { Log, SetUp } from "./log";

/** What one row of a log brings in with the feed and takes out with the harvest, grams of the element at the likely values. */
export interface RowFlow {
  readonly feedInG: number | null;
  readonly harvestOutG: number | null;
}

/**
 * The feed and the harvest of each row that has one, by the row of the keeper's range. Their sums over the rows of a period are the
 * budget's "Feed in" and "Harvest out": feed less what the animals keep, harvest less what was fed back.
 */
export function rowFlows(log: Log, setUp: SetUp): ReadonlyMap<number, RowFlow> {
  const flows = new Map<number, RowFlow>();
  const add = (row: number, part: keyof RowFlow, grams: number): void => {
    const before = flows.get(row) ?? { feedInG: null, harvestOutG: null };
    flows.set(row, { ...before, [part]: (before[part] ?? 0) + grams });
  };
  for (const { row, food, massG } of log.feeds) add(row, "feedInG", feedLoadG(massG, food, log.nutrient, setUp.retainedShare.value));
  for (const { row, unit, drainedG, draining, fedBackShare } of log.harvests) {
    const screen = setUp.units[unit];
    if (screen) add(row, "harvestOutG", drainedG * (1 - fedBackShare) * screen.dryFraction[draining].value * screen.tissue.value);
  }
  return flows;
}
