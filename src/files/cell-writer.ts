import { type CellRange, cellAddress, cellsOf, readCell, readRange } from "./address";
import { type CellResult, type ErrorValue, isErrorCode, storedResult } from "./cell-result";
import { toStored } from "./formula-text";
import type { NewCell, NewSheet } from "./new-book-model";
import { tableAt } from "./table-part";
import { valueElement } from "./patch-cell";
import type { StyleWriter } from "./style-writer";
import { encodeText, escapeXml } from "./xml";

/** The texts of a new workbook, each once. */
export class TextWriter {
  private readonly numbers = new Map<string, number>();
  private uses = 0;

  number(text: string): number {
    this.uses += 1;
    const known = this.numbers.get(text);
    if (known !== undefined) return known;
    const number = this.numbers.size;
    this.numbers.set(text, number);
    return number;
  }

  part(): string {
    const items = [...this.numbers.keys()].map((text) => `<si><t${/^\s|\s$|\n/.test(text) ? ' xml:space="preserve"' : ""}>${encodeText(text)}</t></si>`);
    return `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n<sst xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" count="${this.uses}" uniqueCount="${items.length}">${items.join("")}</sst>`;
  }
}

export interface WrittenCells {
  /** The content of sheetData. */
  rows: string;
  /** "A1:F40". */
  dimension: string;
  /** Whether a cell is marked as one that spills freely, for which the file needs the metadata part. */
  marked: boolean;
}

/** A text that a spreadsheet would take for a formula when it is edited. */
export const BEGINS_LIKE_FORMULA = /^[=+\-@]/;

/**
 * Writes the cells of a sheet row by row. A text that begins like a formula stays a text.
 * @param texts null where the cells hold their texts themselves
 */
export function writeCells(sheet: NewSheet, styles: StyleWriter, texts: TextWriter | null): WrittenCells {
  const spilled = spilledCells(sheet);
  const rows = new Map<number, { column: number; text: string }[]>();
  let marked = false;
  const cells = new Map(sheet.cells);
  // An answer may leave cells blank; where each has a formula of its own they are not blank in the file.
  for (const [address, formula] of spilled) if (formula !== "" && !cells.has(address)) cells.set(address, { value: "" });
  for (const [address, cell] of cells) {
    const place = readCell(address);
    if (!place) throw new RangeError(`"${address}" is not a cell.`);
    const formula = spilled.get(address);
    const text = formula === undefined ? writeCell(sheet, address, cell, styles, texts) : spilledCell(sheet, address, cell, formula, styles);
    marked ||= isMarked(cell);
    const row = rows.get(place.row);
    if (row) row.push({ column: place.column, text });
    else rows.set(place.row, [{ column: place.column, text }]);
  }
  const hidden = new Set(sheet.hiddenRows);
  for (const row of [...(sheet.rowHeights?.keys() ?? []), ...hidden]) if (!rows.has(row - 1)) rows.set(row - 1, []);
  const numbers = [...rows.keys()].sort((a, b) => a - b);
  const written = numbers.map((row) => {
    const height = sheet.rowHeights?.get(row + 1);
    const cells = (rows.get(row) ?? []).sort((a, b) => a.column - b.column).map((cell) => cell.text);
    return `<row r="${row + 1}"${height === undefined ? "" : ` ht="${height}" customHeight="1"`}${hidden.has(row + 1) ? ' hidden="1"' : ""}>${cells.join("")}</row>`;
  });
  return { rows: written.join(""), dimension: usedRange(numbers, rows), marked };
}

function usedRange(numbers: readonly number[], rows: ReadonlyMap<number, readonly { column: number }[]>): string {
  let left = Number.POSITIVE_INFINITY;
  let right = 0;
  for (const cells of rows.values()) {
    left = Math.min(left, cells[0]?.column ?? left);
    right = Math.max(right, cells[cells.length - 1]?.column ?? 0);
  }
  const [first] = numbers;
  const last = numbers[numbers.length - 1];
  if (first === undefined || last === undefined || !Number.isFinite(left)) return "A1";
  const from = cellAddress(first, left);
  const to = cellAddress(last, right);
  return from === to ? from : `${from}:${to}`;
}

/** For each cell that another cell's formula spills over: the formula that it holds itself, or "" where it holds the value alone. */
function spilledCells(sheet: NewSheet): Map<string, string> {
  const spilled = new Map<string, string>();
  for (const [address, cell] of sheet.cells) {
    const range = spillRange(cell);
    if (!range) continue;
    for (const { row, column } of cellsOf(range)) {
      const indexed = `INDEX(${cell.formula},${row - range.startRow + 1},${column - range.startColumn + 1})`;
      const place = cellAddress(row, column);
      if (cell.spillAs === "index") spilled.set(place, indexed);
      else if (place !== address) spilled.set(place, "");
    }
  }
  return spilled;
}

function spillRange(cell: NewCell): CellRange | undefined {
  return cell.formula !== undefined && cell.spill !== undefined ? readRange(cell.spill) : undefined;
}

function isMarked(cell: NewCell): boolean {
  return spillRange(cell) !== undefined && cell.spillAs !== "index" && cell.fixedSpill !== true;
}

function spilledCell(sheet: NewSheet, address: string, cell: NewCell, formula: string, styles: StyleWriter): string {
  return cellElement(address, styles.cellFormat(cell.style), cell.value, formula !== "" ? `<f>${escapeXml(toStored(formula, tableAt(sheet.tables, address)))}</f>` : "");
}

function writeCell(sheet: NewSheet, address: string, cell: NewCell, styles: StyleWriter, texts: TextWriter | null): string {
  const { value, formula, style } = cell;
  if (formula === undefined && typeof value === "string" && !isErrorCode(value)) {
    if (value === "") return cellElement(address, styles.cellFormat(style), null, "");
    const format = styles.cellFormat(style, BEGINS_LIKE_FORMULA.test(value));
    if (!texts) return cellElement(address, format, value, "");
    return `<c r="${address}"${format > 0 ? ` s="${format}"` : ""} t="s"><v>${texts.number(value)}</v></c>`;
  }
  const range = spillRange(cell);
  const array = range ? ` t="array" ref="${cell.spill}"` : "";
  const element = formula === undefined ? "" : `<f${array}>${escapeXml(toStored(formula, tableAt(sheet.tables, address)))}</f>`;
  return cellElement(address, styles.cellFormat(style), value, element, isMarked(cell));
}

function cellElement(address: string, format: number, value: NewCell["value"], formula: string, marked = false): string {
  const stored = value === null ? undefined : storedResult(resultOf(value));
  const attributes = `r="${address}"${format > 0 ? ` s="${format}"` : ""}${stored?.kind ? ` t="${stored.kind}"` : ""}${marked ? ' cm="1"' : ""}`;
  if (!stored && formula === "") return `<c ${attributes}/>`;
  return `<c ${attributes}>${formula}${stored ? valueElement("", stored.text) : ""}</c>`;
}

function resultOf(value: number | string | boolean | ErrorValue): CellResult {
  return typeof value === "string" && isErrorCode(value) ? { code: value } : value;
}
