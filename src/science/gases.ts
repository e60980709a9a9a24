import { polynomial } from "./water";

const KELVIN = 273.15;

/**
 * Oxygen at saturation with humid air, mg/L. Temperature 0 to 40 degrees C, practical salinity 0 to 42, pressure in atmospheres.
 * @source Benson & Krause 1984 in the form of Standard Methods 4500-O; coefficients of the pressure term from memory
 */
export function oxygenSaturationMgPerL(temperatureC: number, salinity: number, pressureAtm = 1): number {
  const t = temperatureC + KELVIN;
  const atOneAtmosphere = Math.exp(
    polynomial([-139.34411, 1.575701e5, -6.642308e7, 1.2438e10, -8.621949e11], 1 / t) - salinity * polynomial([1.7674e-2, -10.754, 2140.7], 1 / t),
  );
  const vapour = Math.exp(polynomial([11.8571, -3840.7, -216961], 1 / t));
  const theta = polynomial([0.000975, -1.426e-5, 6.436e-8], temperatureC);
  return (atOneAtmosphere * pressureAtm * (1 - vapour / pressureAtm) * (1 - theta * pressureAtm)) / ((1 - vapour) * (1 - theta));
}

/** pKa of ammonium in fresh water, 0 to 30 degrees C (Emerson et al. 1975, J. Fish. Res. Board Can. 32:2379). */
export const ammoniumPkaFresh = (temperatureC: number): number => 0.09018 + 2729.92 / (temperatureC + KELVIN);

/**
 * pKa of ammonium in sea water at one atmosphere, on the scale of electrodes set with the usual buffers.
 * @source EPA 440/5-88-004 (1989), after Whitfield 1974 and Hampson 1977
 */
export function ammoniumPkaSalt(temperatureC: number, salinity: number): number {
  const t = temperatureC + KELVIN;
  const ionicStrength = (19.9273 * salinity) / (1000 - 1.005109 * salinity);
  return 9.245 + 0.116 * ionicStrength + 0.0324 * (298 - t) + 0.0415 / t;
}

/** Share of total ammonia that is un-ionised (NH3): 1 / (1 + 10^(pKa - pH)). Salinity 0 is fresh water. */
export const unionisedShare = (pH: number, temperatureC: number, salinity: number): number =>
  1 / (1 + 10 ** ((salinity === 0 ? ammoniumPkaFresh(temperatureC) : ammoniumPkaSalt(temperatureC, salinity)) - pH));
