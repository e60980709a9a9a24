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

function cellElement(xml: string, cell: StoredCell, { formula, result }: CellContent): string {
  const { prefix, start, tagEnd, end, value, inline } = cell;
  const stored = result === undefined || result === "" ? undefined : storedResult(result);
  let tag = withAttribute(withAttribute(xml.slice(start, tagEnd), "cm", undefined), "t", formula !== null && !stored ? "str" : stored?.kind).replace(/\s*\/>$/, ">");
  const written = `${formula === null ? "" : `<${prefix}f>${escapeXml(toStored(formula))}</${prefix}f>`}${stored ? valueElement(prefix, stored.text) : formula === null ? "" : valueElement(prefix, "")}`;
  // What a cell may hold besides its formula and value stays behind them.
  const spans = [cell.formula, value, inline].flatMap((span) => (span ? [span] : [])).sort((a, b) => a.start - b.start);
  let [rest, at] = ["", tagEnd];
  for (const span of spans) {
    rest += xml.slice(at, span.start);
    at = span.end;
  }
  rest += tagEnd === end ? `</${prefix}c>` : xml.slice(at, end);
  if (written === "" && tagEnd === end) return (tag = xml.slice(start, tagEnd));
  return tag + written + rest;
}
