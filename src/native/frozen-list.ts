import { GRID_COLUMNS, GRID_ROWS, readCell } from "../files/address";
import { someOf } from "../files/hand-over/cover-lines";
import { shiftFormula } from "../files/shared-formula";
import { native as words } from "../words/native";
import { asRanges } from "./as-ranges";
import { Draft } from "./draft";
import { outermostCalls } from "./formula-calls";
import { referenceIn } from "./references";
import type { FrozenCell } from "./native-copy";
import type { Workspace } from "./workspace";

/** Where formulas are moved to be compared: no reference of a usual sheet leaves the grid there. */
const MIDDLE = { row: GRID_ROWS / 2, column: GRID_COLUMNS / 2 };

/** The sheet that lists what stays a value: where, what it was, what it was worked out from, and why. */
export function frozenDraft(name: string, frozen: readonly FrozenCell[], workspace: Workspace): Draft {
  const draft = new Draft(name, [22, 34, 26, 60, 60, 50]);
  draft.put(0, 0, words.frozen.title, "title");
  draft.put(1, 0, words.frozen.what, "quiet");
  draft.putRow(3, words.frozen.headings, "heading");
  const groups = new Map<string, { readonly first: FrozenCell; readonly cells: string[] }>();
  for (const one of frozen) {
    const key = [one.sheet, inTheMiddle(one), one.why].join("\n");
    const group = groups.get(key);
    if (group) group.cells.push(one.address);
    else groups.set(key, { first: one, cells: [one.address] });
  }
  for (const { first, cells } of groups.values()) {
    const calls = outermostCalls(first.formula);
    const called = first.name === "" ? (calls[0]?.name ?? "") : first.name;
    draft.putRow(draft.nextRow, [first.sheet, someOf(asRanges(cells)), called === "" ? "" : `ALGAL.${called}`, `=${first.formula}`, inputsOf(first, workspace), words.why[first.why]]);
  }
  return draft;
}

/** A formula that was copied to other cells is the same in all of them once it stands in one place. */
function inTheMiddle({ address, formula }: FrozenCell): string {
  const place = readCell(address);
  return place ? shiftFormula(formula, MIDDLE.row - place.row, MIDDLE.column - place.column) : formula;
}

/** "Log!B4 = 2.5; Log!A1:H114 (114 x 8 cells); 10" */
function inputsOf({ sheet, address, formula }: FrozenCell, workspace: Workspace): string {
  const row = Number(/\d+/.exec(address)?.[0] ?? 1) - 1;
  const texts = outermostCalls(formula).flatMap(({ args }) => args.filter((text) => text !== ""));
  return [...new Set(texts)].map((text) => {
    const reference = referenceIn(text, sheet, row, workspace.book);
    if (!reference) return text;
    const { startRow, startColumn, endRow, endColumn } = reference.range;
    if (startRow === endRow && startColumn === endColumn) return `${text} = ${String(workspace.valueAt(reference.sheet, startRow, startColumn) ?? words.frozen.blank)}`;
    return words.frozen.range(text, endRow - startRow + 1, endColumn - startColumn + 1);
  }).join("; ");
}
