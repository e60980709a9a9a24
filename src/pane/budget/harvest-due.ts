import { HARVEST_NEXT } from "../../functions/growth-functions";
import type { Log, SetUp } from "../../science/budget/log";
import { harvestGroups, type HarvestGroup } from "../../science/warnings/harvest-groups";

/** When a screen is due. Days are serials of the workbook; null dates: nothing was harvested on it yet. */
export interface HarvestDue {
  readonly screen: string;
  readonly dates: { readonly best: number; readonly earliest: number; readonly latest: number } | null;
  /** The first sentence says how it stands on the log's last day. */
  readonly sentence: string;
}

/** As many of the latest harvests tell the curve: a screen of last year is another one. */
const LATEST = 30;

/** The next harvest of each screen, as HARVEST_NEXT has it for the log's own harvests, judged on the log's last day. */
export function harvestsDue(log: Log, setUp: SetUp): HarvestDue[] {
  return harvestGroups(log, setUp).map((groups, place): HarvestDue => {
    const unit = setUp.units[place];
    const screen = unit?.name ?? "";
    const last = groups[groups.length - 1];
    if (!last) return { screen, dates: null, sentence: "" };
    const { days, dry } = regrowths(groups, unit?.litAreaM2 ?? 1);
    const [answer = []] = HARVEST_NEXT([[last.day]], days as never, dry as never, [[log.lastDay]]) as unknown[][];
    const [best, earliest, latest, sentence] = answer;
    return { screen, dates: { best: Number(best), earliest: Number(earliest), latest: Number(latest) }, sentence: String(sentence) };
  });
}

/** Days and dry mass of the harvests that grew on a harvested screen; null where there is none. The first is start-up growth. */
function regrowths(groups: readonly HarvestGroup[], litAreaM2: number): { days: number[][] | null; dry: number[][] | null } {
  const regrown = groups.slice(1).slice(-LATEST).filter(({ day, since, dryG }) => since !== null && day > since && dryG > 0);
  if (regrown.length === 0) return { days: null, dry: null };
  return { days: regrown.map(({ day, since }) => [day - (since ?? day)]), dry: regrown.map(({ dryG }) => [dryG / litAreaM2]) };
}

/** The middle of the days between the harvests of a screen; null with fewer than two harvests. */
export function usualInterval(log: Log, setUp: SetUp): number | null {
  const groups = harvestGroups(log, setUp)[setUp.periodUnit] ?? [];
  const days = groups.slice(1).map(({ day, since }) => day - (since ?? day)).sort((a, b) => a - b);
  return days[(days.length - 1) >> 1] ?? null;
}

export function daysSinceHarvest(log: Log, setUp: SetUp): number | null {
  const last = (harvestGroups(log, setUp)[setUp.periodUnit] ?? []).at(-1);
  return last ? log.lastDay - last.day : null;
}
