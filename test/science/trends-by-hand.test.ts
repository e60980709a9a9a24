import { censoredLikelihood, robustOrderStatistics, type SetReading, type Spread } from "../../src/science/censored";
import { periodsOf } from "../../src/science/budget/period";
import { normalDistribution, normalQuantile } from "../../src/science/normal";
import { Problem } from "../../src/science/problem";
import { trendOf, type TrendPoint } from "../../src/science/trend";
import { harvest, logOf, reading, series, setUpOf } from "./hand-log";

const point = (day: number, low: number, high = low): TrendPoint => ({ day, low, high });
const kindOf = (run: () => unknown): unknown => {
  try {
    return run();
  } catch (error) {
    return error instanceof Problem ? error.kind : error;
  }
};

describe("a trend", () => {
  test("of exact readings is the middle of the slopes of all pairs, with Kendall's count and Sen's limits", () => {
    // Days 0, 1, 3, 6, 10 and 2, 5, 4, 8, 9: slopes 3, 2/3, 1, 0.7, -1/2, 3/5, 4/9, 4/3, 5/7, 1/4 in order -0.5, 0.25, 0.4444, 0.6, 0.6667, 0.7, 0.7143, 1, 1.3333, 3.
    // Nine rise, one falls: S = 8. Var S = 5 x 4 x 15 / 18.
    const points = [point(3, 4), point(0, 2), point(10, 9), point(1, 5), point(6, 8)];
    const trend = trendOf(points);
    expect(trend.s).toBe(8);
    expect(trend.variance).toBeCloseTo(300 / 18, 12);
    expect(trend.z).toBeCloseTo(7 / Math.sqrt(300 / 18), 12);
    expect(trend.slopePerDay).toBeCloseTo((2 / 3 + 0.7) / 2, 12);
    // 1.96 root Var S is 8.0015: the ranks (10 - 8.0015) / 2 and (10 + 8.0015) / 2 + 1 lie a hair outside, and are held to the ends.
    expect(trend.low).toBeCloseTo(-0.5, 12);
    expect(trend.high).toBeCloseTo(3, 12);
    // Through the medians: 5 on day 3.
    expect(trend.intercept).toBeCloseTo(5 - 3 * trend.slopePerDay, 12);
  });
  test("of readings as many of which rise as fall has no score", () => {
    expect(trendOf([point(0, 1), point(1, 4), point(2, 4), point(3, 1)])).toMatchObject({ s: 0, z: 0 });
    expect(trendOf([point(0, 5), point(1, 5), point(2, 5), point(3, 5)])).toMatchObject({ s: 0, z: 0, slopePerDay: 0 });
  });
  test("of limits is the slope at which as many pairs rise as fall: the middle of that stretch", () => {
    // 0 to 1, 2 to 3, 4 to 5, 6 to 7 on days 100 to 103: neighbours rise until a slope of 1 and fall from 3, and so do the others: 3/2 to 5/2, 5/3 to 7/3. S is 0 from 5/3 to 7/3.
    const trend = trendOf([point(101, 2, 3), point(100, 0, 1), point(103, 6, 7), point(102, 4, 5)]);
    expect(trend.slopePerDay).toBeCloseTo(2, 9);
    expect(trend.s).toBe(6);
    // At 5.77 of the six pairs all still rise: up to 1; and all fall from 3.
    expect(trend.low).toBeCloseTo(1, 9);
    expect(trend.high).toBeCloseTo(3, 9);
  });
  test("needs four days, and takes no more readings than its pairs allow", () => {
    expect(kindOf(() => trendOf([point(0, 1), point(1, 2), point(1, 3), point(2, 4)]))).toBe("missing");
    expect(kindOf(() => trendOf(Array.from({ length: 3001 }, (_, day) => point(day, day))))).toBe("value");
    expect(kindOf(() => trendOf(Array.from({ length: 1001 }, (_, day) => point(day, day, day + 0.5))))).toBe("value");
  });
});

describe("a set without a reading below detection", () => {
  const shown = (...values: number[]): SetReading[] => values.map((value) => ({ value, below: false }));
  test("normal: mean, root of the mean square, and ln of the density", () => {
    // -1, 2, 5: mean 2, sd root 6. Three times -ln(root(2 pi) root 6) and half of 3.
    const found = censoredLikelihood(shown(-1, 2, 5), "normal");
    expect(found).toEqual({ mean: expect.closeTo(2, 9), sd: expect.closeTo(Math.sqrt(6), 9), meanLog: null, sdLog: null, logLikelihood: expect.closeTo(-1.5 * Math.log(2 * Math.PI * 6) - 1.5, 9) });
  });
  test("lognormal: of the logarithms, and from them the mean and standard deviation of the readings", () => {
    // ln 1, 2, 3: mean 2, sd root (2/3).
    const found = censoredLikelihood(shown(Math.E, Math.E ** 2, Math.E ** 3));
    const s2 = 2 / 3;
    const mean = Math.exp(2 + s2 / 2);
    expect(found.meanLog).toBeCloseTo(2, 9);
    expect(found.sdLog).toBeCloseTo(Math.sqrt(s2), 9);
    expect(found.mean).toBeCloseTo(mean, 7);
    expect(found.sd).toBeCloseTo(mean * Math.sqrt(Math.exp(s2) - 1), 7);
    expect(found.logLikelihood).toBeCloseTo(-1.5 * Math.log(2 * Math.PI * s2) - 1.5 - 6, 9);
  });
});

