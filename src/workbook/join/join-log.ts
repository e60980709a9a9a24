import { rows as rowWords } from "../../words/rows";
import { joinPane as words } from "../../words/join-pane";
import { warnings } from "../../words/warnings";
import { areaAddress, type Area, letters } from "../places";
import { freeSheetName } from "../put-sizing";
import { WorkbookProblem } from "../workbook-problem";
import { on } from "../weekly/planned-sheet";
import { drawChart, freeName, putSheet } from "../weekly/put-sheet";
import { ADDED_FORMATS, joinedSheets, logCall, partAddresses, refsOf, rowsFormula, setUpCell, type SheetNames, tableRowFormula } from "./joined-sheets";
import { ADDED_COLUMNS, addedAt, inTheWay, type JoinPlan, planJoin } from "./join-plan";
import { type JoinPlace, type JoinRecord, partName, recordXml } from "./join-record";
import { inWorkbook, joinedLogs, look, type Look } from "./look";
import type { DateOrder } from "../../functions/date-text";

/** What the keeper answered. */
export interface JoinWish {
  /** A heading of ours for each column of the log, null: left alone. */
  readonly meanings: readonly (string | null)[];
  readonly dateOrder: DateOrder | null;
  /** Rows of the set-up that are known already: "Volume (L)" to 265. */
  readonly setUp: Readonly<Record<string, string | number>>;
  /** On a sheet of their own, when the cells beside the log are taken. */
  readonly onNewSheet: boolean;
}

export interface JoinedAt {
  /** "Log!K4" */
  readonly at: string;
  /** Of the sheets that were added, the set-up first. */
  readonly sheets: readonly string[];
}

/** Points. Wide enough to read a warning, and no wider than the pane. */
const LOOK_WIDTH = 260;
const SERIOUS = { color: "#8A1C0F", fill: "#FCE4DE" };
const OTHER = { color: "#5C4400", fill: "#FFF3D1" };

/**
 * Writes the account of a log beside it, and the sheets that belong to it. Nothing is written at all when a cell is in the way.
 * @throws WorkbookProblem with the cell in the way, or when the sheet is another than the one that was looked at
 */
export async function joinLog(seen: Look, wish: JoinWish): Promise<JoinedAt> {
  return inWorkbook(words.refused, async (context) => {
    const now = await look(context, seen.sheet, { row: seen.found.firstDataRow, column: seen.found.dateColumn }).catch((error: unknown) => {
      if (error instanceof WorkbookProblem) return null;
      throw error;
    });
    if (!now || now.table !== seen.table || shapeOf(now) !== shapeOf(seen)) throw new WorkbookProblem(words.changed);
    const place: JoinPlace = wish.onNewSheet ? "sheet" : now.table !== null && now.found.firstDataRow > now.found.top ? "table" : "beside";
    const plan = planJoin(now, now.found, place === "beside");
    if ("refusal" in plan) throw new WorkbookProblem(plan.refusal);
    // A table grows to its right: Excel would move what stands there.
    const { top, bottom, right } = now.found;
    const refusal = place === "table" ? inTheWay(now, { top, bottom, left: right + 1, right: right + ADDED_COLUMNS }) : null;
    if (refusal !== null) throw new WorkbookProblem(refusal);
    const { worksheets, tables, names } = context.workbook;
    worksheets.load("items/name");
    tables.load("items/name");
    names.load("items/name");
    const joins = await joinedLogs(context);
    const id = 1 + Math.max(0, ...joins.map(({ record }) => record.id));
    const used = [...tables.items.map(({ name }) => name), ...names.items.map(({ name }) => name)];
    const sheetNames = freeSheetNames(worksheets.items.map(({ name }) => name), place !== "beside");
    const base = { id, place, columns: now.columns.map(({ heading }, at) => ({ heading, meaning: wish.meanings[at] ?? null })), dateOrder: wish.dateOrder, table: now.table };
    const planned = joinedSheets(now.sheet, plan, base, sheetNames, freeName(words.foodsTable, used));
    const added = planned.map(({ name }) => worksheets.add(name));
    await context.sync();
    try {
      planned.forEach((one, at) => added[at] && putSheet(context, added[at], one, used));
      planned.forEach((one) => one.charts.forEach((chart) => drawChart(context, one.name, chart)));
      for (const [what, value] of Object.entries(wish.setUp)) {
        const cell = setUpCell(what);
        if (cell && added[0]) added[0].getRange(cell).values = [[value]];
      }
      for (const [part, address] of partAddresses(sheetNames)) names.add(partName(id, part), rangeIn(context, address));
      const beside = await putBeside(context, now.sheet, now.table, plan, base, sheetNames);
      context.workbook.customXmlParts.add(recordXml({ ...base, ...beside }));
      await context.sync();
    } catch (error) {
      for (const sheet of added) sheet.delete();
      await context.sync().catch(() => undefined);
      throw error;
    }
    const at = plan.added && place === "beside" ? addedAt(now.sheet, plan.added) : place === "table" ? `${now.table ?? ""}` : on(sheetNames.rows ?? "", "A4");
    return { at, sheets: planned.map(({ name }) => name) };
  });
}

/** What must not have changed between looking and writing. */
const shapeOf = ({ found, columns }: Look): string => JSON.stringify([found.top, found.left, found.bottom, found.right, found.firstDataRow, columns.map(({ heading }) => heading)]);

