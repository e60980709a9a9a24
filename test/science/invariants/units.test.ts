import fc from "fast-check";
import { ALKALINITY_UNITS, alkalinityShift, type AlkalinityUnit } from "../../../src/science/alkalinity";
import { concentrationUnitNamed, conversionFactor, elementMgPerL, formNamed, nutrientOf, parseBasis, type Basis, type ConcentrationUnit, type Form } from "../../../src/science/nutrient-forms";
import { salinityFromGravity, specificGravity } from "../../../src/science/salinity";
import { aLog, cellsOf, CHOICES, expectSame, figures, PLAIN, read, RUNS, setUpOf, type Units } from "./random-log";

/** Invariants of units: the same water written in another way is the same account. */
const FORMS: readonly Form[] = ["N", "NO3", "NO3-N", "NO2", "NO2-N", "NH3", "NH3-N", "NH4", "NH4-N", "P", "PO4", "PO4-P", "P2O5"];
const UNITS: readonly ConcentrationUnit[] = ["g/L", "mg/L", "ug/L", "mmol/L", "umol/L", "mg/kg", "ug/kg", "umol/kg"];

/** IUPAC abridged weights. */
const [H, N, O, P] = [1.008, 14.007, 15.999, 30.974];
/** Other ways to write the plain log; factors by definition: 1 US gallon is 3.785411784 L. */
const OTHERS: readonly Partial<Units>[] = [
  { mass: ["kg", 1e-3] },
  { mass: ["mg", 1e3] },
  { volume: ["US gal", 1 / 3.785411784] },
  { volume: ["ml", 1000] },
  { volume: ["m3", 1e-3] },
  { no3: ["NO3 (ug/L)", 1], po4: ["PO4 (ug/L)", 1], nh4: ["NH4 (ug/L)", 1] },
  { no3: ["NO3-N (mg/L)", (1e-3 * N) / (N + 3 * O)] },
  { nh4: ["NH4-N (mg/L)", (1e-3 * N) / (N + 4 * H)] },
  { nh4: ["NH3 (mg/L)", (1e-3 * (N + 3 * H)) / (N + 4 * H)] },
  { po4: ["PO4-P (mg/L)", (1e-3 * P) / (P + 4 * O)] },
  { po4: ["P (ug/L)", P / (P + 4 * O)] },
  { po4: ["P2O5 (mg/L)", (1e-3 * (P + 2.5 * O)) / (P + 4 * O)] },
  { no3: ["NO3 (umol/L)", 1 / (N + 3 * O)] },
];

test("g or kg, litres or US gallons, mg/L or ug/L, as the ion or as N and P: the account is the same", () =>
  fc.assert(fc.property(aLog, fc.subarray([...OTHERS], { minLength: 1 }), fc.constantFrom(...CHOICES), fc.constantFrom("N" as const, "P" as const), (log, changes, choice, nutrient) => {
    const units: Units = Object.assign({}, PLAIN, ...changes);
    const plain = figures(read(cellsOf(log), setUpOf(), nutrient), choice).results;
    expectSame(figures(read(cellsOf(log, units), setUpOf(1, [], units.volume), nutrient), choice).results, plain);
  }), { numRuns: RUNS }));

const aBasis: fc.Arbitrary<Basis> = fc.record({ unit: fc.constantFrom(...UNITS), form: fc.constantFrom(...FORMS) });
const water = fc.record({ salinity: fc.double({ min: 0, max: 42, noNaN: true }), temperatureC: fc.double({ min: -2, max: 40, noNaN: true }) });
const ofOneNutrient = fc.tuple(aBasis, aBasis, aBasis).filter(([a, b, c]) => nutrientOf(a.form) === nutrientOf(b.form) && nutrientOf(b.form) === nutrientOf(c.form));

test("a concentration comes back from any other unit and form, and by any way round", () =>
  fc.assert(fc.property(ofOneNutrient, water, ([a, b, c], state) => {
    expect(conversionFactor(a, b, state) * conversionFactor(b, a, state)).toBeCloseTo(1, 12);
    expect((conversionFactor(a, b, state) * conversionFactor(b, c, state)) / conversionFactor(a, c, state)).toBeCloseTo(1, 12);
    expect(conversionFactor(a, a, state)).toBe(1);
    expect((elementMgPerL(a, state) / elementMgPerL(b, state)) / conversionFactor(a, b, state)).toBeCloseTo(1, 12);
  }), { numRuns: RUNS }));

test("what a unit and a form are called is read back in any case, with spaces", () =>
  fc.assert(fc.property(aBasis, fc.boolean(), fc.constantFrom("", " ", "  "), ({ unit, form }, upper, space) => {
    const say = (text: string): string => `${space}${upper ? text.toUpperCase() : text.toLowerCase()}${space}`;
    expect(concentrationUnitNamed(say(unit))).toBe(unit);
    expect(formNamed(say(form))).toBe(form);
    expect(parseBasis(`${say(unit)} ${say(form)}`)).toEqual({ unit, form });
    expect(parseBasis(`${say(unit)} as ${say(form)}`)).toEqual({ unit, form });
  }), { numRuns: RUNS }));

test("salinity comes back from its specific gravity, at any reference temperatures", () =>
  fc.assert(fc.property(fc.double({ min: 0, max: 42, noNaN: true }), fc.double({ min: 0, max: 40, noNaN: true }), fc.double({ min: 0, max: 40, noNaN: true }), (salinity, sampleC, waterC) => {
    const reference = { sampleC, waterC };
    expect(salinityFromGravity(specificGravity(salinity, reference), reference)).toBeCloseTo(salinity, 8);
  }), { numRuns: RUNS }));

const units = Object.keys(ALKALINITY_UNITS) as AlkalinityUnit[];
test("food to ammonium to nitrate to tissue is neutral, and so are ammonium taken up and nitrate breathed away, for any amount in any unit", () =>
  fc.assert(fc.property(fc.double({ min: 0, max: 1e4, noNaN: true }), fc.constantFrom(...units), (mgPerL, unit) => {
    const loop = (...processes: Parameters<typeof alkalinityShift>[1][]): number => processes.reduce((sum, process) => sum + alkalinityShift(mgPerL, process, unit), 0);
    const most = Math.abs(alkalinityShift(mgPerL, "nitrification", unit));
    expect(Math.abs(loop("ammonification", "nitrification", "nitrate uptake"))).toBeLessThanOrEqual(1e-12 * most);
    expect(Math.abs(loop("ammonification", "ammonium uptake"))).toBeLessThanOrEqual(1e-12 * most);
    expect(Math.abs(loop("ammonification", "nitrification", "denitrification"))).toBeLessThanOrEqual(1e-12 * most);
    // 1 meq/L is 50.04 mg/L CaCO3 and 2.804 dKH: the unit changes the figure only.
    expect(alkalinityShift(mgPerL, "nitrification", unit)).toBeCloseTo(alkalinityShift(mgPerL, "nitrification", "meq/L") * ALKALINITY_UNITS[unit], 9);
    expect(alkalinityShift(mgPerL, "nitrification", unit)).toBeLessThanOrEqual(0);
  }), { numRuns: RUNS }));
