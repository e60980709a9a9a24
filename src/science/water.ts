import { science as words } from "../words/science";
import { PRACTICE } from "./constants/practice";
import { Problem } from "./problem";

/** Coefficients in the order in which UNESCO 44, page 19, prints them (EOS-80, one atmosphere; Millero & Poisson 1981). */
export const DENSITY = {
  pureWater: [999.842594, 6.793952e-2, -9.09529e-3, 1.001685e-4, -1.120083e-6, 6.536332e-9],
  linearInS: [0.824493, -4.0899e-3, 7.6438e-5, -8.2467e-7, 5.3875e-9],
  sTo3Over2: [-5.72466e-3, 1.0227e-4, -1.6546e-6],
  sSquared: 4.8314e-4,
} as const;
/** Degrees of IPTS-68 in one of ITS-90. */
export const T68_PER_T90 = 1.00024;

/** Sum of c[i] x^i, by Horner. */
export const polynomial = (coefficients: readonly number[], x: number): number => coefficients.reduceRight((sum, c) => sum * x + c, 0);

/**
 * Density of sea water at one atmosphere, kg/L. Practical salinity 0 to 42, temperature -2 to 40 degrees C (ITS-90).
 * @throws Problem outside that range
 * @source EOS-80: Fofonoff & Millard 1983, UNESCO 44, page 19; the temperature is taken to the IPTS-68 scale first
 */
export function seawaterDensityKgPerL(salinity: number, temperatureC: number): number {
  if (salinity < 0 || salinity > 42) throw new Problem("value", words.outOfRange("Salinity", 0, 42, "", salinity));
  if (temperatureC < -2 || temperatureC > 40) throw new Problem("value", words.outOfRange("Temperature", -2, 40, "degrees C", temperatureC));
  const t68 = T68_PER_T90 * temperatureC;
  return (
    (polynomial(DENSITY.pureWater, t68) +
      polynomial(DENSITY.linearInS, t68) * salinity +
      polynomial(DENSITY.sTo3Over2, t68) * salinity ** 1.5 +
      DENSITY.sSquared * salinity ** 2) /
    1000
  );
}

/** Grams of the element in `volumeL` litres at `mgPerL` milligrams of the element per litre. */
export const storeG = (mgPerL: number, volumeL: number): number => (mgPerL * volumeL) / 1000;

/** Water in a filled tank, litres: the inside volume less what rock, sand and other things displace (rock and sand in kg, dry). */
export function netVolumeL(grossL: number, rockKg: number, sandKg: number, otherL: number): number {
  const net = grossL - rockKg / PRACTICE.rockDensity.value - sandKg / PRACTICE.sandDensity.value - otherL;
  if (net <= 0) throw new Problem("value", words.fillingTooLarge(Number(net.toPrecision(3))));
  return net;
}
