import { cellAddress, cellsOf, readRange } from "../address";
import type { BookSheet } from "../book";
import { type CellResult, type ErrorValue, isErrorCode } from "../cell-result";
import type { CellContent } from "../hand-over/set-formulas";
import type { NewCell, NewSheet } from "../new-book-model";
import type { FormulaResult } from "../patch-sheet";

/** One sheet three times: as the file holds it, as the grid took it in, and as the grid holds it now. */
export interface SheetVersions {
  readonly stored: BookSheet["cells"];
  readonly before: NewSheet["cells"];
  readonly now: NewSheet["cells"];
}

/** What a cell is to hold; of a formula that spills its own cell alone, as its answer is written later. */
export interface WantedContent extends Omit<CellContent, "array"> {
  readonly spilling?: boolean;
}

/**
 * The cells whose formula or own value differs from the file. What the grid makes of the file is the same before and now, so that
 * only the keeper's changes count. Cells that a changed spill covers are emptied, and filled with its answer later.
 */
export function changedContents({ before, now, stored }: SheetVersions): Map<string, WantedContent> {
  const changed = new Map<string, WantedContent>();
  const [spilledBefore, spilledNow] = [spilled(before), spilled(now)];
  for (const address of new Set([...before.keys(), ...now.keys()])) {
    const [was, is] = [before.get(address), now.get(address)];
    if (spilledNow.has(address)) {
      if (stored.get(address)?.formula !== undefined) changed.set(address, { formula: null });
    } else if (was?.formula !== is?.formula || (is?.formula === undefined && !sameValue(was, is))) {
      // What a spill left behind when it shrank is no change of the keeper's.
      if (spilledBefore.has(address) && isBlank(is)) continue;
      changed.set(address, contentOf(is));
    }
  }
  for (const [anchor, cell] of stored) {
    const covered = coveredBy(anchor, cell);
    if (covered.length === 0 && cell.spill === undefined) continue;
    const is = now.get(anchor);
    const typedInto = covered.some((address) => changed.has(address));
    if (!changed.has(anchor)) {
      // An array of fixed size keeps it, as long as nothing was typed into it.
      if (cell.fixedSpill ? !typedInto : (is?.spill ?? anchor) === cell.spill && !typedInto) continue;
      changed.set(anchor, contentOf(is));
    }
    for (const address of covered) changed.set(address, spilledNow.has(address) ? { formula: null } : contentOf(now.get(address)));
  }
  return changed;
}

/** What the formulas of a sheet show now where the file says something else, as rows where they spill. */
export function newAnswers({ now, stored }: SheetVersions, changed: ReadonlyMap<string, unknown>): Map<string, FormulaResult> {
  const answers = new Map<string, FormulaResult>();
  for (const [address, cell] of now) {
    if (cell.formula === undefined) continue;
    const before = stored.get(address);
    if (before?.formula === undefined && !changed.has(address)) continue;
    const covered = coveredBy(address, cell);
    const same = !changed.has(address) && [address, ...covered].every((one) => sameValue(stored.get(one), now.get(one)));
    if (same) continue;
    const range = readRange(cell.spill ?? address);
    if (covered.length === 0 || !range) answers.set(address, resultOf(cell));
    else {
      const width = range.endColumn - range.startColumn + 1;
      const values = [...cellsOf(range)].map(({ row, column }) => resultOf(now.get(cellAddress(row, column))));
      answers.set(address, Array.from({ length: values.length / width }, (_row, i) => values.slice(i * width, (i + 1) * width)));
    }
  }
  return answers;
}

export function contentOf(cell: NewCell | undefined): WantedContent {
  if (!cell || (cell.formula === undefined && isBlank(cell))) return { formula: null };
  return { formula: cell.formula ?? null, result: resultOf(cell), ...(cell.formula !== undefined && cell.spill !== undefined ? { spilling: true } : {}) };
}

function resultOf(cell: NewCell | undefined): CellResult {
  const value = cell?.value ?? "";
  return typeof value === "string" && isErrorCode(value) ? { code: value } : value;
}

/** The cells that the formula of a cell spills over, without its own. */
function coveredBy(address: string, { formula, spill }: Pick<NewCell, "formula" | "spill">): string[] {
  const range = formula !== undefined && spill !== undefined ? readRange(spill) : undefined;
  return range ? [...cellsOf(range)].map(({ row, column }) => cellAddress(row, column)).filter((one) => one !== address) : [];
}

function spilled(cells: NewSheet["cells"]): Set<string> {
  return new Set([...cells].flatMap(([address, cell]) => coveredBy(address, cell)));
}

function isBlank(cell: NewCell | undefined): boolean {
  return cell?.value === undefined || cell.value === null || cell.value === "";
}

function sameValue(one: NewCell | undefined, other: NewCell | undefined): boolean {
  return (isBlank(one) && isBlank(other)) || codeOf(one?.value) === codeOf(other?.value);
}

/** An error is the same as its code. */
function codeOf(value: NewCell["value"] | undefined): Exclude<NewCell["value"], ErrorValue> | undefined {
  return typeof value === "object" && value !== null ? value.code : value;
}
