import { functions } from "../words/functions";
import { trend as words } from "../words/trend";
import { Problem } from "../science/problem";
import { parseReading, type Kit, type Reading } from "../science/reading";
import { science } from "../words/science";
import { cellsOf, isBlank } from "./arguments";
import { isCellError } from "./cell-error";
import { date } from "./dates-argument";

/** A reading with the day on which it was taken, an Excel serial. */
export interface DatedReading {
  readonly day: number;
  readonly reading: Reading;
}

/**
 * Readings from a range of dates and a range of readings of the same shape, in the order of their dates.
 * A row without a reading is left out: a log has many days without a test.
 * @throws Problem or the cell's own error, naming the row that cannot be used
 */
export function datedReadings(datesGiven: unknown, readingsGiven: unknown, kit: Kit | undefined): DatedReading[] {
  const [dates, readings] = [cellsOf(datesGiven), cellsOf(readingsGiven)];
  if ([...dates, ...readings].every((row) => row.every(isBlank))) return [];
  for (const [name, cells] of [["dates", dates], ["readings", readings]] as const) {
    if (cells.length === 1 && cells[0]?.length === 1 && isBlank(cells[0][0])) throw new Problem("missing", functions.needed(name));
  }
  if (dates.length !== readings.length || dates[0]?.length !== readings[0]?.length) throw new Problem("value", functions.sizesDiffer("dates", "readings"));
  const alongRow = dates.length === 1;
  const found: DatedReading[] = [];
  const dateOf = date("dates", dates);
  dates.forEach((row, rowPlace) => row.forEach((dateCell, column) => {
    const cell = readings[rowPlace]?.[column];
    if (isBlank(cell)) return;
    try {
      if (isCellError(cell)) throw cell;
      if (typeof cell !== "number" && typeof cell !== "string") throw new Problem("value", science.readingNotUnderstood(cell));
      if (isBlank(dateCell)) throw new Problem("value", words.dateMissing);
      found.push({ day: dateOf.read(dateCell), reading: parseReading(cell, kit) });
    } catch (error) {
      if (error instanceof Problem) throw new Problem(error.kind, words.rowWrong((alongRow ? column : rowPlace) + 1, error.message));
      throw error;
    }
  }));
  return found.sort((a, b) => a.day - b.day);
}
