import { rows as rowWords } from "../../words/rows";
import { areaAddress, type Area, letters } from "../places";
import { freeSheetName } from "../put-sizing";
import { ADDED_COLUMNS, type JoinPlan } from "./join-plan";
import { type JoinRecord, partName } from "./join-record";
import { putMark } from "../weekly/put-sheet";
import { WARNING_MARKS } from "./warning-marks";
import { ADDED_FORMATS, logCall, refsOf, rowsFormula, type SheetNames, tableRowFormula } from "./joined-sheets";

/** Points. Wide enough to read a warning, and no wider than the pane. */
const LOOK_WIDTH = 260;
type Remembered = Pick<JoinRecord, "formats" | "width" | "tableColumns">;

/** What stands there before, to be given back, and the writing itself. */
export interface Beside {
  readonly remembered: Remembered;
  readonly write: () => Promise<void>;
}

const NOTHING: Remembered = { formats: "General", width: null, tableColumns: [] };

/** The part of a join that stands on the keeper's own sheet; nothing is changed before `write`, which leaves its last requests to the next sync. */
export async function besideLog(context: Excel.RequestContext, sheetName: string, table: string | null, plan: JoinPlan, { id, place, columns, dateOrder }: Pick<JoinRecord, "id" | "place" | "columns" | "dateOrder">, names: SheetNames): Promise<Beside> {
  const sheet = context.workbook.worksheets.getItem(sheetName);
  const nameLog = (): void => {
    context.workbook.names.add(partName(id, "log"), sheet.getRange(areaAddress(plan.log)));
  };
  if (place === "table" && table !== null) {
    const tableColumns = await freeHeadings(context, table);
    return { remembered: { ...NOTHING, tableColumns }, write: () => (nameLog(), putInTable(context, sheetName, table, plan, names.rows ?? "", tableColumns)) };
  }
  const area = plan.added;
  if (place === "sheet" || !area) return { remembered: NOTHING, write: async () => nameLog() };
  const range = sheet.getRange(areaAddress(area)).load("numberFormat");
  const lookColumn = sheet.getRange(`${letters(area.right)}:${letters(area.right)}`).load("format/columnWidth");
  await context.sync();
  const width = lookColumn.format.columnWidth;
  const refs = refsOf(logCall(sheetName, plan, names, columns.length, dateOrder !== null), names);
  return {
    remembered: { ...NOTHING, formats: packed(range.numberFormat as string[][]), width: width < LOOK_WIDTH ? width : null },
    write: async () => {
      nameLog();
      context.workbook.names.add(partName(id, "added"), range);
      ADDED_FORMATS.forEach((format, column) => {
        const rows: Area = { ...area, top: plan.hasHeadings ? area.top + 1 : area.top, left: area.left + column, right: area.left + column };
        sheet.getRange(areaAddress(rows)).numberFormat = format as unknown as string[][];
      });
      sheet.getRange(areaAddress({ ...area, bottom: area.top, right: area.left })).formulas = [[rowsFormula(refs, plan, names, false)]];
      markWarnings(sheet, { ...area, left: area.right });
      if (width < LOOK_WIDTH) lookColumn.format.columnWidth = LOOK_WIDTH;
    },
  };
}

async function freeHeadings(context: Excel.RequestContext, name: string): Promise<string[]> {
  const columns = context.workbook.tables.getItem(name).columns.load("items/name");
  await context.sync();
  const taken = columns.items.map((column) => column.name);
  return rowWords.headings.map((heading) => {
    const free = freeSheetName(heading, taken);
    taken.push(free);
    return free;
  });
}

async function putInTable(context: Excel.RequestContext, sheetName: string, name: string, plan: JoinPlan, rowsSheet: string, headings: readonly string[]): Promise<void> {
  const table = context.workbook.tables.getItem(name);
  const body = table.getDataBodyRange().load("rowCount");
  await context.sync();
  headings.forEach((heading, place) => {
    const formula = tableRowFormula(sheetName, plan, rowsSheet, place);
    const column = table.columns.add(undefined, [[heading], ...Array.from({ length: body.rowCount }, () => [formula])]);
    const format = ADDED_FORMATS[place];
    if (format) column.getDataBodyRange().numberFormat = format as unknown as string[][];
  });
  const marked = table.columns.getItem(headings[ADDED_COLUMNS - 1] ?? "").getDataBodyRange().load("rowIndex, columnIndex, rowCount");
  await context.sync();
  markWarnings(context.workbook.worksheets.getItem(sheetName), { top: marked.rowIndex, left: marked.columnIndex, bottom: marked.rowIndex + marked.rowCount - 1, right: marked.columnIndex });
}

function markWarnings(sheet: Excel.Worksheet, area: Area): void {
  for (const mark of WARNING_MARKS) putMark(sheet.getRange(areaAddress(area)), mark);
}

const packed = (formats: readonly (readonly string[])[]): string | string[][] => {
  const first = formats[0]?.[0] ?? "General";
  return formats.every((row) => row.every((format) => format === first)) ? first : formats.map((row) => [...row]);
};
