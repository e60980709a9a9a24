import { ALGAE } from "../../src/science/constants/algae";
import { areaNeeded, habitAreaM2, shareCarried, type SizingCase } from "../../src/science/sizing";
import { triangular } from "../../src/science/uncertain";

/** Little light: the band of the setting never binds; no targets, 25 degrees, no phosphorus: only light yield and tissue N are left. */
const DIM: SizingCase = { loadNGPerDay: 0.05, loadPGPerDay: 0, lightMolPerM2Day: 5, targetNMgPerL: null, targetPMgPerL: null, temperatureC: 25, setting: "ordinary" };

/** Moments of x and ln x over a triangular spread, by quadrature over its quantiles. */
function logMoments(ranged: { low: number; value: number; high: number }): { variance: number; correlation: number } {
  const { low, value, high } = triangular(ranged);
  const top = (value - low) / (high - low);
  const n = 200_000;
  let [x, xx, y, yy, xy] = [0, 0, 0, 0, 0];
  for (let index = 0; index < n; index += 1) {
    const p = (index + 0.5) / n;
    const one = p < top ? low + Math.sqrt(p * (high - low) * (value - low)) : high - Math.sqrt((1 - p) * (high - low) * (high - value));
    const log = Math.log(one);
    x += one / n;
    xx += (one * one) / n;
    y += log / n;
    yy += (log * log) / n;
    xy += (one * log) / n;
  }
  return { variance: yy - y * y, correlation: (xy - x * y) / Math.sqrt((xx - x * x) * (yy - y * y)) };
}

describe("what drives the spread of an area", () => {
  test("with two inputs left, their shares are those of the variances of their logarithms", () => {
    const [light, tissue] = [logMoments(ALGAE.lightYield), logMoments(ALGAE.tissueN)];
    const total = light.variance + tissue.variance;
    const squared = [light, tissue].map(({ variance, correlation }) => (correlation ** 2 * variance) / total);
    const sum = (squared[0] ?? 0) + (squared[1] ?? 0);
    const { drivers } = areaNeeded(DIM, 100_000, 1);
    const share = (input: string): number => drivers.find((one) => one.input === input)?.share ?? NaN;
    expect(share("lightYield")).toBeCloseTo((squared[0] ?? 0) / sum, 2);
    expect(share("tissueN")).toBeCloseTo((squared[1] ?? 0) / sum, 2);
    expect(drivers.reduce((all, one) => all + one.share, 0)).toBeCloseTo(1, 9);
    expect(drivers[0]?.share).toBeGreaterThanOrEqual(drivers[1]?.share ?? 1);
  });

  test("a load that is hardly known drives it most", () => {
    expect(areaNeeded({ ...DIM, loadShare: 0.9 }, 20_000, 1).drivers[0]?.input).toBe("load");
  });
});

test("a share carried and an area needed are two sides of one thing: the middle area carries the middle share of 1", () => {
  const { middle } = areaNeeded(DIM, 20_000, 1);
  const carried = shareCarried(middle, DIM, 20_000, 1);
  expect(carried.middle).toBeCloseTo(1, 2);
  expect(carried.low).toBeLessThan(1);
  expect(shareCarried(2 * middle, DIM, 20_000, 1).middle).toBeCloseTo(2 * carried.middle, 9);
});

/**
 * Common practice, no source, against the mass balance: 3 g a day of frozen food at 5 to 20 % protein brings 24 to 96 mg N;
 * 0.02 m2 lit at 8 g m-2 d-1 and 4 % N takes 6.4 mg. The habit covers a part.
 */
test("the common-practice area carries only a part of the load", () => {
  expect(habitAreaM2(3).high * 8 * 0.04).toBeCloseTo(0.0064, 9);
  const wanted = { ...DIM, loadNGPerDay: 0.06, lightMolPerM2Day: 14, setting: "ordinary" as const };
  expect(shareCarried(habitAreaM2(3).low, wanted, 10_000, 1).low).toBeGreaterThan(0.02);
  expect(shareCarried(habitAreaM2(3).high, wanted, 10_000, 1).high).toBeLessThan(0.27);
});

test("the same seed gives the same area, another seed nearly the same", () => {
  expect(areaNeeded(DIM, 5000, 3)).toEqual(areaNeeded(DIM, 5000, 3));
  expect(areaNeeded(DIM, 50_000, 4).middle / areaNeeded(DIM, 50_000, 3).middle).toBeCloseTo(1, 1);
});
