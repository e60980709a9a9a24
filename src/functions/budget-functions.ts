import { log as logWords } from "../words/log";
import { words } from "../words/budget";
import { budget, type BudgetPeriod, type Note } from "../science/budget/budget";
import { isTested } from "../science/budget/effects";
import { PERIOD_CHOICES, periodsOf, type PeriodChoice } from "../science/budget/period";
import { Problem } from "../science/problem";
import type { Nutrient } from "../science/nutrient-forms";
import { choice, single, wantsHeadings } from "./arguments";
import { foodsFrom } from "./foods-range";
import { budgetBoth } from "../science/budget/both";
import { bothRows } from "./both-rows";
import { accountsFrom, logFrom } from "./log-range";

/**
 * Where the nitrogen went, period by period, g: in, out, change in store, unexplained with its uncertainty, verdict.
 * @customfunction BUDGET_N
 * @param {any[][]} log The log with its heading row: Date, Food, Feed (g), NO3 (mg/L), Harvest (g), Water change (L) ...
 * @param {any[][]} set_up Two columns, name and value: Volume (L), NO3 kit steps, Dry fraction, Tissue N, Lit area (m2) ...
 * @param {string} [period] "harvest" (to harvest, the usual), "reading", "week", "month" or "whole".
 * @param {any[][]} [foods] Your Foods sheet with its heading row.
 * @param {boolean} [headings] FALSE leaves out the row of headings.
 * @returns {any[][]} One row a period.
 * @example =ALGAL.BUDGET_N(Log!A1:H114,'Set-up'!A2:B8)
 */
export function BUDGET_N(log: any[][], set_up: any[][], period?: string, foods?: any[][], headings?: boolean): any[][] {
  return budgetRows("N", log, set_up, period, foods, headings);
}

/**
 * Where the phosphorus went, period by period, g: in, out, change in store, unexplained with its uncertainty, verdict.
 * @customfunction BUDGET_P
 * @param {any[][]} log The log with its heading row: Date, Food, Feed (g), PO4 (mg/L), Harvest (g), Water change (L) ...
 * @param {any[][]} set_up Two columns, name and value: Volume (L), PO4 kit steps, Dry fraction, Tissue P, Lit area (m2) ...
 * @param {string} [period] "harvest" (to harvest, the usual), "reading", "week", "month" or "whole".
 * @param {any[][]} [foods] Your Foods sheet with its heading row.
 * @param {boolean} [headings] FALSE leaves out the row of headings.
 * @returns {any[][]} One row a period.
 * @example =ALGAL.BUDGET_P(Log!A1:H114,'Set-up'!A2:B8,"month")
 */
export function BUDGET_P(log: any[][], set_up: any[][], period?: string, foods?: any[][], headings?: boolean): any[][] {
  return budgetRows("P", log, set_up, period, foods, headings);
}

/**
 * N and P together, adjusted until nothing is unexplained: how far each figure had to move, and which is least believable.
 * @customfunction BUDGET_BOTH
 * @param {any[][]} log The log with its heading row: Date, Food, Feed (g), NO3 (mg/L), PO4 (mg/L), Harvest (g) ...
 * @param {any[][]} set_up Two columns, name and value: Volume (L), NO3 kit steps, PO4 kit steps, Dry fraction, Tissue N ...
 * @param {string} [period] "harvest" (to harvest, the usual), "reading", "week", "month" or "whole".
 * @param {any[][]} [foods] Your Foods sheet with its heading row.
 * @param {boolean} [headings] FALSE leaves out the row of headings.
 * @returns {any[][]} Two rows a period, N and P.
 * @example =ALGAL.BUDGET_BOTH(Log!A1:H114,'Set-up'!A2:B8)
 */
export function BUDGET_BOTH(log: any[][], set_up: any[][], period?: string, foods?: any[][], headings?: boolean): any[][] {
  const chosen = periodChosen(period);
  return bothRows(budgetBoth(accountsFrom(log, set_up, foodsFrom(foods)), chosen), wantsHeadings(headings));
}

/**
 * What a log or its set-up still lacks for a budget, as a sentence; empty when nothing is lacking.
 * @customfunction LOG_MISSING
 * @param {any[][]} log The log with its heading row.
 * @param {any[][]} set_up Two columns, name and value.
 * @param {any[][]} [foods] Your Foods sheet with its heading row.
 * @returns {any[][]} A sentence, or an empty text.
 * @example =ALGAL.LOG_MISSING(Log!A1:H114,'Set-up'!A2:B8)
 */
export function LOG_MISSING(log: any[][], set_up: any[][], foods?: any[][]): any[][] {
  try {
    const { N, P } = accountsFrom(log, set_up, foodsFrom(foods));
    periodsOf(N.log, N.setUp, "whole");
    return [N, P].some((account) => isTested(account.log)) ? [[""]] : [[words.noTestYet]];
  } catch (error) {
    // An error of the workbook itself, such as a lost reference, stays one.
    if (!(error instanceof Problem)) throw error;
    return [[error.message]];
  }
}

const periodChosen = (period: unknown): PeriodChoice => single(choice("period", period, PERIOD_CHOICES, logWords.unknownPeriod, "harvest")) ?? "harvest";

function budgetRows(nutrient: Nutrient, logRange: unknown, setUpRange: unknown, period: unknown, foods: unknown, headings: unknown): (string | number)[][] {
  const chosen = periodChosen(period);
  const { log, setUp } = logFrom(logRange, setUpRange, nutrient, foodsFrom(foods));
  const rows = budget(log, setUp, chosen).map((one) => budgetRow(one, nutrient));
  return wantsHeadings(headings) ? [words.headings(nutrient), ...rows] : rows;
}

export function budgetRow({ from, to, parts, unexplained, u, range, verdict, doubt, notes }: BudgetPeriod, nutrient: Nutrient): (string | number)[] {
  const figures = [parts.feedIn, parts.otherIn, parts.harvestOut, parts.changeOut, parts.otherOut, parts.storeChange, unexplained, u];
  const verdictWords = range === null ? words.incomplete : words.verdict[verdict](range.low, range.high, (parts.feedIn ?? 0) + (parts.otherIn ?? 0));
  const doubtWords = doubt && (verdict === "cannotTell" || verdict === "closed") ? [words.largestDoubt(words.doubt[doubt])] : [];
  return [from, to, ...figures.map((figure) => figure ?? ""), [verdictWords, ...doubtWords, ...notes.map((note) => noteWords(note, nutrient))].join(" ")];
}

function noteWords(note: Note, nutrient: Nutrient): string {
  switch (note.kind) {
    case "badCell":
      return words.note.badCell(note.sentence);
    case "moreBadCells":
      return words.note.moreBadCells(note.count);
    case "noReading":
      return words.note.noReading(nutrient);
    case "interpolated":
      return words.note.interpolated(note.days);
    case "firstHarvest":
      return words.note.firstHarvest(note.unit);
    case "neverWeighed":
      return words.note.neverWeighed(note.units);
    case "harvestShare":
      return words.note.harvestShare(note.low, note.high, nutrient);
    case "fedBack":
      return words.note.fedBack(note.grams);
    default:
      return words.note[note.kind];
  }
}
