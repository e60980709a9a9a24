import { splitAddress } from "../functions/cell-address";
import { CellError } from "../functions/cell-error";
import { budgetView as words } from "../words/budget-view";
import { WorkbookProblem } from "./workbook-problem";

/** The values of a range, and where it stands: rows and columns of the sheet are counted from 1. */
export interface ReadRange {
  readonly sheet: string;
  readonly firstRow: number;
  readonly firstColumn: number;
  readonly cells: readonly (readonly unknown[])[];
}

const CELLS = /^\$?[A-Z]{1,3}\$?\d+(:\$?[A-Z]{1,3}\$?\d+)?$/i;
const COLUMNS = /^\$?[A-Z]{1,3}:\$?[A-Z]{1,3}$/i;
const NAME = /^[\p{L}_\\][\p{L}\p{N}_.\\]*$/u;
/** Table, Table[#All], Table[[What]:[Value]], Table[[#All],[Date]:[Notes]], Table[#All] of one column. */
const TABLE = /^([\p{L}_\\][\p{L}\p{N}_.\\]*)\[(.*)\]$/su;

/**
 * Asks for what a reference means, in a batch that is open.
 * @param ownSheet the sheet of the formula, for a reference that names none
 * @returns what takes the answer after the sync, null where the reference leads nowhere
 * @throws WorkbookProblem for a reference of a kind that is not read here (OFFSET, a spilled answer, another workbook)
 */
export function askForRange(context: Excel.RequestContext, text: string, ownSheet: string): () => ReadRange | null {
  const { sheet, cell } = splitAddress(text);
  const onSheet = (): Excel.Worksheet => context.workbook.worksheets.getItemOrNullObject(sheet === "" ? ownSheet : sheet);
  if (!text.includes("[") && CELLS.test(cell)) return asked([onSheet().getRange(cell)]);
  if (!text.includes("[") && COLUMNS.test(cell)) return asked([onSheet().getRange(cell).getUsedRangeOrNullObject(true)], true);
  const table = TABLE.exec(text);
  if (table) return askForTable(context, table[1] ?? "", table[2] ?? "", text);
  if (!NAME.test(text)) throw new WorkbookProblem(words.notRead(text));
  const { names, tables } = context.workbook;
  const ofSheet = context.workbook.worksheets.getItemOrNullObject(ownSheet).names.getItemOrNullObject(text).getRangeOrNullObject();
  // A word alone is a name or the body of a table; Excel lets no two be the same.
  return asked([ofSheet, names.getItemOrNullObject(text).getRangeOrNullObject(), tables.getItemOrNullObject(text).getDataBodyRange()]);
}

function askForTable(context: Excel.RequestContext, name: string, inside: string, text: string): () => ReadRange | null {
  const table = context.workbook.tables.getItemOrNullObject(name);
  const parts = inside.startsWith("[") ? inside.split(/(?<=\]),\s*(?=\[)/) : [`[${inside}]`];
  const all = /^\[#All\]$/i.test(parts[0] ?? "");
  const columns = all || /^\[#Data\]$/i.test(parts[0] ?? "") ? parts.slice(1) : parts;
  const [from, to = from] = (columns[0] ?? "").split(/(?<=\]):(?=\[)/).map((one) => one.slice(1, -1).replace(/'(.)/g, "$1"));
  if (columns.length > 1 || from?.startsWith("#") || to?.startsWith("#") || inside === "") throw new WorkbookProblem(words.notRead(text));
  const take = asked([all ? table.getRange() : table.getDataBodyRange()]);
  if (!from || !to) return take;
  const headings = asked([table.getHeaderRowRange()]);
  return () => {
    const [range, heads] = [take(), headings()];
    const place = (column: string): number => (heads?.cells[0] ?? []).findIndex((one) => String(one).toLowerCase() === column.toLowerCase());
    const [first, last] = [place(from), place(to)];
    if (!range || first < 0 || last < first) return null;
    return { ...range, firstColumn: range.firstColumn + first, cells: range.cells.map((row) => row.slice(first, last + 1)) };
  };
}

/** @param fromTop whole columns begin at row 1 and at the column that is written, whatever is filled in */
function asked(candidates: readonly Excel.Range[], fromTop = false): () => ReadRange | null {
  for (const range of candidates) range.load(["address", "rowIndex", "columnIndex", "values", "valueTypes"]);
  return () => {
    const range = candidates.find((one) => !one.isNullObject);
    if (!range) return null;
    const above = fromTop ? range.rowIndex : 0;
    const types = range.valueTypes;
    const cells = (range.values as unknown[][]).map((row, r) => row.map((value, c) => (types[r]?.[c] === Excel.RangeValueType.error ? new CellError(String(value), words.cellShows(String(value))) : value)));
    const blank = Array.from({ length: above }, () => (cells[0] ?? []).map(() => ""));
    return { sheet: splitAddress(range.address).sheet, firstRow: range.rowIndex - above + 1, firstColumn: range.columnIndex + 1, cells: [...blank, ...cells] };
  };
}
