import { harvestCurve, type CurveName } from "../../src/science/growth-curves";
import { fitRegrowth, type CurveChoice, type HarvestPair } from "../../src/science/growth-fit";
import { harvestDates } from "../../src/science/harvest-dates";
import { harvestInterval, meanGrowthGPerM2Day, SHORTEST_DAYS, usualIntervalRange, usualRegrowth } from "../../src/science/harvest-interval";
import { lightYieldGPerMol } from "../../src/science/light-yield";
import { Problem } from "../../src/science/problem";
import { normalFrom, seededRandom } from "../../src/science/seeded";
import { growth as words } from "../../src/words/growth";

const DAYS = [3, 5, 7, 9, 11, 13, 15, 17, 19, 21, 24, 28];
const pairsOf = (mass: (days: number, place: number) => number, days: readonly number[] = DAYS): HarvestPair[] => days.map((one, place) => ({ days: one, dryGPerM2: mass(one, place) }));
const taken = (curve: CurveName, truth: readonly number[], days: number): number => harvestCurve(curve).value(days, truth);

/** The sentence of the refusal; a fit is no refusal. */
function refusal(pairs: readonly HarvestPair[], choice: CurveChoice): string {
  try {
    return `fitted: K ${fitRegrowth(pairs, choice).most}`;
  } catch (error) {
    if (!(error instanceof Problem)) throw error;
    expect(error.kind).toBe("missing");
    return error.message;
  }
}

describe("harvests made from a known curve", () => {
  test.each([["logistic", [200, 20, 0.3]], ["logistic", [90, 3, 0.45]], ["gompertz", [200, 20, 0.15]], ["gompertz", [320, 12, 0.1]]] as const)("%s %j is found again", (curve, truth) => {
    const fit = fitRegrowth(pairsOf((days) => taken(curve, truth, days)), curve);
    expect(fit.most).toBeCloseTo(truth[0], 6);
    expect(fit.stubble).toBeCloseTo(truth[1], 6);
    expect(fit.ratePerDay).toBeCloseTo(truth[2], 8);
    expect(fit).toMatchObject({ curve, pairs: 12, intervals: 12, shortestDays: 3, longestDays: 28 });
  });
  test.each([["logistic", [200, 20, 0.3]], ["gompertz", [200, 20, 0.15]]] as const)("%s with scatter: each true value lies within 3 standard errors in 95 of 100 runs or more", (curve, truth) => {
    const inside = [0, 0, 0];
    for (let seed = 1; seed <= 100; seed += 1) {
      const normal = normalFrom(seededRandom(seed));
      const fit = fitRegrowth(pairsOf((days) => Math.max(0, taken(curve, truth, days) + 4 * normal())), curve);
      [[fit.most, fit.errors.most], [fit.stubble, fit.errors.stubble], [fit.ratePerDay, fit.errors.ratePerDay]].forEach(([value = NaN, error = NaN], place) => {
        expect(error).toBeGreaterThan(0);
        if (Math.abs(value - (truth[place] ?? NaN)) <= 3 * error) inside[place] = (inside[place] ?? 0) + 1;
      });
    }
    inside.forEach((runs) => expect(runs).toBeGreaterThanOrEqual(95));
  });
  test.each([["logistic", [200, 20, 0.3]], ["gompertz", [200, 20, 0.15]]] as const)("the best of both is the %s that made them, by scatter and by AICc", (curve, truth) => {
    const normal = normalFrom(seededRandom(7));
    const pairs = pairsOf((days) => taken(curve, truth, days) + 0.3 * normal());
    const both = (["logistic", "gompertz"] as const).map((name) => fitRegrowth(pairs, name)).sort((a, b) => (a.aicc ?? NaN) - (b.aicc ?? NaN));
    expect(both[0]?.curve).toBe(curve);
    expect(fitRegrowth(pairs, "best")).toEqual(both[0]);
  });
  test("the order of the harvests changes nothing that matters, and double masses double the curve", () => {
    const normal = normalFrom(seededRandom(3));
    const pairs = pairsOf((days) => taken("logistic", [200, 20, 0.3], days) + 3 * normal());
    const fit = fitRegrowth(pairs, "logistic");
    expect(fitRegrowth([...pairs].reverse(), "logistic").most).toBeCloseTo(fit.most, 5);
    const doubled = fitRegrowth(pairs.map(({ days, dryGPerM2 }) => ({ days, dryGPerM2: 2 * dryGPerM2 })), "logistic");
    expect(doubled.most / fit.most).toBeCloseTo(2, 6);
    expect(doubled.errors.stubble / fit.errors.stubble).toBeCloseTo(2, 5);
    expect(doubled.ratePerDay).toBeCloseTo(fit.ratePerDay, 7);
  });
  test("with fewer than 6 harvests there is no AICc", () => {
    const five = pairsOf((days) => taken("logistic", [200, 20, 0.3], days) + (days % 2), [4, 8, 12, 18, 26]);
    expect(fitRegrowth(five, "logistic").aicc).toBeNull();
    expect(fitRegrowth([...five, { days: 15, dryGPerM2: 130 }], "logistic").aicc).toEqual(expect.any(Number));
  });
});

