import { isBlank, numberIn, within } from "../../../functions/arguments";
import { cellAsRead, hasDecimalComma, isNoEntry, type TextReading } from "../../../functions/log-cells";
import { columnOf, splitHeading, type Column } from "../../../functions/log-headings";
import { serialOf } from "../../../functions/dates";
import { Problem } from "../../../science/problem";
import { parseReading } from "../../../science/reading";
import { join as words } from "../../../words/join";
import { science } from "../../../words/science";
import { blankAt, cellAt, isErrorText, type Grid } from "./cells";
import { shownDate } from "./date-order";
import type { FoundLog } from "./find-log";
import type { ColumnProposal } from "./proposal";

/** One cell as it was understood: `understood` is "" for a blank and null where the column is left alone or not settled yet. */
export interface UnderstoodCell {
  readonly written: string;
  readonly understood: string | null;
  /** Why it could not be read; the budget will name it in the same way. */
  readonly problem: string | null;
}
export interface UnderstoodRow {
  /** Row of the sheet, counted from 0. */
  readonly row: number;
  readonly cells: readonly UnderstoodCell[];
}
export interface Understood {
  readonly rows: readonly UnderstoodRow[];
  /** A sentence for each cell that could not be read, with its row as the sheet numbers it. */
  readonly unread: readonly string[];
}

/** The first five rows with an entry, read exactly as LOG_READ will read them. */
export function fiveRows(grid: Grid, found: FoundLog, columns: readonly ColumnProposal[], calendarOffset = 0): Understood {
  const read = columns.map(({ meaning }): Column | null => (meaning === null ? null : columnOf(meaning)));
  const others = read.flatMap((column, place) => (column && column.kind !== "date" ? [place] : []));
  const dateAt = found.dateColumn - found.left;
  const headings = found.headingRows.map((row) => lineOf(grid, found, row));
  const lines = Array.from({ length: found.bottom - found.firstDataRow + 1 }, (_, place) => lineOf(grid, found, found.firstDataRow + place));
  const texts: TextReading = {
    order: columns.find(({ kind }) => kind === "date")?.dateOrder ?? null,
    calendarOffset,
    decimalComma: hasDecimalComma(lines.flatMap((line) => others.filter((place) => read[place]?.kind !== "food").map((place) => line[place]))),
  };
  const rows: UnderstoodRow[] = [];
  const unread: string[] = [];
  for (let row = found.firstDataRow; row <= found.bottom && rows.length < 5; row += 1) {
    const line = lineOf(grid, found, row);
    if (line.every(isBlank) || isNoEntry(line, headings, dateAt, others, texts)) continue;
    const cells = columns.map((one, place) => understood(line[place], one.meaning, read[place] ?? null, texts));
    if (read[dateAt] && blankAt(grid, row, found.dateColumn) && others.some((place) => !isBlank(line[place]))) unread.push(words.unread(row + 1, columns[dateAt]?.heading ?? "", words.noDate));
    cells.forEach(({ problem }, place) => {
      if (problem !== null) unread.push(words.unread(row + 1, columns[place]?.heading ?? "", problem));
    });
    rows.push({ row, cells });
  }
  return { rows, unread };
}

const lineOf = (grid: Grid, { left, right }: FoundLog, row: number): unknown[] => Array.from({ length: right - left + 1 }, (_, place) => cellAt(grid, row, left + place));

function understood(cell: unknown, meaning: string | null, column: Column | null, texts: TextReading): UnderstoodCell {
  const written = isBlank(cell) ? "" : String(cell).trim();
  if (meaning === null || column === null) return { written, understood: null, problem: null };
  if (isErrorText(cell)) return { written, understood: "", problem: `${written}.` };
  const value = cellAsRead(cell, meaning, column, texts);
  if (isBlank(value)) return { written, understood: "", problem: null };
  try {
    return { written, understood: shown(value, meaning, column, texts), problem: null };
  } catch (error) {
    if (error instanceof Problem) return { written, understood: "", problem: error.message };
    throw error;
  }
}

/** @throws Problem with the sentence of the strict reader */
function shown(value: unknown, meaning: string, column: Column, texts: TextReading): string {
  const { unit } = splitHeading(meaning);
  switch (column.kind) {
    case "date": {
      const serial = serialOf(value, texts.calendarOffset);
      if (serial === null) throw new Problem("value", words.dateNotRead(String(value)));
      return shownDate(serial + texts.calendarOffset);
    }
    case "food":
    case "ignored":
      return String(value);
    case "reading":
      return shownReading(value, `${column.basis.unit} ${column.basis.form}`);
    default: {
      const entered = numberIn(meaning, value);
      const figure = column.kind === "condition" ? entered : within(meaning, entered, { unit });
      // A cell formatted 20% holds 0.2: it is shown as the 20 % that the budget takes it for.
      const isShare = unit === "%" && figure < 1;
      return `${rounded(isShare ? figure * 100 : figure)}${unit === "" ? "" : ` ${unit}`}`;
    }
  }
}

function shownReading(value: unknown, unit: string): string {
  if (typeof value !== "number" && typeof value !== "string") throw new Problem("value", science.readingNotUnderstood(value));
  // A kit's steps only widen a reading; one step of the smallest size lets 0 and nd be read here as "below".
  const { low, high, censored } = parseReading(value, { step: Number.MIN_VALUE });
  if (censored === "below") return high <= Number.MIN_VALUE ? words.belowTheKit : words.below(`${rounded(high)} ${unit}`);
  if (censored === "above") return words.above(`${rounded(low)} ${unit}`);
  return high - low > 1e-9 * high ? `${rounded(low)} - ${rounded(high)} ${unit}` : `${rounded(low)} ${unit}`;
}

const rounded = (value: number): string => String(Number(value.toPrecision(6)));
