import { functions } from "../words/functions";
import { science } from "../words/science";
import { ALKALINITY_PER_N, ALKALINITY_UNITS, alkalinityShift, type AlkalinityUnit, type NitrogenProcess } from "../science/alkalinity";
import { AMMONIA_SPREAD, oxygenSaturationMgPerL, unionisedShare } from "../science/gases";
import { parseGravityReference, salinityFromConductivity, salinityFromGravity } from "../science/salinity";
import { seawaterDensityKgPerL } from "../science/water";
import { choice, quantity, word } from "./arguments";
import { lift, liftRows } from "./lift";

const temperature = (given: unknown, most = 40, blank?: number) => quantity("temperature_c", given, { least: 0, most, unit: functions.units.celsius }, blank);
const salinityOf = (given: unknown, blank?: number) => quantity("salinity", given, { most: 42, unit: "" }, blank);

/**
 * Density of sea water at one atmosphere, kg/m3 (EOS-80).
 * @customfunction SEAWATER_DENSITY
 * @param {any[][]} salinity Practical salinity, 0 to 42. One cell or a range.
 * @param {any[][]} temperature_c Water temperature, degrees C, 0 to 40.
 * @returns {any[][]} Density, kg/m3.
 * @example =ALGAL.SEAWATER_DENSITY(35,25)
 */
export function SEAWATER_DENSITY(salinity: any[][], temperature_c: any[][]): any[][] {
  return lift({ salinity: salinityOf(salinity), temperatureC: temperature(temperature_c) }, (given) => 1000 * seawaterDensityKgPerL(given.salinity, given.temperatureC));
}

/**
 * Practical salinity from specific gravity; the reference temperatures stand on the instrument.
 * @customfunction SALINITY_FROM_SG
 * @param {any[][]} specific_gravity Such as 1.0264. One cell or a range.
 * @param {any[][]} reference Sample over water temperature, such as "25/25", "20/20", "60/60F" or "25/4".
 * @returns {any[][]} Practical salinity.
 * @example =ALGAL.SALINITY_FROM_SG(1.0264,"25/25")
 */
export function SALINITY_FROM_SG(specific_gravity: any[][], reference: any[][]): any[][] {
  return lift(
    { gravity: quantity("specific_gravity", specific_gravity, { least: 0.9, most: 1.1, unit: "" }), reference: word("reference", reference) },
    (given) => salinityFromGravity(given.gravity, parseGravityReference(given.reference)),
  );
}

/**
 * Practical salinity from conductivity (PSS-78), for salinities of 2 to 42.
 * @customfunction SALINITY_FROM_CONDUCTIVITY
 * @param {any[][]} conductivity_ms_cm Conductivity as measured, mS/cm, not compensated for temperature. One cell or a range.
 * @param {any[][]} temperature_c Water temperature, degrees C, 0 to 35.
 * @returns {any[][]} Practical salinity.
 * @example =ALGAL.SALINITY_FROM_CONDUCTIVITY(53,25)
 */
export function SALINITY_FROM_CONDUCTIVITY(conductivity_ms_cm: any[][], temperature_c: any[][]): any[][] {
  return lift(
    { conductivity: quantity("conductivity_ms_cm", conductivity_ms_cm, { most: 150, unit: "mS/cm" }), temperatureC: temperature(temperature_c, 35) },
    (given) => salinityFromConductivity(given.conductivity, given.temperatureC),
  );
}

/**
 * Oxygen in water saturated with air, mg/L.
 * @customfunction OXYGEN_SATURATION
 * @param {any[][]} temperature_c Water temperature, degrees C, 0 to 40. One cell or a range.
 * @param {any[][]} [salinity] Practical salinity; 0 if left out.
 * @param {any[][]} [pressure_atm] Air pressure, atmospheres; 1 if left out.
 * @returns {any[][]} Oxygen, mg/L.
 * @example =ALGAL.OXYGEN_SATURATION(25,35)
 */
export function OXYGEN_SATURATION(temperature_c: any[][], salinity?: any[][], pressure_atm?: any[][]): any[][] {
  return lift(
    { temperatureC: temperature(temperature_c), salinity: salinityOf(salinity, 0), pressure: quantity("pressure_atm", pressure_atm, { least: 0.5, most: 1.1, unit: "atm" }, 1) },
    (given) => oxygenSaturationMgPerL(given.temperatureC, given.salinity, given.pressure),
  );
}

/**
 * Un-ionised ammonia in the unit of the total: value, low, high, to two digits. A kit is no diagnosis.
 * @customfunction AMMONIA_UNIONISED
 * @param {any[][]} total Total ammonia (NH3 and NH4), any unit. One cell or a column.
 * @param {any[][]} ph pH by an electrode or kit set with the usual buffers, 5 to 10.
 * @param {any[][]} temperature_c Water temperature, degrees C, 0 to 30.
 * @param {any[][]} [salinity] Practical salinity; 0 (fresh water) if left out.
 * @returns {any[][]} Un-ionised ammonia: value, low, high.
 * @example =ALGAL.AMMONIA_UNIONISED(0.5,8.2,25,35)
 */
export function AMMONIA_UNIONISED(total: any[][], ph: any[][], temperature_c: any[][], salinity?: any[][]): any[][] {
  return liftRows(
    { total: quantity("total", total, { unit: "" }), pH: quantity("ph", ph, { least: 5, most: 10, unit: "" }), temperatureC: temperature(temperature_c, 30), salinity: salinityOf(salinity, 0) },
    (given) => {
      const value = given.total * unionisedShare(given.pH, given.temperatureC, given.salinity);
      const spread = given.salinity === 0 ? AMMONIA_SPREAD.fresh : AMMONIA_SPREAD.salt;
      return [value, value * (1 - spread), value * (1 + spread)].map((figure) => Number(figure.toPrecision(2)));
    },
    3,
  );
}

/**
 * Change of alkalinity when nitrogen goes through a process, such as nitrification or uptake of nitrate by algae.
 * @customfunction ALKALINITY_SHIFT
 * @param {any[][]} n_mg_l Nitrogen that goes through it, mg/L as N. One cell or a range.
 * @param {any[][]} process "ammonification", "nitrification", "nitrate uptake", "ammonium uptake" or "denitrification".
 * @param {any[][]} [unit] "meq/L" (the usual), "dKH" or "mg/L CaCO3".
 * @returns {any[][]} Change of alkalinity.
 * @example =ALGAL.ALKALINITY_SHIFT(2.26,"nitrate uptake","dKH")
 */
export function ALKALINITY_SHIFT(n_mg_l: any[][], process: any[][], unit?: any[][]): any[][] {
  const processes = Object.keys(ALKALINITY_PER_N) as NitrogenProcess[];
  const units = Object.keys(ALKALINITY_UNITS) as AlkalinityUnit[];
  return lift(
    {
      n: quantity("n_mg_l", n_mg_l, { unit: "mg/L" }),
      process: choice("process", process, processes, (written) => science.unknownProcess(written, processes)),
      unit: choice("unit", unit, units, (written) => science.unknownAlkalinityUnit(written, units), "meq/L"),
    },
    (given) => alkalinityShift(given.n, given.process, given.unit),
  );
}
