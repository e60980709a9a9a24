import { budgetBoth, type Account, type BothPeriod } from "../../src/science/budget/both";
import { addOuter, BALANCES, bothTerms, FIGURES, figureOf, isTested } from "../../src/science/budget/effects";
import type { BadEntry, Log, SetUp } from "../../src/science/budget/log";
import { budgetTerms } from "../../src/science/budget/terms";
import { reconcile } from "../../src/science/budget/reconcile";
import { scaled, sumOf } from "../../src/science/budget/sums";
import { solveCovariance, solveLinear } from "../../src/science/linear";
import type { Nutrient } from "../../src/science/nutrient-forms";
import { normalDistribution } from "../../src/science/normal";
import { exact, rectangular } from "../../src/science/uncertain";
import { feed, forPhosphorus, grams, harvest, logOf, reading, screen, series, setUpOf } from "./hand-log";

const none = setUpOf({ volumeL: exact(100), retainedShare: exact(0), feedShare: 0, harvestShare: 0, changeShare: 0, units: [screen({ litAreaM2: null, dryFraction: { drained: exact(0.05), pressed: exact(0.1) }, tissue: exact(0.04) })] });
const account = (nutrient: Nutrient, log: Partial<Log>, setUp: SetUp = none): Account => ({ log: logOf({ nutrient, ...log }), setUp: nutrient === "N" ? setUp : forPhosphorus(setUp) });
const tested = (name: string, start: number, end: number, half: number) => ({ series: [series(name, [reading(0, start, half), reading(20, end, half)])] });
const only = (N: Account, P: Account): BothPeriod => {
  const [first, more] = budgetBoth({ N, P }, "whole");
  if (!first || more) throw new Error("not one period");
  return first;
};

/**
 * Doses of 2 g N and 0.4 g P, weighed exactly, in 100 L. Nitrate goes from 10 to 24 mg N/L (1.4 g more), each reading within 3 root 3, so with
 * u = 3: the store's u is 0.1 x root 18 = 0.42426 g. Phosphate goes from 1 to 4 mg P/L (0.3 g), each with u = 0.3: 0.042426 g.
 */
const ROOT3 = Math.sqrt(3);
const N = account("N", { otherIn: [grams(5, 2)], ...tested("NO3", 10, 24, 3 * ROOT3) });
const P = account("P", { otherIn: [grams(5, 0.4)], ...tested("PO4", 1, 4, 0.3 * ROOT3) });
/** How far a dose that came at once can drift a reading is nothing at the readings' own moments. */
const U = { N: 0.1 * Math.sqrt(18), P: 0.01 * Math.sqrt(18) };

describe("two balances that share nothing", () => {
  test("each store takes all of its own misfit; chi-square 2 + 5.56, and its chance with two degrees of freedom", () => {
    const both = only(N, P);
    const chiSquare = (0.6 / U.N) ** 2 + (0.1 / U.P) ** 2;
    expect(both.unexplained).toEqual({ N: expect.closeTo(0.6, 12), P: expect.closeTo(0.1, 12) });
    expect(both.balanceU).toEqual({ N: expect.closeTo(U.N, 12), P: expect.closeTo(U.P, 12) });
    expect(both.test).toEqual({ chiSquare: expect.closeTo(chiSquare, 9), degreesOfFreedom: 2, p: expect.closeTo(Math.exp(-chiSquare / 2), 12) });
    expect(both.parts.N?.storeChange).toEqual({ logged: expect.closeTo(1.4, 12), adjusted: expect.closeTo(2, 12), u: expect.closeTo(0, 9), score: expect.closeTo(-0.6 / U.N, 9) });
    expect(both.parts.N?.otherIn).toEqual({ logged: 2, adjusted: 2, u: 0, score: 0 });
    expect(both.parts.P?.storeChange).toEqual({ logged: expect.closeTo(0.3, 12), adjusted: expect.closeTo(0.4, 12), u: expect.closeTo(0, 9), score: expect.closeTo(-0.1 / U.P, 9) });
    expect(both.moved).toEqual({ nutrient: "P", part: "storeChange", score: expect.closeTo(-0.1 / U.P, 9) });
    // exp(-3.78) is 0.023: chance brings that once in 44.
    expect(both.state).toBe("misfit");
    expect(both.suspect).toMatchObject({ what: "reading", nutrient: "P", misfit: expect.closeTo(chiSquare, 9) });
  });
  test("with half of phosphorus' misfit it fits, and no figure is named as wrong", () => {
    const both = only(N, account("P", { otherIn: [grams(5, 0.35)], ...tested("PO4", 1, 4, 0.3 * ROOT3) }));
    // 2 + 1.39: exp(-1.69) = 0.184.
    expect(both.test?.p).toBeCloseTo(Math.exp(-((0.6 / U.N) ** 2 + (0.05 / U.P) ** 2) / 2), 9);
    expect(both).toMatchObject({ state: "fits", suspect: null, moved: { nutrient: "N", part: "storeChange" } });
  });
  test("one degree of freedom where one of them alone was tested: twice the normal tail", () => {
    const both = only(N, account("P", { otherIn: [grams(5, 0.4)] }));
    expect(both.test).toEqual({ chiSquare: expect.closeTo(2, 9), degreesOfFreedom: 1, p: expect.closeTo(2 * normalDistribution(-Math.SQRT2), 9) });
    expect(both.parts.P).toBeNull();
    expect(both.unexplained).toEqual({ N: expect.closeTo(0.6, 12), P: null });
    // What phosphorus would be unsure by is told all the same: nothing in it is uncertain.
    expect(both.balanceU).toEqual({ N: expect.closeTo(U.N, 12), P: 0 });
    const other = only(account("N", { otherIn: [grams(5, 2)] }), P);
    expect(other).toMatchObject({ parts: { N: null }, unexplained: { N: null, P: expect.closeTo(0.1, 12) }, test: { degreesOfFreedom: 1 }, balanceU: { N: 0, P: expect.closeTo(U.P, 12) } });
  });
});

