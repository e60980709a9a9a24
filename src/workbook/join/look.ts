import { join as recogniseWords } from "../../words/join";
import { joinPane as words } from "../../words/join-pane";
import { splitAddress } from "../../functions/cell-address";
import { excelErrorCode, WorkbookProblem } from "../workbook-problem";
import type { Area } from "../places";
import type { SheetCells } from "./join-plan";
import { JOIN_NAMESPACE, type JoinRecord, partName, readRecord } from "./join-record";
import { findLog, type FoundLog } from "./recognise/find-log";
import { proposeColumns } from "./recognise/propose";
import type { ColumnProposal } from "./recognise/proposal";

/** A log as it was found at the selection. */
export interface Look extends SheetCells {
  readonly table: string | null;
  readonly found: FoundLog;
  readonly columns: readonly ColumnProposal[];
  /** Days between the workbook's date system and that of 1900. */
  readonly calendarOffset: number;
}

/** A joined log of the workbook, and where it lies now; null where its cells are gone. */
export interface Joined {
  readonly record: JoinRecord;
  readonly xmlId: string;
  readonly log: { readonly sheet: string; readonly area: Area } | null;
  readonly added: { readonly sheet: string; readonly area: Area } | null;
}

/** 1 January 2000 in the date system of 1900. */
const NEW_YEAR_2000 = 36526;

/**
 * Looks for a log at the selected cell. What an earlier join added is not taken for a part of it.
 * @throws WorkbookProblem with the reason when there is none, or the sheet cannot be read
 */
export async function lookAtSelection(): Promise<Look> {
  return inWorkbook(words.lookRefused, async (context) => {
    const selected = context.workbook.getSelectedRange().load("address, rowIndex, columnIndex");
    await context.sync();
    return look(context, splitAddress(selected.address).sheet, { row: selected.rowIndex, column: selected.columnIndex });
  });
}

/** @throws WorkbookProblem with `refused` where Excel refuses */
export async function inWorkbook<T>(refused: string, batch: (context: Excel.RequestContext) => Promise<T>): Promise<T> {
  try {
    return await Excel.run({ delayForCellEdit: true }, batch);
  } catch (error) {
    if (error instanceof WorkbookProblem) throw error;
    if (excelErrorCode(error) !== "") throw new WorkbookProblem(refused);
    throw error;
  }
}

/** In a batch that is open: the log at a cell of a sheet. */
export async function look(context: Excel.RequestContext, sheetName: string, at: { row: number; column: number }): Promise<Look> {
  const joins = await joinedLogs(context);
  const sheet = context.workbook.worksheets.getItem(sheetName);
  const used = sheet.getUsedRangeOrNullObject(true).load("values, formulas, rowIndex, columnIndex");
  const tables = sheet.getRangeByIndexes(at.row, at.column, 1, 1).getTables(false).load("items/name");
  const calendarOffset = await calendarOffsetIn(context);
  if (used.isNullObject) throw new WorkbookProblem(recogniseWords.notFound.empty);
  const table = tables.items[0];
  const tableRange = table?.getRange().load("rowIndex, columnIndex, rowCount, columnCount");
  if (tableRange) await context.sync();
  const own = joins.flatMap(({ added }) => (added && added.sheet === sheetName ? [added.area] : []));
  const cells: SheetCells = { sheet: sheetName, grid: spread(used.values as unknown[][], used, own), formulas: spread(used.formulas as unknown[][], used, own) };
  const within = tableRange && { top: tableRange.rowIndex, left: tableRange.columnIndex, bottom: tableRange.rowIndex + tableRange.rowCount - 1, right: tableRange.columnIndex + tableRange.columnCount - 1 };
  const grid = within ? onlyWithin(cells.grid, within) : cells.grid;
  const found = findLog(grid, at);
  if ("reason" in found) throw new WorkbookProblem(found.reason);
  return { ...cells, table: table?.name ?? null, found, columns: proposeColumns(grid, found, { formulas: cells.formulas }), calendarOffset };
}

/** Syncs, and gives the days between the workbook's date system and that of 1900. */
export async function calendarOffsetIn(context: Excel.RequestContext): Promise<number> {
  const newYear2000 = context.workbook.functions.date(2000, 1, 1).load("value");
  await context.sync();
  return NEW_YEAR_2000 - newYear2000.value;
}

/** Every join that the workbook remembers, in a batch that is open. */
export async function joinedLogs(context: Excel.RequestContext): Promise<Joined[]> {
  const { customXmlParts, names } = context.workbook;
  const parts = customXmlParts.getByNamespace(JOIN_NAMESPACE).load("items/id");
  await context.sync();
  const texts = parts.items.map((part) => ({ id: part.id, xml: part.getXml() }));
  await context.sync();
  const records = texts.flatMap(({ id, xml }) => {
    const record = readRecord(xml.value);
    return record ? [{ xmlId: id, record }] : [];
  });
  const asked = records.map(({ xmlId, record }) => {
    const place = (part: "log" | "added"): Excel.Range => names.getItemOrNullObject(partName(record.id, part)).getRangeOrNullObject().load("address, rowIndex, columnIndex, rowCount, columnCount");
    return { xmlId, record, log: place("log"), added: place("added") };
  });
  await context.sync();
  return asked.map(({ xmlId, record, log, added }) => ({ xmlId, record, log: placeOf(log), added: placeOf(added) }));
}

function placeOf(range: Excel.Range): Joined["log"] {
  if (range.isNullObject) return null;
  const { rowIndex, columnIndex, rowCount, columnCount } = range;
  return { sheet: splitAddress(range.address).sheet, area: { top: rowIndex, left: columnIndex, bottom: rowIndex + rowCount - 1, right: columnIndex + columnCount - 1 } };
}

/** The cells from the sheet's first one on, without those of earlier joins. */
function spread(cells: unknown[][], { rowIndex, columnIndex }: { readonly rowIndex: number; readonly columnIndex: number }, own: readonly Area[]): unknown[][] {
  const isOwn = (row: number, column: number): boolean => own.some(({ top, left, bottom, right }) => row >= top && row <= bottom && column >= left && column <= right);
  const inFront = new Array<unknown>(columnIndex).fill("");
  const rows = cells.map((row, r) => [...inFront, ...(own.length === 0 ? row : row.map((cell, c) => (isOwn(rowIndex + r, columnIndex + c) ? "" : cell)))]);
  return [...Array.from({ length: rowIndex }, () => []), ...rows];
}

const onlyWithin = (grid: readonly (readonly unknown[])[], { top, left, bottom, right }: Area): unknown[][] => grid.map((row, r) => (r < top || r > bottom ? [] : row.map((cell, c) => (c < left || c > right ? "" : cell))));
