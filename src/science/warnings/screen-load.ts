import { lowerBound } from "../budget/concentration";
import { lightSum } from "../budget/light-sum";
import { ALGAE } from "../constants/algae";
import { LIMITS } from "../constants/limits";
import { feedLoadG } from "../feed";
import { capacityGPerDay } from "../sizing";
import { warning, type Accounts, type WarningOf } from "./warning";

/** A shorter log says little about the usual feed. */
const LEAST_DAYS = 7;
const REFERENCE_C = 25;

/**
 * Nitrogen fed a day over the last weeks, against the most that all screens together take up at the top of every range:
 * light yield, growth, tissue N. Nothing is said where a screen's lit area or light is not known.
 */
export function loadWarnings({ N: { log, setUp } }: Accounts): WarningOf<"FEED_ABOVE_CAPACITY">[] {
  const to = log.lastDay;
  const from = Math.max(log.firstDay, to - LIMITS.loadDays.value);
  const days = to - from;
  if (days < LEAST_DAYS) return [];
  const feeds = log.feeds.slice(lowerBound(log.feeds, (feed) => feed.day > from));
  const loadG = feeds.reduce((sum, { massG, food }) => sum + feedLoadG(massG, food, "N", setUp.retainedShare.value), 0) / days;
  let [capacityG, running] = [0, 0];
  for (const [place, unit] of setUp.units.entries()) {
    const since = Math.max(from, unit.startedDay ?? from);
    if (since >= to) continue;
    const light = lightSum(log, setUp, place, since, to);
    if (unit.litAreaM2 === null || !light) return [];
    const conditions = { loadNGPerDay: loadG, loadPGPerDay: 0, targetNMgPerL: null, targetPMgPerL: null, temperatureC: setUp.usual.temperatureC ?? REFERENCE_C, setting: "outdoor" } as const;
    running += 1;
    capacityG += capacityGPerDay(unit.litAreaM2, unit.tissue.high, { ...conditions, lightMolPerM2Day: light.molPerM2 / (to - since) }, ALGAE.lightYield.high);
  }
  return running > 0 && loadG > capacityG ? [warning("FEED_ABOVE_CAPACITY", "caution", null, { loadG, capacityG, days })] : [];
}
