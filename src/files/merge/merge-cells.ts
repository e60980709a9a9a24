import { type CellPlace, cellAddress, readCell } from "../address";
import { BEGINS_LIKE_FORMULA } from "../cell-writer";
import { GridIndex, type InsertedCell } from "../grid-index";
import { cellElement } from "../hand-over/set-formulas";
import { patchSheet, type SpillMarks } from "../patch-sheet";
import { type StoredCell, walkSheet } from "../sheet-walk";
import { withStoredReferences } from "../stored-references";
import { tableAt } from "../table-part";
import { applyEdits, type Edit, withAttribute } from "../xml";
import { changedContents, contentOf, isError, newAnswers, type SheetVersions, type WantedContent } from "./cell-contents";
import type { MergedStyles } from "./merged-styles";
import { type StyleChange, styleChange } from "./style-pieces";

export interface MergedCells {
  readonly xml: string;
  /** Whether another cell has a formula now, or another formula. */
  readonly formulasChanged: boolean;
  /** Whether a formula that came in shows an error: another program may know what the grid does not. */
  readonly isUnsure: boolean;
}

/** A worksheet part with the cells that differ from the file; all other text of the part stays. @param taken formulas whose answers go into the file */
export function mergeCells(xml: string, part: string, versions: SheetVersions, taken: ReadonlySet<string>, styles: MergedStyles, marks: SpillMarks): MergedCells {
  const contents = changedContents(versions);
  const looks = changedLooks(versions);
  const formulasChanged = [...contents].some(([address, { formula }]) => formula !== null || versions.stored.get(address)?.formula !== undefined);
  const typed = new Set(contents.keys());
  const isUnsure = [...typed].some((address) => contents.get(address)?.formula !== null && isError(versions.now.get(address)));
  if (contents.size + taken.size > 0) freeSharedFormulas(xml, part, versions, taken, contents);
  const written = contents.size + looks.size > 0 ? withContents(xml, part, inFile(contents, versions.tables), looks, styles, marks) : xml;
  const answers = newAnswers(versions, typed, taken);
  return { xml: answers.size > 0 ? patchSheet(written, part, answers, marks) : written, formulasChanged, isUnsure };
}

/** Formulas as the file writes references. */
function inFile(contents: ReadonlyMap<string, WantedContent>, tables: SheetVersions["tables"]): ReadonlyMap<string, WantedContent> {
  return new Map([...contents].map(([address, content]) => [address, content.formula === null ? content : { ...content, formula: withStoredReferences(content.formula, tableAt(tables, address)) }]));
}

function changedLooks({ before, now }: SheetVersions): Map<string, StyleChange> {
  const changed = new Map<string, StyleChange>();
  for (const address of new Set([...before.keys(), ...now.keys()])) {
    const change = styleChange(before.get(address)?.style, now.get(address)?.style);
    if (Object.keys(change).length > 0) changed.set(address, change);
  }
  return changed;
}

function withContents(xml: string, part: string, contents: ReadonlyMap<string, WantedContent>, looks: ReadonlyMap<string, StyleChange>, styles: MergedStyles, marks: SpillMarks): string {
  const grid = new GridIndex(xml, part);
  const edits: Edit[] = [];
  const inserted: InsertedCell[] = [];
  for (const address of new Set([...contents.keys(), ...looks.keys()])) {
    const place = readCell(address);
    if (!place) throw new RangeError(`"${address}" is not a cell.`);
    const cell = grid.cell(place.row, place.column);
    const [content, usual] = [contents.get(address), grid.styleAt(place.row, place.column)];
    const staysText = content?.formula === null && typeof content.result === "string" && BEGINS_LIKE_FORMULA.test(content.result);
    const before = cell?.style ?? usual;
    const style = styles.changed(before, looks.get(address) ?? {}, staysText);
    if (cell) edits.push({ start: cell.start, end: cell.end, text: changedCell(xml, cell, content, style, address, marks) });
    else if (style !== usual || (content && (content.formula !== null || content.result !== undefined))) inserted.push(newElement(grid.prefix, place, content ?? { formula: null }, style, marks));
  }
  return applyEdits(xml, [...edits, ...grid.insertions(inserted)]);
}

function changedCell(xml: string, cell: StoredCell, content: WantedContent | undefined, style: number, address: string, marks: SpillMarks): string {
  if (content) return cellElement(xml, cell, withMark(style === cell.style ? content : { ...content, style }, address, marks));
  const tag = xml.slice(cell.start, cell.tagEnd);
  return `${style === cell.style ? tag : withAttribute(tag, "s", style > 0 ? String(style) : undefined)}${xml.slice(cell.tagEnd, cell.end)}`;
}

function newElement(prefix: string, { column, row }: CellPlace, content: WantedContent, style: number, marks: SpillMarks): InsertedCell {
  const address = cellAddress(row, column);
  const blank = `<${prefix}c r="${address}"/>`;
  const cell: StoredCell = { row, column, start: 0, end: blank.length, tagEnd: blank.length, prefix, kind: "n", style: 0, metadata: 0 };
  return { row, column, text: cellElement(blank, cell, withMark({ ...content, style }, address, marks)) };
}

function withMark({ fixed, spilling, ...content }: WantedContent, ref: string, marks: SpillMarks) {
  if (fixed !== undefined) return { ...content, array: { ref: fixed, metadata: 0 } };
  return spilling ? { ...content, array: { ref, metadata: marks.newMark() } } : content;
}

/** Where several cells share one formula and the cell that holds it changes, each of the others gets its own. So does one whose answer spills. */
function freeSharedFormulas(xml: string, part: string, { now, stored }: SheetVersions, taken: ReadonlySet<string>, contents: Map<string, WantedContent>): void {
  const sharing: { readonly address: string; readonly id: string }[] = [];
  const lost = new Set<string>();
  // Its answer stays the file's, unless the grid's is taken.
  const own = (address: string) => {
    const [is, held] = [now.get(address), stored.get(address)];
    return contentOf(is && held && !taken.has(address) ? { ...is, value: held.value } : is, held);
  };
  walkSheet(xml, part, {
    cell({ column, formula, row }) {
      if (formula?.kind !== "shared" || formula.sharedId === undefined) return;
      const address = cellAddress(row, column);
      sharing.push({ address, id: formula.sharedId });
      const spill = now.get(address)?.spill;
      if (spill !== undefined && spill !== address && taken.has(address) && !contents.has(address)) contents.set(address, own(address));
      if (formula.text !== "" && contents.has(address)) lost.add(formula.sharedId);
    },
  });
  for (const { address, id } of sharing) if (lost.has(id) && !contents.has(address)) contents.set(address, own(address));
}
