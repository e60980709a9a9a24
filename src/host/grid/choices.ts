import { type CellRange, columnLetters, columnNumber, rangeAddress, readRange } from "../../files/address";
import type { BookState, ValidationState } from "../excel/book-state";
import { intersection, moved, readAnyRange } from "../excel/range-geometry";
import type { GridPort } from "../grid-port";

/** One value of a list: what is shown, and what is written when it is chosen. */
export interface Choice {
  readonly text: string;
  readonly value: string | number | boolean;
}

export interface CellNote {
  readonly title: string;
  readonly message: string;
}

/** The reference in front of "!": quoted with doubled quotes inside, or plain. */
const REFERENCE = /^(?:(?:'((?:[^']|'')+)'|([^'!]+))!)?(\$?[A-Z]{1,3}\$?\d+(?::\$?[A-Z]{1,3}\$?\d+)?)$/i;
const CORNER = /(\$?)([A-Z]{1,3})(\$?)(\d+)/gi;

/** The rule for what may stand in a cell. */
export function ruleAt({ validations }: BookState, sheetId: string, row: number, column: number): ValidationState | undefined {
  return validations.find((rule) => {
    const range = rule.sheetId === sheetId ? readAnyRange(rule.ref) : undefined;
    return range && intersection(range, { startRow: row, endRow: row, startColumn: column, endColumn: column });
  });
}

/**
 * The values that a rule offers for one of its cells, without blanks. None for a rule that is no list, whose list is not to be
 * shown in the cell, or whose source is no range, no name of a range and no texts with commas between them.
 * @param sheet the name of the cell's sheet
 */
export function choicesOf(port: GridPort, { rule, ref, sheetId }: ValidationState, sheet: string, row: number, column: number): Choice[] {
  const { source, inCellDropDown } = (rule.list ?? {}) as { source?: unknown; inCellDropDown?: boolean };
  if (typeof source !== "string" || inCellDropDown === false) return [];
  if (!source.startsWith("=")) return source.split(",").flatMap((one) => typedChoice(one.trim()));
  const first = readAnyRange(ref);
  const from = first ? { rows: row - first.startRow, columns: column - first.startColumn } : { rows: 0, columns: 0 };
  const formula = source.slice(1).trim();
  const named = namedFormula(port, formula, sheetId);
  const place = placeOf(port, named ?? formula, sheet, named === undefined ? from : { rows: 0, columns: 0 });
  if (!place) return [];
  const texts = port.formats.text(place.sheet, place.address).flat();
  return port.read(place.sheet, place.address).values.flat().flatMap((value, i): Choice[] => {
    const text = texts[i] ?? "";
    const known = typeof value === "number" || typeof value === "boolean" || typeof value === "string";
    return known && String(value).trim() !== "" ? [{ text: text.trim() === "" ? String(value) : text, value }] : [];
  });
}

/** A name of the sheet's own comes before one of the workbook's. */
function namedFormula(port: GridPort, wanted: string, sheetId: string): string | undefined {
  const called = port.names.list().filter(({ name }) => name.toLowerCase() === wanted.toLowerCase());
  return (called.find((one) => one.sheetId === sheetId) ?? called.find((one) => one.sheetId === null))?.formula;
}

/** What a rule says beside the cell. */
export function noteOf({ prompt }: ValidationState): CellNote | null {
  const { title, message, showPrompt } = (prompt ?? {}) as { title?: unknown; message?: unknown; showPrompt?: boolean };
  const note = { title: typeof title === "string" ? title : "", message: typeof message === "string" ? message : "" };
  return showPrompt === false || `${note.title}${note.message}`.trim() === "" ? null : note;
}

/** A text of the rule counts as typed: figures become a number. */
function typedChoice(text: string): Choice[] {
  if (text === "") return [];
  return [{ text, value: /^-?(\d+\.?\d*|\.\d+)$/.test(text) ? Number(text) : text }];
}

/** A reference without dollar signs is meant as seen from the first cell of the rule's range. */
function placeOf(port: GridPort, formula: string, own: string, from: { rows: number; columns: number }): { sheet: string; address: string } | null {
  const match = REFERENCE.exec(formula);
  if (!match?.[3]) return null;
  const wanted = (match[1]?.replace(/''/g, "'") ?? match[2]?.trim() ?? own).toLowerCase();
  const sheet = port.sheetNames().find((name) => name.toLowerCase() === wanted);
  const seen = match[3].replace(CORNER, (_corner, fixedColumn: string, letters: string, fixedRow: string, row: string) => {
    const place = moved(cell(Number(row) - 1, columnNumber(letters.toUpperCase())), fixedRow ? 0 : from.rows, fixedColumn ? 0 : from.columns);
    return place ? `${columnLetters(place.startColumn)}${place.startRow + 1}` : "";
  });
  const range = readRange(seen);
  if (sheet === undefined || !range) return null;
  const { rows, columns } = port.sheets.size(sheet);
  const inside = intersection(range, { startRow: 0, startColumn: 0, endRow: rows - 1, endColumn: columns - 1 });
  return inside && { sheet, address: rangeAddress(inside) };
}

const cell = (row: number, column: number): CellRange => ({ startRow: row, endRow: row, startColumn: column, endColumn: column });
