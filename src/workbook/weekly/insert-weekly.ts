import { weekly as words } from "../../words/weekly";
import { freeSheetName } from "../put-sizing";
import { excelErrorCode, WorkbookProblem } from "../workbook-problem";
import { freeName, putSheets } from "./put-sheet";
import { WEEKLY_KEYS, weeklySheets, type WeeklyKey } from "./weekly-sheets";

/**
 * Adds the weekly sheets behind the others and shows the set-up. A sheet, a table or a name that stands is never replaced:
 * the new one takes the next free name, and its formulas follow.
 * @returns the names of the new sheets, the set-up first
 * @throws WorkbookProblem when Excel refuses, or it is stopped: then nothing is left of it
 */
export async function insertWeekly(signal?: AbortSignal): Promise<string[]> {
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
      await putSheets(context, planned, used, signal, async ([first]) => {
        first?.activate();
        first?.getRange("B5").select();
      });
      return planned.map((one) => one.name);
    });
  } catch (error) {
    if (excelErrorCode(error) !== "") throw new WorkbookProblem(words.insert.refused);
    throw error;
  }
}
