import { isBlank } from "../../../functions/arguments";
import { numberFromText } from "../../../science/number-text";

/** The values of a sheet from its first cell on; rows may be of different length. */
export type Grid = readonly (readonly unknown[])[];

export const cellAt = (grid: Grid, row: number, column: number): unknown => grid[row]?.[column];
export const blankAt = (grid: Grid, row: number, column: number): boolean => isBlank(cellAt(grid, row, column));
export const textAt = (grid: Grid, row: number, column: number): string => {
  const cell = cellAt(grid, row, column);
  return isBlank(cell) ? "" : String(cell).normalize("NFC").trim().replace(/\s+/g, " ");
};

/** A cell that Excel shows as an error reaches us as a text such as #N/A. */
export const isErrorText = (cell: unknown): boolean => typeof cell === "string" && /^#[A-Z/0!?]+[!?]?$/.test(cell);

const SMALL = "₀₁₂₃₄₅₆₇₈₉";
const RAISED = "⁰¹²³⁴⁵⁶⁷⁸⁹";

/**
 * A text in lower case without accents, sign for sign as long as the text was, so that a place found in one is a place in the other:
 * the German sharp s becomes one s, small and raised figures become figures, every dash a hyphen.
 */
export function folded(text: string): string {
  const signs = [...text.normalize("NFC")];
  return signs.map((sign, place) => {
    // The charge of an ion (a raised 3-) says nothing that its name does not.
    if (RAISED.includes(sign) && /[⁻⁺]/.test(signs[place + 1] ?? "")) return " ";
    if (SMALL.includes(sign)) return String(SMALL.indexOf(sign));
    if (RAISED.includes(sign)) return String(RAISED.indexOf(sign));
    if (/[–—−‐‑⁻]/.test(sign)) return "-";
    if (/[’‘`´]/.test(sign)) return "'";
    if (/[µμ]/.test(sign)) return "u";
    if (sign === "ß") return "s";
    if (sign === "·" || sign === "×") return " ";
    const plain = sign.normalize("NFD").replace(/\p{M}/gu, "").toLowerCase();
    return plain.length === sign.length ? plain : sign;
  }).join("");
}

/** A number in a cell, also in text with a decimal comma and with a sign or a unit about it; null for other texts. */
export function figureIn(cell: unknown): number | null {
  if (typeof cell === "number") return cell;
  if (typeof cell !== "string") return null;
  const match = /^[<>~≤≥]?=?\s*([+-]?\d[\d.,\u00a0\u202f]*)/.exec(cell.trim());
  if (!match) return null;
  try {
    return numberFromText((match[1] ?? "").replace(/[.,]$/, ""));
  } catch {
    // 1,234 has two meanings; as a hint to the size of the figures it says nothing.
    return null;
  }
}
