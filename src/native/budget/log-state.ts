import type { HeadedColumn } from "../../functions/log-columns";
import { countsForTheBudget } from "../../functions/log-conditions";
import type { Log } from "../../science/budget/log";
import { nutrientOf, type Nutrient } from "../../science/nutrient-forms";
import { budget as words } from "../../words/native-account";
import { NotWritable } from "../not-writable";
import { type GivenRange, isBlankValue, isError, isNoisy } from "../given";
import type { BlockAnswer } from "../rule";
import type { Workspace } from "../workspace";
import type { Checks } from "./checks";
import type { LogCells } from "./log-cells";
import { Table } from "./table";
import type { Draft } from "../draft";

/** The most that any figure of a log may be, as the functions have it. */
const MOST = "1000000000000";
/** The first serial number that is no date any more. */
const DATES_END = "2958466";

/** What holds a log against the hand-over: `state`: as long as its cells are filled as they were; `values`: as long as nothing in it was changed. */
export interface LogChecks {
  readonly state: Checks;
  readonly values: Checks;
}

/**
 * Holds every cell that counts in a log against a copy of it at the hand-over: blank or filled, a number or this very text, a 0 where a 0
 * stood, nothing that our function refuses. A number may become another one: the account follows it.
 */
export function checkLog(cells: LogCells, log: Log, workspace: Workspace, draft: Draft, left: number, { state, values }: LogChecks): number {
  const { range } = cells;
  if (range.rows.some((row) => row.some(({ value, literal }) => literal || isError(value)))) throw new NotWritable();
  const counted = cells.columns.filter((one) => countsForTheBudget(one) || one.column.kind === "date");
  const own = counted.filter((one) => isOf(one, log.nutrient));
  const before = logAtHandOver(range, counted, workspace);
  const text = new ColumnTexts(range, before);
  const width = range.rows[0]?.length ?? 0;
  const headings = [range.rows[0]?.[0]?.text ?? "", (range.rows[0]?.[width - 1]?.text ?? "").split("!").pop() ?? ""].join(":");
  const headingsBefore = `${before.cell(0, 0)}:${before.cell(0, width - 1).split("!").pop() ?? ""}`;
  state.add(words.checks.headings, ...sameState(headings, headingsBefore, true));

  const bad = new Set(log.bad.map(({ row }) => row));
  const marks = bad.size > 0 ? markTable(draft, left, range.rows.length - 1, bad) : null;
  for (const one of own) {
    const [now, was] = [text.now(one), text.was(one)];
    const filled = range.rows.slice(1).map((row) => row[one.place]?.value ?? null);
    const count = (test: (value: number) => boolean): number => filled.filter((value) => typeof value === "number" && test(value)).length;
    const check = words.checks.column(one.heading);
    state.add(check, ...sameState(now, was, filled.some((value) => typeof value === "string" && !isBlankValue(value))));
    if (one.column.kind === "date") state.add(check, `COUNTIF(${now},"<=0")+COUNTIF(${now},">=${DATES_END}")=${count((value) => value <= 0 || value >= Number(DATES_END))}`);
    else state.add(check, `COUNTIF(${now},"<0")+COUNTIF(${now},">${MOST}")=${count((value) => value < 0 || value > Number(MOST))}`);
    if (one.column.kind !== "date" && one.column.kind !== "reading") {
      // A 0 is no entry: one that becomes an amount is a new one.
      if (count((value) => value === 0) > 0) state.add(check, `SUMPRODUCT(ISNUMBER(${was})*(${was}=0)*(${now}<>0))=0`);
      if (one.column.kind === "harvest") state.add(check, `SUMPRODUCT(ISNUMBER(${now})*(${now}=0)*(${was}<>0))=0`);
    }
    // 1 could be one per cent or all of it, and is refused.
    if ("factor" in one.column && one.column.factor === "share") state.add(check, `SUMPRODUCT(--(${now}=1))=${count((value) => value === 1)}`, `COUNTIF(${now},">100")=${count((value) => value > 100)}`);
    if (marks) state.add(words.checks.refused, `SUMPRODUCT(${marks.column("mark")}*(${now}<>${was}))=0`);
    // The squares of all differences, where cells are calculated and may come out a hair off.
    values.add(check, filled.some(isNoisy) ? `SUMSQ(${now})+SUMSQ(${was})-2*SUMPRODUCT(${now},${was})<=10^(-13)*SUMSQ(${was})` : `SUMPRODUCT(--(${now}<>${was}))=0`);
  }
  const others = counted.filter((one) => !own.includes(one));
  if (others.length > 0) state.add(words.checks.otherRows, sameRows(own, others, text));
  return marks ? marks.next : left;
}

