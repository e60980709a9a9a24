import { lowerBound } from "../budget/concentration";
import { lightSum } from "../budget/light-sum";
import type { LightEntry, Log, ScreenUnit, SetUp } from "../budget/log";
import { ALGAE } from "../constants/algae";
import { LIGHT_CEILING } from "../constants/light-ceiling";
import { LIMITS } from "../constants/limits";
import { growthGPerM2Day } from "../harvest";
import { fitRegrowth, LEAST_INTERVALS } from "../growth-fit";
import { harvestInterval, usualRegrowth } from "../harvest-interval";
import { Problem } from "../problem";
import { harvestGroups, type HarvestGroup } from "./harvest-groups";
import { latestOf, warning, type Accounts, type Warning, type WarningOf } from "./warning";

const LISTED = 5;
/** A curve is fitted to so many of the latest harvests: a screen of last year is another one. */
const FITTED = 30;
/** Growth of so many harvests must fall one after the other: by chance that happens once in 120 times. */
const FALLING = 5;

/** Warnings about single harvests and about when the next is due. */
export function harvestWarnings({ N }: Accounts): Warning[] {
  const { log, setUp } = N;
  const perScreen = harvestGroups(log, setUp).flatMap((groups, place): Warning[] => {
    const unit = setUp.units[place];
    if (!unit) return [];
    return [...aboveLight(log, setUp, place, unit, groups), ...growthTooHigh(unit, groups), ...growthFalling(unit, groups, setUp), ...firstHarvest(unit, groups), ...overdue(unit, groups, log.lastDay)];
  });
  return [...perScreen, ...fedBack(log)];
}

/** Dry mass over the light that fell on the screen: above the ceiling even at the lowest dry fraction no alga can have grown it. */
function aboveLight(log: Log, setUp: SetUp, place: number, { name, litAreaM2 }: ScreenUnit, groups: readonly HarvestGroup[]): WarningOf<"HARVEST_ABOVE_LIGHT">[] {
  if (litAreaM2 === null) return [];
  const found: WarningOf<"HARVEST_ABOVE_LIGHT">[] = [];
  const lights = lightSums(log, setUp, place, groups);
  groups.forEach((group, index) => {
    const mol = (lights[index] ?? 0) * litAreaM2;
    if (mol <= 0) return;
    const [ceiling, usualTop] = [LIGHT_CEILING.lightYieldMost.value, ALGAE.lightYield.high];
    if (group.dryLowG / mol > ceiling) found.push(warning("HARVEST_ABOVE_LIGHT", "serious", group, { screen: name, gPerMol: group.dryLowG / mol, most: ceiling }));
    else if (group.dryG / mol > usualTop) found.push(warning("HARVEST_ABOVE_LIGHT", "caution", group, { screen: name, gPerMol: group.dryG / mol, most: usualTop }));
  });
  return latestOf(found, LISTED);
}

/** Light sum of each harvest's own time, mol m-2; 0 where it is not known. The changes of the lamps are walked once. */
function lightSums(log: Log, setUp: SetUp, place: number, groups: readonly HarvestGroup[]): number[] {
  const changes = log.light.filter((change) => change.unit === null || change.unit === place);
  let inForce: LightEntry = { day: 0, row: 0, unit: place, umolPerM2S: null, hoursPerDay: null, level: null };
  let next = 0;
  return groups.map(({ since, day }) => {
    if (since === null || day <= since) return 0;
    for (let change = changes[next]; change && change.day <= since; change = changes[next]) {
      inForce = { ...inForce, umolPerM2S: change.umolPerM2S ?? inForce.umolPerM2S, hoursPerDay: change.hoursPerDay ?? inForce.hoursPerDay, level: change.level ?? inForce.level };
      next += 1;
    }
    const during = changes.slice(next, lowerBound(changes, (change) => change.day >= day));
    return lightSum({ light: [{ ...inForce, day: since }, ...during] }, setUp, place, since, day)?.molPerM2 ?? 0;
  });
}

