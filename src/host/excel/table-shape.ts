import type { CellRange } from "../../files/address";
import type { TableState } from "./book-state";
import { invalidArgument, itemNotFound } from "./excel-error";
import { headingTexts } from "./heading-texts";
import { intersection, onSheet, readAnyRange, rowsOf } from "./range-geometry";
import { gridPlace } from "./range-target";
import type { LocalContext } from "./request-context";

/** The table with an id, as it stands now. Fails for one that is gone. */
export function tableState(local: LocalContext, id: string): TableState {
  const table = local.state().tables.find((one) => one.id === id);
  if (!table) throw itemNotFound("Table");
  return table;
}

export function changeTable(local: LocalContext, id: string, change: Partial<TableState>): void {
  tableState(local, id);
  local.changeState({ tables: local.port.state.current().tables.map((table) => (table.id === id ? { ...table, ...change } : table)) });
}

export function tableRange({ ref }: TableState): CellRange {
  const range = readAnyRange(ref);
  if (!range) throw itemNotFound("Table");
  return range;
}

export function headingRow(table: TableState): CellRange {
  const range = tableRange(table);
  if (!table.hasHeadings) throw itemNotFound("Table.getHeaderRowRange");
  return { ...range, endRow: range.startRow };
}

/** The rows between headings and totals: at least one, as in Excel. */
export function bodyRange(table: TableState): CellRange {
  const range = tableRange(table);
  const startRow = range.startRow + (table.hasHeadings ? 1 : 0);
  return { ...range, startRow, endRow: Math.max(startRow, range.endRow - (table.hasTotals ? 1 : 0)) };
}

export function columnNames(local: LocalContext, table: TableState): string[] {
  if (!table.hasHeadings) return [...table.columns];
  const { sheet, address } = gridPlace(local, { sheetId: table.sheetId, range: headingRow(table) });
  return headingTexts(local.port.read(sheet, address).values[0] ?? []);
}

/** Fails where another table stands: two tables share no cell. */
export function refuseOverlap(local: LocalContext, sheetId: string, range: CellRange, own: string | null, member: string): void {
  const other = local.state().tables.find((table) => table.id !== own && table.sheetId === sheetId && intersection(tableRange(table), range));
  if (other) throw invalidArgument(member, `the table ${other.name} stands there.`);
}

const NAME = /^[\p{L}_\\][\p{L}\p{N}_.\\]{0,254}$/u;

/** Fails for a name that Excel would not take, or that a table or a name of the workbook has. */
export function refuseName(local: LocalContext, name: string, own: string | null, member: string): void {
  if (!NAME.test(name) || /^[rc]$/i.test(name)) throw invalidArgument(member, `"${name}" begins with no letter, or has blanks or other signs in it.`);
  if (readAnyRange(name) || /^r\d*c\d*$/i.test(name)) throw invalidArgument(member, `"${name}" could be taken for a cell.`);
  const wanted = name.toLowerCase();
  const taken = local.state().tables.some((table) => table.id !== own && table.name.toLowerCase() === wanted) || local.port.names.list().some((one) => one.id !== own && one.sheetId === null && one.name.toLowerCase() === wanted);
  if (taken) throw invalidArgument(member, `there is a table or a name "${name}".`);
}

/** Whether no cell of the range holds anything; cells outside the sheet count as taken. */
export function isBlank(local: LocalContext, sheetId: string, range: CellRange): boolean {
  if (!onSheet(range) || rowsOf(range) === 0) return false;
  const { sheet, address } = gridPlace(local, { sheetId, range });
  return local.port.read(sheet, address).formulas.every((row) => row.every((cell) => cell === "" || cell === null));
}
