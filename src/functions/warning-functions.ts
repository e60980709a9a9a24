import { rows as rowWords } from "../words/rows";
import { warnings as words } from "../words/warnings";
import { substanceOf, type Nutrient, type Substance } from "../science/nutrient-forms";
import type { FoodTable } from "../science/feed";
import type { ReadingSeries } from "../science/budget/log";
import type { Account, FactsByCode, Warning, WarningCode } from "../science/warnings/warning";
import { warningsOf } from "../science/warnings/warnings";
import { wantsHeadings } from "./arguments";
import { foodsFrom } from "./foods-range";
import { columnOf } from "./log-headings";
import { logFrom } from "./log-range";

/**
 * What looks wrong in a log or calls for action, the most serious first, with what to check first. One row a warning.
 * @customfunction BUDGET_WARNINGS
 * @param {any[][]} log The log with its heading row: Date, Food, Feed (g), NO3 (mg/L), PO4 (mg/L), Harvest (g), pH ...
 * @param {any[][]} set_up Two columns, name and value: Volume (L), NO3 kit steps, Lit area (m2), Light (umol m-2 s-1) ...
 * @param {any[][]} [foods] Your Foods sheet with its heading row.
 * @param {boolean} [headings] FALSE leaves out the row of headings.
 * @returns {any[][]} Row of the log, date, severity, warning, what to check first, code.
 * @example =ALGAL.BUDGET_WARNINGS(Log!A1:H114,'Set-up'!A2:B8)
 */
export function BUDGET_WARNINGS(log: any[][], set_up: any[][], foods?: any[][], headings?: boolean): any[][] {
  const table = foodsFrom(foods);
  const found = warningsOf({ N: accountFrom(log, set_up, "N", table), P: accountFrom(log, set_up, "P", table) });
  const rows = found.length > 0 ? found.map(warningRow) : [["", "", "", words.none, words.noneCheck, words.noneCode]];
  return wantsHeadings(headings) ? [[...words.headings], ...rows] : rows;
}

/** What to look at in each row that has a warning, by the row of the log; the most serious first. */
export function warningLines(log: unknown, setUp: unknown, foods: FoodTable): ReadonlyMap<number, string> {
  const lines = new Map<number, string>();
  for (const found of warningsOf({ N: accountFrom(log, setUp, "N", foods), P: accountFrom(log, setUp, "P", foods) })) {
    if (found.row === null) continue;
    const line = rowWords.look(words.severity[found.severity], sentenceOf(found), CHECKS[found.code]);
    lines.set(found.row, [lines.get(found.row), line].filter(Boolean).join(" "));
  }
  return lines;
}

function accountFrom(logRange: unknown, setUpRange: unknown, nutrient: Nutrient, foods: FoodTable): Account {
  const { log, setUp } = logFrom(logRange, setUpRange, nutrient, foods);
  return { log, setUp, substances: log.series.map(substanceOfSeries) };
}

/** What a series measures stands in its heading. */
function substanceOfSeries({ name }: ReadingSeries): Substance | null {
  const column = columnOf(name);
  return column.kind === "reading" ? substanceOf(column.basis.form) : null;
}

/** Holds the words to the facts: a code without its sentence does not compile. */
const SENTENCES: { readonly [C in WarningCode]: (facts: FactsByCode[C]) => string } = words.sentence;
const CHECKS: Readonly<Record<WarningCode, string>> = words.check;

function warningRow(found: Warning): (string | number)[] {
  const sentence = sentenceOf(found);
  return [found.row ?? "", found.day ?? "", words.severity[found.severity], found.alike > 0 ? words.alike(sentence, found.alike) : sentence, CHECKS[found.code], found.code];
}

function sentenceOf<C extends WarningCode>({ code, facts }: { readonly code: C; readonly facts: FactsByCode[C] }): string {
  return SENTENCES[code](facts);
}