describe("a harvest of which one weight carries both", () => {
  test("is adjusted for both: closed form with two balances", () => {
    // 500 g drained, u 0.05 x 500 / root 3: 1 g N and 0.1 g P. The balances' covariance has the product of its two effects off the diagonal.
    const setUp = { ...none, harvestShare: 0.05 };
    const harvests = [harvest(20, 500)];
    const both = only(account("N", { ...N.log, harvests, nutrient: "N" }, setUp), account("P", { ...P.log, harvests, nutrient: "P" }, setUp));
    const [a, b] = [0.05 / ROOT3, 0.005 / ROOT3];
    const [m, n] = [2 - 1 - 1.4, 0.4 - 0.1 - 0.3];
    const [v, c, w] = [U.N ** 2 + a * a, a * b, U.P ** 2 + b * b];
    const det = v * w - c * c;
    const [l, k] = [(w * m - c * n) / det, (v * n - c * m) / det];
    expect(both.unexplained).toEqual({ N: expect.closeTo(m, 12), P: expect.closeTo(n, 12) });
    expect(both.test?.chiSquare).toBeCloseTo(m * l + n * k, 9);
    expect(both.parts.N?.harvestOut.adjusted).toBeCloseTo(1 + a * (a * l + b * k), 12);
    expect(both.parts.P?.harvestOut.adjusted).toBeCloseTo(0.1 + b * (a * l + b * k), 12);
    expect(both.parts.N?.storeChange.adjusted).toBeCloseTo(1.4 + U.N ** 2 * l, 12);
    // Left over of the weight's own variance of 1: 1 - (a, b) W^-1 (a, b).
    expect(both.parts.N?.harvestOut.u).toBeCloseTo(a * Math.sqrt(1 - (a * (w * a - c * b) + b * (v * b - c * a)) / det), 12);
  });
});

describe("a period that is not closed", () => {
  const bad = (row: number, sentence: string): BadEntry => ({ day: 5, row, about: "feed", sentence });
  test("for a bad cell, named once though both accounts read it", () => {
    const [one, two, other] = [bad(7, "Row 7: no number."), bad(7, "Row 7: no food."), bad(8, "Row 7: no number.")];
    const both = only({ ...N, log: { ...N.log, bad: [one, two, other] } }, { ...P, log: { ...P.log, bad: [one, other] } });
    expect(both).toEqual({ from: 0, to: 20, state: "open", parts: { N: null, P: null }, unexplained: { N: null, P: null }, balanceU: { N: expect.closeTo(U.N, 12), P: expect.closeTo(U.P, 12) }, test: null, moved: null, suspect: null, bad: [one, two, other], aboveScale: false });
  });
  test("a bad cell of one nutrient leaves the other to close", () => {
    const both = only(N, { ...P, log: { ...P.log, bad: [bad(7, "Row 7: no PO4.")] } });
    expect(both).toMatchObject({ state: "fits", parts: { P: null }, test: { degreesOfFreedom: 1, chiSquare: expect.closeTo(2, 9) }, bad: [{ row: 7 }] });
  });
  test("for a reading above the scale, of either nutrient", () => {
    const above = account("P", { series: [series("PO4", [reading(0, 1), reading(20, 50, 0, "above")])] });
    expect(only(N, above)).toMatchObject({ aboveScale: true, parts: { P: null }, test: { degreesOfFreedom: 1 } });
    const aboveN = account("N", { series: [series("NO3", [reading(0, 1), reading(20, 50, 0, "above")])] });
    expect(only(aboveN, P)).toMatchObject({ aboveScale: true, parts: { N: null }, test: { degreesOfFreedom: 1 } });
    expect(only(N, P).aboveScale).toBe(false);
  });
  test("where nothing is uncertain, and what is left over is still told", () => {
    const sure = (nutrient: Nutrient, dose: number) => account(nutrient, { otherIn: [grams(5, dose)], series: [series("X", [reading(0, 10, 0), reading(20, 24, 0)])] });
    expect(only(sure("N", 2), sure("P", 1.4))).toMatchObject({ state: "open", unexplained: { N: expect.closeTo(0.6, 12), P: expect.closeTo(0, 12) }, balanceU: { N: 0, P: 0 } });
  });
  test("a nutrient is tested by its main test, not by an empty column or a lesser one", () => {
    expect(isTested(N.log)).toBe(true);
    expect(isTested(logOf({ series: [series("NO3", [])] }))).toBe(false);
    expect(isTested(logOf({ series: [series("NO2", [reading(0, 1)], { isMain: false }), series("NO3", [])] }))).toBe(false);
    expect(isTested(logOf({ series: [series("NO3", []), series("NO3-N", [reading(0, 1)])] }))).toBe(true);
  });
});

