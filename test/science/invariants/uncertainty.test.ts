import fc from "fast-check";
import type { PeriodTerms } from "../../../src/science/budget/terms";
import { firstOrder, monteCarlo } from "../../../src/science/budget/uncertainty";
import { draw, exact, expectation, rectangular, triangular, withinShare, type Uncertain } from "../../../src/science/uncertain";
import { aLog, cellsOf, CHOICES, figures, read, RUNS, setUpOf, type Day, type SetUpRow } from "./random-log";

/** Invariants of the uncertainty: it is never negative, and knowing less never makes a figure surer. */
const aChoice = fc.constantFrom(...CHOICES);
const share = (least: number, most: number): fc.Arbitrary<number> => fc.double({ min: least, max: most, noNaN: true });
const expectNotSmaller = (wider: readonly { u: number }[], before: readonly { u: number }[]): void => {
  expect(wider).toHaveLength(before.length);
  before.forEach(({ u }, place) => {
    expect(u).toBeGreaterThanOrEqual(0);
    expect(wider[place]?.u).toBeGreaterThanOrEqual(u * (1 - 1e-9));
  });
};

const SHARES = ["Volume error", "Feed error", "Harvest error", "Water change error", "NO3 kit error", "NH4 kit error", "PO4 kit error"];
/** Figures that a keeper states with limits on both sides of it. */
const LIMITED: readonly (readonly [key: string, value: number])[] = [
  ["Dry fraction front", 0.08], ["Dry fraction rear", 0.09], ["Dry fraction pressed rear", 0.15], ["Tissue N front", 0.035], ["Tissue N rear", 0.03], ["Tissue P front", 0.0035], ["Tissue P rear", 0.003],
];
const statedWithin = (shares: Readonly<Record<string, number>>): SetUpRow[] => [
  ...SHARES.map((key): SetUpRow => [key, shares[key]]),
  ...LIMITED.flatMap(([key, value]): SetUpRow[] => [[key, value], [`${key} low`, value * (1 - (shares[key] ?? 0))], [`${key} high`, value * (1 + (shares[key] ?? 0))]]),
];
const keys = [...SHARES, ...LIMITED.map(([key]) => key)];
const narrow = fc.record(Object.fromEntries(keys.map((key) => [key, share(0.01, 0.4)])));

test("it never shrinks when an error or a pair of limits in the set-up grows", () =>
  fc.assert(fc.property(aLog, aChoice, fc.constantFrom("N" as const, "P" as const), narrow, fc.constantFrom(...keys), share(1, 2), (log, choice, nutrient, shares, key, factor) => {
    const u = (of: Readonly<Record<string, number>>): readonly { u: number }[] => figures(read(cellsOf(log), setUpOf(1, statedWithin(of)), nutrient), choice).results;
    expectNotSmaller(u({ ...shares, [key]: (shares[key] ?? 0) * factor }), u(shares));
  }), { numRuns: RUNS }));

/**
 * A test's limits moved apart by the same on both sides, as far as nothing is below zero. A second reading of one moment is
 * left alone: the limits of their mean are cut off at zero, which moves its middle, and a smaller reading is surer in grams.
 */
const wider = (log: readonly Day[], which: "no3" | "nh4" | "po4", place: number, part: number): Day[] =>
  log.map((day, at) => {
    const known = day[which];
    const alone = (at === 0 || day.quarters > 0) && (log[at + 1]?.quarters ?? 1) > 0;
    if (!known || !alone || at !== place % log.length) return day;
    const more = Math.floor(known.low * part);
    return { ...day, [which]: { low: known.low - more, width: known.width + 2 * more } };
  });

test("it never shrinks when a test is read less closely", () =>
  fc.assert(fc.property(aLog, aChoice, fc.constantFrom("no3" as const, "nh4" as const, "po4" as const), fc.nat(30), share(0, 1), (log, choice, which, place, part) => {
    const u = (of: readonly Day[]): readonly { u: number }[] => figures(read(cellsOf(of), setUpOf(), which === "po4" ? "P" : "N"), choice).results;
    expectNotSmaller(u(wider(log, which, place, part)), u(log));
  }), { numRuns: RUNS }));

test("any one quantity less sure: the account is no surer, and the surest has no uncertainty but that of its weighings", () =>
  fc.assert(fc.property(aLog, aChoice, fc.nat(1000), share(0, 3), (log, choice, which, more) => {
    const { quantities, periods, results } = figures(read(cellsOf(log), setUpOf()), choice);
    const u = (of: readonly Uncertain[], place: number): number => firstOrder(periods[place] as PeriodTerms, of).u;
    const loose = quantities.map((one, place) => (place === which % quantities.length ? { ...one, u: one.u * (1 + more) } : one));
    results.forEach((one, place) => {
      expect(u(loose, place)).toBeGreaterThanOrEqual(one.u * (1 - 1e-12));
      const own = Object.values(periods[place]?.ownVariance ?? {}).reduce((sum, variance) => sum + variance, 0);
      expect(u(quantities.map((quantity) => ({ ...quantity, u: 0 })), place)).toBeCloseTo(Math.sqrt(own), 12);
    });
  }), { numRuns: RUNS }));

test("drawn: never negative, limits in order, and the same seed gives the same", () =>
  fc.assert(fc.property(aLog, aChoice, fc.integer(), (log, choice, seed) => {
    const { quantities, periods } = figures(read(cellsOf(log), setUpOf()), choice);
    const [spreadOf, again] = [monteCarlo(quantities, 40, seed), monteCarlo(quantities, 40, seed)];
    for (const period of periods.slice(0, 3)) {
      const { u, low, high } = spreadOf(period);
      expect(u).toBeGreaterThanOrEqual(0);
      expect(low).toBeLessThanOrEqual(high);
      expect(again(period)).toEqual({ u, low, high });
    }
  }), { numRuns: RUNS }));

const three = fc.tuple(share(1e-6, 1e3), share(1e-6, 1e3), share(1e-6, 1e3)).map((values) => [...values].sort((a, b) => a - b) as [number, number, number]);
test("a quantity's u is the least when it is exact, grows with its limits and is never more than half of their distance; draws keep within them", () =>
  fc.assert(fc.property(three, share(0, 1), share(1, 3), ([low, value, high], p, factor) => {
    for (const one of [triangular({ low, value, high }), rectangular(low, high), withinShare(value, 0.3), exact(value)]) {
      expect(one.u).toBeGreaterThanOrEqual(0);
      expect(one.u).toBeLessThanOrEqual((one.high - one.low) / 2 + 1e-9);
      const drawn = draw(one, () => p);
      expect(drawn).toBeGreaterThanOrEqual(one.low - 1e-9);
      expect(drawn).toBeLessThanOrEqual(one.high + 1e-9);
      expect(expectation(one)).toBeGreaterThanOrEqual(one.low - 1e-9);
      expect(expectation(one)).toBeLessThanOrEqual(one.high + 1e-9);
    }
    expect(triangular({ low: value - (value - low) * factor, value, high: value + (high - value) * factor }).u).toBeGreaterThanOrEqual(triangular({ low, value, high }).u * (1 - 1e-9));
    expect(rectangular(low - factor, high + factor).u).toBeGreaterThan(rectangular(low, high).u);
  }), { numRuns: RUNS }));
