import { ALGAE, GROWTH_BAND } from "../../src/science/constants/algae";
import { quantileOfSorted, seededRandom } from "../../src/science/seeded";
import { areaNeeded, capacityGPerDay, growthFor, habitAreaM2, shareCarried, SIZING_INPUTS, type SizingCase } from "../../src/science/sizing";
import { draw, rectangular, triangular, withinShare } from "../../src/science/uncertain";

const KNOBS = { lightYield: 0.5, band: 8, halfN: 0.2, halfP: 0.03, q10: 2 };
const WATER = { lightMolPerM2Day: 10, targetNMgPerL: null, targetPMgPerL: null, temperatureC: 25 };
const WANTED: SizingCase = { loadNGPerDay: 0.2, loadPGPerDay: 0.025, lightMolPerM2Day: 14, targetNMgPerL: 1, targetPMgPerL: 0.06, temperatureC: 22, setting: "ordinary", loadShare: 0.2 };

describe("growth", () => {
  test("is what the light carries, up to the band: 0.5 x 10 = 5, 0.5 x 20 = 10 but 8", () => {
    expect(growthFor(WATER, KNOBS)).toBe(5);
    expect(growthFor({ ...WATER, lightMolPerM2Day: 20 }, KNOBS)).toBe(8);
  });
  test("slows by the scarcer nutrient: C / (K + C)", () => {
    // 0.6 / (0.2 + 0.6) = 3/4; 0.02 / (0.03 + 0.02) = 2/5.
    expect(growthFor({ ...WATER, targetNMgPerL: 0.6 }, KNOBS)).toBeCloseTo(5 * 0.75, 12);
    expect(growthFor({ ...WATER, targetPMgPerL: 0.02 }, KNOBS)).toBeCloseTo(5 * 0.4, 12);
    expect(growthFor({ ...WATER, targetNMgPerL: 0.6, targetPMgPerL: 0.02 }, KNOBS)).toBeCloseTo(5 * 0.4, 12);
    expect(growthFor({ ...WATER, targetNMgPerL: 0.6, targetPMgPerL: 3 }, KNOBS)).toBeCloseTo(5 * 0.75, 12);
  });
  test("doubles with ten degrees where Q10 is 2", () => {
    expect(growthFor({ ...WATER, temperatureC: 35 }, KNOBS)).toBeCloseTo(10, 12);
    expect(growthFor({ ...WATER, temperatureC: 20 }, KNOBS)).toBeCloseTo(5 / Math.SQRT2, 12);
  });
  test("of a screen at its most: area x growth at the top of the band x tissue share", () => {
    // 0.4 g a mol x 14 mol are 5.6; 0.4 x 50 are 20, and the band of ordinary screens ends at 10. At 1 mg/L 1 / 1.196, at 22 degrees 1.6^-0.3.
    const water = { ...WANTED, targetPMgPerL: null };
    expect(capacityGPerDay(0.5, 0.04, water, 0.4)).toBeCloseTo((0.5 * 0.04 * 5.6 * 1.6 ** -0.3) / 1.196, 12);
    expect(capacityGPerDay(0.5, 0.04, { ...water, lightMolPerM2Day: 50 }, 0.4)).toBeCloseTo((0.5 * 0.04 * 10 * 1.6 ** -0.3) / 1.196, 12);
    expect(capacityGPerDay(0.5, 0.04, WANTED, 0.4)).toBeCloseTo((0.5 * 0.04 * 5.6 * 1.6 ** -0.3 * 0.06) / 0.091, 12);
  });
  test("the trade's habit: 75 to 100 cm2 of sheet for 3 g of frozen food, lit on both sides", () => {
    expect(habitAreaM2(6)).toEqual({ low: expect.closeTo(0.03, 12), high: expect.closeTo(0.04, 12) });
  });
});

/** The same draws once more, one list an input, and all that is made of them by the schoolbook's two-pass sums. */
function reckoned(wanted: SizingCase, draws: number, seed: number) {
  const random = seededRandom(seed);
  const { low, high } = GROWTH_BAND[wanted.setting];
  const rows = Array.from({ length: draws }, () => ({
    lightYield: draw(triangular(ALGAE.lightYield), random), band: draw(rectangular(low, high), random), halfN: draw(triangular(ALGAE.halfSaturationN), random), halfP: draw(triangular(ALGAE.halfSaturationP), random),
    q10: draw(triangular(ALGAE.q10), random), tissueN: draw(triangular(ALGAE.tissueN), random), tissueP: draw(triangular(ALGAE.tissueP), random), load: draw(withinShare(1, wanted.loadShare ?? 0), random),
  }));
  const growth = rows.map((row) => growthFor(wanted, row));
  const forN = rows.map((row, place) => (wanted.loadNGPerDay * row.load) / ((growth[place] ?? NaN) * row.tissueN));
  const forP = rows.map((row, place) => (wanted.loadPGPerDay * row.load) / ((growth[place] ?? NaN) * row.tissueP));
  const areas = forN.map((one, place) => Math.max(one, forP[place] ?? NaN));
  const mean = (list: readonly number[]): number => list.reduce((sum, one) => sum + one, 0) / list.length;
  const together = (xs: readonly number[], ys: readonly number[]): number => {
    const [x, y] = [mean(xs), mean(ys)];
    return xs.reduce((sum, one, place) => sum + (one - x) * ((ys[place] ?? NaN) - y), 0);
  };
  const logs = areas.map(Math.log);
  const squared = SIZING_INPUTS.map((input) => {
    const xs = rows.map((row) => row[input]);
    return together(xs, xs) < 1e-12 ? 0 : together(xs, logs) ** 2 / (together(xs, xs) * together(logs, logs));
  });
  const total = squared.reduce((sum, one) => sum + one, 0);
  return {
    areas: [...areas].sort((a, b) => a - b),
    carried: (areaM2: number) => areas.map((area) => areaM2 / area).sort((a, b) => a - b),
    nitrogenRules: forN.filter((one, place) => one >= (forP[place] ?? NaN)).length / draws,
    drivers: new Map(SIZING_INPUTS.map((input, place) => [input, (squared[place] ?? NaN) / total])),
  };
}

