import { budget as words } from "../../words/native-account";
import { figureText, quoted } from "../given";
import type { Table } from "./table";

/** The columns of the answer, in the order in which the function gives them. */
export const ANSWER = ["from", "to", "feedIn", "otherIn", "harvestOut", "changeOut", "otherOut", "storeChange", "unexplained", "u", "verdict"] as const;
export type AnswerTable = Table<"number" | (typeof ANSWER)[number]>;

export const FIGURES = ["feedIn", "otherIn", "harvestOut", "changeOut", "otherOut", "storeChange"] as const;
/** What is reckoned of a period before it is shown. */
export type PeriodColumn = "from" | "to" | (typeof FIGURES)[number] | "unexplained" | "own" | "first" | "draws" | "same" | "sentence";
export type PeriodTable = Table<PeriodColumn>;

/** Cells that are 1 while the account follows log and set-up (`holds`), and while nothing in them was changed (`same`). */
export interface Gates {
  readonly holds: string;
  readonly same: string;
}

/** A figure that differs by less is the same, as a share of the largest of its account. */
const SAME = 1e-9;

/** One period as it is shown: every cell of it an error, and its verdict a sentence, once the account no longer follows the log. */
export function putAnswer(answer: AnswerTable, k: number, at: (column: PeriodColumn) => string, { holds }: Gates, { u, sheet }: { readonly u: string; readonly sheet: string }): void {
  const shown = (figure: string): string => `IF(${holds}=1,${figure},NA())`;
  answer.put(k, "number", k + 1);
  for (const column of ANSWER) {
    if (column === "verdict") answer.formula(k, column, `IF(ISERROR(${holds}),${quoted(words.refused(sheet))},IF(ISERROR(${at("same")}),${quoted(words.changed)},${at("sentence")}))`);
    else answer.formula(k, column, shown(column === "u" ? u : at(column)));
  }
}

/** The formula that is 1 while figures are what they were and nothing was changed, and an error otherwise. */
export function sameFigures(figures: readonly (readonly [cell: string, value: number])[], largest: number, same: string): string {
  const near = ([cell, value]: readonly [string, number]): string => `ABS(${cell}-${value < 0 ? `(${figureText(value)})` : figureText(value)})<=${figureText(largest * SAME)}`;
  return `IF(AND(${same}=1,${figures.map(near).join(",")}),1,NA())`;
}
