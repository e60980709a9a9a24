import { excelErrorCode, WorkbookProblem } from "../workbook-problem";
import { handOver as words } from "../../words/hand-over";
import { callsAlgal } from "../formula-call";

/** Formulas of ours on one sheet. */
export interface OurFormulas {
  readonly sheet: string;
  readonly cells: number;
  /** Of these, the ones that show an error or are still being calculated. */
  readonly wrong: number;
}

/** Where the open workbook has ALGAL formulas. @throws WorkbookProblem when it cannot be read now */
export async function ourFormulas(): Promise<OurFormulas[]> {
  try {
    return await Excel.run({ delayForCellEdit: true }, async (context) => {
      const { worksheets } = context.workbook;
      worksheets.load("items/name");
      await context.sync();
      const used = worksheets.items.map((sheet) => ({ sheet: sheet.name, range: sheet.getUsedRangeOrNullObject(true).load("formulas, values") }));
      await context.sync();
      return used.flatMap(({ sheet, range }) => {
        if (range.isNullObject) return [];
        const values = range.values as unknown[][];
        const ours = (range.formulas as unknown[][]).flatMap((row, r) => row.flatMap((formula, c) => (callsAlgal(formula) ? [values[r]?.[c]] : [])));
        return ours.length === 0 ? [] : [{ sheet, cells: ours.length, wrong: ours.filter((value) => typeof value === "string" && /^#[A-Z]/.test(value)).length }];
      });
    });
  } catch (error) {
    if (excelErrorCode(error) !== "") throw new WorkbookProblem(words.refused);
    throw error;
  }
}
