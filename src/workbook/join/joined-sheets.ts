import { joinPane as words } from "../../words/join-pane";
import { weekly } from "../../words/weekly";
import { joinAddress } from "../../functions/cell-address";
import { absolute, areaAddress, cellAt, letters, startsLikeFormula } from "../places";
import type { Refs } from "../weekly/balance-place";
import { chartSheet } from "../weekly/chart-sheet";
import { DATE, EMPTY, even, on, type PlannedSheet } from "../weekly/planned-sheet";
import { balanceSheet, foodsSheet, PLACES, setUpSheet } from "../weekly/weekly-sheets";
import { ADDED_COLUMNS, type JoinPlan } from "./join-plan";
import type { JoinRecord } from "./join-record";
import { WARNING_MARKS } from "./warning-marks";

export type SheetNames = Readonly<Record<"join" | "balance" | "charts" | "foods", string>> & { readonly rows: string | null };

/** Of the sheet that says how the log is read: the set-up, what each column is, first row and order of dates. */
const SET_UP_TOP = 5;
const DATE_SYSTEM_ROW = SET_UP_TOP + weekly.setUp.rows.length;
const SET_UP = `A${SET_UP_TOP}:B${DATE_SYSTEM_ROW}`;
export const [FIRST_ROW, DATE_ORDER] = ["J5", "J6"];
const COLUMNS_TOP = 5;
/** Where the row-by-row account stands on a sheet of its own: its headings, dates in front. */
export const ROWS_TOP = 4;

/** Where the parts lie that names point to. */
export const partAddresses = (names: SheetNames): readonly (readonly ["join" | "balance" | "charts" | "foods" | "rows", string])[] => [
  ["join", on(names.join, SET_UP)],
  ["balance", on(names.balance, "A10")],
  ["charts", on(names.charts, "A4")],
  ["foods", on(names.foods, PLACES.foods)],
  ...(names.rows === null ? [] : ([["rows", on(names.rows, `A${ROWS_TOP}`)]] as const)),
];

/** What a row of the set-up is called, and the cell for its value. */
export const setUpCell = (what: string): string | null => {
  const row = weekly.setUp.rows.findIndex(([name]) => name === what);
  return row < 0 ? null : `B${SET_UP_TOP + row}`;
};

/** The cells with the meanings, downward from here. */
export const meaningsAddress = (columns: number): string => `G${COLUMNS_TOP}:G${COLUMNS_TOP + columns - 1}`;

/** The log as the rest reads it: a call of LOG_READ. */
export function logCall(sheet: string, { log }: JoinPlan, names: SheetNames, columns: number, hasOrder: boolean): string {
  const own = (address: string): string => on(names.join, address);
  return `ALGAL.LOG_READ(${[on(sheet, areaAddress(log)), own(meaningsAddress(columns)), own(FIRST_ROW), hasOrder ? own(DATE_ORDER) : "", own(`B${DATE_SYSTEM_ROW}`)].join(",")})`;
}

export const refsOf = (call: string, names: SheetNames): Refs => ({ log: call, setUp: on(names.join, SET_UP), foods: on(names.foods, PLACES.foods) });

/** The row-by-row account beside the log, or the sentence that says what is still needed. */
export function rowsFormula({ log, setUp, foods }: Refs, { hasHeadings }: JoinPlan, names: SheetNames, withDates: boolean): string {
  const missing = on(names.balance, "B3");
  const first = hasHeadings ? on(names.join, FIRST_ROW) : "2";
  return `=IF(${missing}="",ALGAL.LOG_ROWS(${[log, setUp, foods, first, hasHeadings || withDates ? "TRUE" : "FALSE", ...(withDates ? ["TRUE"] : [])].join(",")}),${missing})`;
}

/** A row of a table looks up its own row of the account on the sheet of rows. @param column counted from 0, dates left out */
export function tableRowFormula(sheet: string, plan: JoinPlan, rowsSheet: string, column: number): string {
  const at = letters(column + 1);
  const account = on(rowsSheet, `${at}${ROWS_TOP + 1}:${at}${ROWS_TOP + 1 + plan.log.bottom - plan.firstData}`);
  const row = `ROW()-ROW(${on(sheet, cellAt(plan.anchorRow, plan.log.left))})`;
  const found = `INDEX(${account},${row})`;
  return `=IF(${found}="","",${found})`;
}

