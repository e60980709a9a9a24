import { cellAddress } from "../address";
import { type CellResult, storedResult } from "../cell-result";
import { toStored } from "../formula-text";
import { valueElement } from "../patch-cell";
import { type StoredCell, walkSheet } from "../sheet-walk";
import { applyEdits, type Edit, escapeXml, withAttribute } from "../xml";

/** What a cell is to hold: a formula (as the keeper sees it, without "=") or null for none, and the value that it shows; undefined leaves the stored one. */
export interface CellContent {
  readonly formula: string | null;
  readonly result?: CellResult;
  /** The formula still answers for the range that it had. */
  readonly spills?: boolean;
  /** The formula answers for a range, and the number of the cell metadata says so; 0 for an array of the older kind, which needs none. */
  readonly array?: { readonly ref: string; readonly metadata: number };
  /** The number of the cell format; the one that the cell has where it is left out. */
  readonly style?: number;
}

/** A worksheet part in which some cells hold other formulas. Cells that are not named, and all other text of the part, stay. */
export function setFormulas(xml: string, part: string, contents: ReadonlyMap<string, CellContent>): string {
  const edits: Edit[] = [];
  walkSheet(xml, part, {
    places: true,
    cell(stored) {
      const content = contents.get(cellAddress(stored.row, stored.column));
      if (content) edits.push({ start: stored.start, end: stored.end, text: content.spills ? sameRange(xml, stored, content) : cellElement(xml, stored, content) });
    },
  });
  return edits.length > 0 ? applyEdits(xml, edits) : xml;
}

/** Only the text of the formula changes. */
function sameRange(xml: string, { start, end, formula }: StoredCell, content: CellContent): string {
  if (!formula) return xml.slice(start, end);
  return `${xml.slice(start, formula.tagEnd)}${escapeXml(toStored(content.formula ?? ""))}${xml.slice(xml.lastIndexOf("<", formula.end - 1), end)}`;
}

/** The whole element of a cell with that content. */
export function cellElement(xml: string, cell: StoredCell, { array, formula, result, style }: CellContent): string {
  const { prefix, start, tagEnd, end, value, inline } = cell;
  const stored = result === undefined || result === "" ? undefined : storedResult(result);
  const looks = style === undefined ? xml.slice(start, tagEnd) : withAttribute(xml.slice(start, tagEnd), "s", style > 0 ? String(style) : undefined);
  // What the old value was besides, such as a picture in the cell, goes with it.
  const tag = withAttribute(withAttribute(withAttribute(looks, "vm", undefined), "cm", array && array.metadata > 0 ? String(array.metadata) : undefined), "t", formula !== null && !stored ? "str" : stored?.kind).replace(/\s*\/>$/, ">");
  const range = array ? ` t="array" ref="${array.ref}"` : "";
  const written = `${formula === null ? "" : `<${prefix}f${range}>${escapeXml(toStored(formula))}</${prefix}f>`}${stored ? valueElement(prefix, stored.text) : formula === null ? "" : valueElement(prefix, "")}`;
  // What a cell may hold besides its formula and value stays behind them.
  const spans = [cell.formula, value, inline].flatMap((span) => (span ? [span] : [])).sort((a, b) => a.start - b.start);
  let [rest, at] = ["", tagEnd];
  for (const span of spans) {
    rest += xml.slice(at, span.start);
    at = span.end;
  }
  rest += tagEnd === end ? `</${prefix}c>` : xml.slice(at, end);
  if (written === "" && tagEnd === end) return looks;
  return tag + written + rest;
}
