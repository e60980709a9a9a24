import { polynomial } from "./water";

/** Degrees C at 0 K, with the sign turned. */
export const KELVIN = 273.15;

/** Of Benson & Krause 1984: oxygen at one atmosphere and its salt term, the vapour of water, both in 1/T; the pressure term in degrees C. */
export const OXYGEN = {
  atOneAtmosphere: [-139.34411, 1.575701e5, -6.642308e7, 1.2438e10, -8.621949e11],
  salt: [1.7674e-2, -10.754, 2140.7],
  vapour: [11.8571, -3840.7, -216961],
  pressure: [0.000975, -1.426e-5, 6.436e-8],
} as const;

/**
 * Oxygen at saturation with humid air, mg/L. Temperature 0 to 40 degrees C, practical salinity 0 to 42, pressure in atmospheres.
 * @source Benson & Krause 1984 in the form of Standard Methods 4500-O; coefficients of the pressure term from memory
 */
export function oxygenSaturationMgPerL(temperatureC: number, salinity: number, pressureAtm = 1): number {
  const t = temperatureC + KELVIN;
  const atOneAtmosphere = Math.exp(
    polynomial(OXYGEN.atOneAtmosphere, 1 / t) - salinity * polynomial(OXYGEN.salt, 1 / t),
  );
  const vapour = Math.exp(polynomial(OXYGEN.vapour, 1 / t));
  const theta = polynomial(OXYGEN.pressure, temperatureC);
  return (atOneAtmosphere * pressureAtm * (1 - vapour / pressureAtm) * (1 - theta * pressureAtm)) / ((1 - vapour) * (1 - theta));
}

/** Coefficients of the two formulas below, in the order in which they stand there. */
export const AMMONIUM_PKA = {
  fresh: [0.09018, 2729.92],
  salt: { at298K: 9.245, perIonicStrength: 0.116, perKelvin: 0.0324, reference: 298, perPressure: 0.0415 },
  ionicStrength: [19.9273, 1000, 1.005109],
} as const;

/** pKa of ammonium in fresh water, 0 to 30 degrees C (Emerson et al. 1975, J. Fish. Res. Board Can. 32:2379). */
export const ammoniumPkaFresh = (temperatureC: number): number => AMMONIUM_PKA.fresh[0] + AMMONIUM_PKA.fresh[1] / (temperatureC + KELVIN);

/**
 * pKa of ammonium in sea water at one atmosphere, on the scale of electrodes set with the usual buffers.
 * @source EPA 440/5-88-004 (1989), after Whitfield 1974 and Hampson 1977
 */
export function ammoniumPkaSalt(temperatureC: number, salinity: number): number {
  const t = temperatureC + KELVIN;
  const [salt, water, saltInWater] = AMMONIUM_PKA.ionicStrength;
  const ionicStrength = (salt * salinity) / (water - saltInWater * salinity);
  const { at298K, perIonicStrength, perKelvin, reference, perPressure } = AMMONIUM_PKA.salt;
  return at298K + perIonicStrength * ionicStrength + perKelvin * (reference - t) + perPressure / t;
}

/** By what share formulas on different pH scales differ in sea water (0.15); in fresh water the tables agree to half a per cent and pH rules (0.05). */
export const AMMONIA_SPREAD = { fresh: 0.05, salt: 0.15 } as const;

/** Share of total ammonia that is un-ionised (NH3): 1 / (1 + 10^(pKa - pH)). Salinity 0 is fresh water. */
export const unionisedShare = (pH: number, temperatureC: number, salinity: number): number =>
  1 / (1 + 10 ** ((salinity === 0 ? ammoniumPkaFresh(temperatureC) : ammoniumPkaSalt(temperatureC, salinity)) - pH));
