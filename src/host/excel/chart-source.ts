import type { CellRange } from "../../files/address";
import type { SeriesState } from "./book-state";
import { columnsOf, rowsOf } from "./range-geometry";
import { gridPlace, placed, type RangeTarget } from "./range-target";
import type { LocalContext } from "./request-context";

/** Parts of a number format that show a day or a month; texts in quotes are none. */
const SHOWS_DATE = /[dmy]/i;

/**
 * The series that Excel makes of a range with one block of data: a first row of texts gives the names, and a first column of
 * texts or dates (of any numbers in a scatter chart) gives the X values. Rows take the place of columns where seriesBy says so.
 */
export function seriesOfRange(local: LocalContext, source: RangeTarget, type: string, seriesBy: string): SeriesState[] {
  const byRows = seriesBy === "Rows" || (seriesBy === "Auto" && columnsOf(source.range) > rowsOf(source.range));
  const { sheet, address } = gridPlace(local, source);
  const cells = turned(local.port.read(sheet, address).values, byRows);
  const formats = turned(local.port.formats.numberFormats(sheet, address), byRows);
  const [first = []] = cells;
  const named = first.slice(first.length > 1 ? 1 : 0).every((cell) => typeof cell === "string") && first.some((cell) => cell !== "") && cells.length > 1;
  const body = named ? 1 : 0;
  const inFront = cells.slice(body).map((row) => row[0]);
  const dated = formats.slice(body).every((row) => SHOWS_DATE.test(String(row[0]).replace(/"[^"]*"|\[[^\]]*\]|General/g, "")));
  const hasX = first.length > 1 && (type.startsWith("XYScatter") || inFront.every((cell) => typeof cell === "string") || dated);
  const part = (column: number, fromRow: number): RangeTarget => ({ sheetId: source.sheetId, range: line(source.range, byRows, column, fromRow) });
  return Array.from({ length: first.length - (hasX ? 1 : 0) }, (_series, i) => {
    const column = i + (hasX ? 1 : 0);
    return {
      id: String(i + 1),
      name: named && first[column] !== "" ? String(first[column]) : `Series${i + 1}`,
      values: placed(part(column, body)),
      xValues: hasX ? placed(part(0, body)) : null,
    };
  });
}

function turned<T>(rows: readonly (readonly T[])[], turn: boolean): T[][] {
  if (!turn) return rows.map((row) => [...row]);
  return (rows[0] ?? []).map((_cell, column) => rows.map((row) => row[column] as T));
}

function line(range: CellRange, byRows: boolean, index: number, from: number): CellRange {
  return byRows
    ? { ...range, startRow: range.startRow + index, endRow: range.startRow + index, startColumn: range.startColumn + from }
    : { ...range, startColumn: range.startColumn + index, endColumn: range.startColumn + index, startRow: range.startRow + from };
}
