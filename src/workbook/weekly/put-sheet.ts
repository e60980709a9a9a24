import { freeSheetName } from "../put-sizing";
import type { PlannedChart, PlannedSheet } from "./planned-sheet";

const GROUND = { heading: "#E3E8EE", input: "#FFF6DC" };
const QUIET_TEXT = "#5C5C5C";

/** Writes a planned sheet into an empty one, in a batch that is open. */
export function putSheet(context: Excel.RequestContext, sheet: Excel.Worksheet, planned: PlannedSheet, used: readonly string[]): void {
  const { cells, widths, titles, headings, inputs, quiet, wrapped, numberFormats, table, names, rules, marks, frozenRows, landscape } = planned;
  // Formats first: a cell of text format keeps what is typed as text.
  for (const { address, format } of numberFormats) sheet.getRange(address).numberFormat = format as unknown as string[][];
  sheet.getRangeByIndexes(0, 0, cells.length, cells[0]?.length ?? 1).formulas = cells.map((row) => [...row]);
  for (const { columns, points } of widths) sheet.getRange(columns).format.columnWidth = points;
  for (const address of titles) sheet.getRange(address).format.font.bold = true;
  for (const address of quiet) sheet.getRange(address).format.font.color = QUIET_TEXT;
  for (const address of headings) {
    sheet.getRange(address).format.font.bold = true;
    sheet.getRange(address).format.fill.color = GROUND.heading;
  }
  for (const address of inputs) sheet.getRange(address).format.fill.color = GROUND.input;
  for (const address of wrapped) sheet.getRange(address).format.wrapText = true;
  if (table) sheet.tables.add(table.address, true).name = table.name;
  for (const { name, address } of names) context.workbook.names.add(freeName(name, used), sheet.getRange(address));
  for (const { address, rule, prompt } of rules) {
    const { dataValidation } = sheet.getRange(address);
    dataValidation.rule = rule;
    if (prompt) dataValidation.prompt = { ...prompt, showPrompt: true };
  }
  for (const { address, formula, color, fill } of marks) {
    const { custom } = sheet.getRange(address).conditionalFormats.add("Custom");
    custom.rule.formula = formula;
    custom.format.font.color = color;
    custom.format.fill.color = fill;
  }
  if (frozenRows > 0) {
    sheet.freezePanes.freezeRows(frozenRows);
    sheet.pageLayout.setPrintTitleRows(`$1:$${frozenRows}`);
  }
  sheet.pageLayout.orientation = landscape ? "Landscape" : "Portrait";
  sheet.pageLayout.zoom = { horizontalFitToPages: 1 };
}

/** Adds a chart; the sheets that it reads stand already. */
export function drawChart(context: Excel.RequestContext, on: string, { title, type, xTitle, yTitle, sheet, x, series, from, to }: PlannedChart): void {
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
