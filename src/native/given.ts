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

export const quoted = (text: string): string => `"${text.replace(/"/g, '""')}"`;
