import { type CellPlace, cellsOf, contains, readRange } from "../address";
import { beyondEngine } from "../beyond-engine";
import { formulaReferences } from "../formula-references";
import { customFunctionsIn } from "../formula-text";
import type { NewCell } from "../new-book-model";
import { coveredBy, isError, sameValue, type SheetVersions } from "./cell-contents";

/** One of the file's sheets, by the id that it had when the grid took it in and the name that it has now. */
export interface PlacedVersions {
  readonly id: string;
  readonly name: string;
  readonly versions: SheetVersions;
}

/** Which answers of the grid go into the file. */
export interface AnswersToWrite {
  /** Addresses of formulas, by the id of their sheet. */
  readonly taken: ReadonlyMap<string, ReadonlySet<string>>;
  /** Whether an answer changed on the page, and the file keeps its own until another program calculates. */
  readonly isKept: boolean;
}

interface Candidate {
  readonly sheet: PlacedVersions;
  readonly address: string;
  readonly formula: string;
}

/** Pairs of a formula and a cell that are looked at one by one. */
const MOST_COMPARED = 4_000_000;
const UNKNOWN = "#NAME?";

/**
 * The file's answers are those of the program that wrote it, and stay. An answer of the grid takes the place of one where the formula
 * is of the add-in, where an edit changed it and the grid had answered as the file says before that, and where the formula reads
 * such cells.
 * @param rowsHidden whether any row of the workbook is hidden
 */
export function answersToWrite(sheets: readonly PlacedVersions[], rowsHidden: boolean): AnswersToWrite {
  const taken = new Map<string, Set<string>>(sheets.map(({ id }) => [id, new Set()]));
  const candidates: Candidate[] = [];
  const renewed: Candidate[] = [];
  let isKept = false;
  for (const sheet of sheets) {
    const { before, now, stored } = sheet.versions;
    for (const [address, is] of now) {
      const [was, held] = [before.get(address), stored.get(address)];
      if (is.formula === undefined || held?.formula === undefined || was?.formula !== is.formula || answersAlike(stored, now, address)) continue;
      const one = { sheet, address, formula: is.formula };
      if (customFunctionsIn(is.formula).length > 0) {
        // A function that this make of the add-in has not.
        if (isError(is, UNKNOWN) && !isBlankOrError(held)) continue;
        taken.get(sheet.id)?.add(address);
        renewed.push(one);
        continue;
      }
      const moved = !answersAlike(before, now, address);
      const beyond = isBeyond(one, held, is, rowsHidden);
      const knew = held.value === null || answersAlike(stored, before, address);
      if (moved && !beyond && knew) taken.get(sheet.id)?.add(address);
      else {
        isKept ||= moved;
        if (!beyond && (isBlankOrError(held) || !isError(is))) candidates.push(one);
      }
    }
  }
  for (const { address, sheet } of readersOf(renewed, candidates)) taken.get(sheet.id)?.add(address);
  return { taken, isKept };
}

/** Whether a cell, and all that its formula spills over in either state, shows the same in both. */
function answersAlike(one: SheetVersions["stored"] | SheetVersions["now"], other: SheetVersions["now"], address: string): boolean {
  const [first, second] = [one.get(address), other.get(address)];
  const places = new Set([address, ...(first ? coveredBy(address, first) : []), ...(second ? coveredBy(address, second) : [])]);
  return [...places].every((place) => sameValue(one.get(place), other.get(place)));
}

function isBeyond({ formula }: Candidate, held: NewCell, is: NewCell, rowsHidden: boolean): boolean {
  if (formulaReferences(formula).readsOtherBook) return true;
  // In a file a plain formula answers for its own cell alone.
  if (held.spill === undefined && is.spill !== undefined && readRange(is.spill) !== undefined && is.spill.includes(":")) return true;
  return beyondEngine(formula, { isArray: held.spill !== undefined, rowsHidden }) !== undefined;
}

const isBlankOrError = (cell: NewCell): boolean => cell.value === null || isError(cell);

/** Those of the candidates that read one of the first, or another that does. */
function readersOf(first: readonly Candidate[], candidates: readonly Candidate[]): Candidate[] {
  const readers: Candidate[] = [];
  let waiting = candidates;
  for (let latest = first; latest.length > 0 && waiting.length > 0; ) {
    if (latest.length * waiting.length > MOST_COMPARED) return [...readers, ...waiting];
    const places = placesOf(latest);
    const reads = waiting.filter((one) => readsOneOf(one, places));
    readers.push(...reads);
    waiting = waiting.filter((one) => !reads.includes(one));
    latest = reads;
  }
  return readers;
}

function placesOf(cells: readonly Candidate[]): Map<string, CellPlace[]> {
  const places = new Map<string, CellPlace[]>();
  for (const { address, sheet } of cells) {
    const range = readRange(sheet.versions.now.get(address)?.spill ?? address);
    const key = sheet.name.toLowerCase();
    if (range) places.set(key, [...(places.get(key) ?? []), ...cellsOf(range)]);
  }
  return places;
}

function readsOneOf({ formula, sheet }: Candidate, places: ReadonlyMap<string, readonly CellPlace[]>): boolean {
  const { readsMore, references } = formulaReferences(formula);
  if (readsMore) return true;
  return references.some(({ range, sheet: named }) => (places.get((named ?? sheet.name).toLowerCase()) ?? []).some(({ column, row }) => contains(range, row, column)));
}
