import { contains, readCell, readRange } from "../../files/address";
import type { Book, BookSheet } from "../../files/book";
import { type FormulaToken, formulaTokens } from "../../files/formula-tokens";
import { absolute, referenceIn } from "../../native/references";

/**
 * A book whose formulas name the cells of a table by their addresses. The engine does not read a column's name with parentheses in it,
 * as "Feed (g)" has, nor a column of the formula's own row without the table's name. What names no table that is there stays as it is.
 */
export function withoutTableReferences(book: Book): Book {
  if (!book.sheets.some(({ tables }) => (tables?.length ?? 0) > 0)) return book;
  return {
    ...book,
    sheets: book.sheets.map((sheet) => {
      const changed = [...sheet.cells].flatMap(([address, cell]) => {
        if (!cell.formula?.includes("[")) return [];
        const formula = inAddresses(cell.formula, sheet, address, book);
        return formula === cell.formula ? [] : [[address, { ...cell, formula }] as const];
      });
      return changed.length === 0 ? sheet : { ...sheet, cells: new Map([...sheet.cells, ...changed]) };
    }),
  };
}

function inAddresses(formula: string, sheet: BookSheet, address: string, book: Book): string {
  const place = readCell(address) ?? { row: 0, column: 0 };
  const own = sheet.tables?.find(({ ref }) => {
    const range = readRange(ref);
    return range !== undefined && contains(range, place.row, place.column);
  })?.name;
  const texts: string[] = [];
  formulaTokens(formula).forEach((token, at, tokens) => {
    const name = token.kind === "bracket" ? nameBefore(tokens, at) : undefined;
    const found = token.kind === "bracket" ? referenceIn(`${name ?? own ?? ""}${token.text}`, sheet.name, place.row, book) : null;
    if (found && name !== undefined) texts.pop();
    texts.push(found ? absolute(found) : token.text);
  });
  return texts.join("");
}

/** The table's name that a bracket belongs to. */
function nameBefore(tokens: readonly FormulaToken[], at: number): string | undefined {
  const before = tokens[at - 1];
  return before?.kind === "word" ? before.text : undefined;
}
