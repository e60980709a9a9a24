import { harvestDates } from "../../src/science/harvest-dates";
import { harvestExportG } from "../../src/science/harvest";
import { lightFromWatts } from "../../src/science/light";
import { densityOverDistribution, logNormalDistribution, normalDensity, normalDistribution, normalQuantile } from "../../src/science/normal";
import { Problem } from "../../src/science/problem";
import { meanReading, parseKit, parseReading, type Kit } from "../../src/science/reading";
import { parseGravityReference, salinityFromGravity, specificGravity } from "../../src/science/salinity";
import { seawaterDensityKgPerL } from "../../src/science/water";
import { changesToTarget, readingAfterChanges } from "../../src/science/water-change";
import { science as words } from "../../src/words/science";

const CHART: Kit = { patches: [0, 5, 10, 20, 40, 80] };
const METER: Kit = { step: 0.01 };
const limits = (written: number | string, kit?: Kit): unknown => {
  const { low, high, censored } = parseReading(written, kit);
  return [low, high, censored];
};
const refused = (run: () => unknown): { kind: string; sentence: string } => {
  try {
    run();
  } catch (error) {
    if (error instanceof Problem) return { kind: error.kind, sentence: error.message };
    throw error;
  }
  throw new Error("not refused");
};
const near = (value: number, digits = 12): number => expect.closeTo(value, digits) as unknown as number;

describe("readings as people write them", () => {
  test("blanks before, behind and within do not matter", () => {
    expect(limits("  20 ", CHART)).toEqual([15, 30, "no"]);
    for (const text of [" nd ", "Not   Detected", "below\tdetection", "N/D", "none"]) expect(limits(text, CHART)).toEqual([0, 2.5, "below"]);
    expect(limits("5   -   10", CHART)).toEqual([5, 10, "no"]);
    expect(limits("5..10", CHART)).toEqual([5, 10, "no"]);
  });
  test("signs: less, more, about, each with or without an equals sign", () => {
    for (const text of ["<5", "≤5", "<=5", "<= 5", "≤ 5"]) expect(limits(text, CHART)).toEqual([0, 5, "below"]);
    for (const text of [">80", "≥80", ">=80", "≥ 80"]) expect(limits(text, CHART)).toEqual([80, Infinity, "above"]);
    // About 0.08 of a meter in hundredths: twice as wide as 0.075 to 0.085, and never below nothing.
    expect(parseReading("~0.08", METER)).toMatchObject({ value: near(0.08), low: near(0.07), high: near(0.09), censored: "no" });
    expect(parseReading("~0.005", METER)).toMatchObject({ low: 0, high: near(0.015) });
    // About nothing is below detection, no wider than that.
    expect(limits("~0", METER)).toEqual([0, 0.005, "below"]);
    expect(limits("~0", CHART)).toEqual([0, 2.5, "below"]);
  });
  test("a range of one figure is that figure with its own limits", () => {
    expect(limits("20-20", CHART)).toEqual([15, 30, "no"]);
    expect(parseReading("0.10-0.10")).toMatchObject({ value: 0.1, low: near(0.09), high: near(0.11) });
  });
  test("without a kit to the last written place, or a tenth", () => {
    expect(parseReading("0.08")).toMatchObject({ low: near(0.072), high: near(0.088), u: near(0.008 / Math.sqrt(3)) });
    expect(parseReading("0,1")).toMatchObject({ low: near(0.05), high: near(0.15) });
    expect(parseReading(0.04)).toMatchObject({ low: near(0.035), high: near(0.045) });
  });
  test("nothing detected on a meter is anything to half of its step", () => expect(parseReading("nd", METER)).toMatchObject({ value: 0.0025, low: 0, high: 0.005, censored: "below", u: near(0.005 / Math.sqrt(12)) }));
  test("what is refused, in which words and as which error", () => {
    const value = (sentence: string) => ({ kind: "value", sentence });
    expect(refused(() => parseReading("10-5", CHART))).toEqual(value(words.readingBackwards("10-5")));
    expect(refused(() => parseReading("<-1", CHART))).toEqual(value(words.readingNegative("-1")));
    expect(refused(() => parseReading("<0", CHART))).toEqual(value(words.readingNotUnderstood("<0")));
    expect(refused(() => parseReading(NaN, CHART))).toEqual(value(words.readingNotUnderstood(NaN)));
    expect(refused(() => parseReading(-1, CHART))).toEqual(value(words.readingNegative(-1)));
    expect(refused(() => parseReading(1.1e12))).toEqual(value(words.tooLarge("The reading")));
    expect(parseReading(1e12).value).toBe(1e12);
    expect(refused(() => parseReading(81, CHART))).toEqual(value(words.offTheChart(81, 80)));
    expect(refused(() => parseReading("nd"))).toEqual({ kind: "missing", sentence: words.zeroWithoutSteps });
    for (const text of ["about <5", "5-10-20", "x5-10", "5-10 mg", "5-10x"]) expect(refused(() => parseReading(text, CHART)).kind).toBe("value");
    expect(refused(() => parseReading("5 ppm", CHART))).toEqual(value(words.readingWithUnit("5 ppm", "ppm")));
  });
});

