import fc from "fast-check";
import { logFrom } from "../../../src/functions/log-range";
import type { Log, SetUp } from "../../../src/science/budget/log";
import { periodsOf, type PeriodChoice } from "../../../src/science/budget/period";
import { budgetTerms, PARTS, type Part, type Terms } from "../../../src/science/budget/terms";
import { firstOrder, type FirstOrder } from "../../../src/science/budget/uncertainty";
import { FOODS } from "../../../src/science/constants/foods";
import { foodTable } from "../../../src/science/feed";
import type { Nutrient } from "../../../src/science/nutrient-forms";

/** At least so many random logs for every invariant. */
export const RUNS = 1000;
export const CHOICES: readonly PeriodChoice[] = ["harvest", "reading", "week", "month", "whole"];

/** A test's reading as limits, in whole micrograms a litre, so that mg/L and ug/L can both be written without rounding. */
export interface Limits {
  readonly low: number;
  readonly width: number;
}

/** One row of an invented log. Grams, litres; `fedBack`: share of the front harvest. */
export interface Day {
  /** Days since the row before, in quarters. */
  readonly quarters: number;
  readonly cod: number;
  readonly shrimp: number | null;
  readonly no3: Limits | null;
  readonly nh4: Limits | null;
  readonly po4: Limits | null;
  readonly front: number | null;
  readonly rear: number | null;
  readonly pressed: number | null;
  readonly fedBack: number | null;
  readonly change: number | null;
  readonly topUp: number | null;
  readonly dosed: number | null;
  readonly removed: number | null;
}

const amount = (most: number): fc.Arbitrary<number> => fc.double({ min: 0.01, max: most, noNaN: true });
const maybe = <T>(one: fc.Arbitrary<T>): fc.Arbitrary<T | null> => fc.option(one, { freq: 2 });
export const limits = (most: number): fc.Arbitrary<Limits> => fc.record({ low: fc.integer({ min: 0, max: most }), width: fc.integer({ min: 2, max: most }) });

const aDay: fc.Arbitrary<Day> = fc.record({
  quarters: fc.constantFrom(0, 2, 4, 4, 4, 12, 40),
  cod: fc.double({ min: 0, max: 20, noNaN: true }),
  shrimp: maybe(amount(20)),
  no3: maybe(limits(80_000)),
  nh4: maybe(limits(2_000)),
  po4: maybe(limits(2_000)),
  front: maybe(amount(500)),
  rear: maybe(amount(300)),
  pressed: maybe(amount(200)),
  fedBack: maybe(fc.double({ min: 0, max: 1, noNaN: true })),
  change: maybe(amount(150)),
  topUp: maybe(amount(20)),
  dosed: maybe(amount(2)),
  removed: maybe(amount(2)),
});

/** Two to sixteen rows over a day at least, with a nitrate and a phosphate test in the first one. */
export const aLog: fc.Arbitrary<readonly Day[]> = fc
  .tuple(fc.array(aDay, { minLength: 1, maxLength: 15 }), aDay, limits(80_000), limits(2_000))
  .map(([days, last, no3, po4]) => [...days, { ...last, quarters: Math.max(4, last.quarters) }].map((day, place) => (place === 0 ? { ...day, no3, po4 } : day)));

export const FIRST_DAY = 46_000;
/** Day of each row, Excel serial. */
export const daysOf = (log: readonly Day[]): number[] => log.map((_, place) => FIRST_DAY + log.slice(1, place + 1).reduce((sum, day) => sum + day.quarters, 0) / 4);

/** How a keeper may write the same log: heading units, and what to multiply a gram, a litre, a microgram a litre of each test by. */
export interface Units {
  readonly mass: readonly [unit: string, perG: number];
  readonly volume: readonly [unit: string, perL: number];
  readonly no3: readonly [heading: string, perUg: number];
  readonly nh4: readonly [heading: string, perUg: number];
  readonly po4: readonly [heading: string, perUg: number];
}
export const PLAIN: Units = { mass: ["g", 1], volume: ["L", 1], no3: ["NO3 (mg/L)", 1e-3], nh4: ["NH4 (mg/L)", 1e-3], po4: ["PO4 (mg/L)", 1e-3] };