/** Whether a column's figures enter the account of that nutrient. */
const isOf = ({ column }: HeadedColumn, nutrient: Nutrient): boolean =>
  column.kind === "reading" ? nutrientOf(column.basis.form) === nutrient : column.kind === "otherIn" || column.kind === "otherOut" ? nutrientOf(column.form) === nutrient : true;

/** Numbers where numbers were, texts where these texts were, blanks where blanks were. */
const sameState = (now: string, was: string, hasTexts: boolean): string[] => [
  `SUMPRODUCT(--(ISNUMBER(${now})<>ISNUMBER(${was})))=0`,
  `SUMPRODUCT(--((LEN(TRIM(${now}))>0)<>(LEN(${was})>0)))=0`,
  ...(hasTexts ? [`SUMPRODUCT(ISTEXT(${was})*(1-EXACT(${now},${was})))=0`] : []),
];

/** A row that only the other nutrient's columns fill makes the log longer, too. */
function sameRows(own: readonly HeadedColumn[], others: readonly HeadedColumn[], text: ColumnTexts): string {
  const filled = (of: "now" | "was", columns: readonly HeadedColumn[]): string => `(${columns.map((one) => `LEN(TRIM(${text[of](one)}))`).join("+")}>0)`;
  const amounts = own.filter((one) => one.column.kind !== "date");
  const without = amounts.length > 0 ? `(1-${filled("was", amounts)})*` : "";
  return `SUMPRODUCT(${without}(${filled("now", others)}<>${filled("was", others)}))=0`;
}

/** The log as it was, on the sheet of ranges: its headings, and all that counts in its rows. */
function logAtHandOver(range: GivenRange, counted: readonly HeadedColumn[], workspace: Workspace): BlockAnswer {
  const shown = new Set(counted.map(({ place }) => place));
  return workspace.blockOnce(`log ${range.text}`, () =>
    workspace.block(words.logBefore, range.text, range.rows.map((row, r) => row.map(({ value }, c) => (isBlankValue(value) || (r > 0 && !shown.has(c)) ? "" : typeof value === "number" ? value : typeof value === "boolean" ? String(value).toUpperCase() : String(value))))),
  );
}

/** Rows in which a cell was refused: they stay as they are. */
function markTable(draft: Draft, left: number, rows: number, bad: ReadonlySet<number>): Table<"mark"> {
  const table = new Table(draft, left, words.marks, words.markHeadings, rows);
  for (let row = 0; row < rows; row += 1) table.put(row, "mark", bad.has(row + 2) ? 1 : 0);
  return table;
}

/** The ranges of a log's columns below their headings, and of the same columns at the hand-over. */
class ColumnTexts {
  constructor(private readonly range: GivenRange, private readonly before: BlockAnswer) {}

  now({ place }: HeadedColumn): string {
    const last = this.range.rows.length - 1;
    return `${this.range.rows[1]?.[place]?.text ?? ""}:${(this.range.rows[last]?.[place]?.text ?? "").split("!").pop() ?? ""}`;
  }

  was({ place }: HeadedColumn): string {
    return `${this.before.cell(1, place)}:${this.before.cell(this.before.rows - 1, place).split("!").pop() ?? ""}`;
  }
}
