import { joinPane as words } from "../../words/join-pane";
import { joinAddress } from "../../functions/cell-address";
import { areaAddress, type Area, cellAt, letters } from "../places";
import { WorkbookProblem } from "../workbook-problem";
import { isOurMark, isOurText } from "./warning-marks";
import { JOIN_PARTS, type JoinPart, type JoinRecord, partName } from "./join-record";
import { inWorkbook, type Joined, joinedLogs } from "./look";

/** The sheets of a join by their part, under the names that they have now; those that were deleted are missing. */
export type JoinSheets = Readonly<Partial<Record<JoinPart, string>>>;

/** Every join of the workbook, with its sheets. */
export async function listJoins(): Promise<{ readonly joined: Joined; readonly sheets: JoinSheets }[]> {
  return inWorkbook(words.lookRefused, async (context) => {
    const joins = await joinedLogs(context);
    const found = [];
    for (const joined of joins) found.push({ joined, sheets: await sheetsOf(context, joined.record.id) });
    return found;
  });
}

/**
 * Takes out what a join added: the columns beside the log with their formats and marks, the names, and (unless kept) its sheets.
 * A cell in which something was typed meanwhile is left.
 * @returns the address of such a cell, or null
 */
export async function removeJoin(id: number, keepSheets: boolean, signal?: AbortSignal): Promise<string | null> {
  return inWorkbook(words.refused, async (context) => {
    const joined = (await joinedLogs(context)).find(({ record }) => record.id === id);
    if (!joined) throw new WorkbookProblem(words.changed);
    const sheets = await sheetsOf(context, id);
    if (signal?.aborted) throw new WorkbookProblem(words.stopped);
    await takeBackBeside(context, joined);
    const { customXmlParts, worksheets } = context.workbook;
    forgetParts(context, id);
    customXmlParts.getItem(joined.xmlId).delete();
    if (!keepSheets) for (const name of Object.values(sheets)) worksheets.getItem(name).delete();
    await context.sync();
    return joined.added ? firstFilled(context, joined.added) : null;
  });
}

/** The names that keep the places of a join's parts. */
export function forgetParts(context: Excel.RequestContext, id: number): void {
  for (const part of JOIN_PARTS) context.workbook.names.getItemOrNullObject(partName(id, part)).delete();
}

export async function sheetsOf(context: Excel.RequestContext, id: number): Promise<JoinSheets> {
  const parts = JOIN_PARTS.filter((part) => part !== "log" && part !== "added");
  const ranges = parts.map((part) => ({ part, range: context.workbook.names.getItemOrNullObject(partName(id, part)).getRangeOrNullObject() }));
  for (const { range } of ranges) range.load("address");
  await context.sync();
  const standing = ranges.filter(({ range }) => !range.isNullObject);
  const worksheets = standing.map(({ part, range }) => ({ part, worksheet: range.worksheet.load("name") }));
  await context.sync();
  return Object.fromEntries(worksheets.map(({ part, worksheet }) => [part, worksheet.name]));
}

/** What stands on the keeper's own sheet; in a batch that is open. */
export async function takeBackBeside(context: Excel.RequestContext, { record, added }: Pick<Joined, "record" | "added">): Promise<void> {
  const { tables, worksheets } = context.workbook;
  if (record.place === "table" && record.table !== null) {
    const { columns } = tables.getItemOrNullObject(record.table);
    const ours = [...record.tableColumns].reverse().map((heading) => columns.getItemOrNullObject(heading).load("name"));
    await context.sync();
    // Marks first: a deleted column has none to find.
    for (const column of ours.filter((one) => !one.isNullObject)) {
      await clearMarks(context, column.getDataBodyRange());
      column.delete();
    }
  } else if (record.place === "beside" && added) {
    const sheet = worksheets.getItem(added.sheet);
    const range = sheet.getRange(areaAddress(added.area));
    const anchor = sheet.getRange(cellAt(added.area.top, added.area.left)).load("formulas");
    await context.sync();
    if (/ALGAL\.LOG_ROWS\(/i.test(String(anchor.formulas[0]?.[0]))) anchor.clear("Contents");
    range.numberFormat = formatsFor(record, added.area) as string[][];
    await clearMarks(context, sheet.getRange(areaAddress({ ...added.area, left: added.area.right })));
    if (record.width !== null) sheet.getRange(`${letters(added.area.right)}:${letters(added.area.right)}`).format.columnWidth = record.width;
  }
}

/** As they were before; where rows were put in meanwhile, each column as its first row was. */
function formatsFor({ formats }: JoinRecord, { top, bottom, left, right }: Area): unknown {
  if (typeof formats === "string") return formats;
  const [height, width] = [bottom - top + 1, right - left + 1];
  if (formats.length === height && formats[0]?.length === width) return formats;
  return Array.from({ length: height }, (_row, row) => Array.from({ length: width }, (_column, column) => formats[Math.min(row, formats.length - 1)]?.[column] ?? "General"));
}

async function clearMarks(context: Excel.RequestContext, range: Excel.Range): Promise<void> {
  const rules = range.conditionalFormats.load("items/type");
  await context.sync();
  const [custom, text] = (["Custom", "ContainsText"] as const).map((type) => rules.items.filter((rule) => rule.type === type)) as [Excel.ConditionalFormat[], Excel.ConditionalFormat[]];
  for (const rule of custom) rule.custom.rule.load("formula");
  for (const rule of text) rule.textComparison.load("rule");
  await context.sync();
  for (const rule of custom) if (isOurMark(rule.custom.rule.formula)) rule.delete();
  for (const rule of text) if (isOurText(rule.textComparison.rule)) rule.delete();
}

async function firstFilled(context: Excel.RequestContext, { sheet, area }: NonNullable<Joined["added"]>): Promise<string | null> {
  const range = context.workbook.worksheets.getItem(sheet).getRange(areaAddress(area)).load("values");
  await context.sync();
  const values = range.values as unknown[][];
  for (const [row, cells] of values.entries()) for (const [column, cell] of cells.entries()) if (cell !== "") return joinAddress(sheet, cellAt(area.top + row, area.left + column));
  return null;
}