describe("the figures of a period with the effect of each quantity", () => {
  test("by its standard uncertainty and by all of itself, shared names in both nutrients", () => {
    // 10 g of food with 0.08 (u 0.016 / root 6) N and 0.01 P a gram, of which 0.25 (0.2 to 0.3) is kept; weighed to a tenth.
    const setUp = { ...none, retainedShare: rectangular(0.2, 0.3), feedShare: 0.1 };
    const log = (nutrient: Nutrient) => logOf({ nutrient, feeds: [feed(3, 10)] });
    const period = [{ from: 0, to: 20, withFrom: true, withTo: true }];
    const { figures, effects } = bothTerms([budgetTerms(log("N"), setUp, period), budgetTerms(log("P"), forPhosphorus(setUp), period)], 0);
    const [n, p] = [figureOf(0, "feedIn"), figureOf(1, "feedIn")];
    expect([n, p, FIGURES]).toEqual([0, 6, 12]);
    const at = (values: Record<number, number>): unknown[] => Array.from({ length: FIGURES }, (_, place) => expect.closeTo(values[place] ?? 0, 12));
    expect(figures).toEqual(at({ [n]: 0.6, [p]: 0.075 }));
    expect(effects.get("retained")).toEqual({ byU: at({ [n]: (-0.8 * 0.05) / ROOT3, [p]: (-0.1 * 0.05) / ROOT3 }), byWhole: at({ [n]: -0.2, [p]: -0.025 }) });
    expect(effects.get("food N Invented pellets")).toEqual({ byU: at({ [n]: (7.5 * 0.016) / Math.sqrt(6) }), byWhole: at({ [n]: 0.6 }) });
    expect(effects.get("feed 5 Invented pellets")).toEqual({ byU: at({ [n]: 0.06 / ROOT3, [p]: 0.0075 / ROOT3 }), byWhole: at({ [n]: 0.6, [p]: 0.075 }) });
  });
  test("a place with no period has no figures", () => {
    const period = [{ from: 0, to: 20, withFrom: true, withTo: true }];
    const { figures, effects } = bothTerms([budgetTerms(N.log, N.setUp, period), budgetTerms(P.log, P.setUp, period)], 5);
    expect(figures).toEqual(new Array(FIGURES).fill(0));
    expect(effects.size).toBe(0);
  });
  test("balances: what comes in counts up, what goes out or stays down", () => {
    expect(BALANCES).toEqual([[1, 1, -1, -1, -1, -1, 0, 0, 0, 0, 0, 0], [0, 0, 0, 0, 0, 0, 1, 1, -1, -1, -1, -1]]);
    const matrix = [[1, 0, 0], [0, 1, 0], [0, 0, 1]];
    addOuter(matrix, [2, 0, -3]);
    expect(matrix).toEqual([[5, 0, -6], [0, 1, 0], [-6, 0, 10]]);
  });
});

