import { ION, outlookFrom, SEED } from "../../functions/forecast-arguments";
import { columnOf } from "../../functions/log-headings";
import { lowerBound } from "../../science/budget/concentration";
import { lightSum } from "../../science/budget/light-sum";
import type { Log, ReadingEntry, ReadingSeries, ScreenUnit } from "../../science/budget/log";
import { LIMITS } from "../../science/constants/limits";
import { feedLoadG } from "../../science/feed";
import { outlookRange, repeated, settled, type Outlook, type Spread } from "../../science/forecast/range";
import { substanceOf, type Nutrient } from "../../science/nutrient-forms";
import { rectangular } from "../../science/uncertain";
import { budgetView } from "../../words/budget-view";
import { forecast } from "../../words/forecast";
import type { AccountView } from "./account";
import { daysSinceHarvest, usualInterval } from "./harvest-due";

const words = budgetView.ahead;

/** What the sliders say: food in per cent more or less, lit area in times of what there is, hours a day, per cent of the water a week. */
export interface WhatIf {
  readonly foodPercent: number;
  readonly areaTimes: number;
  readonly hours: number;
  readonly changePercent: number;
}

/** A tank to look ahead in, as the log has it on its last day. */
export interface AheadBasis {
  readonly outlook: Outlook;
  readonly asItIs: WhatIf;
  /** Light sum for an hour lit, mol m-2. */
  readonly molPerM2Hour: number;
  readonly loadDays: number;
  readonly harvestEvery: number;
  readonly sinceHarvest: number;
}

export type Basis = { readonly kind: "ready"; readonly basis: AheadBasis } | { readonly kind: "not"; readonly sentence: string };

export interface AheadPoint {
  readonly day: number;
  /** mg/L of NO3 and of PO4. */
  readonly reading: Readonly<Record<Nutrient, Spread>>;
}

export interface Ahead {
  readonly points: readonly AheadPoint[];
  /** mg/L of NO3 and of PO4; Infinity: without limit. */
  readonly settles: Readonly<Record<Nutrient, number>>;
}

export const DAYS_AHEAD = 56;
export const MOMENTS: readonly number[] = Array.from({ length: 15 }, (_, place) => 4 * place);
/** Water changes are averaged over eight weeks, so that a monthly change counts. */
const CHANGE_DAYS = 56;
const FORMS = { N: "NO3", P: "PO4" } as const;
const SUBSTANCE = { N: "nitrate", P: "phosphate" } as const;
const USUAL_HARVEST_DAYS = 10;

/** @throws Problem where a figure of the set-up cannot be used */
export function aheadBasis({ accounts }: Pick<AccountView, "accounts">): Basis {
  const { log, setUp } = accounts.N;
  const lamps = lampsNow(accounts);
  if ("missing" in lamps) return { kind: "not", sentence: words.missing(lamps.missing) };
  const start = { N: lastReading(accounts.N.log, "N"), P: lastReading(accounts.P.log, "P") };
  for (const nutrient of ["N", "P"] as const) {
    const reading = start[nutrient]?.entry.reading;
    if (!reading) return { kind: "not", sentence: words.noReading(FORMS[nutrient]) };
    if (reading.censored === "above") return { kind: "not", sentence: words.cannot(forecast.readingOpen(FORMS[nutrient])) };
  }
  const loadDays = Math.min(LIMITS.loadDays.value, log.lastDay - log.firstDay);
  const load = (nutrient: Nutrient): number => loadGPerDay(accounts[nutrient].log, nutrient, setUp.retainedShare.value, loadDays);
  const [harvestEvery, sinceHarvest] = [usualInterval(log, setUp) ?? USUAL_HARVEST_DAYS, daysSinceHarvest(log, setUp) ?? 0];
  const from = ({ entry: { reading } }: { entry: ReadingEntry }) => rectangular(reading.low, reading.high);
  const outlook = outlookFrom(
    {
      // The readings come from the log below, where they are known with their limits.
      no3: 1, po4: 1, volumeL: setUp.volumeL.value, loadN: load("N"), loadP: load("P"), litAreaM2: lamps.litAreaM2, light: lamps.molPerM2Day,
      harvestEvery: 0, changeEvery: 0, changeShare: 0, temperatureC: temperatureNow(log) ?? setUp.usual.temperatureC, setting: null,
    },
    DAYS_AHEAD,
  );
  if (!outlook || !start.N || !start.P) return { kind: "not", sentence: words.noReading(FORMS.N) };
  const litres = log.changes.filter(({ day }) => day > log.lastDay - CHANGE_DAYS).reduce((sum, change) => sum + change.litres, 0);
  const weeks = Math.min(CHANGE_DAYS, log.lastDay - log.firstDay) / 7;
  const asItIs = { foodPercent: 0, areaTimes: 1, hours: Math.round(2 * lamps.hours) / 2, changePercent: Math.min(50, Math.round((100 * litres) / setUp.volumeL.value / weeks)) };
  const started = { ...outlook, start: { N: from(start.N), P: from(start.P) }, incoming: { N: start.N.series.incomingMgPerL.value, P: start.P.series.incomingMgPerL.value }, daysSinceHarvest: sinceHarvest };
  return { kind: "ready", basis: { outlook: started, asItIs, molPerM2Hour: lamps.molPerM2Day / lamps.hours, loadDays, harvestEvery, sinceHarvest } };
}