describe("the area that a load needs", () => {
  const CASES: [string, SizingCase][] = [["both nutrients", WANTED], ["nitrogen only", { ...WANTED, loadPGPerDay: 0 }], ["phosphorus only", { ...WANTED, loadNGPerDay: 0, targetNMgPerL: null }], ["an exact load under strong light", { ...WANTED, lightMolPerM2Day: 60, loadShare: 0, setting: "strong" }]];
  test.each(CASES)("%s: limits, what rules and what drives the spread, by the same draws reckoned again", (_, wanted) => {
    const found = areaNeeded(wanted, 300, 17);
    const again = reckoned(wanted, 300, 17);
    expect(found.low).toBeCloseTo(quantileOfSorted(again.areas, 0.1), 12);
    expect(found.middle).toBeCloseTo(quantileOfSorted(again.areas, 0.5), 12);
    expect(found.high).toBeCloseTo(quantileOfSorted(again.areas, 0.9), 12);
    expect(found.nitrogenRules).toBe(again.nitrogenRules);
    expect(found.drivers.map(({ input }) => input).sort()).toEqual([...SIZING_INPUTS].sort());
    for (const { input, share } of found.drivers) expect(share).toBeCloseTo(again.drivers.get(input) ?? NaN, 8);
    const shares = found.drivers.map(({ share }) => share);
    expect(shares).toEqual([...shares].sort((a, b) => b - a));
    expect(shares.reduce((sum, one) => sum + one, 0)).toBeCloseTo(1, 12);
  });
  test.each(CASES)("%s: the share that half a square metre carries", (_, wanted) => {
    const { low, middle, high } = shareCarried(0.5, wanted, 300, 17);
    const shares = reckoned(wanted, 300, 17).carried(0.5);
    expect([low, middle, high]).toEqual([0.1, 0.5, 0.9].map((p) => expect.closeTo(quantileOfSorted(shares, p), 10)));
  });
  test("what rules: nitrogen where it alone is there, never where only phosphorus is", () => {
    expect(areaNeeded({ ...WANTED, loadPGPerDay: 0 }, 50, 1).nitrogenRules).toBe(1);
    expect(areaNeeded({ ...WANTED, loadNGPerDay: 0 }, 50, 1).nitrogenRules).toBe(0);
    const both = areaNeeded(WANTED, 300, 17).nitrogenRules;
    expect(both).toBeGreaterThan(0.1);
    expect(both).toBeLessThan(0.9);
  });
  test("an exact load drives nothing, and a single draw has nothing that drives it", () => {
    expect(areaNeeded({ ...WANTED, loadShare: 0 }, 300, 17).drivers.find(({ input }) => input === "load")?.share).toBe(0);
    expect(areaNeeded(WANTED, 1, 17).drivers.map(({ share }) => share)).toEqual(SIZING_INPUTS.map(() => 0));
  });
  test("twice the load needs twice the area", () => {
    const [one, two] = [areaNeeded(WANTED, 100, 3), areaNeeded({ ...WANTED, loadNGPerDay: 0.4, loadPGPerDay: 0.05 }, 100, 3)];
    expect(two.middle / one.middle).toBeCloseTo(2, 12);
  });
  test("no load, no light and a target of nothing have no answer", () => {
    const kindOf = (wanted: Partial<SizingCase>): unknown => {
      try {
        return areaNeeded({ ...WANTED, ...wanted }, 2, 1).middle;
      } catch (error) {
        return (error as { kind?: string }).kind;
      }
    };
    expect(kindOf({ loadNGPerDay: 0, loadPGPerDay: 0 })).toBe("number");
    expect(kindOf({ loadNGPerDay: 0 })).toEqual(expect.any(Number));
    expect(kindOf({ loadPGPerDay: 0 })).toEqual(expect.any(Number));
    expect(kindOf({ lightMolPerM2Day: 0 })).toBe("divide");
    expect(kindOf({ targetNMgPerL: 0 })).toBe("divide");
    expect(kindOf({ targetPMgPerL: 0 })).toBe("divide");
  });
});
