import type { Injector } from "@univerjs/core";
import { ISuperTableService } from "@univerjs/engine-formula";
import type { Book, BookSheet, BookTable } from "../../files/book";
import { readRange } from "./address";
import { sheetId } from "./snapshot";

/** Parts of a table that the engine takes from its first and last row, whatever stands there. */
const PARTS_BY_POSITION = /#\s*(All|Totals|Headers)\b/i;

/** Lets formulas name the tables of a book: Log[NO3], Log[[#This Row],[NO3]]. @param idOf gives the id of the sheet at a place in tab order */
export function registerTables(injector: Injector, unitId: string, book: Book, idOf: (index: number) => string = sheetId): void {
  const service = injector.get(ISuperTableService);
  const namesParts = book.sheets.some(({ cells }) => [...cells.values()].some(({ formula }) => formula !== undefined && PARTS_BY_POSITION.test(formula)));
  book.sheets.forEach((sheet: BookSheet, i) => {
    for (const table of sheet.tables ?? []) {
      // The engine counts the first row as headings and knows no totals: a table of another make is left unknown (#NAME?)
      // where a formula asks for such a part, rather than read from the wrong row.
      if (namesParts && (table.hasTotals || !table.hasHeadings)) continue;
      service.registerTable(unitId, table.name, tableForFormulas(table, idOf(i), table.columns));
    }
  });
}

/** A table as formulas know it: its columns by name, and its rows with the one of the headings. */
export function tableForFormulas({ ref, hasHeadings, hasTotals }: Pick<BookTable, "hasHeadings" | "hasTotals" | "ref">, sheet: string, columns: readonly string[]) {
  const range = readRange(ref);
  const dataWithHeadings = { ...range, startRow: range.startRow - (hasHeadings ? 0 : 1), endRow: range.endRow - (hasTotals ? 1 : 0) };
  return { sheetId: sheet, titleMap: new Map(columns.map((name, c) => [name, c])), range: dataWithHeadings };
}
