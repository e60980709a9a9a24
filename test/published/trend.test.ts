import { trendOf, type Trend, type TrendPoint } from "../../src/science/trend";

const points = (days: number[], values: number[]): TrendPoint[] => days.map((day, place) => ({ day, low: values[place] ?? NaN, high: values[place] ?? NaN }));

/** USEPA 2009 Unified Guidance, example 17-6 (sulfate), figures as printed in the EnvStats documentation. */
describe("the sulfate example of the Unified Guidance", () => {
  const trend = (): Trend => trendOf(
    points(
      [89.6, 89.8, 90.1, 90.3, 90.6, 90.8, 91.1, 91.3, 91.6, 91.8, 92.1, 92.6, 93.1, 93.6, 94.1, 94.6, 95.1, 95.6, 95.8, 96.1, 96.3, 96.6, 96.8],
      [480, 450, 490, 520, 485, 510, 510, 530, 510, 560, 560, 540, 590, 550, 600, 700, 570, 610, 650, 620, 830, 720, 590],
    ),
  );
  test("slope 26.6666667, intercept -1909.3333333", () => {
    expect(trend().slopePerDay).toBeCloseTo(26.6666667, 7);
    expect(trend().intercept).toBeCloseTo(-1909.3333333, 7);
  });
  test("95 % limits 20.00000 and 35.71182", () => {
    expect(trend().low).toBeCloseTo(20, 5);
    expect(trend().high).toBeCloseTo(35.71182, 5);
  });
  test("z 5.107322, tau 0.7667984", () => {
    expect(trend().z).toBeCloseTo(5.107322, 6);
    expect((2 * trend().s) / (23 * 22)).toBeCloseTo(0.7667984, 7);
  });
});

/** A chart-like set worked with scipy's theilslopes (slope, interval) and by hand (S, variance). */
describe("readings on a colour chart", () => {
  const days = [0, 3, 7, 10, 14, 17, 21, 24, 28];
  const values = [20, 20, 15, 15, 15, 10, 10, 5, 7.5];
  test("slope -0.5, limits -0.714286 and -0.357143, z -3.013483", () => {
    const trend = trendOf(points(days, values));
    expect(trend.slopePerDay).toBeCloseTo(-0.5, 12);
    expect(trend.low).toBeCloseTo(-0.714286, 6);
    expect(trend.high).toBeCloseTo(-0.357143, 6);
    expect(trend.intercept).toBeCloseTo(22, 12);
    expect([trend.s, trend.z.toFixed(6)]).toEqual([-29, "-3.013483"]);
    expect(trend.variance).toBeCloseTo(86.33333333, 8);
  });
});

describe("readings below detection", () => {
  const limit = (day: number, high: number): TrendPoint => ({ day, low: 0, high });
  const exact = (day: number, value: number): TrendPoint => ({ day, low: value, high: value });
  test("the halving finds the median slope when the limits are so narrow that they hardly overlap", () => {
    const days = [0, 3, 7, 10, 14, 17, 21];
    const values = [20, 18, 15.5, 15, 12, 10, 9];
    const narrow = days.map((day, place) => ({ day, low: (values[place] ?? 0) - 1e-9, high: (values[place] ?? 0) + 1e-9 }));
    expect(trendOf(narrow).slopePerDay).toBeCloseTo(trendOf(points(days, values)).slopePerDay, 6);
  });
  test("all below one limit is no trend at all", () => {
    const trend = trendOf([0, 7, 14, 21, 28].map((day) => limit(day, 2)));
    expect(trend.s).toBe(0);
    expect(trend.slopePerDay).toBeCloseTo(0, 9);
  });
  test("a fall to below the limit is a fall, without a value for the last readings", () => {
    const trend = trendOf([exact(0, 20), exact(7, 15), exact(14, 10), exact(21, 5), limit(28, 2), limit(35, 2)]);
    expect(trend.slopePerDay).toBeLessThan(0);
    expect(trend.s).toBe(-14);
  });
});

test("three days are too few", () => expect(() => trendOf(points([0, 1, 2], [1, 2, 3]))).toThrow("at least four different days"));
