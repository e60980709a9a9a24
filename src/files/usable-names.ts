import type { BookName } from "./book";
import { fromStored } from "./formula-text";
import { formulaTokens, isCall, isSheetName } from "./formula-tokens";
import type { NameEntry } from "./workbook-part";

/**
 * Names that mean the same wherever they stand: of the whole workbook, or of one sheet where no other is spelt alike. Left out are
 * Excel's own names, lost ones, those that mean something else on another sheet or (written without $) in another cell, and those
 * that stand for themselves in the end: a formula with one of them is not known here, which is better than a wrong answer.
 */
export function usableNames(entries: readonly NameEntry[]): BookName[] {
  const usable = entries.filter(({ name, ref }) => name !== "" && !name.startsWith("_xlnm.") && !ref.includes("#REF!"));
  const count = new Map<string, number>();
  for (const { name } of usable) count.set(name.toLowerCase(), (count.get(name.toLowerCase()) ?? 0) + 1);
  const names = usable.filter(({ name }) => count.get(name.toLowerCase()) === 1).map(({ name, ref }) => ({ name, ref: fromStored(ref) }));
  return withoutCircles(names.filter(({ ref }) => !isRelative(ref)));
}

const CELL_WORD = /^(\$?)[A-Z]{1,3}(\$?)[1-9]\d*$/i;

/** Whether a reference moves with the cell that uses the name. */
function isRelative(ref: string): boolean {
  const tokens = formulaTokens(ref);
  return tokens.some(({ kind, text }, at) => {
    if (kind !== "word" || isCall(tokens, at) || isSheetName(tokens, at)) return false;
    const cell = CELL_WORD.exec(text);
    return cell !== null && (cell[1] === "" || cell[2] === "");
  });
}

function withoutCircles(names: readonly BookName[]): BookName[] {
  const uses = new Map(names.map(({ name, ref }) => [name.toLowerCase(), formulaTokens(ref).flatMap(({ kind, text }) => (kind === "word" ? [text.toLowerCase()] : []))]));
  const state = new Map<string, "open" | "sound" | "circle">();
  // Without recursion: a file may hold a chain of names of any length.
  for (const first of uses.keys()) {
    if (state.has(first)) continue;
    const path = [{ name: first, next: 0 }];
    while (path.length > 0) {
      const step = path[path.length - 1] as (typeof path)[number];
      if (step.next === 0) state.set(step.name, "open");
      const used = uses.get(step.name)?.[step.next];
      step.next += 1;
      if (used === undefined) {
        if (state.get(step.name) === "open") state.set(step.name, "sound");
        path.pop();
      } else if (state.get(used) === "open") path.slice(path.findIndex(({ name }) => name === used)).forEach(({ name }) => state.set(name, "circle"));
      else if (uses.has(used) && !state.has(used)) path.push({ name: used, next: 0 });
    }
  }
  return names.filter(({ name }) => state.get(name.toLowerCase()) !== "circle");
}
