import { join as words } from "../words/join";
import { log as logWords } from "../words/log";
import { Problem } from "../science/problem";
import { cellsOf, choice, isBlank, numberIn, single, textIn, type Cell, type Cells } from "./arguments";
import { isCellError } from "./cell-error";
import { DATE_ORDERS } from "./date-text";
import { DAYS_1904 } from "./dates";
import { cellAsRead, hasDecimalComma, isNoEntry, type TextReading } from "./log-cells";
import { headed, type HeadedColumn } from "./log-columns";
import { columnOf } from "./log-headings";

/**
 * Your own log under headings that the budget reads. Row n of the answer is row n of your range: other rows come back blank.
 * @customfunction LOG_READ
 * @param {any[][]} log Your log with its own headings, any language; titles and units rows above the first data row are left out.
 * @param {any[][]} columns One text for each column: Date, Feed (g), NO3-N (mg/L) ... as the budget knows them; blank leaves it out.
 * @param {number} [first_row] Row of the range in which the data begin; 2 if left out.
 * @param {string} [date_order] For dates in text: "dmy", "mdy" or "ymd". Without it a text such as 3/4/2026 is not read.
 * @param {number} [date_system] 1904 where the workbook counts its dates so; 1900 if left out. Only dates in text need it.
 * @returns {any[][]} The log as it was understood; what cannot be read is passed on, and the budget names its row.
 * @example =ALGAL.LOG_READ(Log!A3:H400,Join!B5:I5,2,"dmy")
 */
export function LOG_READ(log: any[][], columns: any[][], first_row?: number, date_order?: string, date_system?: number): any[][] {
  const cells = cellsOf(log);
  const first = firstRow(first_row, cells.length);
  const meanings = meaningsFrom(columns, cells[0]?.length ?? 0);
  const lines = cells.slice(first - 1);
  // The strict reader refuses what would be counted twice, and drops Day beside Date.
  const read = headed([meanings, ...lines]).filter(({ column }) => column.kind !== "ignored");
  const texts: TextReading = {
    order: single(choice("date_order", date_order, DATE_ORDERS, words.unknownDateOrder)),
    calendarOffset: calendarOffset(date_system),
    decimalComma: hasDecimalComma(lines.flatMap((line) => read.filter(({ column }) => column.kind !== "date" && column.kind !== "food").map(({ place }) => line[place]))),
  };
  const noEntry = noEntryAmong(read, cells.slice(0, first - 1), texts);
  return [
    read.map(({ heading }) => heading),
    // What the budget says of a row then names the row of the keeper's range. A range without a row above its data gets one.
    ...Array.from({ length: Math.max(0, first - 2) }, () => read.map(() => "")),
    ...lines.map((line) => (noEntry(line) ? read.map(() => "") : read.map(({ place, heading, column }) => cellAsRead(line[place], heading, column, texts)))),
  ];
}

function firstRow(given: unknown, rows: number): number {
  const first = single({ name: "first_row", cells: cellsOf(given), read: (cell) => numberIn("first_row", cell), blank: 2 }) ?? 2;
  if (!Number.isInteger(first) || first < 1 || first > rows) throw new Problem("value", words.firstRowOutside(first, rows));
  return first;
}

function calendarOffset(given: unknown): number {
  const system = single({ name: "date_system", cells: cellsOf(given), read: (cell) => numberIn("date_system", cell), blank: 1900 }) ?? 1900;
  if (system !== 1900 && system !== 1904) throw new Problem("value", logWords.unknownDateSystem(system));
  return system === 1904 ? DAYS_1904 : 0;
}

/** The meanings in the order of the log's columns, from a row or a column of cells. Some hosts hand a blank cell over as 0. */
function meaningsFrom(given: unknown, width: number): string[] {
  const cells: Cells = cellsOf(given);
  if (cells.length > 1 && cells.some((row) => row.length > 1)) throw new Problem("value", words.columnsOneRow);
  const flat = cells.length > 1 ? cells.map((row) => row[0]) : (cells[0] ?? []);
  if (flat.length !== width) throw new Problem("value", words.columnsDoNotMatch(flat.length, width));
  const meanings = flat.map((cell: Cell) => (isBlank(cell) || cell === 0 ? "" : textIn("columns", cell)));
  if (meanings.every((meaning) => meaning === "")) throw new Problem("missing", words.noMeanings);
  for (const meaning of meanings) if (meaning !== "" && columnOf(meaning).kind === "ignored") throw new Problem("value", words.meaningUnknown(meaning));
  return meanings;
}

function noEntryAmong(read: readonly HeadedColumn[], headings: Cells, texts: TextReading): (line: readonly Cell[]) => boolean {
  const dateAt = read.find(({ column }) => column.kind === "date")?.place;
  if (dateAt === undefined) return () => false;
  const others = read.filter(({ place }) => place !== dateAt).map(({ place }) => place);
  return (line) => !line.some(isCellError) && isNoEntry(line, headings, dateAt, others, texts);
}
