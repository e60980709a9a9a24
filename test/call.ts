import { cellErrorFrom, isCellError, type CellError } from "../src/functions/cell-error";
import { worksheetFunctions } from "../src/functions";

type Given = unknown;

/** Calls a worksheet function the way a host does: single values as one cell, omitted ones as null. Rows come out. */
export function rows(name: string, ...given: Given[]): unknown[][] {
  const calculate = worksheetFunctions.get(name) as ((...args: unknown[]) => unknown[][]) | undefined;
  if (!calculate) throw new Error(`no function ${name}`);
  const scalar = new Set(["period", "headings", "draws"]);
  const names = argumentNames(name);
  const args = names.map((argument, place) => {
    const one = given[place];
    if (one === undefined || one === null) return null;
    return Array.isArray(one) || scalar.has(argument) ? one : [[one]];
  });
  return calculate(...args);
}

/** The one value of an answer of one cell. */
export function value(name: string, ...given: Given[]): unknown {
  return rows(name, ...given)[0]?.[0];
}

export const number = (name: string, ...given: Given[]): number => value(name, ...given) as number;

/** The error that a call gives, thrown or in its first cell. */
export function errorOf(name: string, ...given: Given[]): CellError {
  try {
    const answer = value(name, ...given);
    if (isCellError(answer)) return answer;
    throw new Error(`${name} gave ${String(answer)} and no error`);
  } catch (error) {
    return cellErrorFrom(error);
  }
}

const metadata = (): { functions: { id: string; parameters: { name: string }[] }[] } => require("../src/functions/generated/functions.json");

export const argumentNames = (name: string): string[] =>
  metadata().functions.find((one) => one.id === name)?.parameters.map((parameter) => parameter.name) ?? [];
