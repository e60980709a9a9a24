import { sheetReference } from "../../files/address";
import type { Book } from "../../files/book";
import { formulaTokens } from "../../files/formula-tokens";

/** A book whose sheets have names that the engine reads, and the names that they have in the file. */
export interface Named {
  readonly book: Book;
  readonly nameInFile: (name: string) => string;
}

/** The engine ends a sheet's name at the first exclamation mark, and finds no sheet of a reference such as 'Look here!'!A1. Such a sheet has another name there. */
export function withNamesForEngine(book: Book): Named {
  if (!book.sheets.some(({ name }) => name.includes("!"))) return { book, nameInFile: (name) => name };
  const taken = new Set(book.sheets.map(({ name }) => name.toLowerCase()));
  const others = new Map<string, string>();
  const inFile = new Map<string, string>();
  for (const { name } of book.sheets.filter((sheet) => sheet.name.includes("!"))) {
    let other = name.replace(/!/g, "_");
    while (taken.has(other.toLowerCase())) other += "_";
    taken.add(other.toLowerCase());
    others.set(name.toLowerCase(), other);
    inFile.set(other, name);
  }
  const renamed = (formula: string): string => (formula.includes("!") ? formulaTokens(formula).map(({ kind, text }) => (kind === "sheet" ? inQuotes(text, others) : text)).join("") : formula);
  return {
    book: {
      ...book,
      names: book.names.map(({ name, ref }) => ({ name, ref: renamed(ref) })),
      sheets: book.sheets.map((sheet) => ({
        ...sheet,
        name: others.get(sheet.name.toLowerCase()) ?? sheet.name,
        cells: new Map([...sheet.cells].map(([address, cell]) => [address, cell.formula?.includes("!") ? { ...cell, formula: renamed(cell.formula) } : cell])),
      })),
    },
    nameInFile: (name) => inFile.get(name) ?? name,
  };
}

function inQuotes(text: string, others: ReadonlyMap<string, string>): string {
  const other = others.get(text.slice(1, -1).replace(/''/g, "'").toLowerCase());
  return other === undefined ? text : sheetReference(other);
}