describe("what cannot be fitted is not fitted, and the reason is given", () => {
  const { noGrowth, noTop, levelled, scatter, fewIntervals } = words.cannotFit;
  const cases: [string, HarvestPair[], string][] = [
    ["two points", pairsOf((days) => 5 * days, [7, 14]), fewIntervals(2, 4)],
    ["many harvests after three intervals", pairsOf((days) => 5 * days, [7, 7, 7, 14, 14, 21, 21]), fewIntervals(3, 4)],
    ["one interval, a few hours more or less", pairsOf((days) => 5 * days, [6.9, 7, 7.1, 7.2, 7.3]), fewIntervals(1, 4)],
    ["flat", pairsOf(() => 50), noGrowth],
    ["nothing at all", pairsOf(() => 0), noGrowth],
    ["less after longer intervals", pairsOf((days) => 100 - 3 * days), noGrowth],
    ["exploding", pairsOf((days) => 5 * (Math.exp(0.15 * days) - 1)), noTop],
    ["exploding, with scatter", pairsOf((days, place) => 5 * (Math.exp(0.15 * days) - 1) + (place % 3)), noTop],
    ["a straight line", pairsOf((days) => 5 * days), noTop],
    ["a straight line with scatter", pairsOf((days, place) => 5 * days + (place % 2 ? 3 : -3)), noTop],
    ["level from the start", pairsOf((days, place) => 100 + 0.3 * days + (place % 2 ? 1 : -1)), levelled],
  ];
  test.each(cases)("%s, with either curve and the best of both", (_, pairs, sentence) => {
    for (const choice of ["logistic", "gompertz", "best"] as const) expect(refusal(pairs, choice)).toBe(sentence);
  });
  test("noise passes for a curve no more often than 1 time in 20", () => {
    let passed = 0;
    const sentences = new Set<string>();
    for (let seed = 1; seed <= 100; seed += 1) {
      const random = seededRandom(seed);
      const said = refusal(pairsOf(() => 100 * random()), "logistic");
      if (said.startsWith("fitted")) passed += 1;
      else sentences.add(said);
    }
    expect(passed).toBeLessThanOrEqual(5);
    expect([...sentences]).toContain(scatter);
    expect([...sentences]).toContain(noGrowth);
  });
  test("an impossible harvest is a wrong value, not a missing curve", () => {
    expect(() => fitRegrowth([{ days: 3, dryGPerM2: -1 }], "logistic")).toThrow("cannot weigh less than nothing");
    expect(() => fitRegrowth([{ days: 0, dryGPerM2: 1 }], "logistic")).toThrow("should be more than 0");
    expect(() => fitRegrowth([{ days: NaN, dryGPerM2: 1 }], "logistic")).toThrow("should be more than 0");
  });
});

