import fs from "node:fs";
import path from "node:path";
import { type Merged, mergeBook, type ToMerge } from "../../src/files/merge/merge-book";
import type { PlacedBook } from "../../src/files/merge/placed-book";
import type { NewBook } from "../../src/files/new-book-model";
import { readWorkbook } from "../../src/files/read-workbook";
import { asWritten } from "./whole-book";
import { type ZipEntry, zipEntries } from "./zip-bytes";

/** Workbooks of many writers, see written/README.md. */
const FOLDER = path.join(__dirname, "written");
export const FILES = fs.readdirSync(FOLDER).filter((name) => name.endsWith(".xlsx"));
export const bytesOf = (name: string) => new Uint8Array(fs.readFileSync(path.join(FOLDER, name)));

export type Change = (book: NewBook, ids: string[]) => void;

/** A file as the grid takes it in. */
async function placed(original: Uint8Array): Promise<PlacedBook> {
  const book = asWritten(await readWorkbook(original));
  return { ids: book.sheets.map((_sheet, i) => `sheet${i + 1}`), book };
}

/** The file, changed as the grid changes it. */
export async function tryMerge(original: Uint8Array, change: Change, shifted: ToMerge["shifted"] = new Set()): Promise<Merged> {
  const before = await placed(original);
  const { book, ids } = before;
  const now = { ids: [...ids], book: { ...book, names: [...book.names], xmlParts: [...(book.xmlParts ?? [])], sheets: book.sheets.map((sheet) => ({ ...sheet, cells: new Map(sheet.cells) })) } };
  change(now.book, now.ids);
  return mergeBook({ original, before, now, shifted });
}

export async function merge(original: Uint8Array, change: Change, shifted?: ToMerge["shifted"]): Promise<Uint8Array> {
  const { file, reason } = await tryMerge(original, change, shifted);
  if (!file) throw new Error(`The change could not be merged: ${reason}`);
  return file;
}

/** Names of the parts that differ, that are gone, and that came. */
export function differingParts(before: Uint8Array, after: Uint8Array): string[] {
  const [old, now] = [before, after].map((file) => new Map(zipEntries(file).map((entry) => [entry.name, entry]))) as [Map<string, ZipEntry>, Map<string, ZipEntry>];
  return [...new Set([...old.keys(), ...now.keys()])].filter((name) => old.get(name)?.crc !== now.get(name)?.crc || !old.get(name)?.packed.equals(now.get(name)?.packed ?? Buffer.alloc(0))).sort();
}
