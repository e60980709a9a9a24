import fs from "node:fs";
import path from "node:path";
import { fitCurve } from "../../src/science/fit";
import { GROWTH_CURVES, harvestCurve } from "../../src/science/growth-curves";
import { harvestInterval, meanGrowthGPerM2Day } from "../../src/science/harvest-interval";
import { flowNeededLPerH, sinkageMm } from "../../src/science/hydraulics";
import { lightYieldGPerMol } from "../../src/science/light-yield";
import { seawaterDensityKgPerL } from "../../src/science/water";

/** Closed forms, K 100 and B0 5: logistic r 0.3, Gompertz a 0.15; worked out apart from this project, to ten digits. */
describe("closed forms of growth", () => {
  test.each([
    ["logistic", 0.3, 51.3886683, 95.50220054, 9.8147966],
    ["gompertz", 0.15, 51.25083774, 86.14409854, 7.31459134],
  ] as const)("%s after 10 and 20 days, and its day of fastest growth", (name, rate, after10, after20, fastest) => {
    const { standing, inflectionDays } = GROWTH_CURVES[name];
    expect(standing.value(10, [100, 5, rate])).toBeCloseTo(after10, 7);
    expect(standing.value(20, [100, 5, rate])).toBeCloseTo(after20, 7);
    expect(inflectionDays([100, 5, rate])).toBeCloseTo(fastest, 7);
  });
  // Verhulst: r K / 4 at K / 2. Gompertz: a K / e at K / e.
  test.each([["logistic", 0.3, 50, 7.5], ["gompertz", 0.15, 100 / Math.E, 15 / Math.E]] as const)("%s: the fastest growth and where it is", (name, rate, standing, growth) => {
    const day = GROWTH_CURVES[name].inflectionDays([100, 5, rate]);
    expect(GROWTH_CURVES[name].standing.value(day, [100, 5, rate])).toBeCloseTo(standing, 10);
    expect(GROWTH_CURVES[name].growth(day, [100, 5, rate])).toBeCloseTo(growth, 10);
  });
});

/** NIST Statistical Reference Datasets, Rat42 (pasture yield; Ratkowsky 1983): y = b1 / (1 + exp(b2 - b3 x)), so K = b1, B0 = b1 / (1 + exp b2), r = b3. */
test("the logistic standing crop gives the certified fit of NIST Rat42", () => {
  const lines = fs.readFileSync(path.join(__dirname, "data/nist/Rat42.dat"), "utf8").split(/\r?\n/);
  const data = lines.slice(lines.findIndex((line) => /^Data:\s+y\s+x/.test(line)) + 1).map((line) => line.trim().split(/\s+/).map(Number)).filter((row) => row.length === 2);
  expect(data).toHaveLength(9);
  const fit = fitCurve(GROWTH_CURVES.logistic.standing, data.map((row) => row[1] ?? NaN), data.map((row) => row[0] ?? NaN), [80, 3, 0.05]);
  const [most = NaN, stubble = NaN, rate = NaN] = fit?.parameters ?? [];
  expect(Math.abs(most / 72.462237576 - 1)).toBeLessThan(1e-6);
  expect(Math.abs(rate / 0.067359200066 - 1)).toBeLessThan(1e-6);
  expect(Math.abs(Math.log(most / stubble - 1) / 2.6180768402 - 1)).toBeLessThan(1e-6);
  // The standard errors of b1 and b3 do not depend on how the third parameter is written.
  expect(Math.abs((fit?.errors[0] ?? NaN) / 1.7340283401 - 1)).toBeLessThan(1e-5);
  expect(Math.abs((fit?.errors[2] ?? NaN) / 0.0034465663377 - 1)).toBeLessThan(1e-5);
  expect(Math.abs((fit?.residualSumOfSquares ?? NaN) / 8.0565229338 - 1)).toBeLessThan(1e-8);
  expect(Math.abs((fit?.residualStandardDeviation ?? NaN) / 1.1587725499 - 1)).toBeLessThan(1e-8);
});

