import { ALGAE, GROWTH_BAND, type Setting } from "../constants/algae";
import type { Nutrient } from "../nutrient-forms";
import { quantileOfSorted, seededRandom } from "../seeded";
import { growthFor } from "../sizing";
import { draw, rectangular, triangular, withinShare, type Uncertain } from "../uncertain";
import { harvestInterval, meanGrowthGPerM2Day, usualRegrowth } from "../harvest-interval";
import { usualCrop } from "./crop";
import { exchangePerDay, steadyBoth } from "./steady";
import { COARSE, FINE, forecast, type ForecastCase, type ForecastEvent, type ForecastPoint } from "./model";

/** A tank as its keeper knows it: readings with their limits, loads in g of the element a day, a lit area and its light. */
export interface Outlook {
  readonly volumeL: number;
  /** mg of the element per litre. */
  readonly start: Readonly<Record<Nutrient, Uncertain>>;
  readonly incoming: Readonly<Record<Nutrient, number>>;
  readonly loadGPerDay: Readonly<Record<Nutrient, number>>;
  /** By what share of itself the load may be off. */
  readonly loadShare: number;
  readonly litAreaM2: number;
  readonly lightMolPerM2Day: number;
  readonly temperatureC: number;
  readonly setting: Setting;
  readonly daysSinceHarvest: number;
  readonly events: readonly ForecastEvent[];
  /** What goes on for ever, which tells where the readings settle: days between harvests (0 for none), water changes. */
  readonly harvestEveryDays: number;
  readonly changes: readonly { readonly share: number; readonly everyDays: number }[];
}

export interface Spread {
  readonly low: number;
  readonly middle: number;
  readonly high: number;
}

export interface OutlookPoint {
  readonly day: number;
  readonly reading: Readonly<Record<Nutrient, Spread>>;
}

/**
 * Water comes to the screen and mixes in about an hour, so that no nutrient is used up faster than that (judgement). Without it a
 * large screen on little water would take steps of seconds, for readings that no test can tell from nothing.
 */
const MIXING_DAYS = 0.05;

interface Knobs {
  readonly lightYield: number;
  readonly band: number;
  readonly q10: number;
  readonly tissue: Readonly<Record<Nutrient, number>>;
  readonly half: Readonly<Record<Nutrient, number>>;
  readonly load: number;
  readonly start: Readonly<Record<Nutrient, number>>;
}

/** One case from one set of values; the growth is held by light and by the band of the setting, as in sizing. */
function caseOf(outlook: Outlook, knobs: Knobs): ForecastCase {
  // Scarcity is the model's own from day to day, so none is in the growth.
  const growth = growthFor({ ...outlook, targetNMgPerL: null, targetPMgPerL: null }, { ...knobs, halfN: knobs.half.N, halfP: knobs.half.P });
  const uptake = (nutrient: Nutrient): number => 1000 * outlook.litAreaM2 * growth * knobs.tissue[nutrient];
  const load = (nutrient: Nutrient): number => 1000 * outlook.loadGPerDay[nutrient] * knobs.load;
  return {
    volumeL: outlook.volumeL,
    start: knobs.start,
    load: { N: load("N"), P: load("P") },
    uptakeMost: { N: uptake("N"), P: uptake("P") },
    halfSaturation: { N: Math.max(knobs.half.N, (uptake("N") * MIXING_DAYS) / outlook.volumeL), P: Math.max(knobs.half.P, (uptake("P") * MIXING_DAYS) / outlook.volumeL) },
    exchangePerDay: 0,
    incoming: outlook.incoming,
    crop: usualCrop(outlook.daysSinceHarvest),
    events: outlook.events,
  };
}

/** The case at the likely value of every constant. */
export function likelyCase(outlook: Outlook): ForecastCase {
  return caseOf(outlook, {
    lightYield: ALGAE.lightYield.value,
    band: GROWTH_BAND[outlook.setting].value,
    q10: ALGAE.q10.value,
    tissue: { N: ALGAE.tissueN.value, P: ALGAE.tissueP.value },
    half: { N: ALGAE.halfSaturationN.value, P: ALGAE.halfSaturationP.value },
    load: 1,
    start: { N: outlook.start.N.value, P: outlook.start.P.value },
  });
}

/**
 * Where both readings settle at the likely values if harvests and changes go on as they do, mg of the element per litre:
 * Infinity without limit, NaN where nothing comes in and nothing goes out, so that they stay as they are. Harvests count as
 * the mean growth at their interval, water changes as a steady exchange; single dated events do not count.
 */
