import { joinAddress } from "../functions/cell-address";
import { isCellError } from "../functions/cell-error";
import { worksheetFunctions } from "../functions";
import { Problem } from "../science/problem";
import { budgetView as words } from "../words/budget-view";
import { callIn, type Argument } from "./formula-call";
import { askForRange, type ReadRange } from "./range-reader";
import { excelErrorCode, WorkbookProblem } from "./workbook-problem";

/** Where the rows of a log stand in the workbook, so that a warning's row can be shown. Row 2 is the first below the headings. */
export interface LogPlace {
  readonly sheet: string;
  /** Row of the sheet in which row 2 of the log stands. */
  readonly secondRow: number;
  readonly firstColumn: number;
  readonly lastColumn: number;
}

/** What an ALGAL.BUDGET formula of the workbook reads, as values. */
export interface BudgetSource {
  readonly log: unknown;
  readonly setUp: unknown;
  readonly foods: unknown;
  /** As the formula has it; null: left out. */
  readonly period: unknown;
  /** null where the rows cannot be told. */
  readonly logPlace: LogPlace | null;
  /** The cell of the formula: "Nitrogen!A8". */
  readonly formulaAt: string;
}

export type FoundBudget =
  | { readonly kind: "none" }
  /** `names`: one for each log that is budgeted in the workbook, in the order of its sheets; `chosen` is one of them. */
  | { readonly kind: "source"; readonly names: readonly string[]; readonly chosen: string; readonly source: BudgetSource }
  | { readonly kind: "unreadable"; readonly names: readonly string[]; readonly chosen: string; readonly sentence: string };

interface BudgetCall {
  readonly name: string;
  readonly sheet: string;
  readonly at: string;
  readonly args: readonly Argument[];
}

/** A budget runs down and to the right, so it begins near the top of a sheet. */
const TOP = { address: "A1:H24", columns: "ABCDEFGH" };
const BUDGETS = ["BUDGET_N", "BUDGET_P", "BUDGET_BOTH"];
/** An ALGAL function that may stand in an argument. */
const NESTED = "LOG_READ";

/**
 * The account of the open workbook: the first budget formula of each log, and what it reads, in one load and one sync.
 * @param wanted one of the names that were found before; the first when it is gone
 */
export async function readBudgetSource(wanted: string | null): Promise<FoundBudget> {
  return Excel.run({ delayForCellEdit: true }, async (context): Promise<FoundBudget> => {
    const calls = await budgetCalls(context);
    const call = calls.find(({ name }) => name === wanted) ?? calls[0];
    if (!call) return { kind: "none" };
    const found = { names: calls.map(({ name }) => name), chosen: call.name };
    try {
      return { kind: "source", ...found, source: await sourceOf(context, call) };
    } catch (error) {
      if (error instanceof WorkbookProblem) return { kind: "unreadable", ...found, sentence: error.message };
      if (["InvalidArgument", "ItemNotFound"].includes(excelErrorCode(error))) return { kind: "unreadable", ...found, sentence: words.leadsNowhere(call.at) };
      throw error;
    }
  });
}

/** The first budget of each log, sheet by sheet. */
async function budgetCalls(context: Excel.RequestContext): Promise<BudgetCall[]> {
  const { worksheets } = context.workbook;
  worksheets.load("items/name");
  await context.sync();
  const tops = worksheets.items.map((sheet) => ({ sheet: sheet.name, range: sheet.getRange(TOP.address).load("formulas") }));
  await context.sync();
  const byLog = new Map<string, BudgetCall>();
  for (const { sheet, range } of tops) {
    (range.formulas as unknown[][]).forEach((row, r) => row.forEach((formula, c) => {
      const call = callIn(formula, BUDGETS);
      if (!call) return;
      const key = JSON.stringify(call.args.slice(0, 2)).replace(/\$/g, "").toLowerCase();
      if (!byLog.has(key)) byLog.set(key, { name: nameOf(call.args[0], sheet), sheet, at: joinAddress(sheet, `${TOP.columns.charAt(c)}${r + 1}`), args: call.args });
    }));
  }
  return apart([...byLog.values()]);
}

