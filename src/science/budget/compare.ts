import type { Uncertain } from "../uncertain";
import { lightSum } from "./light-sum";
import type { HarvestEntry, Log, SetUp } from "./log";
import { scaled, sumOf } from "./sums";

/** A screen's first harvest comes from a bare or a seeded sheet: it is start-up, and stands apart from the later ones. */
export type Cycle = "first" | "later" | "neverWeighed";

export interface ScreenCycles {
  readonly screen: string;
  readonly cycle: Cycle;
  readonly harvests: number;
  readonly days: number;
  readonly drainedG: number;
  /** Dry mass with the limits that the dry fraction leaves, g. */
  readonly dryG: Uncertain;
  /** g dry m-2 d-1; null without a lit area. */
  readonly growth: Uncertain | null;
  /** Exported grams a day, less what was fed back. */
  readonly nitrogenGPerDay: number;
  readonly phosphorusGPerDay: number;
  /** g dry per mol of light on the lit area; null where light or area is not stated. */
  readonly lightYield: number | null;
  /** g dry per kWh of the lamps; null where watts or hours are not stated. */
  readonly dryGPerKWh: number | null;
}

/**
 * Screens side by side, per area, per day, per mol of light and per kWh: a row for the first harvest of each and a row
 * for its later ones. A harvest counts from the one before it on that screen; the first from the day on which the screen
 * began (the log's first day, where the set-up does not say).
 * `phosphorus`: the set-up of the phosphorus account, for its tissue content.
 */
export function compareScreens(log: Log, setUp: SetUp, phosphorus: SetUp): ScreenCycles[] {
  return setUp.units.flatMap((unit, place): ScreenCycles[] => {
    const harvests = log.harvests.filter((harvest) => harvest.unit === place);
    const moments = [...new Set(harvests.map((harvest) => harvest.day))];
    const [first, last] = [moments[0], moments[moments.length - 1]];
    const began = unit.startedDay ?? log.firstDay;
    const cycleOf = (cycle: Cycle, from: number, to: number): ScreenCycles => {
      const days = to - from;
      const within = harvests.filter(({ day }) => day > from && day <= to);
      const dryG = sumOf(within.map((harvest) => scaled(unit.dryFraction[harvest.draining], harvest.drainedG)));
      const gone = within.reduce((sum, { drainedG, draining, fedBackShare }) => sum + drainedG * unit.dryFraction[draining].value * (1 - fedBackShare), 0);
      const light = lightSum(log, setUp, place, from, to);
      const kWh = light && unit.watts !== null ? (unit.watts * light.hours) / 1000 : 0;
      const area = unit.litAreaM2;
      return {
        screen: unit.name,
        cycle,
        harvests: new Set(within.map(({ day }) => day)).size,
        days,
        drainedG: within.reduce((sum, { drainedG }) => sum + drainedG, 0),
        dryG,
        growth: area !== null && days > 0 ? scaled(dryG, 1 / (area * days)) : null,
        nitrogenGPerDay: days > 0 ? (gone * unit.tissue.value) / days : 0,
        phosphorusGPerDay: days > 0 ? (gone * (phosphorus.units[place]?.tissue.value ?? 0)) / days : 0,
        lightYield: light && area !== null && light.molPerM2 > 0 ? dryG.value / (area * light.molPerM2) : null,
        dryGPerKWh: kWh > 0 ? dryG.value / kWh : null,
      };
    };
    if (first === undefined || last === undefined) return [cycleOf("neverWeighed", began, began)];
    // A harvest on the very day on which the log begins ends a growth of unknown length.
    const start = first > began ? [cycleOf("first", began, first)] : [cycleOf("first", first, first)].map((one) => ({ ...one, ...weighedAt(harvests, first) }));
    return last > first ? [...start, cycleOf("later", first, last)] : start;
  });
}

const weighedAt = (harvests: readonly HarvestEntry[], day: number): Pick<ScreenCycles, "harvests" | "drainedG"> => ({
  harvests: 1,
  drainedG: harvests.filter((harvest) => harvest.day === day).reduce((sum, { drainedG }) => sum + drainedG, 0),
});
