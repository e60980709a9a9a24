import { Problem } from "../science/problem";
import { files } from "../words/files";
import { cellAddress, GRID_COLUMNS, rangeAddress, readRange } from "./address";
import type { BookCell, BookSheet, BookStyle } from "./book";
import type { ColourReader } from "./colours";
import { serialOfIsoDate } from "./dates";
import { fromStored } from "./formula-text";
import { shiftFormula } from "./shared-formula";
import { type StoredCell, walkSheet } from "./sheet-walk";
import { attribute, decodeText, flag, isTrue, type XmlTag } from "./xml";

/** What the cells of a worksheet part refer to in other parts of the file. */
export interface SheetContext {
  texts: readonly string[];
  styles: readonly (BookStyle | undefined)[];
  date1904: boolean;
  /** Whether cell metadata of this number marks a formula that spills as far as its answer needs. */
  spillsFreely(metadata: number): boolean;
  colour: ColourReader;
}

const MOST_COLUMNS_WITH_WIDTH = 256;

interface SharedFormula {
  row: number;
  column: number;
  text: string;
}

/** Reads one worksheet part. Widths, panes and merges come along; what the grid cannot show is left out. */
export function readSheetPart(xml: string, part: string, name: string, context: SheetContext): BookSheet {
  const sheet: BookSheet = { name, cells: new Map() };
  const shared = new Map<string, SharedFormula>();
  const waiting: { cell: BookCell; stored: StoredCell; id: string }[] = [];
  const widths: { from: number; to: number; width: number }[] = [];
  let lastColumn = -1;

  walkSheet(xml, part, {
    cell(stored) {
      const cell = readCellValue(stored, part, context);
      readFormula(stored, cell, context, shared, waiting);
      if (cell.value === null && cell.formula === undefined && cell.style === undefined) return;
      lastColumn = Math.max(lastColumn, stored.column);
      sheet.cells.set(cellAddress(stored.row, stored.column), cell);
    },
    row: ({ row, tag }) => readRow(tag, row + 1, sheet),
    other: (tag) => readLayout(tag, sheet, widths, context.colour),
  });

  for (const { cell, stored, id } of waiting) {
    const first = shared.get(id);
    if (first) cell.formula = fromStored(shiftFormula(first.text, stored.row - first.row, stored.column - first.column));
  }
  // Widths that were set beyond the cells, but not those of the whole rest of the sheet.
  for (const { to } of widths) if (to < MOST_COLUMNS_WITH_WIDTH) lastColumn = Math.max(lastColumn, to);
  const columnWidths = Array.from({ length: lastColumn + 1 }, (_, column) => widths.find(({ from, to }) => column >= from && column <= to)?.width ?? 0);
  if (columnWidths.some((width) => width > 0)) sheet.columnWidths = columnWidths;
  return sheet;
}

function readCellValue(stored: StoredCell, part: string, context: SheetContext): BookCell {
  const style = context.styles[stored.style];
  return { value: valueOf(stored, part, context), ...(style ? { style } : {}) };
}

function valueOf(stored: StoredCell, part: string, { texts, date1904 }: SheetContext): BookCell["value"] {
  if (stored.kind === "inlineStr") return decodeText(stored.inline?.text ?? stored.value?.text ?? "");
  const text = stored.value?.text;
  if (text === undefined) return null;
  if (stored.kind === "str") return decodeText(text);
  if (text.trim() === "") return null;
  switch (stored.kind) {
    case "s": {
      const shared = texts[Number(text)];
      if (shared === undefined) throw new Problem("value", files.sharedTextMissing(part, cellAddress(stored.row, stored.column)));
      return shared;
    }
    case "b":
      return isTrue(text.trim());
    case "e":
      return text.trim();
    default: {
      const number = stored.kind === "d" ? serialOfIsoDate(text.trim(), date1904) : Number(text);
      if (number === undefined || !Number.isFinite(number)) throw new Problem("value", files.damagedPart(part));
      return number;
    }
  }
}

function readFormula(stored: StoredCell, cell: BookCell, context: SheetContext, shared: Map<string, SharedFormula>, waiting: { cell: BookCell; stored: StoredCell; id: string }[]): void {
  const formula = stored.formula;
  // A what-if table has no formula of its own: its cells keep the values that Excel put there.
  if (!formula || formula.kind === "dataTable") return;
  // Some programs write the sign that a keeper types, which Excel passes over.
  const text = decodeText(formula.text).replace(/^\s*=/, "");
  if (formula.kind === "shared" && formula.sharedId !== undefined) {
    if (text === "") {
      waiting.push({ cell, stored, id: formula.sharedId });
      return;
    }
    if (!shared.has(formula.sharedId)) shared.set(formula.sharedId, { row: stored.row, column: stored.column, text });
  }
  if (text === "") return;
  cell.formula = fromStored(text);
  const range = formula.kind === "array" && formula.ref !== undefined ? readRange(formula.ref) : undefined;
  if (!range) return;
  cell.spill = rangeAddress(range);
  if (!context.spillsFreely(stored.metadata)) cell.fixedSpill = true;
}

function readRow(tag: XmlTag, row: number, sheet: BookSheet): void {
  const height = Number(attribute(tag, "ht") ?? 0);
  if (flag(tag, "customHeight") && height > 0) (sheet.rowHeights ??= new Map()).set(row, height);
  if (flag(tag, "hidden")) (sheet.hiddenRows ??= []).push(row);
}

function readLayout(tag: XmlTag, sheet: BookSheet, widths: { from: number; to: number; width: number }[], colour: ColourReader): void {
  if (tag.local === "col") {
    const from = Number(attribute(tag, "min")) - 1;
    const to = Math.min(Number(attribute(tag, "max")), GRID_COLUMNS) - 1;
    const width = Number(attribute(tag, "width") ?? 0);
    if (from >= 0 && to >= from && Number.isFinite(width)) widths.push({ from, to, width });
    if (flag(tag, "hidden") && from >= 0) for (let column = from; column <= to && column < MOST_COLUMNS_WITH_WIDTH; column += 1) (sheet.hiddenColumns ??= []).push(column + 1);
  } else if (tag.local === "tabColor") {
    const value = colour(tag);
    if (value !== undefined) sheet.tabColor = value;
  } else if (tag.local === "sheetView" && attribute(tag, "showGridLines") !== undefined) {
    if (!flag(tag, "showGridLines")) sheet.hideGridLines = true;
  } else if (tag.local === "pane" && (attribute(tag, "state") ?? "").startsWith("frozen")) {
    const rows = Number(attribute(tag, "ySplit") ?? 0);
    const columns = Number(attribute(tag, "xSplit") ?? 0);
    if (rows > 0) sheet.frozenRows = rows;
    if (columns > 0) sheet.frozenColumns = columns;
  } else if (tag.local === "mergeCell") {
    const range = readRange(attribute(tag, "ref") ?? "");
    if (range) (sheet.merges ??= []).push(rangeAddress(range));
  }
}