export function settled(outlook: Outlook): Record<Nutrient, number> {
  const one = likelyCase(outlook);
  // A screen that is never harvested takes up nothing in the long run.
  const kept = outlook.harvestEveryDays > 0 ? meanGrowthGPerM2Day(usualRegrowth, outlook.harvestEveryDays) / harvestInterval(usualRegrowth).growthGPerM2Day : 0;
  const exchange = outlook.changes.reduce((sum, { share, everyDays }) => sum + exchangePerDay(share, everyDays), 0);
  return steadyBoth({ ...one, events: [], exchangePerDay: exchange, uptakeMost: { N: one.uptakeMost.N * kept, P: one.uptakeMost.P * kept } });
}

export const likelyForecast = (outlook: Outlook, days: readonly number[]): ForecastPoint[] => forecast(likelyCase(outlook), days, FINE);

/** Each draw of an outlook as a course of its own: `draws` courses over `days`, from the ranges of the constants, the load and the readings. */
export function drawnForecasts(outlook: Outlook, days: readonly number[], draws: number, seed: number): ForecastPoint[][] {
  const random = seededRandom(seed);
  const { low, high } = GROWTH_BAND[outlook.setting];
  const of = (quantity: Uncertain): number => draw(quantity, random);
  const given = { band: rectangular(low, high), load: withinShare(1, outlook.loadShare) };
  return Array.from({ length: draws }, () =>
    forecast(
      caseOf(outlook, {
        lightYield: of(LIGHT_YIELD),
        band: of(given.band),
        q10: of(Q10),
        tissue: { N: of(TISSUE_N), P: of(TISSUE_P) },
        half: { N: of(HALF_N), P: of(HALF_P) },
        load: of(given.load),
        start: { N: of(outlook.start.N), P: of(outlook.start.P) },
      }),
      days,
      COARSE,
    ),
  );
}

const LIGHT_YIELD = triangular(ALGAE.lightYield);
const Q10 = triangular(ALGAE.q10);
const TISSUE_N = triangular(ALGAE.tissueN);
const TISSUE_P = triangular(ALGAE.tissueP);
const HALF_N = triangular(ALGAE.halfSaturationN);
const HALF_P = triangular(ALGAE.halfSaturationP);

/** Readings ahead with 10, 50 and 90 % of seeded draws at each day. */
export function outlookRange(outlook: Outlook, days: readonly number[], draws: number, seed: number): OutlookPoint[] {
  const courses = drawnForecasts(outlook, days, draws, seed);
  const spread = (place: number, nutrient: Nutrient): Spread => spreadOf(courses.map((course) => course[place]?.reading[nutrient] ?? NaN));
  return days.map((day, place) => ({ day, reading: { N: spread(place, "N"), P: spread(place, "P") } }));
}

export function spreadOf(values: readonly number[]): Spread {
  const sorted = Float64Array.from(values).sort();
  return { low: quantileOfSorted(sorted, 0.1), middle: quantileOfSorted(sorted, 0.5), high: quantileOfSorted(sorted, 0.9) };
}

/** Events that repeat: the first after `every` days from the start. Nothing for an `every` of 0. */
export function repeated(every: number, until: number, make: (day: number) => ForecastEvent, firstAfter = every): ForecastEvent[] {
  if (!(every > 0)) return [];
  return Array.from({ length: Math.max(0, Math.floor((until - firstAfter) / every + 1e-9) + 1) }, (_, place) => make(firstAfter + place * every)).filter((event) => event.day >= 0);
}

/**
 * Days until a reading first meets a target, from above or from below, linear between the days; Infinity when it does not
 * within them.
 */
export function daysToTarget(course: readonly ForecastPoint[], nutrient: Nutrient, target: number): number {
  const first = course[0];
  if (!first) return Infinity;
  const side = Math.sign(first.reading[nutrient] - target);
  if (side === 0) return first.day;
  for (let place = 1; place < course.length; place += 1) {
    const [before, now] = [course[place - 1], course[place]];
    if (!before || !now) break;
    const [from, to] = [before.reading[nutrient], now.reading[nutrient]];
    if (Math.sign(to - target) !== side) return before.day + ((from - target) / (from - to)) * (now.day - before.day);
  }
  return Infinity;
}
