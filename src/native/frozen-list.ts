import { native as words } from "../words/native";
import { Draft } from "./draft";
import { outermostCalls } from "./formula-calls";
import { referenceIn } from "./references";
import type { FrozenCell } from "./native-copy";
import type { Workspace } from "./workspace";

const SHOWN_CELLS = 12;

/** The sheet that lists what stays a value: where, what it was, what it was worked out from, and why. */
export function frozenDraft(name: string, frozen: readonly FrozenCell[], workspace: Workspace): Draft {
  const draft = new Draft(name, [22, 34, 26, 60, 60, 50]);
  draft.put(0, 0, words.frozen.title, "title");
  draft.put(1, 0, words.frozen.what, "quiet");
  draft.putRow(3, words.frozen.headings, "heading");
  const groups = new Map<string, { readonly first: FrozenCell; readonly cells: string[] }>();
  for (const one of frozen) {
    const key = [one.sheet, one.formula, one.why].join("\n");
    const group = groups.get(key);
    if (group) group.cells.push(one.address);
    else groups.set(key, { first: one, cells: [one.address] });
  }
  for (const { first, cells } of groups.values()) {
    const shown = [...cells.slice(0, SHOWN_CELLS), ...(cells.length > SHOWN_CELLS ? [words.frozen.more(cells.length - SHOWN_CELLS)] : [])].join(", ");
    const calls = outermostCalls(first.formula);
    const called = first.name === "" ? (calls[0]?.name ?? "") : first.name;
    draft.putRow(draft.nextRow, [first.sheet, shown, called === "" ? "" : `ALGAL.${called}`, `=${first.formula}`, inputsOf(first, workspace), words.why[first.why]]);
  }
  return draft;
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
