import { cellsOf, cellAddress, readRange } from "../../src/files/address";
import type { Book, BookCell } from "../../src/files/book";
import { writeBook } from "../../src/files/new-book";
import type { NewBook } from "../../src/files/new-book-model";
import { patchBook } from "../../src/files/patch-book";
import { readBook } from "../../src/files/read-book";
import { functionNames } from "../../src/cli/functions";
import { engineAtHand } from "../../src/cli/engine-later";
import { recalculate } from "../../src/cli/recalculate";
import type { Engine } from "../../src/host/engine/engine";
import { AGREEMENT, nativeCopy, type NativeCopy, ROUNDING } from "../../src/native/native-copy";
import { convert } from "../files/libreoffice";

/** A workbook as ours calculates it, and its copy with plain formulas. */
export interface Pair {
  readonly name: string;
  /** As a file that our functions can be calculated in. */
  readonly original: Uint8Array;
  readonly ours: Book;
  readonly copy: NativeCopy;
}

/** With every formula calculated by our engine. */
export async function calculated(file: Uint8Array, engine: Engine): Promise<Uint8Array> {
  return patchBook(file, (await recalculate(await readBook(file), engineAtHand(engine), functionNames)).results);
}

export async function pairOf(name: string, original: Uint8Array, engine: Engine): Promise<Pair> {
  const file = await calculated(original, engine);
  const copy = await nativeCopy(file, (book) => (engine.open(book), engine.calculate()), { title: `${name}.xlsx`, day: "2026-01-31" });
  return { name, original, ours: await readBook(file), copy };
}

/** Workbooks of one run of LibreOffice: somewhere above two hundred it ends without a word. */
const AT_ONCE = 100;

/** Workbooks as LibreOffice calculates them from their formulas, whatever values are stored. */
export async function recalculatedByOffice(files: Readonly<Record<string, Uint8Array>>): Promise<Map<string, Book>> {
  const named = Object.entries(files).map(([name, file]) => [`${name}.xlsx`, file] as const);
  const back: Record<string, Buffer> = {};
  for (let from = 0; from < named.length; from += AT_ONCE) Object.assign(back, convert(Object.fromEntries(named.slice(from, from + AT_ONCE)), "xlsx", undefined, true));
  return new Map(await Promise.all(Object.keys(files).map(async (name) => [name, await readBook(back[`${name}.xlsx`] as Buffer)] as const)));
}

export interface Comparison {
  /** Cells with a plain formula. */
  translated: number;
  /** Of these, cells that are in error where ours is none. */
  refused: string[];
  /** Cells that show another value: "Log!B4: 2 (ours 3) =A1*2". */
  wrong: string[];
}

export const FORBIDDEN = /ALGAL|_xldudf|_xlfn|_xlpm|\b(?:LET|LAMBDA)\(/i;
const ERROR = /^#[A-Z]/;

/** Holds each cell of ours that has a plain formula in the copy against what another program made of it. */
export function compared(ours: Book, copy: Book, theirs: Book): Comparison {
  const comparison: Comparison = { translated: 0, refused: [], wrong: [] };
  for (const { sheet, address } of ourCells(ours)) {
    const formula = cellOf(copy, sheet, address)?.formula;
    if (formula === undefined) continue;
    comparison.translated += 1;
    const [mine, other] = [cellOf(ours, sheet, address)?.value ?? "", cellOf(theirs, sheet, address)?.value ?? ""];
    if (same(mine, other)) continue;
    const line = `${sheet}!${address}: ${String(other)} (ours ${String(mine)}) =${formula}`;
    // A blank where ours refuses tells no number either: of two faults ours names the first, and the formula asks for blanks before the rest.
    const tellsNothing = typeof other === "string" && (ERROR.test(other) || (other === "" && ERROR.test(String(mine))));
    if (tellsNothing) comparison.refused.push(line);
    else comparison.wrong.push(line);
  }
  return comparison;
}

function same(mine: unknown, other: unknown): boolean {
  if (typeof mine === "number" && typeof other === "number") return Math.abs(mine - other) <= Math.max(ROUNDING, AGREEMENT * Math.max(Math.abs(mine), Math.abs(other)));
  return mine === other || (typeof mine === "string" && typeof other === "string" && ERROR.test(mine) && ERROR.test(other));
}

/** The cells of our formulas and those that they spill over. */
export function* ourCells(book: Book): Generator<{ sheet: string; address: string }> {
  for (const { name: sheet, cells } of book.sheets) {
    for (const [address, { formula, spill }] of cells) {
      if (formula === undefined || !/ALGAL\./i.test(formula)) continue;
      const range = readRange(spill ?? address);
      if (range) for (const { row, column } of cellsOf(range)) yield { sheet, address: cellAddress(row, column) };
    }
  }
}

export const cellOf = (book: Book, sheet: string, address: string): BookCell | undefined => book.sheets.find(({ name }) => name === sheet)?.cells.get(address);

/** A workbook in which some cells hold something else. */
export async function edited(file: Uint8Array, changes: readonly { readonly sheet: string; readonly address: string; readonly value: number | string }[]): Promise<Uint8Array> {
  const book = await readBook(file);
  for (const { sheet, address, value } of changes) book.sheets.find(({ name }) => name === sheet)?.cells.set(address, { value });
  return writeBook(book as NewBook);
}