describe("reconciling by hand", () => {
  test("10 in against 4 and 5 out: the misfit of 1 falls by the variances 1, 2 and 0", () => {
    // A S At = 3, multiplier 1/3: 10 - 1/3, 4 + 2/3, and 5, which is exact, stays. Left over: 1 - 1/3, 2 - 4/3.
    const found = reconcile([10, 4, 5], [[1, 0, 0], [0, 2, 0], [0, 0, 0]], [[1, -1, -1]]);
    expect(found?.adjusted).toEqual([10 - 1 / 3, 4 + 2 / 3, 5].map((value) => expect.closeTo(value, 12)));
    expect(found?.u).toEqual([Math.sqrt(2 / 3), Math.sqrt(2 / 3), 0].map((value) => expect.closeTo(value, 12)));
    expect(found?.scores).toEqual([1 / 3, -2 / 3 / Math.SQRT2, 0].map((value) => expect.closeTo(value, 12)));
    expect(found).toMatchObject({ chiSquare: expect.closeTo(1 / 3, 12), degreesOfFreedom: 1 });
  });
  test("a figure adjusted to nothing is nothing, not a hair off it, whatever the size of the others", () => {
    // 0.3 in, nothing else: 0.1 + 0.2 - 0.3 in binary is 5.6e-17.
    expect(reconcile([0.1 + 0.2, 0.3, 0], [[0, 0, 0], [0, 0, 0], [0, 0, 1]], [[1, -1, -1]])?.adjusted).toEqual([0.1 + 0.2, 0.3, 0]);
    expect(reconcile([3e5 + 3e-9, 3e5, 0], [[0, 0, 0], [0, 0, 0], [0, 0, 1]], [[1, -1, -1]])?.adjusted[2]).toBe(0);
    expect(reconcile([3e5 + 3e-6, 3e5, 0], [[0, 0, 0], [0, 0, 0], [0, 0, 1]], [[1, -1, -1]])?.adjusted[2]).toBeCloseTo(3e-6, 9);
  });
  test("a figure that comes out at twice of itself stays what it is", () => {
    expect(reconcile([2, 1], [[0, 0], [0, 0.5]], [[1, -1]])?.adjusted).toEqual([2, 2]);
  });
  test("balances in which nothing is uncertain, or which repeat one another, are not closed", () => {
    expect(reconcile([1, 2], [[0, 0], [0, 0]], [[1, -1]])).toBeNull();
    expect(reconcile([1, 2], [[1, 0], [0, 1]], [[1, -1], [1, -1]])).toBeNull();
  });
});

describe("linear systems", () => {
  test("0 on the diagonal is no obstacle: rows are exchanged", () => {
    // y = 3, 2 x + y = 7, x + z = 5.
    expect(solveLinear([[0, 1, 0], [2, 1, 0], [1, 0, 1]], [[3, 7, 5]])).toEqual([[2, 3, 3].map((value) => expect.closeTo(value, 12))]);
    expect(solveLinear([[0, 0, 4], [0, 2, 0], [1, 0, 0]], [[8, 6, 5], [4, 2, 1]])).toEqual([[5, 3, 2], [1, 1, 1]]);
  });
  test("a tiny pivot is passed over for a large one, or digits are lost", () => {
    // 1e-14 x + y = 1, x + y = 2: x and y are 1 to fourteen digits; elimination with the first row first leaves three digits of x.
    const [solution] = solveLinear([[1e-14, 1], [1, 1]], [[1, 2]]) ?? [];
    expect(solution?.[0]).toBeCloseTo(1 / (1 - 1e-14), 12);
    expect(solution?.[1]).toBeCloseTo((1 - 2e-14) / (1 - 1e-14), 12);
  });
  test("rows that repeat each other have no answer", () => {
    expect(solveLinear([[1, 2], [2, 4]], [[1, 2]])).toBeNull();
    expect(solveLinear([[0]], [[1]])).toBeNull();
  });
  test("a variance of nothing, less than nothing or without limit has no answer, wherever it stands", () => {
    for (const variance of [0, -1, NaN, Infinity]) {
      expect(solveCovariance([[variance, 0], [0, 1]], [[1, 1]])).toBeNull();
      expect(solveCovariance([[1, 0], [0, variance]], [[1, 1]])).toBeNull();
    }
    expect(solveCovariance([[1, 1], [1, 1]], [[1, 1]])).toBeNull();
    expect(solveCovariance([[4e-20, 1e-10], [1e-10, 1e10]], [[4e-20, 1e-10]])).toEqual([[expect.closeTo(1, 9), expect.closeTo(0, 12)]]);
  });
});

test("limits of one screen's harvests add, and a quantity is scaled with all its limits", () => {
  const one = rectangular(2, 4);
  expect(scaled(one, 3)).toEqual({ value: 9, low: 6, high: 12, u: expect.closeTo(Math.sqrt(3), 12), shape: "rectangular" });
  expect(sumOf([one, scaled(one, 3)])).toEqual({ value: 12, low: 8, high: 16, u: expect.closeTo(4 / ROOT3, 12), shape: "rectangular" });
  expect(sumOf([])).toEqual(exact(0));
});
