import { science as words } from "../words/science";
import { ATOMIC_WEIGHT } from "./constants/atomic-weights";
import { Problem } from "./problem";
import { seawaterDensityKgPerL } from "./water";

export type Nutrient = "N" | "P";

/** The forms in which kits and papers state nitrogen and phosphorus. "As N" and "as the ion" differ by 4.43 (NO3) and 3.07 (PO4). */
export type Form = "N" | "NO3" | "NO3-N" | "NO2" | "NO2-N" | "NH3" | "NH3-N" | "NH4" | "NH4-N" | "P" | "PO4" | "PO4-P" | "P2O5";

type Element = "H" | "N" | "O" | "P";

interface FormFacts {
  readonly nutrient: Nutrient;
  /** Atoms in one unit of the form; one that is counted as its element is that element alone. */
  readonly atoms: Readonly<Partial<Record<Element, number>>>;
}

const AS_N: FormFacts = { nutrient: "N", atoms: { N: 1 } };
const AS_P: FormFacts = { nutrient: "P", atoms: { P: 1 } };

const FORMS: Record<Form, FormFacts> = {
  N: AS_N,
  "NO3-N": AS_N,
  "NO2-N": AS_N,
  "NH3-N": AS_N,
  "NH4-N": AS_N,
  NO3: { nutrient: "N", atoms: { N: 1, O: 3 } },
  NO2: { nutrient: "N", atoms: { N: 1, O: 2 } },
  NH3: { nutrient: "N", atoms: { N: 1, H: 3 } },
  NH4: { nutrient: "N", atoms: { N: 1, H: 4 } },
  P: AS_P,
  "PO4-P": AS_P,
  PO4: { nutrient: "P", atoms: { P: 1, O: 4 } },
  P2O5: { nutrient: "P", atoms: { P: 2, O: 5 } },
};

/** Concentration units: amount in grams (mass) or moles, per litre or per kilogram of water. */
const UNITS = {
  "g/L": { amount: 1, kind: "mass", per: "litre" },
  "mg/L": { amount: 1e-3, kind: "mass", per: "litre" },
  "ug/L": { amount: 1e-6, kind: "mass", per: "litre" },
  "mmol/L": { amount: 1e-3, kind: "mole", per: "litre" },
  "umol/L": { amount: 1e-6, kind: "mole", per: "litre" },
  "mg/kg": { amount: 1e-3, kind: "mass", per: "kilogram" },
  "ug/kg": { amount: 1e-6, kind: "mass", per: "kilogram" },
  "umol/kg": { amount: 1e-6, kind: "mole", per: "kilogram" },
} as const;

export type ConcentrationUnit = keyof typeof UNITS;

/** What a concentration column states: its unit and the form in which the nutrient is counted. */
export interface Basis {
  readonly unit: ConcentrationUnit;
  readonly form: Form;
}

/** Salinity and temperature, needed only where mg/kg and mg/L meet. */
export interface WaterState {
  readonly salinity: number;
  readonly temperatureC: number;
}

const FORMS_OF_SUBSTANCE = {
  nitrate: ["NO3", "NO3-N"],
  nitrite: ["NO2", "NO2-N"],
  ammonia: ["NH3", "NH3-N", "NH4", "NH4-N"],
  "total nitrogen": ["N"],
  phosphate: ["PO4", "PO4-P", "P", "P2O5"],
} as const satisfies Record<string, readonly Form[]>;

export type Substance = keyof typeof FORMS_OF_SUBSTANCE;

/** What a test measures, however it is stated: NO3 and NO3-N are one nitrate. A kit shows NH3 and NH4 together. */
export const substanceOf = (form: Form): Substance =>
  (Object.keys(FORMS_OF_SUBSTANCE) as Substance[]).find((substance) => (FORMS_OF_SUBSTANCE[substance] as readonly Form[]).includes(form)) ?? "total nitrogen";

export const formsOf = (substance: Substance): readonly Form[] => FORMS_OF_SUBSTANCE[substance];

export const nutrientOf = (form: Form): Nutrient => FORMS[form].nutrient;

/** The atoms of one unit of the form by their element, "PO4": { P: 1, O: 4 }. */
export const atomsOf = (form: Form): FormFacts["atoms"] => FORMS[form].atoms;

/** What a unit counts: grams or moles (how many of them in one), in a litre or a kilogram of water. */
export const unitFacts = (unit: ConcentrationUnit): (typeof UNITS)[ConcentrationUnit] => UNITS[unit];