/** Maximised numerically apart from this project; the digits are those printed. */
describe("the best interval between harvests, logistic", () => {
  test.each([
    [200, 10, 0.4, 10.5, 13.87],
    [200, 20, 0.3, 10.6, 11.84],
    [150, 5, 0.5, 9.5, 12.1],
    [200, 10, 0.25, 16.8, 8.67],
  ])("K %d, stubble %d, rate %d: %d days, %d g dry m-2 d-1", (most, stubble, ratePerDay, bestDays, growth) => {
    const interval = harvestInterval({ curve: "logistic", most, stubble, ratePerDay });
    expect(Math.abs(interval.bestDays - bestDays)).toBeLessThanOrEqual(0.05);
    expect(Math.abs(interval.growthGPerM2Day - growth)).toBeLessThanOrEqual(0.005);
  });
  test.each([[7, 11.83], [14, 12.63], [21, 9.01]])("mean growth at %d days, K 200, stubble 10, rate 0.4", (days, growth) => {
    expect(Math.abs(meanGrowthGPerM2Day({ curve: "logistic", most: 200, stubble: 10, ratePerDay: 0.4 }, days) - growth)).toBeLessThanOrEqual(0.005);
  });
});

describe("water and light", () => {
  /** Naval architecture: tonnes per centimetre of immersion = waterplane area (m2) x density (t/m3) / 100. */
  test.each([[1, 1.025], [350, 1.025], [2400, 1]])("a float of %d m2 in water of %d t/m3 sinks 1 cm under its tonnes per centimetre", (area, density) => {
    const tonnesPerCentimetre = (area * density) / 100;
    expect(sinkageMm(1000 * tonnesPerCentimetre, area, density)).toBeCloseTo(10, 12);
  });
  /** A litre of pure water at 4 degrees C has 1 kg, and lies 1 mm deep on 1 m2. */
  test("a lid of 0.68 kg displaces its own mass of water", () => {
    expect(sinkageMm(0.68, 1, 1)).toBeCloseTo(0.68, 12);
    // EOS-80 at salinity 35 and 25 degrees C: 1.023343 kg/L (UNESCO 44), and 0.68 kg / 1.023343 kg/L = 0.66449 L on 0.05 m2.
    expect(sinkageMm(0.68, 0.05, seawaterDensityKgPerL(35, 25))).toBeCloseTo(13.29, 2);
  });
  /** Common practice, no source: 30 to 60 L/h for each centimetre of width. */
  test("a screen 25 cm wide wants 750 to 1500 L/h", () => {
    expect(flowNeededLPerH(25, 1)).toMatchObject({ low: 750, high: 1500 });
  });
  /** From memory, as the reference list has it: 9.4 g m-2 d-1 under 390 umol m-2 s-1 for 16 h, 22.5 mol, is 0.42 g/mol. */
  test("9.4 g m-2 under 22.5 mol m-2 is 0.42 g per mol", () => expect(lightYieldGPerMol(9.4, 1, 22.5)).toBeCloseTo(0.42, 2));
});

/** Any curve: its own slopes against the difference quotient, which is not this project's but Newton's. */
describe("slopes of what a harvest takes", () => {
  test.each(["logistic", "gompertz"] as const)("%s", (name) => {
    const { value, slopes } = harvestCurve(name);
    const parameters = [180, 14, 0.21];
    for (const days of [1, 6, 13, 30]) {
      slopes(days, parameters).forEach((slope, place) => {
        const step = 1e-5 * (parameters[place] ?? NaN);
        const moved = (by: number): number => value(days, parameters.map((parameter, at) => (at === place ? parameter + by : parameter)));
        expect(slope).toBeCloseTo((moved(step) - moved(-step)) / (2 * step), 5);
      });
      const { standing, growth } = GROWTH_CURVES[name];
      expect(growth(days, parameters)).toBeCloseTo((standing.value(days + 1e-4, parameters) - standing.value(days - 1e-4, parameters)) / 2e-4, 5);
    }
  });
});
