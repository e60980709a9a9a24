import fixture from "./data/measurement.json";
import { firstOrder, monteCarlo, type FirstOrder } from "../../src/science/budget/uncertainty";
import type { Monomial, PeriodTerms } from "../../src/science/budget/terms";
import { exact, rectangular, type Uncertain } from "../../src/science/uncertain";
import { number } from "../call";

/** Colour charts: bounds half-way to the neighbours (JCGM 100:2008, 4.3.7 and 4.3.8), worked out outside this project. */
describe("a colour chart's reading", () => {
  test.each(fixture.colour_chart)("$read between $below and $above", ({ below, read, above, low, high, mid, u }) => {
    const steps = `${below} ${read} ${above}`;
    expect(number("READING_LOW", read, steps)).toBeCloseTo(low, 12);
    expect(number("READING_HIGH", read, steps)).toBeCloseTo(high, 12);
    expect(number("READING_VALUE", read, steps)).toBeCloseTo(mid, 12);
    expect(number("READING_UNCERTAINTY", read, steps)).toBeCloseTo(u, 12);
  });
});

/** JCGM 100:2008, F.2.2.1: a digital step d gives u = 0.29 d. */
test("a meter with a step of 0.01 has u = 0.0029", () => {
  expect(Math.abs(number("READING_UNCERTAINTY", 0.08, 0.01) - 0.0029)).toBeLessThanOrEqual(0.00005);
});

const period = (monomials: Monomial[], ownVariance = 0): PeriodTerms => ({
  from: 0, to: 1, withFrom: true, withTo: true, monomials, readingGapDays: 0, estimatedCrop: false, censored: false, aboveScale: false,
  ownErrors: [], ownVariance: { feedIn: ownVariance, otherIn: 0, harvestOut: 0, changeOut: 0, otherOut: 0, storeChange: 0 },
});
const normalLike = (value: number, u: number): Uncertain => ({ value, low: value - 2 * u, high: value + 2 * u, u, shape: "triangular" });

/** JCGM 100:2008, H.1 (end gauge), inputs as published; l = ls + d - ls (da x theta + as x dtheta). Published uc 32 nm. */
describe("the end gauge of the GUM", () => {
  const quantities = [
    normalLike(50_000_623, 25),
    normalLike(215, Math.hypot(5.8, 3.9, 6.7)),
    normalLike(0, 1e-6 / Math.sqrt(3)),
    normalLike(-0.1, Math.hypot(0.2, 0.5 / Math.sqrt(2))),
    normalLike(11.5e-6, 2e-6 / Math.sqrt(3)),
    normalLike(0, 0.05 / Math.sqrt(3)),
  ];
  const result = (): FirstOrder => firstOrder(
    period([
      { part: "feedIn", coefficient: 1, factors: [0] },
      { part: "feedIn", coefficient: 1, factors: [1] },
      { part: "feedIn", coefficient: -1, factors: [0, 2, 3] },
      { part: "feedIn", coefficient: -1, factors: [0, 4, 5] },
    ]),
    quantities,
  );
  test("length 50.000 838 mm", () => expect(result().unexplained).toBeCloseTo(50_000_838, 6));
  test("combined standard uncertainty 32 nm", () => {
    expect(result().u.toFixed(0)).toBe("32");
    expect(result().u).toBeCloseTo(fixture.gum_h1.uc_nm, 9);
  });
  test("components 25, 9.7, 2.9 and 16.6 nm", () => {
    const component = (place: number): number => Math.abs((result().slopes.get(place) ?? 0) * (quantities[place]?.u ?? 0));
    const { ls, d, d_alpha, d_theta } = fixture.gum_h1.components_nm;
    expect([component(0), component(1), component(2), component(5)].map((nm) => nm.toFixed(4))).toEqual([ls, d, d_alpha, d_theta].map((nm) => nm.toFixed(4)));
  });
});

/** JCGM 101:2008, 9.2: Y = X1 + X2 + X3 + X4. Half-widths of the 95 % interval by convolution; published 3.92, 3.88, 17.0. */
describe("the additive model of JCGM 101", () => {
  const draws = 200_000;
  const sum: Monomial[] = [0, 1, 2, 3].map((place) => ({ part: "feedIn", coefficient: 1, factors: [place] }));
  const rect = (u: number): Uncertain => rectangular(-u * Math.sqrt(3), u * Math.sqrt(3));
  // Three times the sampling error of a 97.5 % quantile of this many draws.
  const tolerance = (u: number): number => (3 * u * 2.7) / Math.sqrt(draws);
  test("four normals: u 2.0, half-width 3.92", () => {
    const spread = monteCarlo([exact(0)], draws, 1)(period([], 4));
    expect(Math.abs(spread.u - 2)).toBeLessThan(3 * 2 / Math.sqrt(2 * draws));
    expect(Math.abs((spread.high - spread.low) / 2 - fixture.jcgm101_9_2.gaussian.half)).toBeLessThan(tolerance(2));
  });
  test("four equal rectangles: u 2.0, half-width 3.88", () => {
    const spread = monteCarlo([rect(1), rect(1), rect(1), rect(1)], draws, 1)(period(sum));
    expect(Math.abs(spread.u - 2)).toBeLessThan(3 * 2 / Math.sqrt(2 * draws));
    expect(Math.abs((spread.high - spread.low) / 2 - fixture.jcgm101_9_2.four_equal_rect_sd1.half)).toBeLessThan(tolerance(2));
  });
  test("one rectangle ten times the others: half-width 17.0 where first order says 19.9", () => {
    const quantities = [rect(1), rect(1), rect(1), rect(10)];
    const spread = monteCarlo(quantities, draws, 1)(period(sum));
    const first = firstOrder(period(sum), quantities);
    expect(Math.abs((spread.high - spread.low) / 2 - fixture.jcgm101_9_2.rect_sd1x3_sd10.half)).toBeLessThan(tolerance(10));
    expect(first.u).toBeCloseTo(fixture.jcgm101_9_2.rect_sd1x3_sd10.u, 12);
    expect(1.959964 * first.u).toBeCloseTo(fixture.jcgm101_9_2.rect_sd1x3_sd10.gum_half, 3);
    expect(first.unlikeNormalShare).toBeGreaterThan(0.5);
  });
});
