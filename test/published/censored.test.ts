import fixture from "./data/trend.json";
import { censoredLikelihood, robustOrderStatistics } from "../../src/science/censored";
import { densityOverDistribution, logNormalDistribution, normalDistribution, normalQuantile } from "../../src/science/normal";

/**
 * USEPA 2009 Unified Guidance, example 15-1 (manganese, 25 readings, 6 below two limits). Figures as printed in the EnvStats
 * documentation of the example; those with more digits worked out outside this project from the same data.
 */
const { x, censored, mle, ros } = fixture.epa_15_1_manganese;
const readings = x.map((value, place) => ({ value, below: censored[place] === 1 }));

describe("manganese in wells, with readings below 2 and below 5", () => {
  test("maximum likelihood: mean of logs 2.2159047, standard deviation 1.3562912", () => {
    const { meanLog, sdLog, mean } = censoredLikelihood(readings);
    expect(meanLog).toBeCloseTo(2.2159047, 7);
    expect(sdLog).toBeCloseTo(1.3562912, 7);
    expect(Math.abs(mean - mle.mean)).toBeLessThan(1e-5);
  });
  test("the likelihood of the logarithms is -38.727814", () => {
    const logs = readings.map(({ value, below }) => ({ value: Math.log(value), below }));
    const normal = censoredLikelihood(logs, "normal");
    expect(normal.logLikelihood).toBeCloseTo(mle.loglik, 8);
    expect([normal.mean.toFixed(7), normal.sd.toFixed(7)]).toEqual(["2.2159047", "1.3562912"]);
  });
  test("robust regression on order statistics, a = 0.375: 2.298656 and 1.238104; the line itself 2.293742 and 1.283635", () => {
    const { meanLog, sdLog, line } = robustOrderStatistics(readings, 0.375);
    expect(meanLog).toBeCloseTo(2.298656, 6);
    expect(sdLog).toBeCloseTo(1.238104, 6);
    expect(line.meanLog).toBeCloseTo(2.293742, 6);
    // Printed 1.283635; the last digit of the slope is 1.2836352.
    expect(line.sdLog).toBeCloseTo(1.283635, 6);
  });
  test("robust regression on order statistics, a = 0: 2.2771750 and 1.2614306, mean 19.82767, sd 25.86966", () => {
    const { meanLog, sdLog, mean, sd } = robustOrderStatistics(readings, 0);
    expect(meanLog).toBeCloseTo(2.277175, 6);
    expect(sdLog).toBeCloseTo(1.2614306, 7);
    expect(mean).toBeCloseTo(ros.mean, 8);
    expect(sd).toBeCloseTo(ros.sd, 8);
  });
});

/** Abramowitz & Stegun 1964, tables 26.1 and 26.5 (standard normal distribution and its percentage points), from memory. */
describe("the normal distribution", () => {
  test.each([[0, 0.5], [1, 0.841344746068543], [1.96, 0.975002104851780], [2, 0.977249868051821], [3, 0.998650101968370], [4, 0.9999683287581669], [5, 0.9999997133484281]])("P(%f) = %f", (z, p) => {
    expect(normalDistribution(z)).toBeCloseTo(p, 14);
    expect(normalDistribution(-z)).toBeCloseTo(1 - p, 14);
  });
  test.each([[0.975, 1.959963984540054], [0.95, 1.644853626951473], [0.9, 1.281551565544601], [0.001, -3.090232306167813]])("the %f point is %f", (p, z) => {
    expect(normalQuantile(p)).toBeCloseTo(z, 12);
  });
  /** -log10 of the upper tail at 10 and 38 is 23.11805 and 315.53979 (table 26.2; from memory). */
  test("far out, where the chance itself has too few digits, its logarithm is still right", () => {
    expect(-logNormalDistribution(-10) / Math.LN10).toBeCloseTo(23.11805, 5);
    expect(-logNormalDistribution(-38) / Math.LN10).toBeCloseTo(315.53979, 4);
    expect(densityOverDistribution(-1e9)).toBeCloseTo(1e9, 0);
  });
});
