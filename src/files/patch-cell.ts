import type { StoredResult } from "./cell-result";
import type { StoredCell } from "./sheet-walk";
import { decodeText, type Edit, encodeText, withAttribute } from "./xml";

/** What is to become of one cell. Everything that is not named here stays. */
export interface CellChange {
  /** Undefined takes the value away and leaves the style. */
  result: StoredResult | undefined;
  /** For a formula that spills: its new range, and the number of the cell metadata that marks it. */
  spill?: { ref: string; metadata: number };
}

/** The edit that makes the change in an existing cell; undefined when the cell is so already. */
export function changeCell(xml: string, cell: StoredCell, { result, spill }: CellChange): Edit | undefined {
  const sameValue = result === undefined ? cell.value === undefined && cell.inline === undefined : showsAlready(cell, result);
  const sameSpill = spill === undefined || (cell.formula?.kind === "array" && cell.formula.ref === spill.ref && cell.metadata === spill.metadata);
  if (sameValue && sameSpill) return undefined;

  let tag = xml.slice(cell.start, cell.tagEnd);
  if (!sameValue) tag = withAttribute(tag, "t", result?.kind);
  if (spill && cell.metadata !== spill.metadata) tag = withAttribute(tag, "cm", String(spill.metadata));
  const selfClosing = cell.tagEnd === cell.end;
  if (selfClosing && result === undefined) return { start: cell.start, end: cell.end, text: tag };

  const close = selfClosing ? `</${cell.prefix}c>` : "";
  if (selfClosing) tag = tag.replace(/\s*\/>$/, ">");
  const inner = selfClosing ? "" : innerOf(xml, cell, sameValue ? "keep" : result === undefined ? "" : valueElement(cell.prefix, result.text), sameSpill ? undefined : spill?.ref);
  const value = selfClosing && result ? valueElement(cell.prefix, result.text) : "";
  return { start: cell.start, end: cell.end, text: tag + inner + value + close };
}

/** From after the cell's opening tag to its end, with a new value element (or "keep") and a new spill range. */
function innerOf(xml: string, cell: StoredCell, value: string, ref: string | undefined): string {
  const { formula, inline } = cell;
  let text = "";
  let at = cell.tagEnd;
  if (formula && ref !== undefined) {
    const tag = xml.slice(formula.start, formula.tagEnd);
    text += xml.slice(at, formula.start) + withAttribute(withAttribute(tag, "t", "array"), "ref", ref);
    at = formula.tagEnd;
  }
  if (value === "keep") return text + xml.slice(at, cell.end);
  const old = cell.value ?? inline;
  const place = old ?? { start: formula?.end ?? cell.tagEnd, end: formula?.end ?? cell.tagEnd };
  text += xml.slice(at, place.start) + value;
  at = place.end;
  if (cell.value && inline && inline.start >= at) {
    text += xml.slice(at, inline.start);
    at = inline.end;
  }
  return text + xml.slice(at, cell.end);
}

/** A cell that is not in the file yet. */
export function newCell(prefix: string, address: string, style: number, result: StoredResult): string {
  const attributes = `r="${address}"${style > 0 ? ` s="${style}"` : ""}${result.kind ? ` t="${result.kind}"` : ""}`;
  return `<${prefix}c ${attributes}>${valueElement(prefix, result.text)}</${prefix}c>`;
}

export function valueElement(prefix: string, text: string): string {
  // Excel says so too; without it blanks at the ends of a text may be lost.
  const space = /^\s|\s$|\n/.test(text) ? ' xml:space="preserve"' : "";
  return `<${prefix}v${space}>${encodeText(text)}</${prefix}v>`;
}

function showsAlready(cell: StoredCell, { kind, text }: StoredResult): boolean {
  if (!cell.value || cell.inline) return false;
  if (kind === undefined) return cell.kind === "n" && cell.value.text.trim() !== "" && Number(cell.value.text) === Number(text);
  return cell.kind === kind && (kind === "str" ? decodeText(cell.value.text) : cell.value.text) === text;
}
