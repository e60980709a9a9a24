import { writeChart, writeDrawing } from "../chart-writer";
import type { BookChart } from "../book-extras";
import { SHEET_TYPE } from "../hand-over/add-sheet";
import type { NewSheet } from "../new-book-model";
import { OFFICE, relationships } from "../package-part";
import { addLink, addPart, freePart } from "../part-links";
import { relationshipsPart } from "../relationships";
import { writeSheet } from "../sheet-writer";
import { writeTable } from "../table-writer";
import { attribute, isSpreadsheet, walkXml } from "../xml";
import type { MergeContext } from "./merge-context";

const TABLE_TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml.table+xml";
const CHART_TYPE = "application/vnd.openxmlformats-officedocument.drawingml.chart+xml";
const DRAWING_TYPE = "application/vnd.openxmlformats-officedocument.drawing+xml";

/** Writes a sheet of the grid that the file has not, with its tables and charts, as new parts. @returns the sheet's part */
export async function addGridSheet(context: MergeContext, sheet: NewSheet): Promise<string> {
  const { marks, parts, styles } = context;
  const part = freePart(parts, `${folderOf(context)}worksheets/sheet`);
  // Its place is taken before its tables look for theirs.
  await addPart(parts, part, "", SHEET_TYPE);
  const tables: string[] = [];
  for (const table of sheet.tables ?? []) tables.push(await addTable(context, part, (id) => writeTable(sheet, table, id)));
  const drawing = sheet.charts?.length ? await addDrawing(context, part, sheet.charts) : undefined;
  const { marked, xml } = writeSheet(sheet, false, styles.writer, null, { tables, ...(drawing === undefined ? {} : { drawing }) });
  parts.set(part, marked ? xml.replace(/(<c [^<>]*) cm="1"/g, `$1 cm="${marks.newMark()}"`) : xml);
  return part;
}

/** @returns the id of the link from the sheet to the new table */
export async function addTable({ archive, parts, workbook }: MergeContext, sheetPart: string, write: (id: number) => string): Promise<string> {
  const folder = workbook.part.slice(0, workbook.part.lastIndexOf("/") + 1);
  const part = freePart(parts, `${folder}tables/table`);
  const ids = await Promise.all([...archive.names.filter((name) => /\/tables\//i.test(name) && /\.xml$/i.test(name)), ...parts.added().filter((name) => name.includes("/tables/"))].map(async (name) => tableId(await parts.text(name), name)));
  await addPart(parts, part, write(Math.max(0, ...ids) + 1), TABLE_TYPE);
  return addLink(parts, sheetPart, `${OFFICE}/relationships/table`, part);
}

/** @returns the id of the link from the sheet to the new drawing */
export async function addDrawing(context: MergeContext, sheetPart: string, charts: readonly BookChart[]): Promise<string> {
  const { parts } = context;
  const drawing = freePart(parts, `${folderOf(context)}drawings/drawing`);
  await addPart(parts, drawing, writeDrawing([...charts]), DRAWING_TYPE);
  parts.set(relationshipsPart(drawing), relationships([]));
  for (const chart of charts) await addChart(context, drawing, chart);
  return addLink(parts, sheetPart, `${OFFICE}/relationships/drawing`, drawing);
}

/** @returns the id of the link from the drawing to the new chart */
export async function addChart(context: MergeContext, drawing: string, chart: BookChart): Promise<string> {
  const part = freePart(context.parts, `${folderOf(context)}charts/chart`);
  await addPart(context.parts, part, writeChart(chart), CHART_TYPE);
  return addLink(context.parts, drawing, `${OFFICE}/relationships/chart`, part);
}

function folderOf({ workbook }: MergeContext): string {
  return workbook.part.slice(0, workbook.part.lastIndexOf("/") + 1);
}

function tableId(xml: string, part: string): number {
  let id = 0;
  walkXml(xml, part, {
    open(tag) {
      if (isSpreadsheet(tag) && tag.local === "table") id = Number(attribute(tag, "id") ?? 0);
    },
  });
  return id;
}