/** The sheets that come with a join, the set-up first. */
export function joinedSheets(sheet: string, plan: JoinPlan, record: Pick<JoinRecord, "columns" | "dateOrder">, names: SheetNames, foodsTable: string): PlannedSheet[] {
  const refs = refsOf(logCall(sheet, plan, names, record.columns.length, record.dateOrder !== null), names);
  const ready = `${on(names.balance, "B3")}=""`;
  return [
    joinSheet(sheet, plan, record, names.join),
    balanceSheet(names.balance, refs),
    chartSheet(names.charts, names.balance, refs, ready),
    { ...foodsSheet(names.foods, foodsTable), names: [] },
    ...(names.rows === null ? [] : [rowsSheet(sheet, plan, refs, names, names.rows)]),
  ];
}

/** Headings and meanings of the columns, in three cells each. */
export const columnRows = ({ log }: JoinPlan, columns: JoinRecord["columns"]): string[][] => columns.map(({ heading, meaning }, place) => [letters(log.left + place), asText(heading), meaning ?? ""]);

/** Excel would take a heading such as "= N" or "+/-" for a formula. */
const asText = (heading: string): string => (startsLikeFormula(heading) ? `"${heading}"` : heading);

export const firstRowFormula = (sheet: string, plan: JoinPlan): string => `=ROW(${joinAddress(sheet, absolute(cellAt(plan.firstData, plan.log.left)))})-ROW(${joinAddress(sheet, absolute(cellAt(plan.log.top, plan.log.left)))})+1`;

function joinSheet(sheet: string, plan: JoinPlan, { columns, dateOrder }: Pick<JoinRecord, "columns" | "dateOrder">, name: string): PlannedSheet {
  const { title, hint, columns: headings, reading, firstRow, dateOrder: order, dateSystem } = words.joinSheet;
  const base = setUpSheet(name);
  const left = [...base.cells.map((row) => [...row]), [dateSystem[0], "=IF(DATE(2000,1,1)=36526,1900,1904)", dateSystem[1]]];
  left[0] = [title(sheet), "", ""];
  left[1] = [hint, "", ""];
  const middle = new Map<number, (string | number)[]>([[3, [...headings]], ...columnRows(plan, columns).map((row, place): [number, string[]] => [COLUMNS_TOP - 1 + place, row])]);
  const right = new Map<number, string[]>([[3, [reading, ""]], [4, [firstRow, firstRowFormula(sheet, plan)]], [5, [order, dateOrder ?? ""]]]);
  const height = Math.max(left.length, COLUMNS_TOP - 1 + columns.length);
  const cells = Array.from({ length: height }, (_, row) => [...(left[row] ?? ["", "", ""]), "", ...(middle.get(row) ?? ["", "", ""]), "", ...(right.get(row) ?? ["", ""])]);
  return {
    ...base,
    cells: even(cells),
    widths: [...base.widths, { columns: "E:E", points: 50 }, { columns: "F:F", points: 130 }, { columns: "G:G", points: 130 }, { columns: "I:I", points: 190 }, { columns: "J:J", points: 60 }],
    headings: [...base.headings, "E4:G4", "I4:J4"],
    inputs: [...base.inputs, meaningsAddress(columns.length), DATE_ORDER],
    quiet: [...base.quiet, `A${DATE_SYSTEM_ROW}:C${DATE_SYSTEM_ROW}`],
    names: [],
  };
}

function rowsSheet(sheet: string, plan: JoinPlan, refs: Refs, names: SheetNames, name: string): PlannedSheet {
  const last = ROWS_TOP + 1 + plan.log.bottom - plan.firstData;
  return {
    ...EMPTY, name,
    cells: even([[words.rowsSheet.title(sheet)], [words.rowsSheet.hint], [""], [rowsFormula(refs, plan, names, true)]]),
    widths: [{ columns: "A:E", points: 80 }, { columns: "F:F", points: 480 }],
    headings: [`A${ROWS_TOP}:F${ROWS_TOP}`],
    wrapped: [`A${ROWS_TOP}:F${ROWS_TOP}`],
    numberFormats: [{ address: `A${ROWS_TOP + 1}:A${last}`, format: DATE }, ...ADDED_FORMATS.map((format, place) => ({ address: `${letters(place + 1)}${ROWS_TOP + 1}:${letters(place + 1)}${last}`, format }))],
    marks: WARNING_MARKS.map((mark) => ({ address: `F${ROWS_TOP + 1}:F${last}`, ...mark })),
    frozenRows: ROWS_TOP,
    landscape: true,
  };
}

/** Number formats of the added columns that hold grams. */
export const ADDED_FORMATS: readonly string[] = ["0.000", "0.0000", "0.000", "0.0000"].slice(0, ADDED_COLUMNS - 1);
