import gases from "./data/gas-ammonia.json";
import seawater from "./data/seawater.json";
import { ammoniumPkaSalt, oxygenSaturationMgPerL, unionisedShare } from "../../src/science/gases";
import { salinityFromRatio, specificGravity } from "../../src/science/salinity";
import { errorOf, number, rows } from "../call";

/** UNESCO 44 (Fofonoff & Millard 1983), pages 9 and 11; the second and third figures printed to a millionth. */
test.each([
  [1, 15, 0, 35, 1e-6],
  [1.2, 20, 2000, 37.245628, 1e-6],
  [0.65, 5, 1500, 27.995347, 1e-6],
  [1.888091, 40, 10000, 40, 5e-6],
])("practical salinity of ratio %d at %d degrees C and %d dbar is %d", (ratio, t68, pressure, expected, tolerance) => {
  expect(Math.abs(salinityFromRatio(ratio, t68, pressure) - expected)).toBeLessThanOrEqual(tolerance);
});

/** PSS-78 by gsw 3.6.16. The standard conductivity is 42.914 mS/cm, so the last digit printed counts. */
test.each([
  [53.071, 25, 35],
  [47.918, 20, 35],
  [46.2532, 25, 30],
  [53, 25, 34.947],
  [50, 25, 32.733],
])("%d mS/cm at %d degrees C is salinity %d", (conductivity, temperature, expected) => {
  expect(Math.abs(number("SALINITY_FROM_CONDUCTIVITY", conductivity, temperature) - expected)).toBeLessThanOrEqual(0.0006);
});

test("the practical salinity scale is not stretched to fresh water", () => {
  expect(errorOf("SALINITY_FROM_CONDUCTIVITY", 0.5, 25)).toMatchObject({ code: "#NUM!", message: expect.stringContaining("runs from 2 to 42") });
  expect(errorOf("SALINITY_FROM_CONDUCTIVITY", 100, 25).code).toBe("#NUM!");
});

/** TEOS-10 (gsw 3.6.16), 41 salinities in five reference systems; EOS-80 is within 0.006 kg/m3, so within 0.000008 in gravity. */
describe("specific gravity", () => {
  const systems = { SG20_20: [20, 20], SG25_25: [25, 25], SG15_15: [15, 15], SG25_4: [25, 4], SG60F_60F: [(60 - 32) / 1.8, (60 - 32) / 1.8] } as const;
  test.each(Object.entries(systems))("%s agrees over the whole table", (key, [sampleC, waterC]) => {
    expect(seawater.specific_gravity.length).toBeGreaterThanOrEqual(41);
    for (const row of seawater.specific_gravity as Record<string, number>[]) {
      expect(Math.abs(specificGravity(row["SP"] ?? 0, { sampleC, waterC }) - (row[key] ?? 0))).toBeLessThanOrEqual(0.000008);
    }
  });
  /** The same source, inverse; the density difference of 0.006 kg/m3 is 0.008 in salinity. */
  test.each([
    [1.025, "25/25", 33.186],
    [1.025, "20/20", 32.896],
    [1.025, "60/60F", 32.582],
    [1.0264, "25/25", 35.035],
  ])("%d at %s is salinity %d", (gravity, reference, expected) => {
    expect(Math.abs(number("SALINITY_FROM_SG", gravity, reference) - expected)).toBeLessThanOrEqual(0.008);
  });
  test("forgetting the reference temperature costs 0.3 to 4 of salinity", () => {
    const at = (reference: string): number => number("SALINITY_FROM_SG", 1.025, reference);
    expect(at("25/25") - at("20/20")).toBeGreaterThan(0.25);
    expect(at("25/4") - at("25/25")).toBeGreaterThan(3.5);
    expect(at("25/4") - at("25/25")).toBeLessThan(4.2);
  });
  test("a reference that is none is refused", () => expect(errorOf("SALINITY_FROM_SG", 1.025, "warm").message).toContain("25/25"));
});