describe("the best interval", () => {
  test.each([["logistic", 200, 20, 0.3], ["gompertz", 200, 20, 0.15], ["logistic", 80, 1, 1.2], ["gompertz", 400, 4, 0.05]] as const)("%s %d, %d, %d: nothing on a fine net is better, and the flat range ends at 5 %% less", (curve, most, stubble, ratePerDay) => {
    const regrowth = { curve, most, stubble, ratePerDay };
    const { bestDays, lowDays, highDays, growthGPerM2Day } = harvestInterval(regrowth);
    let [top, topDays] = [0, 0];
    for (let days = SHORTEST_DAYS; days < 200; days += 0.01) {
      const mean = meanGrowthGPerM2Day(regrowth, days);
      if (mean > top) [top, topDays] = [mean, days];
    }
    expect(growthGPerM2Day).toBeGreaterThanOrEqual(top);
    expect(Math.abs(bestDays - topDays)).toBeLessThanOrEqual(0.011);
    for (const step of [-1e-3, 1e-3]) expect(meanGrowthGPerM2Day(regrowth, bestDays + step)).toBeLessThan(growthGPerM2Day);
    for (const end of [lowDays, highDays]) expect(meanGrowthGPerM2Day(regrowth, end) / growthGPerM2Day).toBeCloseTo(0.95, 9);
    expect(lowDays).toBeLessThan(bestDays);
    expect(highDays).toBeGreaterThan(bestDays);
  });
  test("time in other units: half the rate doubles the interval and halves the growth", () => {
    const [fast, slow] = [0.3, 0.15].map((ratePerDay) => harvestInterval({ ...usualRegrowth, ratePerDay }));
    expect((slow?.bestDays ?? NaN) / (fast?.bestDays ?? NaN)).toBeCloseTo(2, 9);
    expect((slow?.growthGPerM2Day ?? NaN) / (fast?.growthGPerM2Day ?? NaN)).toBeCloseTo(0.5, 9);
  });
  test("a stubble past its fastest growth would be harvested as often as possible: daily", () => {
    expect(harvestInterval({ curve: "logistic", most: 200, stubble: 150, ratePerDay: 0.3 })).toMatchObject({ bestDays: 1, lowDays: 1 });
    expect(harvestInterval({ curve: "gompertz", most: 200, stubble: 80, ratePerDay: 0.3 })).toMatchObject({ bestDays: 1, lowDays: 1 });
  });
  test("the limits of the usual curve hold its best interval", () => {
    const { lowDays, highDays } = usualIntervalRange();
    const { bestDays } = harvestInterval(usualRegrowth);
    expect(lowDays).toBeLessThan(bestDays);
    expect(highDays).toBeGreaterThan(bestDays);
  });
  test("dates are whole days in order, whatever the hour of the last harvest", () => {
    const interval = { bestDays: 10.63, lowDays: 7.97, highDays: 13.73, growthGPerM2Day: 11.8 };
    expect(harvestDates(46000.8, interval, null)).toEqual({ best: 46011, earliest: 46008, latest: 46013, standing: null });
    expect(harvestDates(46000, interval, 46015.4).standing).toEqual({ toBest: -4, toEarliest: -7, toLatest: -2 });
    expect(harvestDates(46000, { bestDays: 1, lowDays: 1, highDays: 1.4, growthGPerM2Day: 9 }, null)).toMatchObject({ best: 46001, earliest: 46001, latest: 46001 });
    expect(() => harvestDates(46000, interval, 45999)).toThrow("lies after today");
  });
});

test("a light yield above the ceiling is no answer", () => {
  expect(lightYieldGPerMol(18, 1, 10)).toBeCloseTo(1.8, 12);
  expect(() => lightYieldGPerMol(18.1, 1, 10)).toThrow("no alga reaches 1.8");
});
