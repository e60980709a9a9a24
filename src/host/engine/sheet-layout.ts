import { BooleanNumber } from "@univerjs/core";
import type { BookSheet } from "../../files/book";
import { readRange } from "./address";

/** Wide enough for the digits of the grid's font at its size, where a file counts in digits. */
const PIXELS_PER_CHARACTER = 7.5;
const CELL_PADDING_PIXELS = 8;
const DEFAULT_WIDTH_CHARACTERS = 9;
const LINE_PIXELS = 19;
const ROW_PADDING_PIXELS = 5;

/** Column widths, heights of rows with wrapped text, merged and frozen cells, as the grid wants them. */
export function sheetLayout(sheet: BookSheet) {
  const frozenRows = sheet.frozenRows ?? 0;
  const frozenColumns = sheet.frozenColumns ?? 0;
  return {
    columnData: columnData(sheet.columnWidths ?? []),
    rowData: rowData(sheet),
    mergeData: (sheet.merges ?? []).map(readRange),
    freeze: {
      xSplit: frozenColumns,
      ySplit: frozenRows,
      startRow: frozenRows > 0 ? frozenRows : -1,
      startColumn: frozenColumns > 0 ? frozenColumns : -1,
    },
  };
}

function columnData(widths: number[]): Record<number, { w: number }> {
  return Object.fromEntries(
    widths.flatMap((characters, i) => (characters > 0 ? [[i, { w: Math.round(characters * PIXELS_PER_CHARACTER + CELL_PADDING_PIXELS) }]] : [])),
  );
}

/** The grid finds the height of wrapped text only when somebody edits it, so it is given one from the start. */
function rowData(sheet: BookSheet): Record<number, { ah: number; h: number; ia: BooleanNumber }> {
  const lines = new Map<number, number>();
  for (const [address, { value, style }] of sheet.cells) {
    if (!style?.wrap || typeof value !== "string") continue;
    const { startRow, startColumn } = readRange(address);
    const merged = sheet.merges?.map(readRange).find((range) => range.startRow === startRow && range.startColumn === startColumn);
    const width = charactersAcross(sheet.columnWidths ?? [], startColumn, merged?.endColumn ?? startColumn);
    lines.set(startRow, Math.max(lines.get(startRow) ?? 1, wrappedLines(value, style.bold ? width * 0.9 : width)));
  }
  const tall = [...lines].filter(([, count]) => count > 1);
  return Object.fromEntries(
    tall.map(([row, count]) => {
      const height = count * LINE_PIXELS + ROW_PADDING_PIXELS;
      return [row, { h: height, ah: height, ia: BooleanNumber.TRUE }];
    }),
  );
}

function charactersAcross(widths: number[], first: number, last: number): number {
  let sum = 0;
  for (let column = first; column <= last; column += 1) sum += widths[column] || DEFAULT_WIDTH_CHARACTERS;
  return sum;
}

function wrappedLines(text: string, width: number): number {
  return text.split("\n").reduce((lines, paragraph) => {
    let room = width;
    let count = 1;
    for (const word of paragraph.split(" ")) {
      if (word.length > room && room < width) {
        count += 1;
        room = width;
      }
      // A word longer than the column is broken inside.
      count += Math.max(0, Math.ceil(word.length / width) - 1);
      room -= (word.length % width) + 1;
    }
    return lines + count;
  }, 0);
}