/** The tank with the sliders as they stand. */
export function outlookWith({ outlook, molPerM2Hour, harvestEvery, sinceHarvest }: AheadBasis, { foodPercent, areaTimes, hours, changePercent }: WhatIf): Outlook {
  const food = 1 + foodPercent / 100;
  return {
    ...outlook,
    loadGPerDay: { N: outlook.loadGPerDay.N * food, P: outlook.loadGPerDay.P * food },
    litAreaM2: outlook.litAreaM2 * areaTimes,
    lightMolPerM2Day: molPerM2Hour * hours,
    harvestEveryDays: harvestEvery,
    changes: changePercent > 0 ? [{ share: changePercent / 100, everyDays: 7 }] : [],
    events: [
      // An overdue harvest is made on the next day.
      ...repeated(harvestEvery, DAYS_AHEAD, (day) => ({ day, kind: "harvest" }), Math.max(1, harvestEvery - sinceHarvest)),
      ...(changePercent > 0 ? repeated(7, DAYS_AHEAD, (day) => ({ day, kind: "change" as const, share: changePercent / 100 })) : []),
    ],
  };
}

/** Readings ahead as ranges, by as many seeded draws: the same for the same sliders. */
export function lookAhead(basis: AheadBasis, whatIf: WhatIf, draws: number): Ahead {
  const outlook = outlookWith(basis, whatIf);
  const inForm = ({ low, middle, high }: Spread, nutrient: Nutrient): Spread => {
    const [l = 0, m = 0, h = 0] = [low, middle, high].map((value) => Math.max(0, value) / ION[nutrient]);
    return { low: l, middle: m, high: h };
  };
  const rest = settled(outlook);
  return {
    points: outlookRange(outlook, MOMENTS, draws, SEED).map(({ day, reading }) => ({ day, reading: { N: inForm(reading.N, "N"), P: inForm(reading.P, "P") } })),
    settles: { N: rest.N / ION.N, P: rest.P / ION.P },
  };
}

/** Mean grams a day that came in over the last days, less what the animals keep of the food. */
function loadGPerDay(log: Log, nutrient: Nutrient, retainedShare: number, days: number): number {
  const since = log.lastDay - days;
  const fed = log.feeds.slice(lowerBound(log.feeds, ({ day }) => day > since)).reduce((sum, { massG, food }) => sum + feedLoadG(massG, food, nutrient, retainedShare), 0);
  const other = log.otherIn.filter(({ day }) => day > since).reduce((sum, { grams }) => sum + grams, 0);
  return (fed + other) / days;
}

function lastReading({ series }: Log, nutrient: Nutrient): { series: ReadingSeries; entry: ReadingEntry } | null {
  const found = series.find(({ name, entries }) => {
    const column = columnOf(name);
    return entries.length > 0 && column.kind === "reading" && substanceOf(column.basis.form) === SUBSTANCE[nutrient];
  });
  const entry = found?.entries.at(-1);
  return found && entry ? { series: found, entry } : null;
}

const temperatureNow = ({ conditions }: Log): number | null => conditions.filter(({ temperatureC }) => temperatureC !== null).at(-1)?.temperatureC ?? null;

/** Lit area of all screens that run, with their lamps as they are on the log's last day; or the rows that the set-up lacks. */
function lampsNow({ N: { log, setUp } }: AccountView["accounts"]): { litAreaM2: number; molPerM2Day: number; hours: number } | { missing: string[] } {
  const running = [...setUp.units.entries()].filter(([, unit]) => (unit.startedDay ?? log.firstDay) <= log.lastDay);
  const missing = lacking(log, running);
  let [litAreaM2, mol, hours] = [0, 0, 0];
  for (const [place, unit] of running) {
    const light = lightSum(log, setUp, place, log.lastDay, log.lastDay + 1);
    litAreaM2 += unit.litAreaM2 ?? 0;
    mol += (unit.litAreaM2 ?? 0) * (light?.molPerM2 ?? 0);
    hours += (unit.litAreaM2 ?? 0) * (light?.hours ?? 0);
  }
  if (missing.length > 0 || !(litAreaM2 > 0)) return { missing: missing.length > 0 ? missing : [words.row.area("")] };
  // Dimming counts as fewer hours. Lamps that are off on the last day tell nothing of what an hour of them brings.
  if (!(hours > 0)) return { missing: [words.row.hours("")] };
  return { litAreaM2, molPerM2Day: mol / litAreaM2, hours: hours / litAreaM2 };
}

/** Rows that the set-up lacks; one row without a name serves where every screen lacks it. */
function lacking({ light }: Log, running: readonly (readonly [number, ScreenUnit])[]): string[] {
  const logged = (place: number, of: "umolPerM2S" | "hoursPerDay"): boolean => light.some((change) => (change.unit === null || change.unit === place) && change[of] !== null);
  const { area, light: lightRow, hours } = words.row;
  const wanted: [(screen: string) => string, (place: number, unit: ScreenUnit) => boolean][] = [
    [area, (_place, unit) => unit.litAreaM2 === null],
    [lightRow, (place, unit) => unit.umolPerM2S === null && !logged(place, "umolPerM2S")],
    [hours, (place, unit) => unit.hoursPerDay === null && !logged(place, "hoursPerDay")],
  ];
  return wanted.flatMap(([row, lacks]) => {
    const lacked = running.filter(([place, unit]) => lacks(place, unit));
    return lacked.length === running.length && lacked.length > 0 && row !== area ? [row("")] : lacked.map(([, unit]) => row(unit.name));
  });
}
