import { functions } from "../words/functions";
import { science } from "../words/science";
import { conversionFactor, elementMgPerL, nutrientOf, parseBasis, type Nutrient } from "../science/nutrient-forms";
import { Problem } from "../science/problem";
import { parseKit, parseReading, type Kit, type Reading } from "../science/reading";
import { cellsOf, isBlank, quantity, word, type Argument, type Cell } from "./arguments";
import { isCellError } from "./cell-error";
import { lift, type Answer } from "./lift";

/**
 * Best value of a test reading, in its own unit: on a colour chart the middle of what the colour can mean.
 * @customfunction READING_VALUE
 * @param {any[][]} reading As written: 0.08, <0.2, 0, nd, 0.08-0.1, ~0.1. One cell or a range.
 * @param {any[][]} [kit_steps] The chart's patches, "0 5 10 20 40" or a range, or one number for a meter's smallest step.
 * @returns {any[][]} Value in the reading's unit.
 * @example =ALGAL.READING_VALUE(20,"0 5 10 20 40")
 */
export function READING_VALUE(reading: any[][], kit_steps?: any[][]): any[][] {
  return fromReading(reading, kit_steps, (known, written) => {
    if (known.censored === "above") throw new Problem("missing", science.aboveTheKit(written));
    return known.value;
  });
}

/**
 * Lowest value that a test reading can mean, in its own unit.
 * @customfunction READING_LOW
 * @param {any[][]} reading As written: 0.08, <0.2, 0, nd, 0.08-0.1, ~0.1, >50. One cell or a range.
 * @param {any[][]} [kit_steps] The chart's patches, "0 5 10 20 40" or a range, or one number for a meter's smallest step.
 * @returns {any[][]} Lower limit in the reading's unit.
 * @example =ALGAL.READING_LOW("0.08-0.1")
 */
export function READING_LOW(reading: any[][], kit_steps?: any[][]): any[][] {
  return fromReading(reading, kit_steps, (known) => known.low);
}

/**
 * Highest value that a test reading can mean, in its own unit. A reading above the kit's scale has none (#N/A).
 * @customfunction READING_HIGH
 * @param {any[][]} reading As written: 0.08, <0.2, 0, nd, 0.08-0.1, ~0.1. One cell or a range.
 * @param {any[][]} [kit_steps] The chart's patches, "0 5 10 20 40" or a range, or one number for a meter's smallest step.
 * @returns {any[][]} Upper limit in the reading's unit.
 * @example =ALGAL.READING_HIGH(0,"0 5 10 20 40")
 */
export function READING_HIGH(reading: any[][], kit_steps?: any[][]): any[][] {
  return fromReading(reading, kit_steps, (known, written) => {
    if (known.censored === "above") throw new Problem("missing", science.aboveTheKit(written));
    return known.high;
  });
}

/**
 * Standard uncertainty of a test reading, in its own unit: the width of what it can mean divided by the root of 12.
 * @customfunction READING_UNCERTAINTY
 * @param {any[][]} reading As written: 0.08, <0.2, 0, nd, 0.08-0.1, ~0.1. One cell or a range.
 * @param {any[][]} [kit_steps] The chart's patches, "0 5 10 20 40" or a range, or one number for a meter's smallest step.
 * @returns {any[][]} Standard uncertainty in the reading's unit.
 * @example =ALGAL.READING_UNCERTAINTY(0.08,0.01)
 */
export function READING_UNCERTAINTY(reading: any[][], kit_steps?: any[][]): any[][] {
  return fromReading(reading, kit_steps, (known, written) => {
    if (known.censored === "above") throw new Problem("missing", science.aboveTheKit(written));
    return known.u;
  });
}

/**
 * Turns a concentration from one basis into another: NO3 and NO3-N, PO4 and PO4-P, mg/L, ug/L, umol/L, mg/kg.
 * @customfunction ION_CONVERT
 * @param {any[][]} value Concentration. One cell or a range.
 * @param {any[][]} from Unit and form of the value, such as "mg/L NO3"; a form alone is in mg/L.
 * @param {any[][]} to Unit and form wanted, such as "mg/L NO3-N" or "umol/L N".
 * @param {any[][]} [salinity] Practical salinity, needed between mg/kg and mg/L.
 * @param {any[][]} [temperature_c] Water temperature, degrees C, needed between mg/kg and mg/L.
 * @returns {any[][]} Concentration on the wanted basis.
 * @example =ALGAL.ION_CONVERT(10,"mg/L NO3","mg/L NO3-N")
 */
