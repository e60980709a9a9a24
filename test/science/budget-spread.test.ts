import type { Doubt, Monomial, Part, PeriodTerms } from "../../src/science/budget/terms";
import { firstOrder, largestDoubt, monteCarlo } from "../../src/science/budget/uncertainty";
import { draw, exact, expectation, rectangular, triangular, withinShare, type Uncertain } from "../../src/science/uncertain";

const NONE: Record<Part, number> = { feedIn: 0, otherIn: 0, harvestOut: 0, changeOut: 0, otherOut: 0, storeChange: 0 };
const period = (monomials: readonly Monomial[], ownVariance: Partial<Record<Part, number>> = {}): PeriodTerms => ({
  from: 0, to: 1, withFrom: true, withTo: true, monomials, ownErrors: [], ownVariance: { ...NONE, ...ownVariance }, readingGapDays: 0, estimatedCrop: false, censored: false, aboveScale: false,
});
/** Known to plus or minus root 3 of something: its standard uncertainty is that something. */
const flat = (middle: number, u: number): Uncertain => rectangular(middle - Math.sqrt(3) * u, middle + Math.sqrt(3) * u);
/** A symmetric triangle of half-width root 6 u: near enough to normal. */
const peaked = (middle: number, u: number): Uncertain => triangular({ low: middle - Math.sqrt(6) * u, value: middle, high: middle + Math.sqrt(6) * u });

describe("first order: 10 a b came in, 4 a c went out, a = 2, b = 3, c = 5", () => {
  // d/da = 10 x 3 - 4 x 5 = 10, d/db = 20, d/dc = -8: the shared a counts once, with its sign.
  const monomials: Monomial[] = [{ part: "feedIn", coefficient: 10, factors: [0, 1] }, { part: "harvestOut", coefficient: 4, factors: [0, 2] }];
  test("figures, slopes and uncertainty", () => {
    const first = firstOrder(period(monomials, { feedIn: 9, storeChange: 16 }), [flat(2, 0.1), flat(3, 0.2), flat(5, 0.3)]);
    expect(first.parts).toEqual({ ...NONE, feedIn: expect.closeTo(60, 12), harvestOut: expect.closeTo(40, 12) });
    expect(first.unexplained).toBeCloseTo(20, 12);
    expect(first.expected).toBeCloseTo(20, 12);
    expect([0, 1, 2].map((place) => first.slopes.get(place))).toEqual([10, 20, -8].map((slope) => expect.closeTo(slope, 12)));
    // 1 + 16 + 5.76 of the quantities and 9 + 16 of weighings.
    expect(first.u).toBeCloseTo(Math.sqrt(47.76), 12);
    // The largest flat quantity is b with 16 of 47.76.
    expect(first.unlikeNormalShare).toBeCloseTo(16 / 47.76, 12);
  });
  test("of flat and peaked quantities only the largest flat one counts as unlike a normal spread", () => {
    expect(firstOrder(period(monomials), [flat(2, 0.1), peaked(3, 0.2), flat(5, 0.3)]).unlikeNormalShare).toBeCloseTo(5.76 / 22.76, 9);
    expect(firstOrder(period(monomials), [peaked(2, 0.1), peaked(3, 0.2), peaked(5, 0.3)]).unlikeNormalShare).toBe(0);
    expect(firstOrder(period(monomials), [exact(2), exact(3), exact(5)])).toMatchObject({ u: 0, unlikeNormalShare: 0 });
  });
  test("a triangle counts as unlike normal where its expectation is off its value by more than a tenth of its u", () => {
    const share = (quantity: Uncertain): number => firstOrder(period([{ part: "feedIn", coefficient: 1, factors: [0] }]), [quantity]).unlikeNormalShare;
    // Value 0, limits -1 and 1 + d: the expectation is d / 3, and u^2 = (1 + (1 + d)^2 + (2 + d)^2) / 36. Equal to a tenth near d = 0.1266.
    const lopSided = (d: number): Uncertain => triangular({ low: -1, value: 0, high: 1 + d });
    for (const [d, counts] of [[0.12, 0], [0.14, 1]] as const) {
      const u = Math.sqrt((1 + (1 + d) ** 2 + (2 + d) ** 2) / 36);
      expect(lopSided(d).u).toBeCloseTo(u, 12);
      expect(d / 3 > u / 10).toBe(counts === 1);
      expect(share(lopSided(d))).toBe(counts);
    }
    expect(share(triangular({ low: -1.14, value: 0, high: 1 }))).toBe(1);
    expect(share(triangular({ low: 99, value: 100, high: 101 }))).toBe(0);
    expect(share(flat(1, 1))).toBe(1);
  });
});

