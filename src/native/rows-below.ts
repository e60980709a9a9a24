import { GRID_ROWS, readCell, readRange, sheetReference } from "../files/address";
import type { Book } from "../files/book";
import type { GivenRange } from "./given";
import { absolute } from "./references";

/** How far down is looked: years of daily rows. The engine of the local page takes its time over all rows of a sheet. */
const ROWS = 5000;

/**
 * Conditions that nothing was written below a range, in its column of that place: a row that is added there is no part of the account.
 * What stands further down stays out, for it may read the account itself.
 */
export function nothingBelow({ text }: GivenRange, place: number, book: Book): string[] {
  const cut = text.lastIndexOf("!");
  const sheet = book.sheets.find(({ name }) => sheetReference(name) === text.slice(0, cut));
  const range = readRange(text.slice(cut + 1).replace(/\$/g, ""));
  if (!sheet || !range) return [];
  const column = range.startColumn + place;
  let end = Math.min(GRID_ROWS - 1, range.endRow + ROWS);
  for (const address of sheet.cells.keys()) {
    const cell = readCell(address);
    if (cell && cell.column === column && cell.row > range.endRow) end = Math.min(end, cell.row - 1);
  }
  for (const { spill } of sheet.cells.values()) {
    const filled = spill === undefined ? undefined : readRange(spill);
    if (filled && filled.startColumn <= column && filled.endColumn >= column && filled.endRow > range.endRow) end = Math.min(end, Math.max(filled.startRow, range.endRow + 1) - 1);
  }
  if (end <= range.endRow) return [];
  return [`COUNTA(${absolute({ sheet: sheet.name, range: { startRow: range.endRow + 1, endRow: end, startColumn: column, endColumn: column } })})=0`];
}
