import { columnOf } from "../../../src/functions/log-headings";
import { findLog, type FoundLog } from "../../../src/workbook/join/recognise/find-log";
import type { ColumnProposal } from "../../../src/workbook/join/recognise/proposal";
import { proposeColumns } from "../../../src/workbook/join/recognise/propose";
import type { InventedLog, Truth } from "./logs/invented";

/** One column of an invented log with what was proposed for it. */
export interface Judged {
  readonly log: string;
  readonly truth: Truth;
  readonly proposed: ColumnProposal;
  /** Right at the first time: the very heading where it can be known, a question with the answer among its choices where it cannot. */
  readonly isRight: boolean;
  /** Taken without a question for another unit, form or kind than it truly has. */
  readonly isSilentlyWrong: boolean;
}

export function foundIn(log: InventedLog): FoundLog {
  const found = findLog(log.grid, log.selected);
  if ("reason" in found) throw new Error(`${log.name}: ${found.reason}`);
  return found;
}

export function judge(log: InventedLog): Judged[] {
  const proposals = proposeColumns(log.grid, foundIn(log), { formulas: log.formulas });
  return log.columns.map((truth, place) => {
    const proposed = proposals[place];
    if (!proposed) throw new Error(`${log.name}: no proposal for column ${place}`);
    const isAsked = proposed.sureness === "ask";
    const isRight = truth.ask ? isAsked && proposed.kind === truth.kind && truth.meaning !== null && proposed.choices.includes(truth.meaning) : !isAsked && proposed.meaning === truth.meaning;
    return { log: log.name, truth, proposed, isRight, isSilentlyWrong: !isAsked && proposed.meaning !== null && (truth.ask || meaningOf(proposed.meaning) !== meaningOf(truth.meaning)) };
  });
}

/** The kind, the unit and the form, without the name of a screen or a food. */
function meaningOf(heading: string | null): string {
  if (heading === null) return "";
  return JSON.stringify({ ...columnOf(heading), screen: "", food: "" });
}

/** Truth down, proposal across, each cell the number of columns; a question counts as "?" behind the kind. */
export function confusionTable(judged: readonly Judged[]): string {
  const key = (kind: string, meaning: string | null, ask: boolean): string => `${kind}${ask ? " ?" : meaning ? ` ${/\(.*\)$/.exec(meaning)?.[0] ?? ""}` : ""}`.trim();
  const counts = new Map<string, Map<string, number>>();
  for (const { truth, proposed } of judged) {
    const row = key(truth.kind, truth.meaning, truth.ask);
    const column = key(proposed.kind, proposed.meaning, proposed.sureness === "ask");
    const across = counts.get(row) ?? new Map<string, number>();
    across.set(column, (across.get(column) ?? 0) + 1);
    counts.set(row, across);
  }
  return [...counts].sort(([a], [b]) => a.localeCompare(b)).map(([row, across]) => `${row.padEnd(26)} ${[...across].map(([column, count]) => `${column}: ${count}`).join(", ")}`).join("\n");
}

export const wrongOnes = (judged: readonly Judged[]): string =>
  judged.filter(({ isRight }) => !isRight).map(({ log, truth, proposed }) => `${log}: "${proposed.heading}" is ${truth.ask ? "to be asked, " : ""}${truth.meaning ?? "left alone"}, proposed ${proposed.sureness} ${proposed.kind} ${proposed.meaning ?? "-"} [${proposed.choices.join("; ")}] ${proposed.why}`).join("\n");
