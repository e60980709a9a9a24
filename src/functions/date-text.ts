import { serialOf } from "./dates";

/** In which order a date of three figures is written: 31/3/2026, 3/31/2026 or 26/3/31. */
export const DATE_ORDERS = ["dmy", "mdy", "ymd"] as const;
export type DateOrder = (typeof DATE_ORDERS)[number];

/** Beginnings of the months' names in English, German, French and Spanish, without accents. */
const MONTHS: readonly RegExp[] = [/^(?:jan|ene)/, /^(?:feb|fev)/, /^(?:mar|mrz)/, /^(?:apr|avr|abr)/, /^(?:may|mai)/, /^(?:jun|juin)/, /^(?:jul|juil)/, /^(?:aug|aou|ago)/, /^(?:sep)/, /^(?:o[ck]t)/, /^(?:nov)/, /^(?:de[czs]|dic)/];

const TIME = /[ ,t]+(\d{1,2})[:h](\d{2})(?::(\d{2}))?\s*(am|pm|uhr|h)?\.?$/;
const FIGURES = /^(\d{1,4})\s?[./-]\s?(\d{1,2})\s?[./-]\s?(\d{1,4})$/;

const plain = (written: string): string => written.trim().normalize("NFD").replace(/\p{M}/gu, "").replace(/[–—−‐‑]/g, "-").toLowerCase().replace(/\s+/g, " ");

/** The three figures of a date that is written with figures only, as they stand; null for other texts. The time behind it and a weekday before it are left out. */
export function dateFigures(written: string): readonly [string, string, string] | null {
  const text = plain(written).replace(TIME, "").replace(/^[a-z]+[.,]? (?=\d)/, "");
  const match = FIGURES.exec(text);
  return match ? [match[1] ?? "", match[2] ?? "", match[3] ?? ""] : null;
}

/**
 * A date written as text, as a serial of the workbook's date system; null when it is none, or when its figures can be two days
 * and no order is given. A year of two figures is taken as Excel takes it: 00 to 29 lie in this century.
 */
export function serialOfText(written: string, order: DateOrder | null, calendarOffset: number): number | null {
  const text = plain(written);
  const basic = /^(\d{4})(\d{2})(\d{2})$/.exec(text);
  if (basic) return serialOf(`${basic[1]}-${basic[2]}-${basic[3]}`, calendarOffset);
  const iso = serialOf(text.toUpperCase(), calendarOffset);
  if (iso !== null && /^\d{4}-/.test(text)) return iso;
  const time = TIME.exec(text);
  const parts = namedMonth(text.replace(TIME, "")) ?? figuresIn(dateFigures(written), order ?? usualOrder(text));
  if (!parts) return null;
  const clock = time ? clockOf(time) : "";
  return clock === null ? null : serialOf(`${parts.join("-")}${clock}`, calendarOffset);
}

/** Year, month and day of "3 March 2026", "3. Maerz 2026", "3 de marzo de 2026" or "March 3, 2026". */
function namedMonth(text: string): [string, string, string] | null {
  const dayFirst = /(?:^|[a-z][.,]? )(\d{1,2})\.?(?:st|nd|rd|th|er)?[ -]?(?:de |of )?([a-z]{3,})\.?[ ,-]+(?:de )?(\d{4}|\d{2})$/.exec(text);
  const monthFirst = /(?:^|[a-z][.,]? )([a-z]{3,})\.? (\d{1,2})(?:st|nd|rd|th)?,? (\d{4})$/.exec(text);
  const [day, name, year] = dayFirst ? [dayFirst[1], dayFirst[2], dayFirst[3]] : monthFirst ? [monthFirst[2], monthFirst[1], monthFirst[3]] : [];
  const month = name === undefined ? -1 : MONTHS.findIndex((one) => one.test(name.replace("ae", "a")));
  return month < 0 || !year || !day ? null : [fullYear(year), String(month + 1), day];
}

function figuresIn(figures: readonly [string, string, string] | null, order: DateOrder | null): [string, string, string] | null {
  if (!figures) return null;
  const [first, second, third] = figures;
  // A year of four figures in front is followed by the month everywhere.
  const used = first.length === 4 ? "ymd" : order;
  if (used === null) return null;
  const [year, month, day] = used === "ymd" ? [first, second, third] : used === "dmy" ? [third, second, first] : [third, first, second];
  return year.length === 2 || year.length === 4 ? [fullYear(year), month, day] : null;
}

/** 31.3.2026 is the thirty-first of March here unless the keeper says otherwise, as in the budget's own reading. */
const usualOrder = (text: string): DateOrder | null => (/(?:^| )\d{1,2}\.\s?\d{1,2}\.\s?\d{4}(?!\d)/.test(text) ? "dmy" : null);

const fullYear = (year: string): string => (year.length === 4 ? year : Number(year) < 30 ? `20${year}` : `19${year}`);

function clockOf(time: RegExpExecArray): string | null {
  const half = time[4] === "am" || time[4] === "pm" ? time[4] : null;
  const hour = Number(time[1]);
  if (half && (hour < 1 || hour > 12)) return null;
  const hours = half ? (hour % 12) + (half === "pm" ? 12 : 0) : hour;
  return ` ${hours}:${time[2]}${time[3] ? `:${time[3]}` : ""}`;
}

/** A date cell under the order of its column: real dates and the text dates that can be read in one way are taken without an order. */
export function serialInOrder(cell: unknown, order: DateOrder | null, calendarOffset: number): number | null {
  if (typeof cell === "number" && cell >= 19_000_101 && cell < 29_991_231 && Number.isInteger(cell)) return serialOfText(String(cell), order, calendarOffset);
  return typeof cell === "string" ? serialOfText(cell, order, calendarOffset) : serialOf(cell, calendarOffset);
}
