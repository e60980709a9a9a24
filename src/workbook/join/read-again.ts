import { joinPane as words } from "../../words/join-pane";
import { DATE_ORDERS, type DateOrder } from "../../functions/date-text";
import { areaAddress, letters } from "../places";
import { WorkbookProblem } from "../workbook-problem";
import { DATE } from "../weekly/planned-sheet";
import { ADDED_FORMATS, columnRows, DATE_ORDER, FIRST_ROW, firstRowFormula, logCall, meaningsAddress, ROWS_TOP, type SheetNames } from "./joined-sheets";
import { besideLog } from "./beside";
import { addedAt, planJoin } from "./join-plan";
import { type JoinRecord, partName, recordXml } from "./join-record";
import { inWorkbook, type Joined, joinedLogs, look, type Look } from "./look";
import { sheetsOf, takeBackBeside } from "./take-back";
import type { JoinWish } from "./join-log";

/** A joined log looked at again, with what its columns were taken for; undefined for a column that was not there. */
export interface SecondLook {
  readonly look: Look;
  readonly known: readonly (string | null | undefined)[];
  /** As it stands on the sheet of the join. */
  readonly dateOrder: DateOrder | null;
}

/** A call of LOG_READ as it stands in a formula, whatever its sheet's name holds. */
const LOG_READ_CALL = /ALGAL\.LOG_READ\((?:'(?:[^']|'')*'|"(?:[^"]|"")*"|[^()'"])*\)/gi;

/**
 * Looks at a joined log again, after rows or columns were put in.
 * @throws WorkbookProblem when it is not found where it was
 */
export async function lookAgain(id: number): Promise<SecondLook> {
  return inWorkbook(words.lookRefused, async (context) => {
    const joined = await standing(context, id);
    return { look: joined.look, ...(await answersNow(context, joined)) };
  });
}

/**
 * Writes the account of a joined log anew over the rows that it has by now. The sheets stay, with what was typed on them.
 * @returns the number of rows of the log, and where the columns stand
 * @throws WorkbookProblem when a cell is in the way: then nothing is changed
 */
export async function readAgain(id: number, wish: Pick<JoinWish, "meanings" | "dateOrder">, signal?: AbortSignal): Promise<{ readonly rows: number; readonly at: string }> {
  return inWorkbook(words.refused, async (context) => {
    const { joined, look: now, sheets } = await standing(context, id);
    const { record } = joined;
    const plan = planJoin(now, now.found, record.place === "beside");
    if ("refusal" in plan) throw new WorkbookProblem(plan.refusal);
    if (signal?.aborted) throw new WorkbookProblem(words.stopped);
    const { worksheets, names, customXmlParts } = context.workbook;
    await takeBackBeside(context, joined);
    for (const part of ["log", "added"] as const) names.getItemOrNullObject(partName(id, part)).delete();
    const columns = now.columns.map(({ heading }, place) => ({ heading, meaning: wish.meanings[place] ?? null }));
    const joinSheet = worksheets.getItem(sheets.join);
    const before = joinSheet.getRange(`E5:G${4 + Math.max(record.columns.length, columns.length)}`);
    before.clear("Contents");
    joinSheet.getRange(meaningsAddress(columns.length).replace("G", "E")).values = columnRows(plan, columns);
    joinSheet.getRange(FIRST_ROW).formulas = [[firstRowFormula(now.sheet, plan)]];
    joinSheet.getRange(DATE_ORDER).values = [[wish.dateOrder ?? ""]];
    const call = logCall(now.sheet, plan, sheets, columns.length, wish.dateOrder !== null);
    const reading = [sheets.balance, sheets.charts, sheets.rows].flatMap((name) => (name ? [worksheets.getItem(name).getUsedRangeOrNullObject(true).load("formulas")] : []));
    await context.sync();
    for (const range of reading.filter((one) => !one.isNullObject)) {
      (range.formulas as unknown[][]).forEach((row, r) => row.forEach((formula, c) => {
        if (typeof formula !== "string" || !formula.startsWith("=")) return;
        const renewed = formula.replace(LOG_READ_CALL, () => call);
        if (renewed !== formula) range.getCell(r, c).formulas = [[renewed]];
      }));
    }
    if (sheets.rows) formatRows(worksheets.getItem(sheets.rows), ROWS_TOP + 1 + plan.log.bottom - plan.firstData);
    const renewed = { ...record, columns, dateOrder: wish.dateOrder };
    const { remembered, write } = await besideLog(context, now.sheet, now.table, plan, renewed, sheets);
    await write();
    const next: JoinRecord = { ...renewed, ...remembered };
    customXmlParts.getItem(joined.xmlId).setXml(recordXml(next));
    await context.sync();
    const at = plan.added && record.place === "beside" ? addedAt(now.sheet, plan.added) : (record.table ?? sheets.rows ?? now.sheet);
    return { rows: now.found.bottom - now.found.firstDataRow + 1, at };
  });
}

