/** An error value of a cell, by its code. What the functions and the calculation engine return for an error fits it. */
export interface ErrorValue {
  readonly code: string;
}

/** What a formula cell shows. */
export type CellResult = number | string | boolean | ErrorValue;

/** The error values that the file format knows. */
const STORED_ERRORS: ReadonlySet<string> = new Set(["#NULL!", "#DIV/0!", "#VALUE!", "#REF!", "#NAME?", "#NUM!", "#N/A", "#GETTING_DATA"]);

export function isErrorCode(text: string): boolean {
  return STORED_ERRORS.has(text) || text === "#SPILL!" || text === "#CALC!";
}

/** A result as a cell element holds it: its t attribute (undefined for a number) and the text of v. */
export interface StoredResult {
  kind: "str" | "b" | "e" | undefined;
  text: string;
}

export function storedResult(result: CellResult): StoredResult {
  if (typeof result === "number") {
    if (!Number.isFinite(result)) throw new Error(`${result} cannot be stored in a cell.`);
    return { kind: undefined, text: String(result) };
  }
  if (typeof result === "boolean") return { kind: "b", text: result ? "1" : "0" };
  if (typeof result === "string") return { kind: "str", text: result };
  // Newer errors such as #SPILL! are stored as #VALUE!, as Excel does too, and come back with the next calculation.
  return { kind: "e", text: STORED_ERRORS.has(result.code) ? result.code : "#VALUE!" };
}
