import { weekly as words } from "../../words/weekly";
import { freeSheetName } from "../put-sizing";
import { excelErrorCode, WorkbookProblem } from "../workbook-problem";
import type { PlannedChart, PlannedSheet } from "./planned-sheet";
import { WEEKLY_KEYS, weeklySheets, type WeeklyKey } from "./weekly-sheets";

const GROUND = { heading: "#E3E8EE", input: "#FFF6DC" };
const QUIET_TEXT = "#5C5C5C";

/**
 * Adds the weekly sheets behind the others and shows the set-up. A sheet, a table or a name that stands is never replaced:
 * the new one takes the next free name, and its formulas follow.
 * @returns the names of the new sheets, the set-up first
 * @throws WorkbookProblem when Excel refuses
 */
export async function insertWeekly(): Promise<string[]> {
  try {
    return await Excel.run({ delayForCellEdit: true }, async (context) => {
      const { worksheets, tables, names } = context.workbook;
      worksheets.load("items/name");
      tables.load("items/name");
      names.load("items/name");
      await context.sync();
      const taken = worksheets.items.map((sheet) => sheet.name);
      const sheetNames = {} as Record<WeeklyKey, string>;
      for (const key of WEEKLY_KEYS) sheetNames[key] = freeSheetName(words.sheets[key], [...taken, ...Object.values(sheetNames)]);
      const used = [...tables.items.map((table) => table.name), ...names.items.map((item) => item.name)];
      const planned = weeklySheets(sheetNames, { log: freeName(words.tables.log, used), foods: freeName(words.tables.foods, used) });
      // All sheets stand before the first formula is written: a reference to a sheet that is not there would ask for a file.
      const sheets = planned.map((one) => worksheets.add(one.name));
      await context.sync();
      planned.forEach((one, place) => sheets[place] && put(context, sheets[place], one, used));
      planned.forEach((one) => one.charts.forEach((chart) => draw(context, one.name, chart)));
      sheets[0]?.activate();
      sheets[0]?.getRange("B5").select();
      await context.sync();
      return planned.map((one) => one.name);
    });
  } catch (error) {
    if (excelErrorCode(error) !== "") throw new WorkbookProblem(words.insert.refused);
    throw error;
  }
}

/** The name, or the name with the first free number; names and tables share one list in Excel. */
function freeName(wanted: string, used: readonly string[]): string {
  return freeSheetName(wanted, used.map((name) => name.replace(/_(\d+)$/, " $1"))).replace(/ (\d+)$/, "_$1");
}

function put(context: Excel.RequestContext, sheet: Excel.Worksheet, planned: PlannedSheet, used: readonly string[]): void {
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

function draw(context: Excel.RequestContext, on: string, { title, type, xTitle, yTitle, sheet, x, series, from, to }: PlannedChart): void {
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