describe("the doubt that makes most of the variance", () => {
  const doubts: Doubt[] = ["volume", "readings", "readings", "tissue"];
  const monomials = [0, 1, 2, 3].map((place): Monomial => ({ part: "feedIn", coefficient: 1, factors: [place] }));
  const doubtOf = (us: readonly number[], own: Partial<Record<Part, number>> = {}) => {
    const quantities = us.map((u) => flat(10, u));
    const one = period(monomials, own);
    return largestDoubt(one, firstOrder(one, quantities), quantities, doubts);
  };
  test("is one quantity, or several of one kind together", () => {
    expect(doubtOf([3, 2, 2, 1])).toBe("volume");
    // 2.5^2 + 2.5^2 = 12.5 is more than 3^2.
    expect(doubtOf([3, 2.5, 2.5, 1])).toBe("readings");
    expect(doubtOf([3, 2.5, 2.5, 3.6])).toBe("tissue");
  });
  test("may be the weighings: feed, harvest, changed volume", () => {
    expect(doubtOf([3, 2, 2, 1], { feedIn: 9.1 })).toBe("feedWeight");
    expect(doubtOf([3, 2, 2, 1], { feedIn: 5, otherIn: 5 })).toBe("feedWeight");
    expect(doubtOf([3, 2, 2, 1], { harvestOut: 9.1 })).toBe("harvestWeight");
    expect(doubtOf([3, 2, 2, 1], { changeOut: 9.1 })).toBe("changeVolume");
    // A drift of the water counts with the readings: 8 + 1.5.
    expect(doubtOf([3, 2, 2, 1], { storeChange: 1.5 })).toBe("readings");
  });
  test("is none where nothing is uncertain", () => expect(doubtOf([0, 0, 0, 0])).toBeNull());
});

describe("draws", () => {
  const sum = (count: number): PeriodTerms => period(Array.from({ length: count }, (_, place): Monomial => ({ part: "feedIn", coefficient: 1, factors: [place] })));
  test("of two, the limits hold 95 % of the way between them, and the spread is their distance over root 2", () => {
    for (const seed of [1, 2, 3]) {
      const { u, low, high } = monteCarlo([rectangular(5, 9)], 2, seed)(sum(1));
      expect(u).toBeGreaterThan(0);
      expect(high - low).toBeCloseTo(0.95 * Math.SQRT2 * u, 12);
      expect(low).toBeGreaterThanOrEqual(5);
      expect(high).toBeLessThanOrEqual(9);
    }
  });
  test("of different quantities are independent: 400 of them spread 20 times as wide as one", () => {
    const quantities = Array.from({ length: 400 }, () => flat(0, 1));
    const { u, low, high } = monteCarlo(quantities, 2000, 20260301)(sum(400));
    // Four standard errors of a standard deviation from 2,000 draws: 4 / sqrt 4000 = 6 %.
    expect(Math.abs(u / 20 - 1)).toBeLessThan(0.064);
    expect(Math.abs(low / (-1.96 * 20) - 1)).toBeLessThan(0.12);
    expect(Math.abs(high / (1.96 * 20) - 1)).toBeLessThan(0.12);
  });
  test("of one quantity are the same wherever it enters: what came in and went out again leaves nothing", () => {
    const both = period([{ part: "feedIn", coefficient: 3, factors: [0] }, { part: "harvestOut", coefficient: 3, factors: [0] }]);
    expect(monteCarlo([flat(7, 1)], 50, 1)(both)).toEqual({ u: 0, low: 0, high: 0 });
  });
  test("add a normal error for the weighings: of u = 5, limits at 1.96 x 5", () => {
    const { u, low, high } = monteCarlo([exact(100)], 20_000, 3)(period([{ part: "feedIn", coefficient: 1, factors: [0] }], { feedIn: 9, changeOut: 16 }));
    expect(Math.abs(u / 5 - 1)).toBeLessThan(0.02);
    expect(Math.abs((low - 100) / -9.8 - 1)).toBeLessThan(0.05);
    expect(Math.abs((high - 100) / 9.8 - 1)).toBeLessThan(0.05);
  });
});

describe("one uncertain quantity", () => {
  test("limits that touch are an exact value, whatever was asked for", () => {
    for (const one of [rectangular(4, 4), triangular({ low: 4, value: 4, high: 4 }), withinShare(4, 0), exact(4)]) expect(one).toEqual({ value: 4, low: 4, high: 4, u: 0, shape: "exact" });
    expect(rectangular(3, 5)).toEqual({ value: 4, low: 3, high: 5, u: expect.closeTo(1 / Math.sqrt(3), 12), shape: "rectangular" });
  });
  test("the expectation is off the value only for a lop-sided triangle", () => {
    expect(expectation(triangular({ low: 0, value: 1, high: 5 }))).toBe(2);
    // An estimate whose limits a keeper states otherwise than even: what is flat or exact is taken at its value.
    expect(expectation({ ...rectangular(0, 5), value: 1 })).toBe(1);
    expect(expectation({ ...exact(1), low: 0, high: 5 })).toBe(1);
  });
  test("a draw is the place where the share of the spread below it is p", () => {
    expect(draw({ ...exact(4), low: 0, high: 9 }, () => 0.9)).toBe(4);
    expect(draw(rectangular(2, 12), () => 0.3)).toBe(5);
    // Top at 3 of 1 to 9: a quarter lies below it. p = x^2 / (width x 2) below; 1 - p = y^2 / (width x 6) above.
    const lopSided = triangular({ low: 1, value: 3, high: 9 });
    for (const x of [0.5, 1, 2]) expect(draw(lopSided, () => (x * x) / 16)).toBeCloseTo(1 + x, 12);
    for (const y of [0.5, 3, 5.9]) expect(draw(lopSided, () => 1 - (y * y) / 48)).toBeCloseTo(9 - y, 12);
  });
});
