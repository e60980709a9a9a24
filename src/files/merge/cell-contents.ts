import { cellAddress, cellsOf, readRange } from "../address";
import { beyondEngine } from "../beyond-engine";
import type { BookSheet } from "../book";
import { type CellResult, type ErrorValue, isErrorCode } from "../cell-result";
import type { CellContent } from "../hand-over/set-formulas";
import { maySpill } from "../may-spill";
import type { NewCell, NewSheet } from "../new-book-model";
import type { FormulaResult } from "../patch-sheet";
import { sameNumber } from "../stored-digits";

/** One sheet three times: as the file holds it, as the grid took it in, and as the grid holds it now. */
export interface SheetVersions {
  readonly stored: BookSheet["cells"];
  readonly before: NewSheet["cells"];
  readonly now: NewSheet["cells"];
  /** Those that stand on it now. */
  readonly tables?: NewSheet["tables"];
}

/** What a cell is to hold; of a formula that spills its own cell alone, as its answer is written later. */
export interface WantedContent extends Omit<CellContent, "array"> {
  readonly spilling?: boolean;
  /** The range of an array formula of the older kind. */
  readonly fixed?: string;
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
    } else if (was?.formula !== is?.formula || (is?.formula === undefined && !isExactly(was, is))) {
      // What a spill left behind when it shrank is no change of the keeper's.
      if (spilledBefore.has(address) && isBlank(is)) continue;
      changed.set(address, contentOf(is, stored.get(address)));
    }
  }
  for (const [anchor, cell] of stored) {
    const covered = coveredBy(anchor, cell);
    if (covered.length === 0) continue;
    const [is, content] = [now.get(anchor), changed.get(anchor)];
    // What was typed may be what had been spilled there.
    const typedInto = covered.some((address) => changed.has(address) || (spilledBefore.has(address) && !spilledNow.has(address) && !isBlank(now.get(address))));
    if (!content && !typedInto) continue;
    // An array of fixed size keeps it when its formula is typed anew.
    if (!typedInto && content?.fixed === cell.spill) continue;
    if (!content) changed.set(anchor, contentOf(is, { ...cell, ...(cell.fixedSpill ? { spill: anchor } : {}) }));
    for (const address of covered) changed.set(address, spilledNow.has(address) ? { formula: null } : contentOf(now.get(address), undefined));
  }
  return changed;
}

/** What formulas show now that the file says otherwise, as rows where they spill: of those that were changed, and of those whose answer is taken. */
export function newAnswers({ now, stored }: SheetVersions, changed: ReadonlySet<string>, taken: ReadonlySet<string>): Map<string, FormulaResult> {
  const answers = new Map<string, FormulaResult>();
  for (const [address, cell] of now) {
    if (cell.formula === undefined || !(changed.has(address) || taken.has(address))) continue;
    const covered = coveredBy(address, cell);
    const range = readRange(cell.spill ?? address);
    const shown = (place: string) => resultOf(changed.has(address) ? now.get(place) : withStoredDigits(stored.get(place), now.get(place)));
    if (covered.length === 0 || !range) answers.set(address, shown(address));
    else {
      const width = range.endColumn - range.startColumn + 1;
      const values = [...cellsOf(range)].map(({ row, column }) => shown(cellAddress(row, column)));
      answers.set(address, Array.from({ length: values.length / width }, (_row, i) => values.slice(i * width, (i + 1) * width)));
    }
  }
  return answers;
}

/** @param held the cell as the file has it, whose kind of array a formula keeps */
export function contentOf(cell: NewCell | undefined, held: NewCell | undefined): WantedContent {
  if (!cell || (cell.formula === undefined && isBlank(cell))) return { formula: null };
  const content = { formula: cell.formula ?? null, result: resultOf(cell) };
  if (cell.formula === undefined) return content;
  if (held?.formula !== undefined && held.fixedSpill && held.spill !== undefined) return { ...content, fixed: held.spill };
  const wasArray = held?.formula !== undefined && held.spill !== undefined;
  // The grid calculates with whole ranges, which a file has to say, or Excel would take one cell of each.
  const isArray = wasArray || cell.spill !== undefined || maySpill(cell.formula) || beyondEngine(cell.formula, { isArray: false, rowsHidden: false }) === "place";
  return isArray ? { ...content, spilling: true } : content;
}

function resultOf(cell: NewCell | undefined): CellResult {
  const value = cell?.value ?? "";
  return typeof value === "string" && isErrorCode(value) ? { code: value } : value;
}

/** The cells that the formula of a cell spills over, without its own. */
export function coveredBy(address: string, { formula, spill }: Pick<NewCell, "formula" | "spill">): string[] {
  const range = formula !== undefined && spill !== undefined && spill !== address ? readRange(spill) : undefined;
  return range ? [...cellsOf(range)].map(({ row, column }) => cellAddress(row, column)).filter((one) => one !== address) : [];
}

function spilled(cells: NewSheet["cells"]): Set<string> {
  return new Set([...cells].flatMap(([address, cell]) => coveredBy(address, cell)));
}

function isBlank(cell: NewCell | undefined): boolean {
  return cell?.value === undefined || cell.value === null || cell.value === "";
}

/** Whether two cells show the same; numbers but for their last digits. */
export function sameValue(one: NewCell | undefined, other: NewCell | undefined): boolean {
  return isExactly(one, other) || sameNumber(one?.value, other?.value);
}

function isExactly(one: NewCell | undefined, other: NewCell | undefined): boolean {
  return (isBlank(one) && isBlank(other)) || codeOf(one?.value) === codeOf(other?.value);
}

function withStoredDigits(stored: NewCell | undefined, now: NewCell | undefined): NewCell | undefined {
  return stored && sameNumber(stored.value, now?.value) ? stored : now;
}

/** An error is the same as its code. */
function codeOf(value: NewCell["value"] | undefined): Exclude<NewCell["value"], ErrorValue> | undefined {
  return typeof value === "object" && value !== null ? value.code : value;
}

/** Whether a cell shows an error, or that one. */
export function isError(cell: NewCell | undefined, code?: string): boolean {
  const shown = codeOf(cell?.value);
  return typeof shown === "string" && isErrorCode(shown) && (code === undefined || shown === code);
}
