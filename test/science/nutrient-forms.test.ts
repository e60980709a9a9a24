import { concentrationUnitNamed, conversionFactor, elementMgPerL, formNamed, formsOf, nutrientOf, parseBasis, substanceOf, type Form } from "../../src/science/nutrient-forms";
import { Problem } from "../../src/science/problem";
import { science as words } from "../../src/words/science";

const sentenceOf = (act: () => unknown): string => {
  try {
    act();
  } catch (error) {
    if (error instanceof Problem && error.kind === "value" && error.name === "Problem") return error.message;
    throw error;
  }
  throw new Error("not refused");
};

/** What a kit measures, and which nutrient it is. */
test.each([
  ["nitrate", "N", ["NO3", "NO3-N"]], ["nitrite", "N", ["NO2", "NO2-N"]], ["ammonia", "N", ["NH3", "NH3-N", "NH4", "NH4-N"]], ["total nitrogen", "N", ["N"]], ["phosphate", "P", ["PO4", "PO4-P", "P", "P2O5"]],
] as const)("%s is a form of %s", (substance, nutrient, forms) => {
  expect(formsOf(substance)).toEqual(forms);
  for (const form of forms) {
    expect(substanceOf(form)).toBe(substance);
    expect(nutrientOf(form)).toBe(nutrient);
  }
});

test.each([
  ["no3", "NO3"], ["NO3-", "NO3"], ["NO₃⁻", "NO3"], ["NO3N", "NO3-N"], ["no3–n", "NO3-N"], ["NO3—N", "NO3-N"], ["NO3−N", "NO3-N"], ["NH4+", "NH4"], ["NH₄⁺-N", "NH4-N"], ["PO4³⁻", "PO4"], ["PO₄-P", "PO4-P"], ["po4 p", "PO4-P"],
  ["P₂O₅", "P2O5"], ["NO₂", "NO2"], [" P ", "P"], ["N", "N"], ["nh3", "NH3"], ["PO4---", "PO4"],
])("%s is read as %s", (written, form) => expect(formNamed(written)).toBe(form));
test.each(["", "NO", "NO33", "nitrate", "X", "NO3-P", "P4O10", "K2O"])("%j is no form", (written) => expect(formNamed(written)).toBeNull());

test.each([
  ["mg/L", "mg/L"], ["MG/L", "mg/L"], ["µg/l", "ug/L"], ["μmol/L", "umol/L"], ["ug / L", "ug/L"], ["mg L-1", "mg/L"], ["mg*L^-1", "mg/L"], ["mmol l-1", "mmol/L"], ["umol/kg", "umol/kg"], ["G/L", "g/L"], [" mg/kg ", "mg/kg"], ["ug/kg", "ug/kg"],
])("%s is read as %s", (written, unit) => expect(concentrationUnitNamed(written)).toBe(unit));
test.each(["", "mg", "L", "mg/m3", "ppt", "xppm", "ppmx"])("%j is no unit", (written) => expect(concentrationUnitNamed(written)).toBeNull());
test.each(["ppm", "PPB", " ppm "])("%s is two things, and refused", (written) => expect(sentenceOf(() => concentrationUnitNamed(written))).toBe(words.ppmIsTwoThings));

test.each([
  ["NO3", "mg/L", "NO3"], ["mg/L NO3-N", "mg/L", "NO3-N"], ["umol/L P", "umol/L", "P"], ["mg/L as N", "mg/L", "N"], ["  ug/L   AS  po4 ", "ug/L", "PO4"], ["NO3 mg/kg", "mg/kg", "NO3"],
])("%j is %s of %s", (written, unit, form) => expect(parseBasis(written)).toEqual({ unit, form }));
test("a basis that is open, missing or unknown is refused with its own sentence", () => {
  for (const open of ["nitrate", "mg/L Phosphate", "Ammonium", "nitrite", "ammonia"]) expect(sentenceOf(() => parseBasis(open))).toBe(words.basisOpen(open));
  expect(sentenceOf(() => parseBasis("mg/L"))).toBe(words.formMissing("mg/L"));
  expect(sentenceOf(() => parseBasis(""))).toBe(words.formMissing(""));
  expect(sentenceOf(() => parseBasis("mg/m3 NO3"))).toBe(words.unknownUnit("mg/m3"));
  expect(sentenceOf(() => parseBasis("mg/L NO7"))).toBe(words.unknownForm("NO7"));
  expect(sentenceOf(() => parseBasis("nitrates"))).toBe(words.unknownForm("nitrates"));
});

/** By definition, with IUPAC abridged weights: N 14.007, P 30.974, H 1.008, O 15.999. */
const MOLAR: Readonly<Record<Form, number>> = {
  N: 14.007, "NO3-N": 14.007, "NO2-N": 14.007, "NH3-N": 14.007, "NH4-N": 14.007, NO3: 62.004, NO2: 46.005, NH3: 17.031, NH4: 18.039, P: 30.974, "PO4-P": 30.974, PO4: 94.97, P2O5: 70.9715,
};
test.each(Object.entries(MOLAR) as [Form, number][])("1 mg/L %s is one millimole of the element in %d g", (form, gramsPerMole) => {
  const element = nutrientOf(form) === "N" ? 14.007 : 30.974;
  expect(elementMgPerL({ unit: "mg/L", form })).toBeCloseTo(element / gramsPerMole, 10);
  expect(elementMgPerL({ unit: "g/L", form })).toBeCloseTo((1000 * element) / gramsPerMole, 7);
  expect(elementMgPerL({ unit: "ug/L", form })).toBeCloseTo(element / gramsPerMole / 1000, 13);
  // A mole of P2O5 holds two of P.
  expect(elementMgPerL({ unit: "mmol/L", form })).toBeCloseTo(element * (form === "P2O5" ? 2 : 1), 10);
  expect(elementMgPerL({ unit: "umol/L", form })).toBeCloseTo((element * (form === "P2O5" ? 2 : 1)) / 1000, 13);
});

/** UNESCO 44: sea water of salinity 35 at 5 degrees C (1968 scale) has 1.02767547 kg/L. */
test("kilograms and litres meet at the water's density, and not without it", () => {
  const water = { salinity: 35, temperatureC: 5 / 1.00024 };
  for (const [perKg, perL] of [["mg/kg", "mg/L"], ["ug/kg", "ug/L"], ["umol/kg", "umol/L"]] as const) {
    expect(conversionFactor({ unit: perKg, form: "NO3" }, { unit: perL, form: "NO3" }, water)).toBeCloseTo(1.02767547, 8);
    expect(conversionFactor({ unit: perL, form: "NO3" }, { unit: perKg, form: "NO3" }, water)).toBeCloseTo(1 / 1.02767547, 8);
    expect(sentenceOf(() => conversionFactor({ unit: perKg, form: "NO3" }, { unit: perL, form: "NO3" }))).toBe(words.needsSalinity);
  }
  expect(conversionFactor({ unit: "mg/kg", form: "NO3" }, { unit: "ug/kg", form: "NO3" })).toBeCloseTo(1000, 9);
});
test("nitrogen is not phosphorus", () => expect(sentenceOf(() => conversionFactor({ unit: "mg/L", form: "NO3" }, { unit: "mg/L", form: "PO4" }))).toBe(words.nitrogenIsNotPhosphorus("NO3", "PO4")));
