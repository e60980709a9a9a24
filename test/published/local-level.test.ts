import fixture from "./data/trend.json";
import { filterLevel, levelOn, levelsOf, type LevelReading } from "../../src/science/local-level";
import { fitLevelVariances } from "../../src/science/local-level-fit";

/**
 * Annual flow of the Nile at Aswan, 1871 to 1970: Durbin & Koopman 2012, chapter 2, with their variances 15099 and 1469.1.
 * Their figures with more digits, and those that the book shows as a graph only, were worked out outside this project.
 */
const { y, filtered_first: filtered, smoothed, P_steady } = fixture.nile;
const nile = y.map((value, place): LevelReading => ({ day: place + 1, value, variance: 0, kind: "value" }));
const VARIANCES = { scatter: 15099, perDay: 1469.1 };

describe("the Nile", () => {
  test.each(filtered.filter(({ t }) => t > 1))("expected level and its variance before year $t, started at 0 with variance 10,000,000", ({ t, a, P, v, F }) => {
    const step = filterLevel(nile, VARIANCES, { mean: 0, variance: 1e7 }).steps[t - 1];
    expect(step?.expected?.mean).toBeCloseTo(a, 8);
    expect(step?.expected?.variance).toBeCloseTo(P, 6);
    expect(step?.error).toBeCloseTo(v, 8);
    expect(step?.errorVariance).toBeCloseTo(F, 6);
  });
  test("from an unknown start the second year is expected at 1120 with variance 16568.1, and 1971 at 798.370293", () => {
    const { steps, logLikelihood } = filterLevel(nile, VARIANCES);
    expect(steps[1]?.expected?.mean).toBe(1120);
    expect(steps[1]?.expected?.variance).toBeCloseTo(16568.1, 9);
    expect(levelOn(101, nile, VARIANCES).mean).toBeCloseTo(798.370293, 6);
    expect(logLikelihood).toBeCloseTo(-632.5456, 4);
  });
  test("the variance of the expected level settles at (q + sqrt(q^2 + 4 q s)) / 2", () => {
    expect(levelOn(101, nile, VARIANCES).variance).toBeCloseTo(P_steady, 6);
  });
  test.each([29, 50, 100])("level of year %i with all years known", (year) => {
    const [mean, variance] = smoothed[String(year) as keyof typeof smoothed] as [number, number];
    // The outside figures started at variance 10,000,000, which fades with the years.
    const level = levelsOf(nile, VARIANCES).levels[year - 1];
    expect(Math.abs((level?.mean ?? NaN) - mean)).toBeLessThan(1e-4);
    expect(Math.abs((level?.variance ?? NaN) - variance)).toBeLessThan(1e-4);
  });
  /** 15098.518324 and 1469.176360: the concentrated likelihood (section 2.10) worked outside this project with 40 digits. R prints 15099 and 1469. */
  test("the likeliest variances are 15099 and 1469", () => {
    const { scatter, perDay, logLikelihood } = fitLevelVariances(nile);
    expect(Math.abs(scatter - 15098.518324)).toBeLessThan(1e-4);
    expect(Math.abs(perDay - 1469.17636)).toBeLessThan(1e-4);
    expect(logLikelihood).toBeCloseTo(-632.5456251, 7);
  });
});
