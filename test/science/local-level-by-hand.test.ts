import { levelRange } from "../../src/science/level-range";
import { filterLevel, levelLikelihood, levelOn, levelsOf, type LevelReading, type LevelVariances } from "../../src/science/local-level";
import { fitLevelVariances, usualVariances } from "../../src/science/local-level-fit";
import { normalDistribution } from "../../src/science/normal";
import { Problem } from "../../src/science/problem";

const seen = (day: number, value: number, variance = 0): LevelReading => ({ day, value, variance, kind: "value" });
const below = (day: number, limit: number): LevelReading => ({ day, value: limit, variance: 0, kind: "below" });
const kindOf = (run: () => unknown): unknown => {
  try {
    return run();
  } catch (error) {
    return error instanceof Problem ? error.kind : error;
  }
};
const relative = (found: number, expected: number, share: number): void => expect(Math.abs(found / expected - 1)).toBeLessThan(share);

/**
 * ln of the density of the steps from value to value, which is what is left where the start is unknown: normal, with the wandering of the gap and
 * both readings' noise as variance, less the shared reading's noise beside the diagonal. By elimination of that three-diagonal matrix.
 */
function stepsDensity(readings: readonly LevelReading[], { scatter, perDay }: LevelVariances): number {
  let [log, before, left] = [0, NaN, NaN];
  for (let place = 1; place < readings.length; place += 1) {
    const [a, b] = [readings[place - 1] as LevelReading, readings[place] as LevelReading];
    const noise = [a, b].map(({ variance }) => scatter + variance) as [number, number];
    const factor = place === 1 ? 0 : -noise[0] / before;
    const pivot = perDay * (b.day - a.day) + noise[0] + noise[1] - factor * factor * (place === 1 ? 0 : before);
    left = b.value - a.value - (place === 1 ? 0 : factor * left);
    before = pivot;
    log -= 0.5 * (Math.log(2 * Math.PI * pivot) + (left * left) / pivot);
  }
  return log;
}

describe("the likeliest variances", () => {
  test("of values that go to and fro are scatter alone: the sum of squares about the mean over n - 1", () => {
    // 10 and 12 in turn, six times: 6 / 5. ln L = -5/2 ln (2 pi s) - 1/2 ln 6 - 6 / (2 s).
    const fit = fitLevelVariances([0, 3, 4, 8, 9, 15].map((day, place) => seen(day, place % 2 === 0 ? 10 : 12)));
    expect(fit.scatter).toBeCloseTo(1.2, 7);
    expect(fit.perDay).toBe(0);
    expect(fit.logLikelihood).toBeCloseTo(-2.5 * Math.log(2 * Math.PI * 1.2) - 0.5 * Math.log(6) - 2.5, 9);
  });
  test("of values without own error that climb steadily are wandering alone: the mean of step squared over gap", () => {
    // Steps 1, 4, 2, 6 in gaps of 1, 4, 2, 6 days: 1, 4, 2, 6, whose mean is 3.25. A hair of own error lets scatter be nothing at all.
    const fit = fitLevelVariances([[0, 5], [1, 6], [5, 10], [7, 12], [13, 18]].map(([day = 0, value = 0]) => seen(day, value, 1e-12)));
    expect(fit.scatter).toBe(0);
    relative(fit.perDay, 3.25, 1e-6);
  });
  test("of values within their own errors are none", () => {
    const readings = [10, 10.2, 9.9, 10.1].map((value, place) => seen(7 * place, value, 1));
    const fit = fitLevelVariances(readings);
    expect(fit).toEqual({ scatter: 0, perDay: 0, logLikelihood: expect.closeTo(-1.5 * Math.log(2 * Math.PI) - 0.5 * Math.log(4) - 0.05 / 2, 9) });
    expect(stepsDensity(readings, { scatter: 0, perDay: 0 })).toBeCloseTo(fit.logLikelihood, 9);
  });
  test("with own errors that differ, of scatter beyond them alone", () => {
    const readings = [10, 13, 9, 14, 10, 12].map((value, place) => seen(3 * place, value, place % 2 === 0 ? 0.5 : 1));
    const fit = fitLevelVariances(readings);
    expect(fit.perDay).toBe(0);
    for (const off of [0.999, 1.001]) expect(stepsDensity(readings, { scatter: fit.scatter * off, perDay: 0 })).toBeLessThan(fit.logLikelihood);
    expect(stepsDensity(readings, fit)).toBeCloseTo(fit.logLikelihood, 9);
  });
  test.each([
    ["without own errors", 0], ["with own errors", 0.2],
  ])("%s, of both: no pair a thousandth off is likelier, by the density of the steps", (_, variance) => {
    const values = [10, 12, 11, 14, 16, 15, 18, 17, 14, 15, 12, 13, 10, 11, 9, 12];
    const readings = values.map((value, place) => seen(3 * place + (place % 3), value, variance));
    const fit = fitLevelVariances(readings);
    expect(fit.scatter).toBeGreaterThan(0.01);
    expect(fit.perDay).toBeGreaterThan(0.01);
    expect(stepsDensity(readings, fit)).toBeCloseTo(fit.logLikelihood, 9);
    for (const s of [0.999, 1, 1.001]) {
      for (const q of [0.999, 1, 1.001]) if (s !== 1 || q !== 1) expect(stepsDensity(readings, { scatter: s * fit.scatter, perDay: q * fit.perDay })).toBeLessThan(fit.logLikelihood);
    }
  });
  test("do not depend on where the days are counted from, and scale with the square of the unit", () => {
    const values = [10, 12, 11, 14, 16, 15, 18, 17, 14];
    const of = (from: number, unit: number) => fitLevelVariances(values.map((value, place) => seen(from + 4 * place, unit * value, 0)));
    const [one, later, large] = [of(0, 1), of(46000, 1), of(0, 1000)];
    relative(later.perDay, one.perDay, 1e-6);
    relative(large.perDay, 1e6 * one.perDay, 1e-6);
    relative(large.scatter, 1e6 * one.scatter, 1e-6);
  });
  test("what has no answer, by kind", () => {
    expect(kindOf(() => fitLevelVariances([seen(1, 5, 1), seen(2, 6, 1), seen(3, 5, 1), seen(3, 5, 1)]))).toBe("missing");
    expect(kindOf(() => fitLevelVariances([1, 2, 3, 4].map((day) => below(day, 2))))).toBe("missing");
    expect(kindOf(() => fitLevelVariances(Array.from({ length: 3001 }, (_, day) => seen(day, day % 2))))).toBe("value");
    expect(kindOf(() => fitLevelVariances([1, 2, 3, 4].map((day) => seen(day, 5))))).toBe("missing");
    expect(kindOf(() => levelOn(5, [below(1, 2), below(3, 2)], { scatter: 1, perDay: 1 }))).toBe("missing");
    expect(kindOf(() => filterLevel([below(1, 2)], { scatter: 1, perDay: 1 }))).toBe("missing");
  });
});

