import { splitAddress } from "../functions/cell-address";
import { workbook as words } from "../words/workbook";
import { callsAlgal } from "./formula-call";
import { excelErrorCode, WorkbookProblem } from "./workbook-problem";

/** A problem with its places: the cell that shows the error, and the cell that holds the formula ("Log!B7"). */
export interface PlacedProblem {
  readonly address: string;
  readonly origin: string;
}

/** Excel refuses a batch while a cell is being typed in; with this it waits for the end of the typing. */
const WHEN_TYPING_ENDS: Excel.RunOptions = { delayForCellEdit: true };

/**
 * Brings the cell's sheet to the front and selects the cell.
 * @throws WorkbookProblem when the sheet is gone, or Excel cannot show the cell
 */
export async function showCell(address: string): Promise<void> {
  const { sheet, cell } = splitAddress(address);
  try {
    await Excel.run(WHEN_TYPING_ENDS, async (context) => {
      const { worksheets } = context.workbook;
      const worksheet = sheet === "" ? worksheets.getActiveWorksheet() : worksheets.getItem(sheet);
      worksheet.activate();
      worksheet.getRange(cell).select();
      await context.sync();
    });
  } catch (error) {
    throw new WorkbookProblem(excelErrorCode(error) === "ItemNotFound" ? words.sheetGone(sheet) : words.cellNotShown(address));
  }
}

/**
 * Those of the problems whose cell still shows an error and whose formula still calls ALGAL. One load, one sync: the cells of a
 * thousand problems cost one question to Excel. Problems on a sheet that is gone are left out.
 */
export async function stillWrong<Problem extends PlacedProblem>(problems: readonly Problem[]): Promise<Problem[]> {
  if (problems.length === 0) return [];
  return Excel.run(WHEN_TYPING_ENDS, async (context) => {
    const ask = rangeOnce(context);
    const cells = problems.map((problem) => ({ problem, shown: ask(problem.address), formula: ask(problem.origin) }));
    await context.sync();
    return cells.filter(({ shown, formula }) => showsError(shown) && callsOurs(formula)).map(({ problem }) => problem);
  });
}

/** Calls the listener after cells were changed or calculated, until the returned function is called. */
export async function watchCells(listener: () => void): Promise<() => Promise<void>> {
  const heard = async (): Promise<void> => listener();
  const handlers = await Excel.run(WHEN_TYPING_ENDS, async (context) => {
    const { worksheets } = context.workbook;
    const added = [worksheets.onChanged.add(heard), worksheets.onCalculated.add(heard)];
    await context.sync();
    return added;
  });
  return async () => {
    const [first] = handlers;
    if (!first) return;
    await Excel.run(first.context, async (context) => {
      for (const handler of handlers) handler.remove();
      await context.sync();
    });
  };
}

/** Asks for each cell once, however many problems name it. */
function rangeOnce(context: Excel.RequestContext): (address: string) => Excel.Range {
  const asked = new Map<string, Excel.Range>();
  return (address) => {
    const before = asked.get(address);
    if (before) return before;
    const { sheet, cell } = splitAddress(address);
    const range = context.workbook.worksheets.getItemOrNullObject(sheet).getRange(cell);
    range.load(["formulas", "valueTypes"]);
    asked.set(address, range);
    return range;
  };
}

function showsError(cell: Excel.Range): boolean {
  return !cell.isNullObject && cell.valueTypes[0]?.[0] === Excel.RangeValueType.error;
}

/** A name inside a text of the formula is not a call. */
const callsOurs = (cell: Excel.Range): boolean => !cell.isNullObject && callsAlgal(cell.formulas[0]?.[0]);
