import * as published from "../../../node_modules/numfmt/dist/numfmt.js";

/**
 * What the engine and the grid know as their library of number formats. It reads 4.3.2026 as the third of April, silently; with
 * points the day comes first wherever dates are written so, and with strokes it comes first where the user's region says so.
 */
export * from "../../../node_modules/numfmt/dist/numfmt.js";

type Parsed = ReturnType<typeof published.parseDate>;

const WITH_POINTS = /^\s*\d{1,2}\.\d{1,2}\.\d{2,4}(?!\d)/;
const WITH_STROKES = /^\s*\d{1,2}[-/]\d{1,2}(?!\d)/;
/** A language whose dates begin with the day, and whose names and signs are those of the grid. */
const DAY_FIRST = "en-GB";
const SOME_DAY = new Date(2026, 11, 31);

let isDayFirst = false;

/** From here on dates that are typed with strokes are read as people write them in this language: "de-AT". */
export function readDatesAsIn(language: string): void {
  const parts = new Intl.DateTimeFormat(language).formatToParts(SOME_DAY).map(({ type }) => type);
  isDayFirst = parts.indexOf("day") < parts.indexOf("month");
}

/** The day number and the number format of a date that was typed; null for none, and where the order of day and month does not fit. */
export function parseDate(text: string, options?: { locale?: string }): Parsed {
  if (options?.locale !== undefined) return published.parseDate(text, options);
  return WITH_POINTS.test(text) || (isDayFirst && WITH_STROKES.test(text)) ? published.parseDate(text, { locale: DAY_FIRST }) : published.parseDate(text);
}
