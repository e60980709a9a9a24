import { firstOrder, monteCarlo } from "../../src/science/budget/uncertainty";
import type { PeriodTerms } from "../../src/science/budget/terms";
import { ALGAE } from "../../src/science/constants/algae";
import { expectation, triangular } from "../../src/science/uncertain";

/** A harvest of 1,000 g drained by the usual dry fraction and tissue, whose limits reach farther up than down. */
const harvest: PeriodTerms = {
  from: 0, to: 1, withFrom: true, withTo: true, readingGapDays: 0, estimatedCrop: false, censored: false, aboveScale: false,
  monomials: [{ part: "otherIn", coefficient: 1000, factors: [0, 1] }],
  ownErrors: [], ownVariance: { feedIn: 0, otherIn: 0, harvestOut: 0, changeOut: 0, otherOut: 0, storeChange: 0 },
};
const DRAWS = 200_000;

test("a triangle's expectation is the mean of its three corners", () => {
  expect(expectation(triangular({ low: 0.02, value: 0.035, high: 0.06 }))).toBeCloseTo(0.115 / 3, 15);
});

test.each([["N", ALGAE.tissueN], ["P", ALGAE.tissueP]] as const)("first order and Monte Carlo agree on the middle and the spread of a lop-sided harvest of %s", (_, tissue) => {
  const quantities = [triangular(ALGAE.dryFractionDrained), triangular(tissue)];
  const { unexplained, expected, u } = firstOrder(harvest, quantities);
  const [dry, share] = quantities.map((quantity) => ({ mean: expectation(quantity), u: quantity.u })) as [{ mean: number; u: number }, { mean: number; u: number }];
  // Independent factors: the exact variance of a product has the square term that first order leaves out.
  const exact = 1000 * Math.sqrt((dry.mean * share.u) ** 2 + (share.mean * dry.u) ** 2 + (dry.u * share.u) ** 2);
  const spread = monteCarlo(quantities, DRAWS, 7)(harvest);
  expect(expected).toBeCloseTo(1000 * dry.mean * share.mean, 12);
  expect(expected).toBeGreaterThan(unexplained);
  expect(Math.hypot(u, 1000 * dry.u * share.u)).toBeCloseTo(exact, 12);
  // Four standard errors of a standard deviation with a fourth moment no greater than the normal's by half.
  expect(Math.abs(spread.u - exact)).toBeLessThan((4 * exact * Math.sqrt(1.75 / 2)) / Math.sqrt(DRAWS));
});

/** Limits that a workbook's own arithmetic made: 0.1 x 0.8 is a hair above 0.08 in binary. The u of a right triangle is its width / sqrt 18. */
test("limits that nearly touch have a u of their own tiny size, not none", () => {
  const high = 0.1 * 3;
  expect(triangular({ low: 0.3, value: 0.3, high }).u).toBeCloseTo((high - 0.3) / Math.sqrt(18), 30);
  expect(triangular({ low: 0.3, value: 0.3, high }).u).toBeGreaterThan(0);
});
