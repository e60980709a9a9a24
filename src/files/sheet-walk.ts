import { Problem } from "../science/problem";
import { files } from "../words/files";
import { cellAddress, GRID_COLUMNS, GRID_ROWS, readCell, readRange } from "./address";
import { MOST_CELLS } from "./archive-limits";
import { attribute, isSpreadsheet, tagStart, walkXml, type XmlTag } from "./xml";

/** A stretch of the part's text. */
export interface Span {
  start: number;
  end: number;
}

/** An element inside a cell, with the end of its opening tag. */
export interface ElementSpan extends Span {
  tagEnd: number;
  text: string;
}

export interface FormulaElement extends ElementSpan {
  /** "normal" when the file says nothing. */
  kind: string;
  ref?: string;
  sharedId?: string;
}

/** A cell as the file holds it, with the place of each of its pieces. */
export interface StoredCell extends Span {
  row: number;
  column: number;
  tagEnd: number;
  /** The namespace prefix with its colon, or "". */
  prefix: string;
  /** What kind of value: "n" when the file says nothing, "s", "str", "inlineStr", "b", "e", "d". */
  kind: string;
  style: number;
  /** The number of its cell metadata, 0 for none. */
  metadata: number;
  formula?: FormulaElement;
  value?: ElementSpan;
  inline?: ElementSpan;
}

export interface StoredRow extends Span {
  row: number;
  tagEnd: number;
  tag: XmlTag;
  prefix: string;
}

export interface SheetVisitor {
  cell?(cell: StoredCell): void;
  /** Called at the row's end. */
  row?(row: StoredRow): void;
  /** The sheetData element, at its end. */
  data?(data: Span & { tagEnd: number; prefix: string }): void;
  /** Opening tags outside the cells: widths, panes, merges. */
  other?(tag: XmlTag, end: number): void;
  /** Whether the places of cells and their pieces are wanted; without them every start is 0. */
  places?: boolean;
}

/** Walks a worksheet part cell by cell. Throws a Problem on XML that is not well-formed, cells outside a worksheet, and too many of them. */
export function walkSheet(xml: string, part: string, visitor: SheetVisitor): void {
  let data: (Span & { tagEnd: number; prefix: string }) | undefined;
  let row: StoredRow | undefined;
  let cell: StoredCell | undefined;
  let piece: ElementSpan | undefined;
  let phonetic = 0;
  let inText = false;
  let nextRow = 0;
  let nextColumn = 0;
  let cells = 0;
  let arrayCells = 0;

  const startOf = (end: number) => (visitor.places ? tagStart(xml, end) : 0);

  walkXml(xml, part, {
    open(tag, end) {
      if (!isSpreadsheet(tag)) return;
      if (!data) {
        if (tag.local === "sheetData") data = { start: startOf(end), tagEnd: end, end, prefix: prefixOf(tag) };
        else visitor.other?.(tag, end);
        return;
      }
      if (!row) {
        if (tag.local !== "row") return;
        const given = attribute(tag, "r");
        const number = given === undefined ? nextRow : Number(given) - 1;
        if (!Number.isInteger(number) || number < 0 || number >= GRID_ROWS) throw new Problem("value", files.outsideGrid(part, `row ${shown(given ?? String(nextRow + 1))}`));
        row = { row: number, start: startOf(end), tagEnd: end, end, tag, prefix: prefixOf(tag) };
        nextColumn = 0;
        return;
      }
      if (!cell) {
        if (tag.local !== "c") return;
        const given = attribute(tag, "r");
        const place = given === undefined ? { row: row.row, column: nextColumn } : readCell(given);
        if (!place || place.column >= GRID_COLUMNS || place.row !== row.row) throw new Problem("value", files.outsideGrid(part, shown(given ?? cellAddress(row.row, nextColumn))));
        cells += 1;
        if (cells > MOST_CELLS) throw new Problem("value", files.tooManyCells(part, MOST_CELLS));
        cell = {
          row: place.row,
          column: place.column,
          start: startOf(end),
          tagEnd: end,
          end,
          prefix: prefixOf(tag),
          kind: attribute(tag, "t") ?? "n",
          style: Number(attribute(tag, "s") ?? 0),
          metadata: Number(attribute(tag, "cm") ?? 0),
        };
        return;
      }
      if (piece) {
        // Text of an inline string stands in t, with the reading aids for it (rPh) beside.
        if (tag.local === "rPh") phonetic += 1;
        else if (tag.local === "t") inText = phonetic === 0;
        return;
      }
      if (tag.local === "v") cell.value = piece = { start: startOf(end), tagEnd: end, end, text: "" };
      else if (tag.local === "is") cell.inline = piece = { start: startOf(end), tagEnd: end, end, text: "" };
      else if (tag.local === "f") {
        const ref = attribute(tag, "ref");
        const sharedId = attribute(tag, "si");
        cell.formula = { start: startOf(end), tagEnd: end, end, text: "", kind: attribute(tag, "t") ?? "normal", ...(ref === undefined ? {} : { ref }), ...(sharedId === undefined ? {} : { sharedId }) };
        piece = cell.formula;
        arrayCells += arraySize(cell.formula);
        if (arrayCells > MOST_CELLS) throw new Problem("value", files.arraysTooLarge(part, cellAddress(cell.row, cell.column), MOST_CELLS));
      }
    },
    text(text) {
      if (piece && (piece !== cell?.inline || inText)) piece.text += text;
    },
    close(tag, end) {
      if (!data || !isSpreadsheet(tag)) return;
      if (piece) {
        if (tag.local === "t") inText = false;
        else if (tag.local === "rPh") phonetic -= 1;
        else if (tag.local === "v" || tag.local === "f" || tag.local === "is") {
          piece.end = end;
          piece = undefined;
        }
      } else if (cell) {
        if (tag.local !== "c") return;
        cell.end = end;
        nextColumn = cell.column + 1;
        visitor.cell?.(cell);
        cell = undefined;
      } else if (row) {
        if (tag.local !== "row") return;
        row.end = end;
        nextRow = row.row + 1;
        visitor.row?.(row);
        row = undefined;
      } else if (tag.local === "sheetData") {
        data.end = end;
        visitor.data?.(data);
        data = undefined;
      }
    },
  });
}

/** What stands where an address should, short enough and plain enough for a sentence. */
function shown(given: string): string {
  return given.replace(/[^\x20-\x7e]/g, "?").slice(0, 20);
}

/** How many cells an array formula says it fills. */
function arraySize({ kind, ref }: FormulaElement): number {
  const range = kind === "array" && ref !== undefined ? readRange(ref) : undefined;
  return range ? (range.endRow - range.startRow + 1) * (range.endColumn - range.startColumn + 1) : 0;
}

function prefixOf(tag: XmlTag): string {
  return tag.prefix === "" ? "" : `${tag.prefix}:`;
}
