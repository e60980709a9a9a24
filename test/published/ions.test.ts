import fixture from "./data/ions.json";
import { number } from "../call";

const factor = fixture.factor as Record<string, { value: number; u: number }>;

/**
 * IUPAC/CIAAW abridged atomic weights, propagated independently of this project (data/ions.json; u from the weights'
 * own limits). The tolerance is that uncertainty, at most 5 in 100,000.
 */
describe("ion factors agree with the IUPAC atomic weights", () => {
  test.each([
    ["NO3-N", "NO3", "NO3_per_N"],
    ["NO3", "NO3-N", "N_per_NO3"],
    ["NO2-N", "NO2", "NO2_per_N"],
    ["NO2", "NO2-N", "N_per_NO2"],
    ["NH3-N", "NH3", "NH3_per_N"],
    ["NH3", "NH3-N", "N_per_NH3"],
    ["NH4-N", "NH4", "NH4_per_N"],
    ["NH4", "NH4-N", "N_per_NH4"],
    ["NH3", "NH4", "NH4_per_NH3"],
    ["PO4-P", "PO4", "PO4_per_P"],
    ["PO4", "PO4-P", "P_per_PO4"],
    ["P", "P2O5", "P2O5_per_P"],
    ["P2O5", "P", "P_per_P2O5"],
    ["PO4", "P2O5", "P2O5_per_PO4"],
    ["P2O5", "PO4", "PO4_per_P2O5"],
    ["NO2", "NO3", "NO3_per_NO2"],
    ["mg/L NO3", "umol/L NO3", "umolL_per_mgL_NO3"],
    ["mg/L N", "umol/L N", "umolL_per_mgL_N"],
    ["mg/L PO4", "umol/L PO4", "umolL_per_mgL_PO4"],
    ["mg/L P", "umol/L P", "umolL_per_mgL_P"],
    ["mg/L PO4", "ug/L P", "ppbP_per_mgL_PO4"],
  ])("1 %s in %s", (from, to, key) => {
    const expected = factor[key];
    if (!expected) throw new Error(key);
    expect(Math.abs(number("ION_CONVERT", 1, from, to) - expected.value)).toBeLessThanOrEqual(expected.u);
  });
});

describe("ion factors agree with printed figures, to half of their last digit", () => {
  test.each([
    // Laboratory proficiency-test supplier's newsletter 8/2005: share of N or P in the ion.
    ["NO2", "N", 1, 0.304, 0.0005],
    ["NO3", "N", 1, 0.226, 0.0005],
    ["PO4", "P", 1, 0.326, 0.0005],
    // The same note rounds the weights of ammonia to 14/17.
    ["NH3", "N", 1, 0.823, 0.0006],
    // Science of Agriculture, nitrogen pollutants page: 30 mg/L NO3 is 6.78 mg/L NO3-N.
    ["NO3", "NO3-N", 30, 6.78, 0.005],
    // State extension tables of fertiliser factors.
    ["P", "P2O5", 1, 2.29, 0.005],
    ["P2O5", "P", 1, 0.44, 0.005],
  ])("%s to %s", (from, to, amount, expected, tolerance) => {
    expect(Math.abs(number("ION_CONVERT", amount, from, to) - expected)).toBeLessThanOrEqual(tolerance);
  });
});

/** TEOS-10 density (gsw 3.6.16), references: 10 mg/kg in sea water of salinity 35. The density here is EOS-80, within 0.006 kg/m3. */
test.each([
  [20, 10.24766],
  [25, 10.23344],
  [28, 10.22395],
])("10 mg/kg NO3 at salinity 35 and %d degrees C is %d mg/L", (temperature, expected) => {
  expect(Math.abs(number("ION_CONVERT", 10, "mg/kg NO3", "mg/L NO3", 35, temperature) - expected)).toBeLessThanOrEqual(1e-4);
});

/** Same source: 10 mg/L NO3 is 157.601 umol/kg at salinity 35, 25 degrees C. */
test("10 mg/L NO3 is 157.60 umol/kg in sea water of 25 degrees C", () => {
  expect(Math.abs(number("ION_CONVERT", 10, "mg/L NO3", "umol/kg NO3", 35, 25) - 157.601)).toBeLessThanOrEqual(0.0055);
});

/** Redfield's 16:1 by moles is 10.446 by mass of NO3 to PO4 (IUPAC weights), Redfield et al. 1963 for the ratio. */
test("16 mol N to 1 mol P reads 10.446 mg NO3 to 1 mg PO4, and 7.24 g N to 1 g P", () => {
  const no3 = factor["redfield_NO3_to_PO4_mass_16"]?.value ?? 0;
  expect(number("NP_RATIO", no3, "mg/L NO3", 1, "mg/L PO4", "moles")).toBeCloseTo(16, 4);
  expect(Math.abs(number("NP_RATIO", no3, "mg/L NO3", 1, "mg/L PO4") - 7.24)).toBeLessThanOrEqual(0.005);
});