export function ION_CONVERT(value: any[][], from: any[][], to: any[][], salinity?: any[][], temperature_c?: any[][]): any[][] {
  return lift(
    {
      value: quantity("value", value, { unit: "" }),
      from: word("from", from),
      to: word("to", to),
      salinity: quantity("salinity", salinity, { most: 42, unit: "" }, NaN),
      temperatureC: quantity("temperature_c", temperature_c, { least: -2, most: 40, unit: functions.units.celsius }, NaN),
    },
    (given) => {
      const { salinity, temperatureC } = given;
      const known = !Number.isNaN(salinity) && !Number.isNaN(temperatureC);
      return given.value * conversionFactor(parseBasis(given.from), parseBasis(given.to), known ? { salinity, temperatureC } : undefined);
    },
  );
}

/**
 * Ratio of nitrogen to phosphorus in the water, by mass or by moles, with both readings on their own basis.
 * @customfunction NP_RATIO
 * @param {any[][]} n_reading Nitrogen reading, a number. One cell or a range.
 * @param {any[][]} n_basis Its unit and form, such as "mg/L NO3".
 * @param {any[][]} p_reading Phosphorus reading, a number.
 * @param {any[][]} p_basis Its unit and form, such as "mg/L PO4".
 * @param {any[][]} [by] "mass" (the usual) or "moles".
 * @returns {any[][]} N:P, g per g or mol per mol.
 * @example =ALGAL.NP_RATIO(10,"mg/L NO3",0.1,"mg/L PO4")
 */
export function NP_RATIO(n_reading: any[][], n_basis: any[][], p_reading: any[][], p_basis: any[][], by?: any[][]): any[][] {
  return lift(
    {
      n: quantity("n_reading", n_reading, { unit: "" }),
      nBasis: word("n_basis", n_basis),
      p: quantity("p_reading", p_reading, { open: true, unit: "" }),
      pBasis: word("p_basis", p_basis),
      by: word("by", by, "mass"),
    },
    (given) => {
      const [nBasis, pBasis] = [basisFor("N", given.nBasis), basisFor("P", given.pBasis)];
      const byMoles = given.by.toLowerCase() === "moles";
      if (!byMoles && given.by.toLowerCase() !== "mass") throw new Problem("value", science.unknownRatio(given.by));
      const amount = (value: number, basis: ReturnType<typeof parseBasis>): number =>
        byMoles ? value * conversionFactor(basis, { unit: "umol/L", form: nutrientOf(basis.form) }) : value * elementMgPerL(basis);
      return amount(given.n, nBasis) / amount(given.p, pBasis);
    },
  );
}

/** A basis that must be of one nutrient. */
export function basisFor(nutrient: Nutrient, written: string): ReturnType<typeof parseBasis> {
  const basis = parseBasis(written);
  if (nutrientOf(basis.form) !== nutrient) throw new Problem("value", nutrient === "N" ? science.notNitrogen(written) : science.notPhosphorus(written));
  return basis;
}

/** The kit behind an argument that gives its steps, in one text, one number or a range. */
export function kitFrom(given: unknown): Kit | undefined {
  const cells = cellsOf(given).flat().filter((cell) => !isBlank(cell));
  for (const cell of cells) if (isCellError(cell)) throw cell;
  return cells.length === 0 ? undefined : parseKit(cells.map((cell) => (typeof cell === "number" ? cell : String(cell))));
}

/** A reading argument: every cell is taken as the keeper wrote it. */
export const readings = (name: string, given: unknown, kit: Kit | undefined, blank?: Reading): Argument<{ known: Reading; written: Cell }> => ({
  name,
  cells: cellsOf(given),
  read: (cell) => {
    if (isCellError(cell)) throw cell;
    if (typeof cell !== "number" && typeof cell !== "string") throw new Problem("value", science.readingNotUnderstood(cell));
    return { known: parseReading(cell, kit), written: cell };
  },
  blank: blank && { known: blank, written: "" },
});

function fromReading(reading: unknown, kitSteps: unknown, take: (known: Reading, written: Cell) => number): Answer[][] {
  return lift({ reading: readings("reading", reading, kitFrom(kitSteps)) }, ({ reading }) => take(reading.known, reading.written));
}
