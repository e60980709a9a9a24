import { SOURCES } from "../science/constants/sources";
import { OXYGEN } from "../science/gases";
import { PSS78, STANDARD_CONDUCTIVITY } from "../science/salinity";
import { DENSITY, seawaterDensityKgPerL, T68_PER_T90 } from "../science/water";
import { native } from "../words/native";
import { nativeCoefficients as words } from "../words/native-coefficients";
import type { CellWriter } from "./cell-writer";
import type { Coefficient } from "./sources";

const UNESCO = SOURCES["unesco-44"].citation;
const CELSIUS = "degree C";
const steps = native.step;

/** The coefficients of a polynomial for the sheet of sources, from the constant on. */
const polynomial = (equation: string, values: readonly number[], unit: string, variable: string, variableUnit: string, from: string): Coefficient[] =>
  values.map((value, power) => ({ name: words.term(equation, variable, power), value, unit: words.perPower(unit, variableUnit, power), from }));

const density = { unit: "kg/m3", sSquared: { name: words.density.sSquared, value: DENSITY.sSquared, unit: "kg/m3", from: UNESCO } };
const ofT = (equation: string, values: readonly number[], unit: string, from: string = UNESCO): Coefficient[] => polynomial(equation, values, unit, "t", CELSIUS, from);
const EQUATION = {
  pureWater: ofT(words.density.pureWater, DENSITY.pureWater, density.unit),
  linearInS: ofT(words.density.linearInS, DENSITY.linearInS, density.unit),
  sTo3Over2: ofT(words.density.sTo3Over2, DENSITY.sTo3Over2, density.unit),
  salinityA: polynomial(words.salinity.A, PSS78.A, "1", "root of R", "1", UNESCO),
  salinityB: polynomial(words.salinity.B, PSS78.B, "1", "root of R", "1", UNESCO),
  salinityC: ofT(words.salinity.C, PSS78.C, "1"),
  oxygen: polynomial(words.oxygen.atOneAtmosphere, OXYGEN.atOneAtmosphere, "1", "1/T", "1/K", words.oxygen.from),
  oxygenSalt: polynomial(words.oxygen.salt, OXYGEN.salt, "1", "1/T", "1/K", words.oxygen.from),
  vapour: polynomial(words.oxygen.vapour, OXYGEN.vapour, "1", "1/T", "1/K", words.oxygen.from),
  pressure: ofT(words.oxygen.pressure, OXYGEN.pressure, "1/atm", words.oxygen.pressureFrom),
} as const;
export type Equation = keyof typeof EQUATION;

/** The text of a published polynomial of `x`, its coefficients on the sheet of sources. */
export const equationOf = (writer: CellWriter, equation: Equation, x: string): string => writer.polynomial(EQUATION[equation], x);

/** The temperature on the scale on which the equations of sea water were made. */
export const t68Of = (writer: CellWriter, temperature: string): string =>
  writer.stepOf(steps.t68, `${writer.coefficient({ name: words.t68.name, value: T68_PER_T90, unit: "1", from: words.t68.from })}*${temperature}`);

/** Density of sea water, kg/m3, by EOS-80: its parts stand on the sheet of workings. */
export function densityOf(writer: CellWriter, salinity: string, temperature: string): string {
  const t = t68Of(writer, temperature);
  const part = (equation: "pureWater" | "linearInS" | "sTo3Over2"): string => writer.stepOf(steps[equation], equationOf(writer, equation, t));
  return `${part("pureWater")}+${part("linearInS")}*${salinity}+${part("sTo3Over2")}*${salinity}^1.5+${writer.coefficient(density.sSquared)}*${salinity}^2`;
}

/** Sea water where a density is left out. */
export const usualDensity = (writer: CellWriter): string =>
  writer.coefficient({ name: words.density.seawater, value: seawaterDensityKgPerL(35, 25), unit: "kg/L", from: words.density.seawaterFrom(UNESCO) });

/** Practical salinity (PSS-78) at the surface, as the cell of a step. */
export function practicalSalinity(writer: CellWriter, conductivity: string, temperature: string): string {
  const t = t68Of(writer, temperature);
  const standard = writer.coefficient({ name: words.salinity.standard, value: STANDARD_CONDUCTIVITY, unit: "mS/cm", from: UNESCO });
  const k = writer.coefficient({ name: words.salinity.k, value: PSS78.k, unit: "1/degree C", from: UNESCO });
  const root = writer.stepOf(steps.rootOfRatio, `SQRT(${conductivity}/${standard}/(${equationOf(writer, "salinityC", t)}))`);
  const part = (equation: "salinityA" | "salinityB"): string => writer.stepOf(steps[equation], equationOf(writer, equation, root));
  return writer.stepOf(steps.salinity, `${part("salinityA")}+(${t}-15)/(1+${k}*(${t}-15))*${part("salinityB")}`);
}
