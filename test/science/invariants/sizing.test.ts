import fc from "fast-check";
import type { Setting } from "../../../src/science/constants/algae";
import { areaNeeded, capacityGPerDay, habitAreaM2, shareCarried, type SizingCase } from "../../../src/science/sizing";
import { RUNS } from "./random-log";

/** Invariants of the screen's size: the same draws (one seed), so that only what was changed differs. */
const DRAWS = 30;
const between = (least: number, most: number): fc.Arbitrary<number> => fc.double({ min: least, max: most, noNaN: true });
const SETTINGS: readonly Setting[] = ["weak", "ordinary", "strong", "outdoor"];
const aCase: fc.Arbitrary<SizingCase> = fc.record({
  loadNGPerDay: between(0.001, 5),
  loadPGPerDay: between(0.0001, 1),
  lightMolPerM2Day: between(0.5, 60),
  targetNMgPerL: fc.option(between(0.001, 50)),
  targetPMgPerL: fc.option(between(0.001, 5)),
  temperatureC: between(15, 30),
  setting: fc.constantFrom(...SETTINGS),
  loadShare: between(0, 0.9),
});
const more = between(1, 10);
const QUANTILES = ["low", "middle", "high"] as const;
type Range = Readonly<Record<(typeof QUANTILES)[number], number>>;
const notLess = (bigger: Range, smaller: Range): void => {
  expect(QUANTILES.filter((one) => !(bigger[one] >= smaller[one] * (1 - 1e-12)))).toEqual([]);
};
const times = (found: Range, other: Range, factor: number): void => {
  expect(QUANTILES.filter((one) => !(Math.abs(found[one] / (factor * other[one]) - 1) < 1e-9))).toEqual([]);
};
const area = (wanted: SizingCase, seed: number): Range => areaNeeded(wanted, DRAWS, seed);

test("the area grows with the load of nitrogen and of phosphorus, and doubles when both double", () =>
  fc.assert(fc.property(aCase, more, fc.integer(), (wanted, factor, seed) => {
    const plain = area(wanted, seed);
    notLess(area({ ...wanted, loadNGPerDay: wanted.loadNGPerDay * factor }, seed), plain);
    notLess(area({ ...wanted, loadPGPerDay: wanted.loadPGPerDay * factor }, seed), plain);
    times(area({ ...wanted, loadNGPerDay: 2 * wanted.loadNGPerDay, loadPGPerDay: 2 * wanted.loadPGPerDay }, seed), plain, 2);
    expect(plain.low).toBeGreaterThan(0);
    expect(plain.low).toBeLessThanOrEqual(plain.middle);
    expect(plain.middle).toBeLessThanOrEqual(plain.high);
  }), { numRuns: RUNS }));

test("the area falls with light, with the growth of the setting, with the target readings and with warmth, or stays", () =>
  fc.assert(fc.property(aCase, more, fc.integer(), (wanted, factor, seed) => {
    const plain = area(wanted, seed);
    notLess(plain, area({ ...wanted, lightMolPerM2Day: wanted.lightMolPerM2Day * factor }, seed));
    const stronger = SETTINGS[SETTINGS.indexOf(wanted.setting) + 1];
    if (stronger) notLess(plain, area({ ...wanted, setting: stronger }, seed));
    notLess(plain, area({ ...wanted, temperatureC: wanted.temperatureC + factor }, seed));
    for (const target of ["targetNMgPerL", "targetPMgPerL"] as const) {
      const now = wanted[target];
      if (now !== null) notLess(plain, area({ ...wanted, [target]: now * factor }, seed));
      notLess(plain, area({ ...wanted, [target]: null }, seed));
    }
  }), { numRuns: RUNS }));

test("what drives the spread adds up to all of it, and no share is negative", () =>
  fc.assert(fc.property(aCase, fc.integer(), (wanted, seed) => {
    const { drivers, nitrogenRules } = areaNeeded(wanted, DRAWS, seed);
    expect(drivers.reduce((sum, one) => sum + one.share, 0)).toBeCloseTo(1, 9);
    drivers.forEach(({ share }, place) => {
      expect(share).toBeGreaterThanOrEqual(0);
      expect(share).toBeLessThanOrEqual(drivers[place - 1]?.share ?? 1);
    });
    expect(nitrogenRules).toBeGreaterThanOrEqual(0);
    expect(nitrogenRules).toBeLessThanOrEqual(1);
  }), { numRuns: RUNS }));

test("capacity and the share carried are linear in the area; the share falls with the load", () =>
  fc.assert(fc.property(aCase, between(0.001, 10), more, fc.integer(), (wanted, litAreaM2, factor, seed) => {
    const capacity = (m2: number): number => capacityGPerDay(m2, 0.035, wanted, 0.4);
    expect(capacity(factor * litAreaM2) / capacity(litAreaM2)).toBeCloseTo(factor, 9);
    expect(capacity(litAreaM2) + capacity(factor)).toBeCloseTo(capacity(litAreaM2 + factor), 9);
    const carried = shareCarried(litAreaM2, wanted, DRAWS, seed);
    times(shareCarried(factor * litAreaM2, wanted, DRAWS, seed), carried, factor);
    notLess(carried, shareCarried(litAreaM2, { ...wanted, loadNGPerDay: wanted.loadNGPerDay * factor }, DRAWS, seed));
    notLess(carried, shareCarried(litAreaM2, { ...wanted, loadPGPerDay: wanted.loadPGPerDay * factor }, DRAWS, seed));
  }), { numRuns: RUNS }));

test("area and share are two sides of one thing: the area needed at one end of the draws carries the whole load at the other", () =>
  fc.assert(fc.property(aCase, fc.integer(), (wanted, seed) => {
    const { low, middle, high } = area(wanted, seed);
    const carries = (m2: number): Range => shareCarried(m2, wanted, DRAWS + 1, seed);
    expect(carries(high).high).toBeGreaterThanOrEqual(carries(middle).high);
    expect(carries(low).low).toBeLessThanOrEqual(1.02);
    expect(carries(high).high).toBeGreaterThanOrEqual(0.98);
  }), { numRuns: RUNS }));

test("the area by habit is linear in the food", () =>
  fc.assert(fc.property(between(0.01, 1000), more, (grams, factor) => {
    const [one, bigger] = [habitAreaM2(grams), habitAreaM2(grams * factor)];
    expect(bigger.low / one.low).toBeCloseTo(factor, 9);
    expect(bigger.high / one.high).toBeCloseTo(factor, 9);
    expect(one.low).toBeLessThan(one.high);
  }), { numRuns: RUNS }));
