import { weekly as words } from "../../words/weekly";
import { freeSheetName } from "../put-sizing";
import { WorkbookProblem } from "../workbook-problem";
import type { Mark, PlannedChart, PlannedSheet } from "./planned-sheet";

const GROUND = { heading: "#E3E8EE", input: "#FFF6DC" };
const QUIET_TEXT = "#5C5C5C";

/**
 * Adds planned sheets behind the others and writes them, in a batch that is open. All of them stand before the first formula is
 * written: a reference to a sheet that is not there would ask for a file. When something fails, or it is stopped, they are taken back.
 * @param then what belongs to them and is written last
 */
export async function putSheets(context: Excel.RequestContext, planned: readonly PlannedSheet[], used: readonly string[], signal: AbortSignal | undefined, then: (sheets: readonly Excel.Worksheet[]) => Promise<void>): Promise<void> {
  const goOn = (): void => {
    if (signal?.aborted) throw new WorkbookProblem(words.insert.stopped);
  };
  goOn();
  const sheets = planned.map(({ name }) => context.workbook.worksheets.add(name));
  await context.sync();
  const names: string[] = [];
  try {
    for (const [place, one] of planned.entries()) {
      goOn();
      if (sheets[place]) names.push(...putSheet(context, sheets[place], one, used));
      await context.sync();
    }
    goOn();
    planned.forEach((one) => one.charts.forEach((chart) => drawChart(context, one.name, chart)));
    await then(sheets);
    await context.sync();
  } catch (error) {
    for (const sheet of sheets) sheet.delete();
    for (const name of names) context.workbook.names.getItemOrNullObject(name).delete();
    await context.sync().catch(() => undefined);
    throw error;
  }
}

/** Writes a planned sheet into an empty one. Gives the names that it defined. */
function putSheet(context: Excel.RequestContext, sheet: Excel.Worksheet, planned: PlannedSheet, used: readonly string[]): string[] {
  const { cells, widths, heights, titles, headings, inputs, quiet, wrapped, numberFormats, table, names, rules, marks, frozenRows, landscape } = planned;
  // Formats first: a cell of text format keeps what is typed as text.
  for (const { address, format } of numberFormats) sheet.getRange(address).numberFormat = format as unknown as string[][];
  sheet.getRangeByIndexes(0, 0, cells.length, cells[0]?.length ?? 1).formulas = cells.map((row) => [...row]);
  for (const { columns, points } of widths) sheet.getRange(columns).format.columnWidth = points;
  for (const { rows, points } of heights) sheet.getRange(rows).format.rowHeight = points;
  for (const address of titles) sheet.getRange(address).format.font.bold = true;
  for (const address of quiet) sheet.getRange(address).format.font.color = QUIET_TEXT;
  for (const address of headings) {
    sheet.getRange(address).format.font.bold = true;
    sheet.getRange(address).format.fill.color = GROUND.heading;
  }
  for (const address of inputs) sheet.getRange(address).format.fill.color = GROUND.input;
  for (const address of wrapped) sheet.getRange(address).format.wrapText = true;
  if (table) sheet.tables.add(table.address, true).name = table.name;
  const defined = names.map(({ name }) => freeName(name, used));
  names.forEach(({ address }, place) => context.workbook.names.add(defined[place] ?? "", sheet.getRange(address)));
  for (const { address, rule, prompt } of rules) {
    const { dataValidation } = sheet.getRange(address);
    dataValidation.rule = rule;
    if (prompt) dataValidation.prompt = { ...prompt, showPrompt: true };
  }
  for (const { address, ...mark } of marks) putMark(sheet.getRange(address), mark);
  if (frozenRows > 0) {
    sheet.freezePanes.freezeRows(frozenRows);
    sheet.pageLayout.setPrintTitleRows(`$1:$${frozenRows}`);
  }
  sheet.pageLayout.orientation = landscape ? "Landscape" : "Portrait";
  sheet.pageLayout.zoom = { horizontalFitToPages: 1 };
  return defined;
}

/** Colours cells of a range by a rule, before the rules that stand. */
export function putMark(range: Excel.Range, mark: Mark): void {
  const format = ruled(range, mark);
  format.font.color = mark.color;
  format.fill.color = mark.fill;
}

function ruled({ conditionalFormats }: Excel.Range, mark: Mark): Excel.ConditionalRangeFormat {
  if ("formula" in mark) {
    const { custom } = conditionalFormats.add("Custom");
    custom.rule.formula = mark.formula;
    return custom.format;
  }
  const { textComparison } = conditionalFormats.add("ContainsText");
  textComparison.rule = { operator: "BeginsWith", text: mark.beginsWith };
  return textComparison.format;
}

/** Adds a chart; the sheets that it reads stand already. */
function drawChart(context: Excel.RequestContext, on: string, { title, type, xTitle, yTitle, sheet, x, series, from, to }: PlannedChart): void {
  const { worksheets } = context.workbook;
  const source = worksheets.getItem(sheet);
  const chart = worksheets.getItem(on).charts.add(type, source.getRange(series[0]?.values ?? x), "Columns");
  // What Excel made of the range is replaced by series that say their own names and dates.
  series.forEach(({ name, values }, place) => {
    const one = place === 0 ? chart.series.getItemAt(0) : chart.series.add(name);
    if (place === 0) one.name = name;
    one.setValues(source.getRange(values));
    one.setXAxisValues(source.getRange(x));
  });
  chart.title.text = title;
  chart.axes.categoryAxis.title.text = xTitle;
  chart.axes.valueAxis.title.text = yTitle;
  chart.legend.visible = series.length > 1;
  chart.setPosition(from, to);
}

/** The name, or the name with the first free number; names and tables share one list in Excel. */
export function freeName(wanted: string, used: readonly string[]): string {
  return freeSheetName(wanted, used.map((name) => name.replace(/_(\d+)$/, " $1"))).replace(/ (\d+)$/, "_$1");
}