describe("several readings of one moment", () => {
  const [four, six, below, above] = [parseReading("3-5"), parseReading("4-8"), parseReading("<2"), parseReading(">50")];
  test("are their mean, with limits as wide as the widest and holding each", () => {
    // 4 within 1 and 6 within 2: 5 within 2. 1 (0 to 2) and 9 within 1: 5, each 4 away.
    expect(meanReading([four, six])).toEqual({ value: 5, low: 3, high: 7, u: near(4 / Math.sqrt(12)), censored: "no" });
    expect(meanReading([parseReading("0-2"), parseReading("8-10")])).toMatchObject({ value: 5, low: 1, high: 9 });
    expect(meanReading([four])).toMatchObject({ value: 4, low: 3, high: 5 });
    expect(meanReading([parseReading("0-1"), parseReading("0-7")])).toMatchObject({ low: 0, high: 5.5 });
  });
  test("are below detection only where all are, and above the scale where one is", () => {
    expect(meanReading([below, below])).toMatchObject({ censored: "below", low: 0, high: 2 });
    expect(meanReading([below, four]).censored).toBe("no");
    expect(meanReading([four, above])).toEqual(above);
    expect(meanReading([above, below])).toEqual(above);
  });
});

describe("steps of a kit", () => {
  test("blanks about and signs between, one after the other, do not matter", () => {
    for (const cells of [["  0  5  10 "], ["0 ;  5 | 10"], ["0,  5, 10"], ["0;;5;10;"]]) expect(parseKit(cells)).toEqual({ patches: [0, 5, 10] });
    expect(parseKit([1e12])).toEqual({ step: 1e12 });
    expect(parseKit(["0.5"])).toEqual({ step: 0.5 });
  });
  test("what is no step is named as it stands", () => {
    const value = (sentence: string) => ({ kind: "value", sentence });
    expect(refused(() => parseKit(["0 five 10"]))).toEqual(value(words.stepsNotUnderstood("0 five 10")));
    expect(refused(() => parseKit([]))).toEqual(value(words.stepsNotUnderstood("")));
    expect(refused(() => parseKit([-1, 2]))).toEqual(value(words.stepsNotUnderstood("-1 2")));
    expect(refused(() => parseKit([1, 2e12]))).toEqual(value(words.stepsNotUnderstood("1 2000000000000")));
    expect(refused(() => parseKit([0]))).toEqual(value(words.stepsNotUnderstood("0")));
    expect(refused(() => parseKit(["", " 0 "]))).toEqual(value(words.stepsNotUnderstood("  0 ")));
    expect(refused(() => parseKit([0, 5, 5]))).toEqual(value(words.stepsNotRising));
  });
});

describe("normal distribution", () => {
  /** Abramowitz & Stegun 1964, tables 26.1 and 26.2; ln of the far tail from Mills' ratio by its continued fraction to 20 places. */
  test.each([[0, 0.5], [0.5, 0.6914624612740131], [1, 0.8413447460685429], [2, 0.9772498680518208], [3, 0.9986501019683699], [3.5, 0.9997673709209645], [5, 0.9999997133484281]])("below %d", (z, chance) => {
    expect(normalDistribution(z)).toBeCloseTo(chance, 14);
    expect(normalDistribution(-z)).toBeCloseTo(1 - chance, 14);
    expect(Math.abs(Math.exp(logNormalDistribution(z)) / chance - 1)).toBeLessThan(1e-13);
    expect(normalQuantile(chance)).toBeCloseTo(z, 8);
  });
  test("far out in the lower tail it keeps its digits", () => {
    // Phi(-5) = 2.866515718791940e-7, Phi(-10) = 7.619853024160527e-24, Phi(-20) = 2.753624118606234e-89.
    for (const [z, chance] of [[-5, 2.86651571879194e-7], [-10, 7.619853024160527e-24], [-20, 2.753624118606234e-89]] as const) {
      expect(Math.abs(normalDistribution(z) / chance - 1)).toBeLessThan(1e-12);
      expect(logNormalDistribution(z)).toBeCloseTo(Math.log(chance), 10);
      expect(Math.abs((densityOverDistribution(z) * chance) / normalDensity(z) - 1)).toBeLessThan(1e-12);
    }
    // Beyond all digits: phi / Phi is |z| itself, ln Phi is -z^2 / 2 - ln(root(2 pi) |z|).
    expect(densityOverDistribution(-1e9)).toBe(1e9);
    expect(logNormalDistribution(-1e9)).toBeCloseTo(-5e17 - Math.log(Math.sqrt(2 * Math.PI) * 1e9), 0);
    expect(logNormalDistribution(-50)).toBeCloseTo(-1250 - Math.log(50 * Math.sqrt(2 * Math.PI)) - 1 / 2500 + 2.5 / 2500 ** 2, 6);
  });
  test("the quantile undoes the chance, in both tails, and has no odd middle", () => {
    for (const p of [1e-300, 1e-12, 0.001, 0.025, 0.31, 0.499]) {
      expect(Math.abs(normalDistribution(normalQuantile(p)) / p - 1)).toBeLessThan(1e-12);
      if (p > 1e-10) expect(normalQuantile(1 - p)).toBeCloseTo(-normalQuantile(p), 9);
    }
    expect(normalQuantile(0.5)).toBe(0);
    expect(normalQuantile(0.975)).toBeCloseTo(1.959963984540054, 14);
    expect(normalDistribution(NaN)).toBeNaN();
  });
});