/** Standard Methods table (from memory), three decimals; the coefficients were read in public codes. */
test.each([
  [0, 14.621],
  [10, 11.288],
  [15, 10.084],
  [20, 9.092],
  [25, 8.263],
  [30, 7.559],
])("oxygen at saturation in fresh water of %d degrees C is %d mg/L", (temperature, expected) => {
  expect(Math.abs(number("OXYGEN_SATURATION", temperature) - expected)).toBeLessThanOrEqual(0.00055);
});

/** The same equations coded independently (data/gas-ammonia.json). */
test("oxygen, ammonia in fresh and in sea water agree with independent code over its whole grid", () => {
  expect(gases.oxygen.length).toBeGreaterThan(40);
  for (const { t, S, bk84_mgL } of gases.oxygen) expect(oxygenSaturationMgPerL(t, S)).toBeCloseTo(bk84_mgL, 9);
  for (const { t, pH, frac } of gases.ammonia_fresh) expect(unionisedShare(pH, t, 0)).toBeCloseTo(frac, 12);
  for (const { t, S, pH, epa89, pK_epa89 } of gases.ammonia_salt) {
    expect(Math.abs(ammoniumPkaSalt(t, S) - pK_epa89)).toBeLessThanOrEqual(1e-9);
    expect(unionisedShare(pH, t, S)).toBeCloseTo(epa89, 9);
  }
});

/** Pressure term of the same method, coefficients from memory: 8.1623 mg/L at 20 degrees C and 0.9 atm. */
test("oxygen at 0.9 atmospheres and 20 degrees C is 8.1623 mg/L", () => {
  expect(Math.abs(number("OXYGEN_SATURATION", 20, 0, 0.9) - 8.1623)).toBeLessThanOrEqual(0.00005);
});

/** Emerson et al. 1975, table (from memory): 5.38 % at 25 degrees C and pH 8; 273.15 against the paper's 273.2 is 0.35 % of it. */
test("5.4 per cent of total ammonia is un-ionised at 25 degrees C and pH 8 in fresh water", () => {
  expect(Math.abs(100 * unionisedShare(8, 25, 0) - 5.38)).toBeLessThanOrEqual(0.005 * 5.38);
  expect(rows("AMMONIA_UNIONISED", 1, 8, 25)).toEqual([[0.054, 0.051, 0.056]]);
});

/** EPA 440/5-88-004 form at S 35, 25 degrees C, pH 8.2: 6.989 %; formulas on other pH scales give 6.5 to 8.3 %. */
test("in sea water the answer has two digits and a range that holds the other formulas", () => {
  const [value, low, high] = rows("AMMONIA_UNIONISED", 1, 8.2, 25, 35)[0] as number[];
  expect([value, low, high]).toEqual([0.07, 0.059, 0.08]);
  expect(low).toBeLessThanOrEqual(0.06457);
});

/** Exact stoichiometry; printed 7.14 mg CaCO3 per mg N and 1 meq/L = 50.04 mg/L CaCO3 = 2.8 dKH. */
describe("alkalinity", () => {
  test("nitrifying 1 mg/L N takes 7.14 mg/L CaCO3", () => expect(Math.abs(number("ALKALINITY_SHIFT", 1, "nitrification", "mg/L CaCO3") + 7.1454)).toBeLessThanOrEqual(0.0004));
  test("10 mg/L NO3 taken up as nitrate gives 0.16128 meq/L and 0.4522 dKH", () => {
    const n = number("ION_CONVERT", 10, "NO3", "NO3-N");
    expect(Math.abs(number("ALKALINITY_SHIFT", n, "nitrate uptake") - 0.16128)).toBeLessThanOrEqual(0.000006);
    expect(Math.abs(number("ALKALINITY_SHIFT", n, "nitrate uptake", "dKH") - 0.4522)).toBeLessThanOrEqual(0.00006);
  });
  test("food to ammonium to nitrate to tissue is neutral", () => {
    const loop = ["ammonification", "nitrification", "nitrate uptake"].reduce((sum, process) => sum + number("ALKALINITY_SHIFT", 3.7, process), 0);
    expect(loop).toBeCloseTo(0, 14);
    expect(number("ALKALINITY_SHIFT", 3.7, "ammonification") + number("ALKALINITY_SHIFT", 3.7, "ammonium uptake")).toBeCloseTo(0, 14);
  });
});
