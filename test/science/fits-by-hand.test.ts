import { fitCurve, type Curve } from "../../src/science/fit";
import { harvestCurve } from "../../src/science/growth-curves";
import { fitRegrowth, type CurveChoice, type HarvestPair } from "../../src/science/growth-fit";
import { harvestInterval, meanGrowthGPerM2Day, type Regrowth } from "../../src/science/harvest-interval";
import { Problem } from "../../src/science/problem";
import { growth as words } from "../../src/words/growth";

const { cannotFit } = words;
/** Exact harvests of the logistic curve K 200, B0 20, rate 0.3, g dry m-2. */
const taken = (days: number, most = 200, stubble = 20, rate = 0.3): number => (most * stubble) / (stubble + (most - stubble) * Math.exp(-rate * days)) - stubble;
const pairsOf = (days: readonly number[], mass: (days: number, place: number) => number): HarvestPair[] => days.map((one, place) => ({ days: one, dryGPerM2: mass(one, place) }));
const said = (pairs: readonly HarvestPair[], choice: CurveChoice = "logistic"): { kind: string; sentence: string } => {
  try {
    fitRegrowth(pairs, choice);
    return { kind: "fitted", sentence: "" };
  } catch (error) {
    if (!(error instanceof Problem)) throw error;
    return { kind: error.kind, sentence: error.message };
  }
};

describe("least squares with a straight line, whose answer is a closed form", () => {
  const line: Curve = { value: (x, [a = NaN, b = NaN]) => a + b * x, slopes: (x) => [1, x] };
  test("parameters, standard errors and scatter", () => {
    // x 0, 1, 2, 3, 4 and y 1, 3, 4, 8, 9: mean x 2, mean y 5, Sxx 10, Sxy 21: b 2.1, a 0.8; residuals 0.2, 0.1, -1, 0.9, -0.2: sum of squares 1.9, 3 degrees of freedom.
    const fit = fitCurve(line, [0, 1, 2, 3, 4], [1, 3, 4, 8, 9], [50, -7]);
    const s2 = 1.9 / 3;
    expect(fit?.parameters).toEqual([0.8, 2.1].map((value) => expect.closeTo(value, 9)));
    expect(fit?.errors).toEqual([Math.sqrt(s2 * (1 / 5 + 4 / 10)), Math.sqrt(s2 / 10)].map((value) => expect.closeTo(value, 9)));
    expect(fit).toMatchObject({ residualSumOfSquares: expect.closeTo(1.9, 9), residualStandardDeviation: expect.closeTo(Math.sqrt(s2), 9), degreesOfFreedom: 3 });
  });
  test("a line through all points leaves nothing; two points, or one parameter without effect, tell no line", () => {
    const fit = fitCurve(line, [0, 1, 2], [1, 3, 5], [0, 0]);
    expect(fit?.parameters).toEqual([1, 2].map((value) => expect.closeTo(value, 9)));
    expect(fit?.residualSumOfSquares).toBeLessThan(1e-18);
    expect(fit?.degreesOfFreedom).toBe(1);
    expect(fitCurve(line, [0, 1], [1, 3], [0, 0])).toBeNull();
    expect(fitCurve({ value: (_, [a = NaN]) => a, slopes: () => [1, 0] }, [0, 1, 2], [1, 3, 5], [0, 0])).toBeNull();
    expect(fitCurve(line, [2, 2, 2], [1, 3, 5], [0, 0])).toBeNull();
    expect(fitCurve(line, [0, 1, 2], [1, 3, 5], [NaN, 0])).toBeNull();
  });
  test("a constant is the mean, with the standard error of a mean", () => {
    const fit = fitCurve({ value: (_, [a = NaN]) => a, slopes: () => [1] }, [0, 0, 0, 0], [2, 4, 4, 6], [100]);
    expect(fit?.parameters[0]).toBeCloseTo(4, 9);
    expect(fit?.errors[0]).toBeCloseTo(Math.sqrt(8 / 3 / 4), 9);
  });
});