describe("hydrometers", () => {
  test("both temperatures of 60/60 F are 15.5556 degrees C, whichever way they are written; of one only that one is", () => {
    const sixty = 140 / 9;
    expect(parseGravityReference("60/60F")).toEqual({ sampleC: sixty, waterC: sixty });
    expect(parseGravityReference("60/77F")).toEqual({ sampleC: near(sixty), waterC: near(25) });
    expect(parseGravityReference("77/60F")).toEqual({ sampleC: near(25), waterC: near(sixty) });
    expect(parseGravityReference("20.25/4.75")).toEqual({ sampleC: 20.25, waterC: 4.75 });
    expect(parseGravityReference("40/40")).toEqual({ sampleC: 40, waterC: 40 });
    expect(parseGravityReference("32/32 F")).toEqual({ sampleC: 0, waterC: 0 });
    for (const text of ["31/77F", "77/31F", "41/25", "25/41", "20/20 x", "a20/20"]) expect(refused(() => parseGravityReference(text))).toEqual({ kind: "value", sentence: words.gravityReference(text) });
  });
  test("a gravity is undone to its salinity, from 0 to 42, and none beyond has one", () => {
    const at = parseGravityReference("25/25");
    for (const salinity of [0.5, 10, 35, 41.9]) expect(salinityFromGravity(specificGravity(salinity, at), at)).toBeCloseTo(salinity, 9);
    expect(specificGravity(35, at)).toBeCloseTo(seawaterDensityKgPerL(35, 25) / seawaterDensityKgPerL(0, 25), 15);
    expect(refused(() => salinityFromGravity(specificGravity(0, at) - 1e-6, at))).toEqual({ kind: "number", sentence: words.gravityOutOfRange(specificGravity(0, at) - 1e-6) });
    expect(refused(() => salinityFromGravity(specificGravity(42, at) + 1e-6, at)).kind).toBe("number");
  });
  test("water out of range is refused as a value, with which figure and its limits", () => {
    expect(refused(() => seawaterDensityKgPerL(43, 20))).toMatchObject({ kind: "value", sentence: expect.stringContaining("Salinity") as string });
  });
});

describe("water changes", () => {
  test("half of 40 with new water of 4: 40, 22, 13, 8.5", () => {
    expect([0, 1, 2, 3].map((times) => readingAfterChanges(40, 0.5, 4, times))).toEqual([40, 22, 13, 8.5]);
    for (const [target, times] of [[40, 0], [39, 1], [22, 1], [21.9, 2], [13, 2], [8.5, 3], [8.4, 4]] as const) expect(changesToTarget(40, target, 0.5, 4)).toBe(times);
  });
  test("at the target there is nothing to change, and new water with as much as the target never reaches it, unless all is changed", () => {
    expect(changesToTarget(4, 4, 0.5, 4)).toBe(0);
    expect(changesToTarget(4, 4, 0.5, 9)).toBe(0);
    expect(refused(() => changesToTarget(40, 4, 0.5, 4))).toEqual({ kind: "number", sentence: words.targetNotReachable(4, 4) });
    expect(changesToTarget(40, 4, 1, 4)).toBe(1);
    expect(refused(() => changesToTarget(40, 3, 1, 4)).kind).toBe("number");
  });
});

test("200 W at 2.2 umol/J of which 0.65 reach 0.5 m2 are 572 umol m-2 s-1", () => expect(lightFromWatts(200, 0.5, 2.2, 0.65)).toBeCloseTo(572, 9));
test("100 g drained at 0.05 and 4 % of which a quarter was fed back export 0.15 g", () => expect(harvestExportG(100, 0.05, 0.04, 0.25)).toBeCloseTo(0.15, 12));
test("a harvest of today is not after today, and one of tomorrow is refused as a value", () => {
  const interval = { bestDays: 10, lowDays: 8, highDays: 13, growthGPerM2Day: 10 };
  expect(harvestDates(46000.9, interval, 46000.1).standing).toEqual({ toBest: 10, toEarliest: 8, toLatest: 13 });
  expect(refused(() => harvestDates(46001, interval, 46000.9)).kind).toBe("value");
});