function freeSheetNames(taken: readonly string[], withRows: boolean): SheetNames {
  const { join, balance, charts, foods, rows } = words.sheets;
  const used = [...taken];
  const free = (wanted: string): string => {
    const name = freeSheetName(wanted, used);
    used.push(name);
    return name;
  };
  return { join: free(join), balance: free(balance), charts: free(charts), foods: free(foods), rows: withRows ? free(rows) : null };
}

/** "'Log 2'!$A$1:$B$2" as a range. */
function rangeIn(context: Excel.RequestContext, address: string): Excel.Range {
  const cut = address.lastIndexOf("!");
  const sheet = address.slice(0, cut).replace(/^'|'$/g, "").replace(/''/g, "'");
  return context.workbook.worksheets.getItem(sheet).getRange(address.slice(cut + 1).replace(/\$/g, ""));
}

type Beside = Pick<JoinRecord, "formats" | "width" | "tableColumns">;

/** The part of a join that stands on the keeper's own sheet, and what has to be remembered to take it back. */
export async function putBeside(context: Excel.RequestContext, sheetName: string, table: string | null, plan: JoinPlan, { id, place, columns, dateOrder }: Pick<JoinRecord, "id" | "place" | "columns" | "dateOrder">, names: SheetNames): Promise<Beside> {
  const sheet = context.workbook.worksheets.getItem(sheetName);
  context.workbook.names.add(partName(id, "log"), sheet.getRange(areaAddress(plan.log)));
  if (place === "sheet") return { formats: "General", width: null, tableColumns: [] };
  const refs = refsOf(logCall(sheetName, plan, names, columns.length, dateOrder !== null), names);
  if (place === "table" && table !== null) return { formats: "General", width: null, tableColumns: await putInTable(context, sheetName, table, plan, names.rows ?? "") };
  const area = plan.added;
  if (!area) return { formats: "General", width: null, tableColumns: [] };
  const range = sheet.getRange(areaAddress(area));
  const lookColumn = sheet.getRange(`${letters(area.right)}:${letters(area.right)}`);
  range.load("numberFormat");
  lookColumn.load("format/columnWidth");
  context.workbook.names.add(partName(id, "added"), range);
  await context.sync();
  const before = range.numberFormat as string[][];
  const width = lookColumn.format.columnWidth;
  ADDED_FORMATS.forEach((format, column) => {
    const rows: Area = { ...area, top: plan.hasHeadings ? area.top + 1 : area.top, left: area.left + column, right: area.left + column };
    sheet.getRange(areaAddress(rows)).numberFormat = format as unknown as string[][];
  });
  sheet.getRange(areaAddress({ ...area, bottom: area.top, right: area.left })).formulas = [[rowsFormula(refs, plan, names, false)]];
  markWarnings(sheet, { ...area, left: area.right });
  if (width < LOOK_WIDTH) lookColumn.format.columnWidth = LOOK_WIDTH;
  return { formats: packed(before), width: width < LOOK_WIDTH ? width : null, tableColumns: [] };
}

async function putInTable(context: Excel.RequestContext, sheetName: string, name: string, plan: JoinPlan, rowsSheet: string): Promise<string[]> {
  const table = context.workbook.tables.getItem(name);
  table.columns.load("items/name");
  const body = table.getDataBodyRange().load("rowCount");
  await context.sync();
  const taken = table.columns.items.map((column) => column.name);
  const headings = rowWords.headings.map((heading) => {
    const free = freeSheetName(heading, taken);
    taken.push(free);
    return free;
  });
  headings.forEach((heading, place) => {
    const formula = tableRowFormula(sheetName, plan, rowsSheet, place);
    const column = table.columns.add(undefined, [[heading], ...Array.from({ length: body.rowCount }, () => [formula])]);
    const format = ADDED_FORMATS[place];
    if (format) column.getDataBodyRange().numberFormat = format as unknown as string[][];
  });
  const marked = table.columns.getItem(headings[ADDED_COLUMNS - 1] ?? "").getDataBodyRange().load("rowIndex, columnIndex, rowCount");
  await context.sync();
  markWarnings(context.workbook.worksheets.getItem(sheetName), { top: marked.rowIndex, left: marked.columnIndex, bottom: marked.rowIndex + marked.rowCount - 1, right: marked.columnIndex });
  return headings;
}

/** Serious ones in one colour, the others in another; the word stands in the cell. */
function markWarnings(sheet: Excel.Worksheet, area: Area): void {
  const cell = `$${letters(area.left)}${area.top + 1}`;
  const word = warnings.severity.serious;
  for (const [formula, { color, fill }] of [[`=LEFT(${cell},${word.length})="${word}"`, SERIOUS], [`=OR(${Object.values(warnings.severity).slice(1).map((one) => `LEFT(${cell},${one.length})="${one}"`).join(",")})`, OTHER]] as const) {
    const { custom } = sheet.getRange(areaAddress(area)).conditionalFormats.add("Custom");
    custom.rule.formula = formula;
    custom.format.font.color = color;
    custom.format.fill.color = fill;
  }
}

/** Whether a rule is one of those that mark the added column, wherever its rows are by now. */
export const isOurMark = (formula: string): boolean => Object.values(warnings.severity).some((word) => new RegExp(`^=(?:OR\\()?LEFT\\(\\$?[A-Z]+\\$?\\d+,${word.length}\\)="${word}"`).test(formula));

const packed = (formats: readonly (readonly string[])[]): string | string[][] => {
  const first = formats[0]?.[0] ?? "General";
  return formats.every((row) => row.every((format) => format === first)) ? first : formats.map((row) => [...row]);
};