describe("a regrowth curve with scatter", () => {
  const days = [3, 5, 6, 8, 10, 12, 15, 18, 22, 26];
  const pairs = pairsOf(days, (one, place) => taken(one) + [2, -3, 1, 4, -2, -4, 3, 1, -2, 2][place]!);
  test.each(["logistic", "gompertz"] as const)("%s: standard errors from the curve's own differences, AICc from its sum of squares", (name) => {
    const fit = fitRegrowth(pairs, name);
    const at = [fit.most, fit.stubble, fit.ratePerDay];
    const { value } = harvestCurve(name);
    const step = (x: number, place: number): number => {
      const h = 1e-5 * (at[place] ?? NaN);
      return (value(x, at.map((one, other) => one + (other === place ? h : 0))) - value(x, at.map((one, other) => one - (other === place ? h : 0)))) / (2 * h);
    };
    const slopes = days.map((x) => [0, 1, 2].map((place) => step(x, place)));
    const rest = pairs.map(({ days: x, dryGPerM2 }) => dryGPerM2 - value(x, at));
    const sum = rest.reduce((total, one) => total + one * one, 0);
    // At the lowest point the residuals stand at right angles to every slope.
    for (const place of [0, 1, 2]) {
      const [along, of] = [rest.reduce((total, one, row) => total + one * (slopes[row]?.[place] ?? NaN), 0), Math.sqrt(slopes.reduce((total, row) => total + (row[place] ?? NaN) ** 2, 0))];
      expect(Math.abs(along / of)).toBeLessThan(1e-4);
    }
    const m = [0, 1, 2].map((i) => [0, 1, 2].map((j) => slopes.reduce((total, row) => total + (row[i] ?? NaN) * (row[j] ?? NaN), 0)));
    const minor = (i: number, j: number): number => {
      const [a, b] = [0, 1, 2].filter((k) => k !== i) as [number, number];
      const [c, d] = [0, 1, 2].filter((k) => k !== j) as [number, number];
      return (m[a]?.[c] ?? NaN) * (m[b]?.[d] ?? NaN) - (m[a]?.[d] ?? NaN) * (m[b]?.[c] ?? NaN);
    };
    const determinant = [0, 1, 2].reduce((total, j) => total + (j === 1 ? -1 : 1) * (m[0]?.[j] ?? NaN) * minor(0, j), 0);
    const errors = [0, 1, 2].map((place) => Math.sqrt((sum / 7) * (minor(place, place) / determinant)));
    [fit.errors.most, fit.errors.stubble, fit.errors.ratePerDay].forEach((error, place) => expect(Math.abs(error / (errors[place] ?? NaN) - 1)).toBeLessThan(1e-4));
    expect(fit.residualStandardDeviation).toBeCloseTo(Math.sqrt(sum / 7), 6);
    // n ln(RSS / n) + 2 k + 2 k (k + 1) / (n - k - 1) with n = 10 and k = 4: 8 + 40 / 5.
    expect(fit.aicc).toBeCloseTo(10 * Math.log(sum / 10) + 16, 6);
  });
  test("the best of both curves is the one with less scatter, and where only one can be told, that one", () => {
    const both = (["logistic", "gompertz"] as const).map((name) => fitRegrowth(pairs, name)).sort((a, b) => a.residualStandardDeviation - b.residualStandardDeviation);
    expect(fitRegrowth(pairs, "best")).toEqual(both[0]);
    expect(both[0]?.residualStandardDeviation).toBeLessThan(both[1]?.residualStandardDeviation ?? NaN);
  });
  test("AICc exists from six harvests on: 8 + 40 / 1", () => {
    const six = pairsOf([4, 8, 12, 16, 20, 26], (one, place) => taken(one) + [2, -3, 1, 3, -2, 1][place]!);
    const fit = fitRegrowth(six, "logistic");
    expect(fit.aicc).toBeCloseTo(6 * Math.log((3 * fit.residualStandardDeviation ** 2) / 6) + 48, 6);
    expect(fitRegrowth(six.slice(0, 5), "logistic").aicc).toBeNull();
  });
});