interface Standing {
  readonly joined: Joined;
  readonly look: Look;
  readonly sheets: SheetNames;
}

async function standing(context: Excel.RequestContext, id: number): Promise<Standing> {
  const joined = (await joinedLogs(context)).find(({ record }) => record.id === id);
  if (!joined?.log) throw new WorkbookProblem(words.gone);
  const { join, balance, charts, foods, rows } = await sheetsOf(context, id);
  if (!join || !balance || !charts || !foods || (!rows && joined.record.place !== "beside")) throw new WorkbookProblem(words.sheetsGone);
  const { sheet, area } = joined.log;
  const row = joined.added && joined.record.place === "beside" ? joined.added.area.top + 1 : await firstTableRow(context, joined.record.table);
  const found = await look(context, sheet, { row: row ?? Math.min(area.bottom, area.top + 5), column: area.left });
  // Another log on the same sheet is not this one.
  if (found.found.left > area.right || found.found.right < area.left) throw new WorkbookProblem(words.goneHeadings);
  return { joined, look: found, sheets: { join, balance, charts, foods, rows: rows ?? null } };
}

async function firstTableRow(context: Excel.RequestContext, name: string | null): Promise<number | null> {
  if (name === null) return null;
  const table = context.workbook.tables.getItemOrNullObject(name).load("name");
  await context.sync();
  if (table.isNullObject) throw new WorkbookProblem(words.gone);
  const range = table.getRange().load("rowIndex");
  await context.sync();
  return range.rowIndex + 1;
}

/** What each column is by now: the keeper may have put it right on the sheet of the join. */
async function answersNow(context: Excel.RequestContext, { joined: { record }, look: { columns }, sheets }: Standing): Promise<Pick<SecondLook, "known" | "dateOrder">> {
  const sheet = context.workbook.worksheets.getItem(sheets.join);
  const meanings = sheet.getRange(meaningsAddress(record.columns.length)).load("values");
  const order = sheet.getRange(DATE_ORDER).load("values");
  await context.sync();
  const left = record.columns.map(({ heading }, place) => ({ heading, meaning: String((meanings.values as unknown[][])[place]?.[0] ?? "").trim() || null }));
  const written = String((order.values as unknown[][])[0]?.[0] ?? "").trim().toLowerCase();
  return {
    known: columns.map(({ heading }) => {
      const place = left.findIndex((one) => one.heading === heading);
      return place < 0 ? undefined : left.splice(place, 1)[0]?.meaning;
    }),
    dateOrder: DATE_ORDERS.find((one) => one === written) ?? null,
  };
}

function formatRows(sheet: Excel.Worksheet, last: number): void {
  [DATE, ...ADDED_FORMATS].forEach((format, place) => {
    sheet.getRange(areaAddress({ top: ROWS_TOP, left: place, bottom: last - 1, right: place })).numberFormat = format as unknown as string[][];
  });
  sheet.getRange(`A${ROWS_TOP}:${letters(ADDED_FORMATS.length + 1)}${ROWS_TOP}`).numberFormat = "General" as unknown as string[][];
}