/** The log as cells. `scale` multiplies every mass and every volume, not the concentrations. */
export function cellsOf(log: readonly Day[], units: Units = PLAIN, scale = 1): unknown[][] {
  const [[g, perG], [l, perL]] = [units.mass, units.volume];
  const mass = (value: number | null): unknown => (value === null ? "" : value * scale * perG);
  const volume = (value: number | null): unknown => (value === null ? "" : value * scale * perL);
  const reading = (value: Limits | null, perUg: number): unknown => (value === null ? "" : `${written(value.low * perUg)}-${written((value.low + value.width) * perUg)}`);
  const head = [
    "Date", `Feed Cod (${g})`, `Feed Shrimp, untreated (${g})`, units.no3[0], units.nh4[0], units.po4[0], `Harvest front (${g})`, `Harvest rear (${g})`, `Harvest rear pressed (${g})`,
    `Fed back front (${g})`, `Water change (${l})`, `Top-up (${l})`, `Dosed N (${g})`, `Dosed P (${g})`, `Removed N (${g})`, `Removed P (${g})`,
  ];
  const days = daysOf(log);
  const lines = log.map((day, place) => [
    days[place], mass(day.cod), mass(day.shrimp), reading(day.no3, units.no3[1]), reading(day.nh4, units.nh4[1]), reading(day.po4, units.po4[1]), mass(day.front), mass(day.rear), mass(day.pressed),
    day.front === null || day.fedBack === null ? "" : mass(day.front * day.fedBack), volume(day.change), volume(day.topUp),
    mass(day.dosed), mass(day.dosed), mass(day.removed), mass(day.removed),
  ]);
  return [head, ...lines];
}

/** Enough decimals for any of the factors, and never an exponent. */
const written = (value: number): string => value.toFixed(12);

export type SetUpRow = readonly [string, unknown];
export const setUpOf = (scale = 1, more: readonly SetUpRow[] = [], [unit, perL]: readonly [string, number] = PLAIN.volume): unknown[][] =>
  [[`Volume (${unit})`, 200 * scale * perL], ["Lit area front (m2)", 0.05 * scale], ["Lit area rear (m2)", 0.03 * scale], ["New water NO3 (mg/L)", 2], ["Top-up NO3 (mg/L)", "0.5-1.5"], ["Top-up PO4 (mg/L)", 0.1], ...more].map((row) => [...row]);

const TABLE = foodTable(FOODS);

export interface Read {
  readonly log: Log;
  readonly setUp: SetUp;
}
export const read = (cells: unknown[][], setUp: unknown[][], nutrient: Nutrient = "N"): Read => logFrom(cells, setUp, nutrient, TABLE);

export interface Figures extends Terms {
  readonly results: readonly FirstOrder[];
}

/** The account by first order, which is exact algebra: no draws. */
export function figures({ log, setUp }: Read, choice: PeriodChoice): Figures {
  const terms = budgetTerms(log, setUp, periodsOf(log, setUp, choice));
  return { ...terms, results: terms.periods.map((period) => firstOrder(period, terms.quantities)) };
}

export const total = (results: readonly FirstOrder[], part: Part): number => results.reduce((sum, one) => sum + one.parts[part], 0);

/** What a difference is compared with: all that moved. */
export const size = (results: readonly FirstOrder[]): number => 1 + results.reduce((sum, { parts }) => sum + PARTS.reduce((all, part) => all + Math.abs(parts[part]), 0), 0);

export const expectNear = (found: number, wanted: number, scale: number): void => {
  if (!(Math.abs(found - wanted) <= 1e-9 * scale)) throw new Error(`${found} is not ${wanted} to within 1e-9 of ${scale}`);
};

/** Every figure and uncertainty of one account is `factor` times that of another. */
export function expectSame(found: readonly FirstOrder[], wanted: readonly FirstOrder[], factor = 1): void {
  expect(found).toHaveLength(wanted.length);
  const scale = factor * size(wanted);
  found.forEach((one, place) => {
    const other = wanted[place] as FirstOrder;
    for (const part of PARTS) expectNear(one.parts[part], factor * other.parts[part], scale);
    for (const key of ["unexplained", "expected", "u"] as const) expectNear(one[key], factor * other[key], scale);
  });
}
