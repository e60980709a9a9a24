import type { Reading } from "../reading";
import { sumOf, scaled } from "./sums";
import type { Log, SetUp } from "./log";
import type { Uncertain } from "../uncertain";

/** The readings of a nutrient's main test in order of day, mg of the element per litre; none where it was not tested. */
export function mainReadings(log: Log): readonly { readonly day: number; readonly reading: Reading }[] {
  return log.series.find((series) => series.isMain)?.entries ?? [];
}

/** One harvest of one screen: all that was weighed at that moment. */
export interface HarvestCycle {
  readonly day: number;
  readonly screen: string;
  /** Days since the harvest before, or since the screen began; null where it is not known when that was, or a harvest between could not be read. */
  readonly days: number | null;
  readonly isFirst: boolean;
  /** A harvest cell between the harvest before and this one that could not be used: the growth is not known. */
  readonly unread: string | null;
  readonly drainedG: number;
  readonly dryG: Uncertain;
  /** g dry m-2 d-1; null without a lit area or without the days. */
  readonly growth: Uncertain | null;
}

/** Every harvest with the growth that it ends, in order of day. */
export function harvestCycles(log: Log, { units }: SetUp): HarvestCycle[] {
  const cycles = units.flatMap((unit, place): HarvestCycle[] => {
    const harvests = log.harvests.filter((harvest) => harvest.unit === place);
    const moments = [...new Set(harvests.map(({ day }) => day))];
    return moments.map((day, index): HarvestCycle => {
      const before = index > 0 ? (moments[index - 1] ?? day) : (unit.startedDay ?? log.firstDay);
      const unread = log.bad.find((bad) => bad.about === "harvest" && bad.day > before && bad.day <= day)?.sentence ?? null;
      const days = day > before && unread === null ? day - before : null;
      const weighed = harvests.filter((harvest) => harvest.day === day);
      const dryG = sumOf(weighed.map((harvest) => scaled(unit.dryFraction[harvest.draining], harvest.drainedG)));
      const growth = days !== null && unit.litAreaM2 !== null ? scaled(dryG, 1 / (unit.litAreaM2 * days)) : null;
      return { day, screen: unit.name, days, isFirst: index === 0, unread, drainedG: weighed.reduce((sum, { drainedG }) => sum + drainedG, 0), dryG, growth };
    });
  });
  return cycles.sort((a, b) => a.day - b.day);
}

