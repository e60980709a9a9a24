import { cellAddress, readRange } from "../files/address";
import type { Book, BookSheet } from "../files/book";
import { maySpill } from "../files/may-spill";
import { type FormulaCall, outermostCalls } from "./formula-calls";
import type { GivenValue } from "./given";
import { literalIn } from "./given";
import { qualified, referenceIn } from "./references";

/** A sheet after calculation: what each cell shows, and the range of each answer that spilled. Errors come as objects with a code. */
export interface Calculated {
  readonly name: string;
  readonly values: ReadonlyMap<string, number | string | boolean | { readonly code: string }>;
  readonly spills: ReadonlyMap<string, string>;
}
export type Calculate = (book: Book) => Promise<readonly Calculated[]>;

/** What parts of formulas gave at the hand-over, by their text with every reference naming its sheet. */
export type ScratchValues = ReadonlyMap<string, GivenValue[][]>;

/** The formulas that have our functions, by sheet and address. */
export function* ourFormulas(book: Book): Generator<{ sheet: string; address: string; row: number; formula: string }> {
  for (const { name, cells } of book.sheets) {
    for (const [address, { formula }] of cells) {
      if (formula !== undefined && /ALGAL\./i.test(formula)) yield { sheet: name, address, row: Number(/\d+/.exec(address)?.[0] ?? 1) - 1, formula };
    }
  }
}

/** The parts whose values the translation has to know and no cell shows: arguments that are expressions, and calls whose answer has its own shape. */
function partsOf(book: Book, hasOwnShape: (name: string) => boolean): Set<string> {
  const parts = new Set<string>();
  const visit = (call: FormulaCall, sheet: string, row: number): void => {
    if (hasOwnShape(call.name)) parts.add(qualified(`ALGAL.${call.name}(${call.args.join(",")})`, sheet));
    for (const text of call.args) {
      if (text === "" || literalIn(text) || referenceIn(text, sheet, row, book)) continue;
      parts.add(qualified(text, sheet));
      for (const inner of outermostCalls(text)) visit(inner, sheet, row);
    }
  };
  for (const { sheet, row, formula } of ourFormulas(book)) for (const call of outermostCalls(formula)) visit(call, sheet, row);
  return parts;
}

/** Calculates those parts beside the workbook's own values. */
export async function scratchValues(book: Book, calculate: Calculate, hasOwnShape: (name: string) => boolean): Promise<ScratchValues> {
  const parts = [...partsOf(book, hasOwnShape)];
  if (parts.length === 0) return new Map();
  const taken = new Set(book.sheets.map(({ name }) => name.toLowerCase()));
  const free = (wanted: string): string => {
    let name = wanted;
    for (let i = 2; taken.has(name.toLowerCase()); i += 1) name = `${wanted}${i}`;
    taken.add(name.toLowerCase());
    return name;
  };
  const places = new Map<string, { sheet: string; address: string }>();
  const single: BookSheet = { name: free("Parts"), cells: new Map() };
  const sheets: BookSheet[] = [single];
  for (const text of parts) {
    // What may fill a range gets a sheet of its own.
    const sheet = maySpill(text) || text.includes(":") ? { name: free("Part"), cells: new Map() } : single;
    if (sheet !== single) sheets.push(sheet);
    const address = sheet === single ? `A${single.cells.size + 1}` : "A1";
    sheet.cells.set(address, { value: null, formula: text });
    if (sheet !== single) sheet.cells.set("IV200000", { value: null });
    places.set(text, { sheet: sheet.name, address });
  }
  const calculated = new Map((await calculate({ ...book, sheets: [...valuesOnly(book), ...sheets] })).map((sheet) => [sheet.name, sheet]));
  return new Map([...places].map(([text, { sheet, address }]) => [text, answerAt(calculated.get(sheet), address)]));
}

/** The workbook with values in the place of its formulas. */
export const valuesOnly = (book: Book): BookSheet[] => book.sheets.map((sheet) => ({ ...sheet, cells: new Map([...sheet.cells].map(([address, { value }]) => [address, { value }])) }));

function answerAt(sheet: Calculated | undefined, address: string): GivenValue[][] {
  const range = readRange(sheet?.spills.get(address) ?? address);
  if (!sheet || !range) return [[null]];
  return Array.from({ length: range.endRow - range.startRow + 1 }, (_, r) =>
    Array.from({ length: range.endColumn - range.startColumn + 1 }, (_unused, c) => {
      const value = sheet.values.get(cellAddress(range.startRow + r, range.startColumn + c)) ?? null;
      return value !== null && typeof value === "object" ? value.code : value;
    }),
  );
}