describe("what tells a curve and what does not", () => {
  test("four different intervals, half a day apart or more", () => {
    expect(said(pairsOf([4, 9, 15, 4.4, 9.4, 15.4], (one) => taken(one)))).toEqual({ kind: "missing", sentence: cannotFit.fewIntervals(3, 4) });
    const four = pairsOf([4, 9, 15, 24, 4, 9], (one) => taken(one));
    expect(fitRegrowth(four, "logistic")).toMatchObject({ intervals: 4, pairs: 6, most: expect.closeTo(200, 4) });
    // 9 and 9.5 are two, 9.4 is neither; counted from the shortest, whatever the order.
    expect(fitRegrowth(pairsOf([24, 9.5, 4, 9, 9.4, 15], (one) => taken(one)), "logistic").intervals).toBe(5);
  });
  test("harvests heavier by the days: a line that rises", () => {
    expect(said(pairsOf([4, 9, 15, 24], () => 50)).sentence).toBe(cannotFit.noGrowth);
    expect(said(pairsOf([4, 9, 15, 24], (one) => 100 - one)).sentence).toBe(cannotFit.noGrowth);
  });
  test("a top that is not more than three times the heaviest harvest", () => {
    // 200 is 2.98 or 3.02 times what is taken after so many days: taken = 200 / 2.98 or 200 / 3.02.
    const daysOf = (mass: number): number => Math.log((180 * (mass + 20)) / (20 * (180 - mass))) / 0.3;
    const upTo = (times: number): HarvestPair[] => pairsOf([0.3, 0.45, 0.6, 0.75, 0.85, 0.92, 1].map((share) => share * daysOf(200 / times)), (one) => taken(one));
    expect(fitRegrowth(upTo(2.98), "logistic").most).toBeCloseTo(200, 2);
    expect(said(upTo(3.02))).toEqual({ kind: "missing", sentence: cannotFit.noTop });
  });
  test("wrong figures are told as such, by kind", () => {
    expect(said([{ days: 3, dryGPerM2: -1 }])).toEqual({ kind: "value", sentence: words.negativeMass(-1) });
    expect(said([{ days: 0, dryGPerM2: 1 }])).toEqual({ kind: "value", sentence: words.notAfter(0) });
    expect(said(pairsOf(Array.from({ length: 1001 }, (_, place) => 1 + (place % 30)), () => 5))).toEqual({ kind: "value", sentence: words.tooManyPairs(1000) });
  });
  test("scatter: an F test against one mean, whose chance with two extra parameters is (rest / all)^(df / 2), at 5 %", () => {
    // The same zigzag about five harvests, larger and larger; two degrees of freedom are left, so the power is 1. All fits shown have a chance of 5 % or less, and the largest of them nearly that.
    const days = [3, 7, 11, 16, 23];
    const zigzag = [1, -1, 1, -1, 1];
    let largest = 0;
    let refused = "";
    for (let size = 8; size < 60 && refused === ""; size += 0.5) {
      const pairs = pairsOf(days, (one, place) => Math.max(0, taken(one) + size * (zigzag[place] ?? 0)));
      const { kind, sentence } = said(pairs);
      if (kind !== "fitted") {
        refused = sentence;
        break;
      }
      const { residualStandardDeviation } = fitRegrowth(pairs, "logistic");
      const masses = pairs.map(({ dryGPerM2 }) => dryGPerM2);
      const mean = masses.reduce((sum, one) => sum + one, 0) / 5;
      const about = masses.reduce((sum, one) => sum + (one - mean) ** 2, 0);
      largest = (2 * residualStandardDeviation ** 2) / about;
      expect(largest).toBeLessThanOrEqual(0.05);
    }
    expect(refused).toBe(cannotFit.scatter);
    expect(largest).toBeGreaterThan(0.04);
  });
});

describe("the best interval by independent halving", () => {
  /** Highest mean growth by the golden section; the days at which it is a twentieth less by halving. */
  const reckoned = (regrowth: Regrowth, from: number, to: number): { best: number; low: number; high: number } => {
    const mean = (days: number): number => harvestCurve(regrowth.curve).value(days, [regrowth.most, regrowth.stubble, regrowth.ratePerDay]) / days;
    let [a, b] = [from, to];
    for (let step = 0; step < 200; step += 1) {
      const [left, right] = [a + (b - a) / 3, b - (b - a) / 3];
      if (mean(left) < mean(right)) a = left;
      else b = right;
    }
    const cross = (under: number, over: number): number => {
      let [u, o] = [under, over];
      for (let step = 0; step < 200; step += 1) {
        const middle = (u + o) / 2;
        if (mean(middle) < 0.95 * mean(a)) u = middle;
        else o = middle;
      }
      return u;
    };
    return { best: a, low: cross(from, a), high: cross(to, a) };
  };
  test.each([["logistic", 200, 20, 0.3], ["logistic", 80, 1, 1.2], ["gompertz", 400, 4, 0.05], ["logistic", 300, 3, 0.02]] as const)("%s %d, %d, %d", (curve, most, stubble, ratePerDay) => {
    const regrowth = { curve, most, stubble, ratePerDay };
    const { bestDays, lowDays, highDays, growthGPerM2Day } = harvestInterval(regrowth);
    const { best, low, high } = reckoned(regrowth, 1, 2000);
    expect(Math.abs(bestDays / best - 1)).toBeLessThan(1e-6);
    expect(Math.abs(lowDays / low - 1)).toBeLessThan(1e-6);
    expect(Math.abs(highDays / high - 1)).toBeLessThan(1e-6);
    expect(growthGPerM2Day).toBeCloseTo(meanGrowthGPerM2Day(regrowth, best), 8);
  });
});
