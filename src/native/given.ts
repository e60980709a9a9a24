import { MOST_IN_TEXT } from "./formula-limits";

/** What a cell holds at the hand-over; an error as its code. */
export type GivenValue = number | string | boolean | null;

/** One cell of an argument: the text of a formula that yields it wherever it stands, and what it was at the hand-over. */
export interface Given {
  readonly text: string;
  readonly value: GivenValue;
  /** Written into the formula itself: it cannot change. */
  readonly literal: boolean;
}

/** An argument of a call. */
export interface GivenRange {
  readonly rows: readonly (readonly Given[])[];
  /** The text of all of it, "Log!$A$1:$H$114". */
  readonly text: string;
}

export const isBlankValue = (value: GivenValue | undefined): boolean => value === null || value === undefined || (typeof value === "string" && value.trim() === "");

const NUMBER = /^([+-]?)\s*(\d+\.?\d*(?:e[+-]?\d+)?|\.\d+(?:e[+-]?\d+)?)\s*(%?)$/i;

/** Whether a cell is in error. */
export const isError = (value: GivenValue | undefined): boolean => typeof value === "string" && /^#[A-Z]/.test(value);

/** An argument that is a number, a text or a truth value written into the formula; null for anything else. */
export function literalIn(text: string): Given | null {
  const number = NUMBER.exec(text);
  if (number) {
    const value = Number(number[2]) * (number[1] === "-" ? -1 : 1) * (number[3] === "%" ? 0.01 : 1);
    return { text: value < 0 || number[3] === "%" ? `(${text})` : text, value, literal: true };
  }
  if (/^"(?:[^"]|"")*"$/.test(text)) return { text, value: text.slice(1, -1).replace(/""/g, '"'), literal: true };
  if (/^(TRUE|FALSE)$/i.test(text)) return { text: text.toUpperCase(), value: text.toUpperCase() === "TRUE", literal: true };
  return null;
}

/** A number for a formula, without an exponent: the local page's engine takes 1E-9 for a text. */
export function figureText(value: number): string {
  const [mantissa = "", exponent] = String(value).toLowerCase().split("e");
  if (exponent === undefined) return mantissa;
  return `(${mantissa}*10^(${Number(exponent)}))`;
}

/** A text for a formula; one that is longer than a spreadsheet program takes in one piece, in several. */
export function quoted(text: string): string {
  const pieces = text.length <= MOST_IN_TEXT ? [text] : (text.match(new RegExp(`[^]{1,${MOST_IN_TEXT}}`, "g")) ?? []);
  return pieces.map((piece) => `"${piece.replace(/"/g, '""')}"`).join("&");
}

/** The condition under which a cell is blank or shows nothing. Not cell="", which the engine of the local page finds true of a 0 inside a function. */
export const isNothing = (text: string): string => `LEN(${text})=0`;

/** The condition under which any of these holds. */
export const anyOf = (conditions: readonly string[]): string => (conditions.length === 1 ? (conditions[0] ?? "") : `OR(${conditions.join(",")})`);

/** The condition under which a cell is what it was at the hand-over. A text of figures is compared as a text, for to some engines a literal of figures is a number. */
export function isSame({ text, value }: Pick<Given, "text" | "value">): string {
  if (typeof value === "string" && value.trim() !== "" && Number.isFinite(Number(value))) return `EXACT(${text},${quoted(value)})`;
  if (isNoisy(value)) return `ABS(${text}-${literalText(value)})${withinRounding(value)}`;
  return `${text}=${literalText(value)}`;
}

/** A number with more digits than a spreadsheet program compares, as sums have; its cell may hold a formula, and be a hair off when calculated again. */
export const isNoisy = (value: GivenValue | undefined): value is number => typeof value === "number" && Number(value.toPrecision(15)) !== value;

const withinRounding = (value: number): string => `<=${figureText(Math.abs(value) * 1e-9)}`;

/** The condition under which it is not. */
export function isOther(given: Pick<Given, "text" | "value">): string {
  const same = isSame(given);
  return same.startsWith("EXACT(") || same.startsWith("ABS(") ? `NOT(${same})` : `${given.text}<>${literalText(given.value)}`;
}

const literalText = (value: GivenValue): string => (isBlankValue(value) ? '""' : typeof value === "string" ? quoted(value) : typeof value === "number" ? figureText(value) : String(value).toUpperCase());
