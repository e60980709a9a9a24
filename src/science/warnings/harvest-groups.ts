import { harvestDryG } from "../harvest";
import type { HarvestEntry, Log, SetUp } from "../budget/log";

/** What was weighed within these days is one harvest: one side today and the other tomorrow, drained and pressed parts. */
const ONE_HARVEST_DAYS = 2;

/** One harvest of a screen with the time in which it grew. */
export interface HarvestGroup {
  readonly row: number;
  readonly day: number;
  /** When it began to grow: the harvest before, or the screen's stated start; null where neither is known. */
  readonly since: number | null;
  /** g dry at the lowest and at the likely dry fraction; one weighing's error is taken off the lowest. */
  readonly dryLowG: number;
  readonly dryG: number;
}

/** The harvests of each screen, in order of day. */
export function harvestGroups(log: Log, setUp: SetUp): HarvestGroup[][] {
  const byScreen: HarvestEntry[][] = setUp.units.map(() => []);
  for (const harvest of log.harvests) byScreen[harvest.unit]?.push(harvest);
  return byScreen.map((harvests, place) => {
    const unit = setUp.units[place];
    const groups: HarvestGroup[] = [];
    for (const harvest of harvests) {
      const dryFraction = unit?.dryFraction[harvest.draining] ?? { low: 0, value: 0 };
      const dryLowG = harvestDryG(harvest.drainedG * (1 - setUp.harvestShare), dryFraction.low);
      const dryG = harvestDryG(harvest.drainedG, dryFraction.value);
      const last = groups[groups.length - 1];
      if (last && harvest.day - last.day <= ONE_HARVEST_DAYS) groups[groups.length - 1] = { ...last, dryLowG: last.dryLowG + dryLowG, dryG: last.dryG + dryG };
      else groups.push({ row: harvest.row, day: harvest.day, since: last ? last.day : (unit?.startedDay ?? null), dryLowG, dryG });
    }
    return groups;
  });
}