/** The log by its sheet, table or name. */
function nameOf(log: Argument | undefined, ownSheet: string): string {
  if (log?.kind === "call") return nameOf(log.args[0], ownSheet);
  if (log?.kind !== "reference") return ownSheet;
  const cut = log.text.lastIndexOf("!");
  if (cut < 0) return /^\$?[A-Z]{1,3}\$?\d*(:|$)/i.test(log.text) ? ownSheet : log.text.replace(/\[.*$/s, "");
  return log.text.slice(0, cut).replace(/^'|'$/g, "").replace(/''/g, "'");
}

/** Two logs of one sheet are told apart by the cell of their formula. */
function apart(calls: readonly BudgetCall[]): BudgetCall[] {
  return calls.map((call) => (calls.some((other) => other !== call && other.name === call.name) ? { ...call, name: `${call.name} (${call.at})` } : call));
}

async function sourceOf(context: Excel.RequestContext, { sheet, at, args }: BudgetCall): Promise<BudgetSource> {
  const [log, setUp, period, foods] = args.map((argument) => ask(context, argument, sheet));
  if (!log || !setUp) throw new WorkbookProblem(words.argumentsMissing(at));
  await context.sync();
  const values = { log: log.value(), setUp: setUp.value(), foods: foods?.value() ?? null, period: period?.value() ?? null };
  return { ...values, logPlace: log.place(), formulaAt: at };
}

/** An argument that was asked for; both may be called after the sync. */
interface Asked {
  readonly value: () => unknown;
  readonly place: () => LogPlace | null;
}

function ask(context: Excel.RequestContext, argument: Argument, ownSheet: string): Asked {
  if (argument.kind === "value") return { value: () => argument.value, place: () => null };
  if (argument.kind === "reference") {
    const take = askForRange(context, argument.text, ownSheet);
    const range = (): ReadRange => {
      const read = take();
      if (!read) throw new WorkbookProblem(words.referenceGone(argument.text));
      return read;
    };
    return { value: () => range().cells, place: () => placeOf(range(), 2) };
  }
  const { name } = argument;
  const calculate = name === NESTED ? worksheetFunctions.get(name) : undefined;
  if (!calculate) throw new WorkbookProblem(words.notRead(`ALGAL.${name}`));
  const inner = argument.args.map((one) => ({ argument: one, asked: ask(context, one, ownSheet) }));
  const values = (): unknown[] => inner.map(({ asked }) => asked.value());
  return { value: () => calculated(name, () => calculate(...(values() as never[]))), place: () => placeOfRead(inner[0], singleNumber(values()[2]) ?? 2) };
}

/** LOG_READ keeps the rows where they are, and puts its headings above a range that begins with data. */
function placeOfRead(log: { argument: Argument; asked: Asked } | undefined, firstRow: number): LogPlace | null {
  const place = log?.asked.place();
  return place ? { ...place, secondRow: firstRow === 1 ? place.secondRow - 1 : place.secondRow } : null;
}

const singleNumber = (value: unknown): number | null => {
  const cell: unknown = Array.isArray(value) ? (value[0] as unknown[])?.[0] : value;
  return typeof cell === "number" ? cell : null;
};

const placeOf = ({ sheet, firstRow, firstColumn, cells }: ReadRange, row: number): LogPlace => ({
  sheet,
  secondRow: firstRow + row - 1,
  firstColumn,
  lastColumn: firstColumn + Math.max(1, cells[0]?.length ?? 1) - 1,
});

function calculated(name: string, calculate: () => unknown): unknown {
  try {
    return calculate();
  } catch (error) {
    if (error instanceof Problem || isCellError(error)) throw new WorkbookProblem(words.inCall(`ALGAL.${name}`, error.message));
    throw error;
  }
}

/** Address of a row of the log in the workbook, the heading row being 1: "Log!A17:H17". */
export function rowAddress({ sheet, secondRow, firstColumn, lastColumn }: LogPlace, row: number): string {
  const onSheet = secondRow + row - 2;
  return joinAddress(sheet, `${letters(firstColumn)}${onSheet}:${letters(lastColumn)}${onSheet}`);
}

/** 1 is A, 27 is AA. */
const letters = (column: number): string => (column > 26 ? letters(Math.floor((column - 1) / 26)) : "") + String.fromCharCode(65 + ((column - 1) % 26));
