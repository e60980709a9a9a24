import type { Cell } from "./arguments";

/** Days between the two date systems of workbooks. */
export const DAYS_1904 = 1462;

/**
 * A date cell as an Excel serial of the workbook's own date system; null when it is no date. Text dates count when
 * they can be read in one way only: 2026-03-31 (ISO 8601) or 31.3.2026; 3/4/2026 is two different days and is refused.
 */
export function serialOf(cell: Cell, calendarOffset: number): number | null {
  if (typeof cell === "number") return Number.isFinite(cell) && cell > 0 && cell < 2958466 ? cell : null;
  if (typeof cell !== "string") return null;
  const iso = /^(\d{4})-(\d{1,2})-(\d{1,2})(?:[T ](\d{1,2}):(\d{2})(?::(\d{2}))?)?$/.exec(cell.trim());
  const dotted = /^(\d{1,2})\.\s?(\d{1,2})\.\s?(\d{4})$/.exec(cell.trim());
  const [year, month, day] = iso ? [iso[1], iso[2], iso[3]] : dotted ? [dotted[3], dotted[2], dotted[1]] : [];
  if (!year || !month || !day) return null;
  const time = Date.UTC(Number(year), Number(month) - 1, Number(day));
  const back = new Date(time);
  // Date.UTC takes the years 0 to 99 for 1900 to 1999, and a date before the calendar of the workbook has no serial.
  if (back.getUTCFullYear() !== Number(year) || time / 86_400_000 + 25569 - calendarOffset <= 0) return null;
  if (Number(iso?.[5] ?? 0) > 59 || Number(iso?.[6] ?? 0) > 59) return null;
  if (back.getUTCMonth() !== Number(month) - 1 || back.getUTCDate() !== Number(day)) return null;
  const hours = iso?.[4] ? Number(iso[4]) + Number(iso[5] ?? 0) / 60 + Number(iso[6] ?? 0) / 3600 : 0;
  return hours < 24 ? time / 86_400_000 + 25569 - calendarOffset + hours / 24 : null;
}

/** The day of a moment in the machine's own calendar: "2026-01-31". */
export const localDay = (moment: Date): string => [moment.getFullYear(), moment.getMonth() + 1, moment.getDate()].map((part) => String(part).padStart(2, "0")).join("-");
