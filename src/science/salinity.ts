import { science as words } from "../words/science";
import { Problem } from "./problem";
import { polynomial, seawaterDensityKgPerL, T68_PER_T90 } from "./water";

/** Sample and reference temperature of a hydrometer or refractometer, degrees C: "25/25" compares both at 25. */
export interface GravityReference {
  readonly sampleC: number;
  readonly waterC: number;
}

const FAHRENHEIT_60 = (60 - 32) / 1.8;

/** Reads "25/25", "20/20", "25/4" or "60/60F". @throws Problem when it is none of that form */
export function parseGravityReference(written: string): GravityReference {
  const match = /^(\d{1,2}(?:\.\d+)?)\s*\/\s*(\d{1,2}(?:\.\d+)?)\s*(?:°?\s*([CF]))?$/i.exec(written.trim());
  if (!match) throw new Problem("value", words.gravityReference(written));
  const inCelsius = (text: string | undefined): number => (/F/i.test(match[3] ?? "") ? (Number(text) - 32) / 1.8 : Number(text));
  const reference = { sampleC: inCelsius(match[1]), waterC: inCelsius(match[2]) };
  if (reference.sampleC < 0 || reference.sampleC > 40 || reference.waterC < 0 || reference.waterC > 40) throw new Problem("value", words.gravityReference(written));
  return Math.abs(reference.sampleC - FAHRENHEIT_60) < 1e-9 && Math.abs(reference.waterC - FAHRENHEIT_60) < 1e-9 ? { sampleC: FAHRENHEIT_60, waterC: FAHRENHEIT_60 } : reference;
}

/** Specific gravity of sea water: its density at the sample temperature over that of pure water at the reference temperature. */
export const specificGravity = (salinity: number, { sampleC, waterC }: GravityReference): number =>
  seawaterDensityKgPerL(salinity, sampleC) / seawaterDensityKgPerL(0, waterC);

/**
 * Practical salinity behind a specific gravity, by halving (density rises with salinity).
 * @throws Problem when no salinity from 0 to 42 has it
 */
export function salinityFromGravity(gravity: number, reference: GravityReference): number {
  let [low, high] = [0, 42];
  // A fresh sample may read a hair below 1.
  if (gravity < specificGravity(low, reference) - 1e-9 || gravity > specificGravity(high, reference)) throw new Problem("number", words.gravityOutOfRange(gravity));
  for (let step = 0; step < 60; step += 1) {
    const middle = (low + high) / 2;
    if (specificGravity(middle, reference) < gravity) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Conductivity of standard sea water, S 35 at 15 degrees C (IPTS-68), mS/cm (UNESCO 44; Culkin & Smith 1980). */
export const STANDARD_CONDUCTIVITY = 42.914;
/** PSS-78 coefficients in the order of UNESCO 44, pages 6 to 9. */
export const PSS78 = {
  A: [0.008, -0.1692, 25.3851, 14.0941, -7.0261, 2.7081],
  B: [0.0005, -0.0056, -0.0066, -0.0375, 0.0636, -0.0144],
  C: [0.6766097, 2.00564e-2, 1.104259e-4, -6.9698e-7, 1.0031e-9],
  D: [1, 3.426e-2, 4.464e-4],
  dRatio: [4.215e-1, -3.107e-3],
  E: [0, 2.07e-5, -6.37e-10, 3.989e-15],
  k: 0.0162,
} as const;

/**
 * Practical salinity (PSS-78) from a conductivity ratio to standard sea water at S 35, 15 degrees C, surface.
 * `t68`: degrees C on IPTS-68; `pressureDbar`: above the atmosphere, 0 in a tank.
 * @throws Problem outside 2 to 42, where the scale is not defined
 */
export function salinityFromRatio(ratio: number, t68: number, pressureDbar = 0): number {
  const pressureFactor = 1 + polynomial(PSS78.E, pressureDbar) / (polynomial(PSS78.D, t68) + polynomial(PSS78.dRatio, t68) * ratio);
  const rootRt = Math.sqrt(ratio / (pressureFactor * polynomial(PSS78.C, t68)));
  const salinity = polynomial(PSS78.A, rootRt) + ((t68 - 15) / (1 + PSS78.k * (t68 - 15))) * polynomial(PSS78.B, rootRt);
  if (!(salinity >= 2 && salinity <= 42)) throw new Problem("number", words.salinityScale(Number(salinity.toPrecision(3))));
  return salinity;
}

/** The same from a conductivity not compensated for temperature, mS/cm, and the water's temperature, degrees C (ITS-90). */
export const salinityFromConductivity = (mSPerCm: number, temperatureC: number): number => salinityFromRatio(mSPerCm / STANDARD_CONDUCTIVITY, T68_PER_T90 * temperatureC);
