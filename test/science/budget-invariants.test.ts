import fc from "fast-check";
import { logFrom } from "../../src/functions/log-range";
import { budgetTerms } from "../../src/science/budget/terms";
import { periodsOf } from "../../src/science/budget/period";
import { firstOrder } from "../../src/science/budget/uncertainty";
import { FOODS } from "../../src/science/constants/foods";
import { foodTable } from "../../src/science/feed";
import { rows } from "../call";

/** Invariants of the nutrient model (model section 9), over invented random logs. */
const FEED = 2, LEFT = 8, U = 9;
const FIGURES = [2, 3, 4, 5, 6, 7, 8];

interface Day {
  feed: number;
  reading: number | null;
  harvest: number | null;
  rear: number | null;
  change: number | null;
  removed: number | null;
}

const maybe = (most: number): fc.Arbitrary<number | null> => fc.option(fc.double({ min: 0.01, max: most, noNaN: true }), { freq: 3 });
const aDay: fc.Arbitrary<Day> = fc.record({
  feed: fc.double({ min: 0, max: 20, noNaN: true }),
  reading: maybe(80),
  harvest: maybe(500),
  rear: maybe(300),
  change: maybe(60),
  removed: maybe(2),
});
/** At least two days, a reading on the first and the last. */
const aLog = fc.tuple(fc.array(aDay, { minLength: 2, maxLength: 40 }), fc.double({ min: 0.1, max: 80, noNaN: true }), fc.double({ min: 0.1, max: 80, noNaN: true }));

type Logged = [Day[], number, number];
const HEAD = ["Date", "Food", "Feed (g)", "NO3 (mg/L)", "Harvest (g)", "Harvest rear (g)", "Water change (L)", "Removed N (g)"];

function lines([days, first, last]: Logged, scale = 1): unknown[][] {
  return days.map((day, place) => {
    const reading = place === 0 ? first : place === days.length - 1 ? last : day.reading;
    return [46000 + place, "Cod", day.feed * scale, reading === null || reading === 0 ? "" : reading, ...[day.harvest, day.rear].map((g) => (g === null ? "" : g * scale)), day.change === null ? "" : day.change * scale, day.removed === null ? "" : day.removed * scale];
  });
}
const setUp = (volume = 200, extra: unknown[][] = []): unknown[][] => [["Volume (L)", volume], ["Lit area (m2)", 0.05], ["New water NO3 (mg/L)", 2], ...extra];
const budget = (body: unknown[][], set = setUp(), period = "week"): number[][] => rows("BUDGET_N", [HEAD, ...body], set, period, null, false) as number[][];
const close = (a: number, b: number, size: number): void => expect(Math.abs(a - b)).toBeLessThanOrEqual(1e-9 * Math.max(1, size));
const check = (property: (log: Logged) => void): void => fc.assert(fc.property(aLog, (log) => property(log as Logged)), { numRuns: 100, endOnFailure: true });

test("mass in = mass out + change in store + unexplained, exactly", () =>
  check((log) => {
    for (const [, , feed, otherIn, harvest, change, otherOut, store, left] of budget(lines(log)) as any[]) {
      close(feed + otherIn - harvest - change - otherOut - store, left, feed + harvest + Math.abs(store));
    }
  }));

test("the sum over periods is the sum over the log, whatever the periods", () =>
  check((log) => {
    const whole = budget(lines(log), setUp(), "whole")[0] ?? [];
    for (const period of ["harvest", "reading", "week", "month"]) {
      const parts = budget(lines(log), setUp(), period);
      for (const column of FIGURES) close(parts.reduce((sum, row) => sum + (row[column] ?? NaN), 0), whole[column] ?? NaN, 1e3);
    }
  }));

test("the feed of a log is the sum of its rows, none lost", () =>
  check((log) => {
    const fed = log[0].reduce((sum, day) => sum + day.feed, 0);
    close(budget(lines(log)).reduce((sum, row) => sum + (row[FEED] ?? NaN), 0), fed * (0.1781 / 6.25) * 0.95, fed);
  }));

test("doubling every mass and the water doubles every figure", () =>
  check((log) => {
    const [once, twice] = [budget(lines(log)), budget(lines(log, 2), setUp(400, [["Lit area rear (m2)", 0.1]]).map(([key, value]) => (key === "Lit area (m2)" ? [key, 0.1] : [key, value])) as unknown[][])];
    once.forEach((row, place) => FIGURES.forEach((column) => close(2 * (row[column] ?? NaN), twice[place]?.[column] ?? NaN, 1e3)));
  }));

test("the order of the rows changes nothing", () =>
  check((log) => {
    const body = lines(log);
    const shuffled = [...body].sort((a, b) => ((a[0] as number) * 7919) % 101 - ((b[0] as number) * 7919) % 101);
    expect(budget(shuffled)).toEqual(budget(body));
  }));

test("an uncertainty is never negative, and does not shrink when the volume, the feed or the kit is less sure", () =>
  check((log) => {
    // By first order, where it is exact: drawn spreads carry their sampling error.
    const uncertainties = (extra: unknown[][]): number[] => {
      const { log: read, setUp: set } = logFrom([HEAD, ...lines(log)], setUp(200, extra), "N", foodTable(FOODS));
      const { quantities, periods } = budgetTerms(read, set, periodsOf(read, set, "week"));
      return periods.map((period) => firstOrder(period, quantities).u);
    };
    const sure: unknown[][] = [["Volume error", 0.02], ["Feed error", 0.02], ["NO3 kit error", 0.02]];
    const before = uncertainties(sure);
    for (const wider of sure.map(([key]) => [key, 0.3])) {
      uncertainties([...sure.filter(([key]) => key !== wider[0]), wider]).forEach((u, place) => {
        expect(before[place]).toBeGreaterThanOrEqual(0);
        expect(u).toBeGreaterThanOrEqual((before[place] ?? NaN) * (1 - 1e-12));
      });
    }
    for (const row of budget(lines(log))) expect(row[U]).toBeGreaterThanOrEqual(0);
  }));

test("a reading stated as NO3-N gives the same account as the same water stated as NO3", () =>
  check((log) => {
    const asN = lines(log).map((row) => row.map((cell, place) => (place === 3 && cell !== "" ? `${(cell as number) * 0.9 * 0.2259047803367525}-${(cell as number) * 1.1 * 0.2259047803367525}` : cell)));
    const asIon = lines(log).map((row) => row.map((cell, place) => (place === 3 && cell !== "" ? `${(cell as number) * 0.9}-${(cell as number) * 1.1}` : cell)));
    const head = HEAD.map((heading) => (heading === "NO3 (mg/L)" ? "NO3-N (mg/L)" : heading));
    const set = [["Volume (L)", 200], ["Lit area (m2)", 0.05]];
    const [n, ion] = [rows("BUDGET_N", [head, ...asN], set, "week", null, false) as number[][], budget(asIon, set)];
    n.forEach((row, place) => close(row[LEFT] ?? NaN, ion[place]?.[LEFT] ?? NaN, 1e3));
  }));
