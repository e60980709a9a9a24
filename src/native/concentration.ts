import { ATOMIC_WEIGHT } from "../science/constants/atomic-weights";
import { atomsOf, type Basis, type Form, nutrientOf, unitFacts } from "../science/nutrient-forms";
import type { CellWriter } from "./cell-writer";
import { NotWritable } from "./not-writable";

/**
 * What a concentration on one basis is multiplied by to be on another, as the end of a formula: "*Sources!$B$5/(Sources!$B$5+3*Sources!$B$6)".
 * `density`: gives the cell of the water's density in kg/L where litres and kilograms meet.
 */
export function conversion(writer: CellWriter, from: Basis, to: Basis, density?: () => string): string {
  if (nutrientOf(from.form) !== nutrientOf(to.form)) throw new NotWritable();
  const [given, wanted] = [unitFacts(from.unit), unitFacts(to.unit)];
  const [above, below]: [string[], string[]] = [[], []];
  if (given.kind === "mass") below.push(gramsPerMole(writer, from.form));
  else above.push(String(molesOfElement(from.form)));
  if (wanted.kind === "mass") above.push(gramsPerMole(writer, to.form));
  else below.push(String(molesOfElement(to.form)));
  const tens = Math.round(Math.log10(given.amount / wanted.amount));
  if (tens !== 0) (tens > 0 ? above : below).push(String(10 ** Math.abs(tens)));
  if (given.per !== wanted.per) {
    if (!density) throw new NotWritable();
    (given.per === "kilogram" ? above : below).push(density());
  }
  const parts = (texts: readonly string[], others: readonly string[]): string[] => texts.filter((text) => text !== "1" && !others.includes(text));
  return [...parts(above, below).map((text) => `*${text}`), ...parts(below, above).map((text) => `/${text}`)].join("");
}

/** Milligrams of the element per litre in one unit of the basis. */
export const toElement = (writer: CellWriter, basis: Basis): string => conversion(writer, basis, { unit: "mg/L", form: nutrientOf(basis.form) });

/** Units of the basis in one milligram of the element per litre. */
export const fromElement = (writer: CellWriter, basis: Basis): string => conversion(writer, { unit: "mg/L", form: nutrientOf(basis.form) }, basis);

const molesOfElement = (form: Form): number => atomsOf(form)[nutrientOf(form)] ?? 1;

/** Mass of the form that carries one mole of the element, g. */
function gramsPerMole(writer: CellWriter, form: Form): string {
  const atoms = Object.entries(atomsOf(form)) as [keyof typeof ATOMIC_WEIGHT, number][];
  const terms = atoms.map(([element, count]) => `${count === 1 ? "" : `${count}*`}${writer.constant(ATOMIC_WEIGHT[element])}`);
  const sum = terms.length === 1 ? (terms[0] ?? "") : `(${terms.join("+")})`;
  return molesOfElement(form) === 1 ? sum : `(${sum}/${molesOfElement(form)})`;
}
