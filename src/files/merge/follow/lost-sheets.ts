import type { NewBook, NewCell } from "../../new-book-model";
import { movedFormula, type SheetChanges } from "./moved-formula";

const LOST = "#REF!";

/**
 * The book with #REF! where a formula or a name stands for cells of a sheet that is not there, as Excel has it once a sheet is
 * deleted: a file that names such a sheet is one that Excel mends when it opens it.
 */
export function withoutLostSheets(book: NewBook): { readonly book: NewBook; readonly hasChanged: boolean } {
  const stand = new Set(book.sheets.map(({ name }) => name.toLowerCase()));
  const changes: SheetChanges = { moves: new Map(), names: new Map(), isGone: (name) => !stand.has(name) };
  let hasChanged = false;
  const without = (formula: string, own: string): string => {
    const after = formula.includes("!") ? movedFormula(formula, own, changes) : formula;
    hasChanged ||= after !== formula;
    return after;
  };
  const cellsOf = (name: string, cells: Map<string, NewCell>): Map<string, NewCell> => {
    const lost = [...cells].flatMap(([address, cell]) => {
      const formula = cell.formula === undefined ? undefined : without(cell.formula, name);
      // What it showed was that of a sheet that is gone.
      return formula === cell.formula ? [] : [[address, { ...cell, formula, value: LOST }] as const];
    });
    return lost.length > 0 ? new Map([...cells, ...lost]) : cells;
  };
  const sheets = book.sheets.map((sheet) => ({ ...sheet, cells: cellsOf(sheet.name, sheet.cells) }));
  const names = book.names.map((name) => ({ ...name, ref: without(name.ref, "") }));
  return { book: { ...book, sheets, names }, hasChanged };
}
