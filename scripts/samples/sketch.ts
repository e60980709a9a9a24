import type { BookCell, BookStyle } from "../../src/files/book";

/** A sheet while a sample is being put together: cells by column and row, from 1. */
export interface Sketch {
  name: string;
  cells: Map<string, BookCell>;
  columnWidths: number[];
  frozenRows: number;
  landscape: boolean;
  titleRows: number;
  merges: string[];
  /** In points, by row. */
  rowHeights: Map<number, number>;
}

export const LOOK = {
  title: { bold: true, color: "#1f3d36" } satisfies BookStyle,
  strong: { bold: true } satisfies BookStyle,
  heading: { bold: true, fill: "#dfe9e4", wrap: true } satisfies BookStyle,
  note: { italic: true, color: "#4b5a55" } satisfies BookStyle,
  date: { numberFormat: "yyyy-mm-dd" } satisfies BookStyle,
  grams: { numberFormat: "0.00" } satisfies BookStyle,
  milligrams: { numberFormat: "0.0000" } satisfies BookStyle,
  perCent: { numberFormat: "0%" } satisfies BookStyle,
  answer: { bold: true, fill: "#f4efdc" } satisfies BookStyle,
};

export const sketch = (name: string, columnWidths: number[], frozenRows = 0): Sketch => ({
  name,
  cells: new Map(),
  columnWidths,
  frozenRows,
  landscape: columnWidths.length > 6,
  titleRows: frozenRows,
  merges: [],
  rowHeights: new Map(),
});

const LINE_POINTS = 13.5;
/** Programmes without Arial take a wider letter, and bold ones are wider again. */
const LETTERS_PER_WIDTH = 0.85;

/** Says how high a row of wrapped text is, because not every programme works that out for itself. */
export function makeRoom(sheet: Sketch, row: number, letters: number, width: number): void {
  const lines = Math.ceil(letters / (width * LETTERS_PER_WIDTH));
  if (lines > 1) sheet.rowHeights.set(row, Math.max(sheet.rowHeights.get(row) ?? 0, lines * LINE_POINTS + 3));
}

export function columnName(column: number): string {
  const before = Math.floor((column - 1) / 26);
  return (before > 0 ? columnName(before) : "") + String.fromCharCode(65 + ((column - 1) % 26));
}

type Content = number | string | boolean | null | { formula: string };

/** Puts one cell; a text is a text, a formula is given without its "=". Blank content puts nothing unless a style is wanted. */
export function put(sheet: Sketch, column: number, row: number, content: Content, style?: BookStyle): void {
  if ((content === null || content === "") && !style) return;
  const cell: BookCell = content !== null && typeof content === "object" ? { value: null, formula: content.formula } : { value: content === "" ? null : content };
  sheet.cells.set(`${columnName(column)}${row}`, style ? { ...cell, style } : cell);
}

/** A long text in one cell over several columns, wrapped, so that it can be read and printed whole. */
export function putAcrossMerged(sheet: Sketch, row: number, lastColumn: number, content: Content, style: BookStyle, letters: number): void {
  put(sheet, 1, row, content, { ...style, wrap: true });
  sheet.merges.push(`A${row}:${columnName(lastColumn)}${row}`);
  makeRoom(sheet, row, letters, sheet.columnWidths.slice(0, lastColumn).reduce((sum, width) => sum + width, 0));
}

/** A row of headings, high enough for the longest of them. */
export function putHeadings(sheet: Sketch, row: number, headings: readonly string[]): void {
  putRow(sheet, row, headings, LOOK.heading);
  headings.forEach((heading, place) => {
    const width = sheet.columnWidths[place] ?? 9;
    // A word goes to the next line whole, so the words that are left over need room, too.
    if (heading.length > width * LETTERS_PER_WIDTH) makeRoom(sheet, row, heading.length + width / 3, width);
  });
}

export function putRow(sheet: Sketch, row: number, contents: readonly Content[], styles: readonly (BookStyle | undefined)[] | BookStyle = []): void {
  contents.forEach((content, place) => put(sheet, place + 1, row, content, Array.isArray(styles) ? styles[place] : (styles as BookStyle)));
}