describe("the usual size of the variances", () => {
  test("is half of the mean square of the steps between values, and that for each reading of a day", () => {
    // Steps 2 and 3: 13 / 4 = 3.25. Four readings in 20 days: 3.25 x 4 / 20.
    expect(usualVariances([seen(0, 10, 0.5), below(4, 3), seen(10, 12, 0.5), seen(20, 15, 0.5)])).toEqual({ scatter: 3.25, perDay: 0.65 });
  });
  test("or the mean own variance where that is larger, or where there is but one value", () => {
    expect(usualVariances([seen(5, 10, 4), seen(10, 12, 8), seen(15, 15, 3)])).toEqual({ scatter: 5, perDay: 1.5 });
    expect(usualVariances([below(5, 9), seen(10, 12, 8)])).toEqual({ scatter: 8, perDay: 3.2 });
  });
});

describe("readings below detection before the first value", () => {
  const variances = { scatter: 1, perDay: 0.2 };
  const readings = [below(0, 3), below(5, 2), seen(7, 4), seen(10, 5)];
  test("two of them: the same as read backwards, where they come last", () => {
    const { levels, logLikelihood } = levelsOf(readings, variances);
    const back = filterLevel([...readings].reverse(), variances);
    expect(logLikelihood).toBeCloseTo(back.logLikelihood, 9);
    expect(levelLikelihood(readings, variances)).toBeCloseTo(back.logLikelihood, 9);
    // The level on the first day is what the filter, run backwards, knows at its end.
    expect(levels[0]?.mean).toBeCloseTo(back.steps[3]?.mean ?? NaN, 9);
    expect(levels[0]?.variance).toBeCloseTo(back.steps[3]?.variance ?? NaN, 9);
    expect(levels).toHaveLength(4);
    expect(levels[1]?.mean).toBeLessThan(levels[2]?.mean ?? NaN);
  });
  test("of values alone the likelihood is that of the steps", () => {
    const values = [seen(0, 4, 0.5), seen(3, 6, 0.1), seen(9, 5, 0.3)];
    expect(levelLikelihood(values, variances)).toBeCloseTo(stepsDensity(values, variances), 12);
  });
});