/** A form's name in any case, with the usual signs: "no3", "NO3-", "PO4-P", "NO3N". Null when it is none. */
export function formNamed(written: string): Form | null {
  const plain = written.trim().toUpperCase().replace(/[⁻⁺+\s]|³⁻|³|²/g, "").replace(/[₂-₅]/g, (small) => String("₀₁₂₃₄₅".indexOf(small))).replace(/[–—−]/g, "-").replace(/-+$/, "");
  const joined = plain.replace("-", "");
  const found = (Object.keys(FORMS) as Form[]).find((form) => form === plain || form.replace("-", "") === joined);
  return found ?? null;
}

/** A concentration unit by its name in any case, with the micro sign as people type it; null when it is none. Refuses ppm and ppb, which are two things. */
export function concentrationUnitNamed(written: string): ConcentrationUnit | null {
  const plain = written.trim().toLowerCase().replace(/[µμ]/g, "u").replace(/\s/g, "").replace(/\*?l\^?-1$/, "/l");
  if (/^pp[mb]$/.test(plain)) throw new Problem("value", words.ppmIsTwoThings);
  return (Object.keys(UNITS) as ConcentrationUnit[]).find((unit) => unit.toLowerCase() === plain) ?? null;
}

/** Reads "NO3", "mg/L NO3-N" or "umol/L P"; without a unit it is mg/L. @throws Problem when a part is missing, unknown or open */
export function parseBasis(written: string): Basis {
  const parts = written.trim().split(/\s+/).filter((part) => part !== "" && part.toLowerCase() !== "as");
  let unit: ConcentrationUnit | null = null;
  let form: Form | null = null;
  for (const part of parts) {
    const asUnit = concentrationUnitNamed(part);
    const asForm = asUnit ? null : formNamed(part);
    if (asUnit) unit = asUnit;
    else if (asForm) form = asForm;
    else if (/^(nitrate|nitrite|ammonia|ammonium|phosphate)$/i.test(part)) throw new Problem("value", words.basisOpen(written));
    else throw new Problem("value", part.includes("/") ? words.unknownUnit(part) : words.unknownForm(part));
  }
  if (!form) throw new Problem("value", words.formMissing(written));
  return { unit: unit ?? "mg/L", form };
}

/**
 * How many of `to` one of `from` is: mg/L NO3 to mg/L NO3-N is 0.225905.
 * Nitrogen forms are taken as equal moles of N, phosphorus forms as equal moles of P.
 * @throws Problem when one counts N and the other P, or when litres and kilograms meet without salinity and temperature
 * @source IUPAC abridged atomic weights
 */
export function conversionFactor(from: Basis, to: Basis, water?: WaterState): number {
  const [fromForm, toForm] = [FORMS[from.form], FORMS[to.form]];
  if (fromForm.nutrient !== toForm.nutrient) throw new Problem("value", words.nitrogenIsNotPhosphorus(from.form, to.form));
  // Two figures per kilogram of the same water compare without its density.
  if (UNITS[from.unit].per === UNITS[to.unit].per) return moles(from) / moles(to);
  return molesPerLitre(from, water) / molesPerLitre(to, water);
}

/** Moles of the element, per litre or kilogram as the unit has it, that one unit of the basis stands for. */
function moles({ unit, form }: Basis): number {
  const { amount, kind } = UNITS[unit];
  return kind === "mass" ? amount / GRAMS_PER_MOLE[form] : amount * molesOfElementPerMole(form);
}

function molesPerLitre(basis: Basis, water?: WaterState): number {
  if (UNITS[basis.unit].per === "litre") return moles(basis);
  if (!water) throw new Problem("value", words.needsSalinity);
  return moles(basis) * seawaterDensityKgPerL(water.salinity, water.temperatureC);
}

/** One mole of P2O5 carries two of P; every other form carries one of its element. */
const molesOfElementPerMole = (form: Form): number => FORMS[form].atoms[nutrientOf(form)] ?? 1;

/** Mass of each form that carries one mole of the element, g. */
const GRAMS_PER_MOLE = Object.fromEntries((Object.keys(FORMS) as Form[]).map((form) => [form, gramsPerMole(form)])) as Record<Form, number>;

function gramsPerMole(form: Form): number {
  const mass = (Object.entries(FORMS[form].atoms) as [Element, number][]).reduce((sum, [element, count]) => sum + count * ATOMIC_WEIGHT[element].value, 0);
  return mass / molesOfElementPerMole(form);
}

/** Milligrams of the element per litre that one unit of the basis stands for. */
export function elementMgPerL(basis: Basis, water?: WaterState): number {
  return conversionFactor(basis, { unit: "mg/L", form: nutrientOf(basis.form) }, water);
}
