import type { ScreenPlan, ScreenWish } from "../science/sizing-plan";
import { size } from "../words/size";
import { sizeSheet } from "../words/size-sheet";
import { COLUMNS, sizingSheet } from "./sizing-sheet";
import { excelErrorCode, WorkbookProblem } from "./workbook-problem";

/** Points. */
const WIDTHS = { label: 250, figure: 105 };
const GROUND = { heading: "#E3E8EE", input: "#FFF6DC" };

/**
 * Adds a sheet "Size" ("Size 2" and so on when the name is taken) with the case as cells and the plan as live formulas, and selects its
 * first cell. No sheet that stands is touched.
 * @returns the name of the new sheet
 * @throws WorkbookProblem when Excel refuses the new sheet
 */
export async function putSizing(wish: ScreenWish, plan: ScreenPlan): Promise<string> {
  const planned = sizingSheet(wish, plan);
  const rows = planned.cells.length;
  try {
    return await Excel.run({ delayForCellEdit: true }, async (context) => {
      const { worksheets } = context.workbook;
      worksheets.load("items/name");
      await context.sync();
      const name = freeSheetName(sizeSheet.name, worksheets.items.map((sheet) => sheet.name));
      const sheet = worksheets.add(name);
      const all = sheet.getRangeByIndexes(0, 0, rows, COLUMNS);
      // One text for all cells of a range, which Excel takes and its type declaration does not know. Before the formulas, for Excel
      // gives a cell without a format the format of the cells that its formula reads.
      for (const { address, format } of planned.numberFormats) sheet.getRange(address).numberFormat = format as unknown as string[][];
      all.formulas = planned.cells.map((row) => [...row]);
      for (const address of planned.headings) {
        sheet.getRange(address).format.font.bold = true;
        if (address.includes(":")) sheet.getRange(address).format.fill.color = GROUND.heading;
      }
      for (const address of planned.inputs) sheet.getRange(address).format.fill.color = GROUND.input;
      sheet.getRange("A:A").format.columnWidth = WIDTHS.label;
      sheet.getRange("B:F").format.columnWidth = WIDTHS.figure;
      sheet.activate();
      sheet.getRange("A1").select();
      await context.sync();
      return name;
    });
  } catch (error) {
    if (excelErrorCode(error) !== "") throw new WorkbookProblem(size.put.refused);
    throw error;
  }
}

/** The name, or the name with the first free number; Excel does not tell upper from lower case. */
export function freeSheetName(wanted: string, taken: readonly string[]): string {
  const lower = new Set(taken.map((name) => name.toLowerCase()));
  for (let number = 1; ; number += 1) {
    const name = number === 1 ? wanted : `${wanted} ${number}`;
    if (!lower.has(name.toLowerCase())) return name;
  }
}