/** The mixture once more: 14 standard deviations of each kind, 5 t^2 of the usual one at t = 0.5/14, 1.5/14, ..., each with its likelihood and its width t. */
function mixture(readings: readonly LevelReading[], day: number, ahead: boolean): (x: number) => number {
  const unit = usualVariances(readings);
  const own = readings[readings.length - 1]?.variance ?? NaN;
  const ts = Array.from({ length: 14 }, (_, place) => (place + 0.5) / 14);
  const parts = ts.flatMap((t) => ts.map((s) => {
    const variances = { scatter: unit.scatter * 25 * t ** 4, perDay: unit.perDay * 25 * s ** 4 };
    const { mean, variance } = levelOn(day, readings, variances);
    return { mean, sd: Math.sqrt(variance + (ahead ? variances.scatter + own : 0)), weight: t * s * Math.exp(stepsDensity(readings, variances)) };
  }));
  const all = parts.reduce((sum, { weight }) => sum + weight, 0);
  return (x) => parts.reduce((sum, { mean, sd, weight }) => sum + ((weight / all) * (normalDistribution((x - mean) / sd) - normalDistribution(-mean / sd))) / normalDistribution(mean / sd), 0);
}

describe("where the water is, with limits", () => {
  const low = [seen(0, 3, 0.2), seen(5, 1.5, 0.2), seen(9, 2.5, 0.2), seen(16, 1, 0.2), seen(20, 1.8, 0.4)];
  const high = [seen(100, 20, 0.5), seen(107, 24, 0.5), seen(113, 22, 0.5), seen(121, 27, 0.5), seen(130, 25, 1.5), seen(133, 29, 1)];
  test.each([["near zero", low, 20, 0], ["near zero, between readings", low, 7, 0], ["near zero, ahead", low, 25, 5], ["high", high, 133, 0], ["high, ahead", high, 140, 7], ["before the first", high, 90, 0]] as const)("%s: 2.5 and 97.5 %% of the mixture lie below them", (_, readings, day, ahead) => {
    const range = levelRange(readings, day);
    const share = mixture(readings, day, ahead > 0);
    // What weighs less than a ten-thousandth of the heaviest is left out.
    expect(Math.abs(share(range.low) - 0.025)).toBeLessThan(2e-4);
    expect(Math.abs(share(range.high) - 0.975)).toBeLessThan(2e-4);
    expect(range.daysAhead).toBe(ahead);
  });
  test("the middle is that of the likeliest variances, cut off at zero", () => {
    const fit = fitLevelVariances(low);
    const { mean, variance } = levelOn(25, low, fit);
    const sd = Math.sqrt(variance + fit.scatter + 0.4);
    const { middle } = levelRange(low, 25);
    expect((normalDistribution((middle - mean) / sd) - normalDistribution(-mean / sd)) / normalDistribution(mean / sd)).toBeCloseTo(0.5, 6);
    expect(middle).toBeGreaterThan(mean);
  });
  test("ahead the last value's own error counts, not that of a reading below detection after it", () => {
    const more = [...high, below(135, 30)];
    const wider = levelRange([...high.slice(0, -1), seen(133, 29, 9), below(135, 30)], 140);
    expect(levelRange(more, 140).daysAhead).toBe(5);
    expect(wider.high - wider.low).toBeGreaterThan(levelRange(more, 140).high - levelRange(more, 140).low);
    expect(levelRange(more, 140).high).toBeGreaterThan(levelRange(high.map((one) => ({ ...one, variance: 1e-9 })), 140).middle);
  });
  test("whether it moved: by wandering, by scatter, or not beyond the readings' own errors", () => {
    const climbing = [[0, 5], [1, 6], [5, 10], [7, 12], [13, 18]].map(([day = 0, value = 0]) => seen(day, value, 1e-6));
    expect(fitLevelVariances(climbing).scatter).toBe(0);
    expect(levelRange(climbing, 13).moved).toBe(true);
    const scattered = [10, 12, 10, 12, 10, 12].map((value, place) => seen(3 * place, value, 1e-6));
    expect(fitLevelVariances(scattered).perDay).toBe(0);
    expect(levelRange(scattered, 13).moved).toBe(true);
    expect(levelRange([10, 10.2, 9.9, 10.1].map((value, place) => seen(7 * place, value, 1)), 21).moved).toBe(false);
  });
});

test("readings that purely wander and have no variance of their own need no scatter", () => {
  // By hand: without scatter each step is normal about 0 with variance perDay x gap, so the likeliest perDay is the mean of step^2 / gap: (1/1 + 16/4 + 4/2 + 36/6) / 4.
  const readings = [[0, 5], [1, 6], [5, 10], [7, 12], [13, 18]].map(([day = 0, value = 0]) => ({ kind: "value" as const, day, value, variance: 0 }));
  const fit = fitLevelVariances(readings);
  expect(fit.scatter).toBe(0);
  expect(fit.perDay).toBeCloseTo(3.25, 6);
});
