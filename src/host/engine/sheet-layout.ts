import { BooleanNumber } from "@univerjs/core";
import type { BookSheet } from "../../files/book";
import { readRange } from "./address";

/** Wide enough for the digits of the grid's font at its size, where a file counts in digits. */
const PIXELS_PER_CHARACTER = 7.5;
const CELL_PADDING_PIXELS = 8;
export const PIXELS_PER_POINT = 4 / 3;
const DEFAULT_WIDTH_CHARACTERS = 9;
const LINE_PIXELS = 19;
const ROW_PADDING_PIXELS = 5;

/** Column widths, heights of rows with wrapped text, merged and frozen cells, as the grid wants them. */
export function sheetLayout(sheet: BookSheet) {
  const frozenRows = sheet.frozenRows ?? 0;
  const frozenColumns = sheet.frozenColumns ?? 0;
  return {
    columnData: columnData(sheet.columnWidths ?? [], sheet.hiddenColumns ?? []),
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

function columnData(widths: readonly number[], hidden: readonly number[]): Record<number, { w?: number; hd?: BooleanNumber }> {
  const data: Record<number, { w?: number; hd?: BooleanNumber }> = {};
  widths.forEach((characters, i) => {
    if (characters > 0) data[i] = { w: widthPixels(characters) };
  });
  for (const column of hidden) data[column - 1] = { ...data[column - 1], hd: BooleanNumber.TRUE };
  return data;
}

/** From the file's characters to the grid's pixels, and back. */
export const widthPixels = (characters: number): number => Math.round(characters * PIXELS_PER_CHARACTER + CELL_PADDING_PIXELS);
export const widthCharacters = (pixels: number): number => Math.max(0.1, Math.round(((pixels - CELL_PADDING_PIXELS) / PIXELS_PER_CHARACTER) * 1000) / 1000);

/** The grid finds the height of wrapped text only when somebody edits it, so it is given one from the start. */
function rowData(sheet: BookSheet): Record<number, { ah?: number; h?: number; ia?: BooleanNumber; hd?: BooleanNumber }> {
  const lines = new Map<number, number>();
  for (const [address, { value, style }] of sheet.cells) {
    if (!style?.wrap || typeof value !== "string") continue;
    const { startRow, startColumn } = readRange(address);
    const merged = sheet.merges?.map(readRange).find((range) => range.startRow === startRow && range.startColumn === startColumn);
    const width = charactersAcross(sheet.columnWidths ?? [], startColumn, merged?.endColumn ?? startColumn);
    lines.set(startRow, Math.max(lines.get(startRow) ?? 1, wrappedLines(value, style.bold ? width * 0.9 : width)));
  }
  const tall = [...lines].filter(([, count]) => count > 1);
  const data: ReturnType<typeof rowData> = {};
  for (const [row, count] of tall) {
    const height = count * LINE_PIXELS + ROW_PADDING_PIXELS;
    data[row] = { h: height, ah: height, ia: BooleanNumber.TRUE };
  }
  for (const [row, points] of sheet.rowHeights ?? []) data[row - 1] = { h: Math.round(points * PIXELS_PER_POINT), ia: BooleanNumber.FALSE };
  for (const row of sheet.hiddenRows ?? []) data[row - 1] = { ...data[row - 1], hd: BooleanNumber.TRUE };
  return data;
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