describe("a set with readings below detection", () => {
  test("half of it below one limit: the top of the likelihood by two conditions on its slopes", () => {
    const readings: SetReading[] = [...[1, 1, 1, 1].map((value) => ({ value, below: true })), ...[1.5, 2, 3, 7].map((value) => ({ value, below: false }))];
    for (const spread of ["normal", "lognormal"] as Spread[]) {
      const { mean, sd, meanLog, sdLog } = censoredLikelihood(readings, spread);
      const [m, s] = [meanLog ?? mean, sdLog ?? sd];
      const y = (value: number): number => (spread === "normal" ? value : Math.log(value));
      // d/dm: sum of z over the shown = 4 phi / Phi at the limit; d/ds: sum of z^2 - 4 = limit's z x 4 phi / Phi.
      const z = [1.5, 2, 3, 7].map((value) => (y(value) - m) / s);
      const limit = (y(1) - m) / s;
      const push = (4 * Math.exp(-0.5 * limit * limit)) / Math.sqrt(2 * Math.PI) / normalDistribution(limit);
      expect(z.reduce((sum, one) => sum + one, 0)).toBeCloseTo(push, 7);
      expect(z.reduce((sum, one) => sum + one * one, 0) - 4).toBeCloseTo(limit * push, 7);
    }
  });
  test("order statistics: chances by hand, with a figure that equals a limit", () => {
    // <2 twice, 2, 3, <5, 5, 8. From 5 up: two shown, of 7 all: 2/7. Between 2 and 5: two shown, and two below 2: (2/4) of the 5/7 left: 2/7 + 5/14 = 9/14.
    const readings: SetReading[] = [{ value: 2, below: true }, { value: 2, below: true }, { value: 2, below: false }, { value: 3, below: false }, { value: 5, below: true }, { value: 5, below: false }, { value: 8, below: false }];
    const { line, meanLog } = robustOrderStatistics(readings);
    const [at5, at2] = [2 / 7, 9 / 14];
    const shown = [[2, 1 - at2 + (at2 - at5) / 3], [3, 1 - at2 + (2 * (at2 - at5)) / 3], [5, 1 - at5 + at5 / 3], [8, 1 - at5 + (2 * at5) / 3]].map(([value = NaN, chance = NaN]) => ({ x: normalQuantile(chance), y: Math.log(value) }));
    const [mx, my] = [shown.reduce((sum, { x }) => sum + x, 0) / 4, shown.reduce((sum, { y }) => sum + y, 0) / 4];
    const slope = shown.reduce((sum, { x, y }) => sum + (x - mx) * (y - my), 0) / shown.reduce((sum, { x }) => sum + (x - mx) ** 2, 0);
    expect(line.sdLog).toBeCloseTo(slope, 9);
    expect(line.meanLog).toBeCloseTo(my - slope * mx, 9);
    const hidden = [(1 - at2) / 3, (2 * (1 - at2)) / 3, (1 - at5) / 2].map((chance) => my - slope * mx + slope * normalQuantile(chance));
    expect(meanLog).toBeCloseTo((4 * my + hidden.reduce((sum, one) => sum + one, 0)) / 7, 9);
  });
  test("what cannot be told, by kind", () => {
    const set = (values: readonly number[], below = 0): SetReading[] => [...values.map((value) => ({ value, below: false })), ...Array.from({ length: below }, () => ({ value: 1, below: true }))];
    expect(kindOf(() => censoredLikelihood(set([1, 2, 0])))).toBe("value");
    expect(kindOf(() => censoredLikelihood(set([1, 2, NaN]), "normal"))).toBe("value");
    expect(kindOf(() => censoredLikelihood(set([1, 2, 0, -3]), "normal").mean)).toBeCloseTo(0, 9);
    expect(kindOf(() => robustOrderStatistics(set([1, 2, -1])))).toBe("value");
    expect(kindOf(() => robustOrderStatistics(set([2, 3, 4], 13)))).toBe("missing");
    expect(kindOf(() => robustOrderStatistics(set([2, 3, 4], 12)).mean)).toEqual(expect.any(Number));
    expect(kindOf(() => robustOrderStatistics(set([2, 3, 3, 2])))).toBe("missing");
  });
});

describe("periods of a log that does not begin on day 0", () => {
  const ends = (choice: Parameters<typeof periodsOf>[2], more: object = {}): number[] => periodsOf(logOf({ firstDay: 46020, lastDay: 46055, ...more }), setUpOf(), choice).map(({ to }) => to);
  test("weeks from its first day; months from the first of each", () => {
    expect(ends("week")).toEqual([46027, 46034, 46041, 46048, 46055]);
    expect(ends("week", { lastDay: 46030 })).toEqual([46027, 46030]);
    // 46023 is 1 January 2026 (25569 is 1 January 1970, and 20,454 days lie between), 46054 1 February.
    expect(46023 - 25569).toBe((Date.UTC(2026, 0, 1) - Date.UTC(1970, 0, 1)) / 86_400_000);
    expect(ends("month")).toEqual([46023, 46054, 46055]);
    // A log that begins on the first of a month has no period before it, and one that ends on it none after.
    expect(ends("month", { firstDay: 46023, lastDay: 46054 })).toEqual([46054]);
    expect(ends("month", { firstDay: 46022.5, lastDay: 46024 })).toEqual([46023, 46024]);
  });
  test("harvests and readings; the whole; and none without time", () => {
    expect(ends("harvest", { harvests: [harvest(46030, 1), harvest(46040, 1)] })).toEqual([46030, 46040, 46055]);
    expect(ends("reading", { series: [series("NO3", [reading(46025, 1), reading(46040, 1)])] })).toEqual([46025, 46040, 46055]);
    expect(ends("whole")).toEqual([46055]);
    expect(kindOf(() => ends("whole", { lastDay: 46020 }))).toBe("missing");
  });
});
