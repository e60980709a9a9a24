import { bothRows } from "../../functions/both-rows";
import { budgetRow } from "../../functions/budget-functions";
import { choice, single } from "../../functions/arguments";
import { foodsFrom } from "../../functions/foods-range";
import { logFrom } from "../../functions/log-range";
import { BUDGET_WARNINGS } from "../../functions/warning-functions";
import { budgetBoth, type Account } from "../../science/budget/both";
import { budget, type BudgetPeriod } from "../../science/budget/budget";
import { PERIOD_CHOICES, type PeriodChoice } from "../../science/budget/period";
import type { Nutrient } from "../../science/nutrient-forms";
import { Problem } from "../../science/problem";
import { log as logWords } from "../../words/log";
import { warnings as warningWords } from "../../words/warnings";
import type { BudgetSource } from "../../workbook/budget-source";
import { harvestsDue, type HarvestDue } from "./harvest-due";

export const NUTRIENTS: readonly Nutrient[] = ["N", "P"];

/** One period of one nutrient: its figures, and the verdict as the cell of the worksheet has it, cut behind its first sentence. */
export interface PeriodView extends BudgetPeriod {
  readonly verdictWords: string;
  readonly headline: string;
  readonly rest: string;
}

/** The sentence of BUDGET_BOTH for one period: whether N and P fit together, and which figure is the least believable. */
export interface Believed {
  readonly from: number;
  readonly to: number;
  readonly sentence: string;
}

export interface WarningView {
  /** Row of the log, the heading row being 1; null for the whole log. */
  readonly row: number | null;
  readonly severity: string;
  readonly sentence: string;
  readonly check: string;
  readonly code: string;
}

/** All that the screen shows of one log. Days are serials of the workbook. */
export interface AccountView {
  readonly source: BudgetSource;
  readonly accounts: Readonly<Record<Nutrient, Account>>;
  readonly choice: PeriodChoice;
  readonly periods: Readonly<Record<Nutrient, readonly PeriodView[]>>;
  readonly whole: Readonly<Record<Nutrient, PeriodView>>;
  readonly believed: readonly Believed[];
  readonly believedWhole: Believed | null;
  readonly warnings: readonly WarningView[];
  readonly harvests: readonly HarvestDue[];
}

/**
 * Reckons an account in steps, so that a long log does not hold up the pane: each `next` does one of them.
 * Every figure and sentence comes from what the worksheet functions call.
 * @throws Problem, or the error of a cell, where no account is possible
 */
export function* reckoning(source: BudgetSource): Generator<void, AccountView> {
  const foods = foodsFrom(source.foods);
  const choiceMade = single(choice("period", source.period, PERIOD_CHOICES, logWords.unknownPeriod, "harvest")) ?? "harvest";
  const N = logFrom(source.log, source.setUp, "N", foods);
  yield;
  const P = logFrom(source.log, source.setUp, "P", foods);
  const accounts = { N, P };
  yield;
  const periodsN = periodViews(N, "N", choiceMade);
  yield;
  const periods = { N: periodsN, P: periodViews(P, "P", choiceMade) };
  yield;
  const whole = { N: wholeOf(N, "N"), P: wholeOf(P, "P") };
  yield;
  const believed = believedOf(accounts, choiceMade);
  yield;
  const [believedWhole = null] = believedOf(accounts, "whole");
  yield;
  const warnings = (BUDGET_WARNINGS(source.log as never, source.setUp as never, source.foods as never, false) as unknown[][]).map(warningView).filter(({ code }) => code !== warningWords.noneCode);
  yield;
  return { source, accounts, choice: choiceMade, periods, whole, believed, believedWhole, warnings, harvests: harvestsDue(N.log, N.setUp) };
}

/** The whole account at once. @throws as `reckoning` */
export function reckonAll(source: BudgetSource): AccountView {
  const steps = reckoning(source);
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}

function periodViews({ log, setUp }: Account, nutrient: Nutrient, choiceMade: PeriodChoice): PeriodView[] {
  return budget(log, setUp, choiceMade).map((period) => {
    const row = budgetRow(period, nutrient);
    const verdictWords = String(row[row.length - 1]);
    const cut = /^.*?[.!?](?=\s+[A-Z]|$)/s.exec(verdictWords)?.[0] ?? verdictWords;
    return { ...period, verdictWords, headline: cut, rest: verdictWords.slice(cut.length).trim() };
  });
}

function wholeOf(account: Account, nutrient: Nutrient): PeriodView {
  const [whole] = periodViews(account, nutrient, "whole");
  if (!whole) throw new RangeError("a log has a whole");
  return whole;
}

function believedOf(accounts: AccountView["accounts"], choiceMade: PeriodChoice): Believed[] {
  const periods = budgetBoth(accounts, choiceMade);
  try {
    // N and P of a period stand in two rows with the same sentence.
    return bothRows(periods, false).filter((_row, place) => place % 2 === 0).map((row) => ({ from: Number(row[0]), to: Number(row[1]), sentence: String(row[row.length - 1]) }));
  } catch (error) {
    if (error instanceof Problem) return periods.map(({ from, to }) => ({ from, to, sentence: error.message }));
    throw error;
  }
}

function warningView([row, , severity, sentence, check, code]: readonly unknown[]): WarningView {
  return { row: typeof row === "number" ? row : null, severity: String(severity), sentence: String(sentence), check: String(check), code: String(code) };
}