/** More than any screen grows: serious where even the lowest dry fraction cannot bring it down. */
function growthTooHigh({ name, litAreaM2 }: ScreenUnit, groups: readonly HarvestGroup[]): WarningOf<"GROWTH_TOO_HIGH">[] {
  if (litAreaM2 === null) return [];
  const most = ALGAE.growthMost.value;
  const found = groups.flatMap((group) => {
    if (group.since === null || group.day <= group.since) return [];
    const days = group.day - group.since;
    const [low, likely] = [growthGPerM2Day(group.dryLowG, litAreaM2, days), growthGPerM2Day(group.dryG, litAreaM2, days)];
    return likely > most ? [warning("GROWTH_TOO_HIGH", low > most ? "serious" : "caution", group, { screen: name, growth: likely, most })] : [];
  });
  return latestOf(found, LISTED);
}

/** Each of the latest harvests grew more slowly than the one before, beyond the weighing, and a good part of the growth is gone. */
function growthFalling({ name }: ScreenUnit, groups: readonly HarvestGroup[], { harvestShare }: SetUp): WarningOf<"GROWTH_FALLING">[] {
  // A first harvest is start-up growth.
  const latest = groups.slice(1).slice(-FALLING);
  const last = latest[latest.length - 1];
  if (latest.length < FALLING || !last) return [];
  const perDay = latest.map(({ dryG, day, since }) => dryG / (day - (since ?? day)));
  const [first = 0, end = 0] = [perDay[0], perDay[FALLING - 1]];
  const falls = perDay.every((growth, place) => place === 0 || growth < (perDay[place - 1] ?? 0));
  const beyondWeighing = end * (1 + harvestShare) < first * (1 - harvestShare);
  return falls && beyondWeighing && end < LIMITS.fallenShare.value * first ? [warning("GROWTH_FALLING", "caution", last, { screen: name, from: first, to: end })] : [];
}

/** Only as long as no second harvest has come: then the first is history. */
function firstHarvest({ name }: ScreenUnit, groups: readonly HarvestGroup[]): WarningOf<"FIRST_HARVEST">[] {
  const [first, second] = groups;
  return first && !second ? [warning("FIRST_HARVEST", "note", first, { screen: name })] : [];
}

/**
 * Days since the last harvest beyond the stretch in which growth is within 5 % of the best. Where the screen's harvests tell no
 * curve of its own, the usual one counts, and nobody is called late who keeps to an interval of his own.
 */
function overdue({ name, litAreaM2 }: ScreenUnit, groups: readonly HarvestGroup[], lastDay: number): WarningOf<"HARVEST_OVERDUE">[] {
  const last = groups[groups.length - 1];
  if (!last) return [];
  const since = lastDay - last.day;
  const intervals = groups.slice(1).map(({ day, since: from }) => day - (from ?? day)).sort((a, b) => a - b);
  const own = ownLongest(groups, litAreaM2);
  const habit = intervals[(intervals.length - 1) >> 1] ?? 0;
  const longest = own ?? Math.max(harvestInterval(usualRegrowth).highDays, LIMITS.habitSlack.value * habit);
  return since > longest ? [warning("HARVEST_OVERDUE", "caution", last, { screen: name, since, longest, ownCurve: own !== null })] : [];
}

/** The longest good interval by the screen's own curve; null where its harvests tell none, or tell of one longer than any that was tried. */
function ownLongest(groups: readonly HarvestGroup[], litAreaM2: number | null): number | null {
  if (groups.length <= LEAST_INTERVALS) return null;
  const pairs = groups.slice(1).slice(-FITTED).map(({ dryG, day, since }) => ({ days: day - (since ?? day), dryGPerM2: dryG / (litAreaM2 ?? 1) }));
  try {
    const fit = fitRegrowth(pairs, "logistic");
    const { bestDays, highDays } = harvestInterval(fit);
    return bestDays <= fit.longestDays ? highDays : null;
  } catch (error) {
    if (error instanceof Problem) return null;
    throw error;
  }
}

/** Once for the log: what was fed back is no export, and harvests without an entry count in full. */
function fedBack({ harvests }: Log): WarningOf<"FED_BACK">[] {
  const some = harvests.filter((harvest) => harvest.fedBackShare > 0);
  const last = some[some.length - 1];
  if (!last) return [];
  const grams = some.reduce((sum, harvest) => sum + harvest.drainedG * harvest.fedBackShare, 0);
  return [warning("FED_BACK", "note", last, { grams, harvests: some.length })];
}
