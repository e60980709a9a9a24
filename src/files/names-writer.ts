import { columnLetters, readRange, sheetReference } from "./address";
import { toStored } from "./formula-text";
import type { NewBook, NewName, NewSheet } from "./new-book-model";
import { encodeAttribute, encodeText } from "./xml";

/** The content of definedNames: the book's own names, and those by which Excel keeps what is printed. "" for none. */
export function definedNames(book: NewBook): string {
  const scope = (sheet: number | undefined) => (sheet === undefined ? "" : ` localSheetId="${sheet}"`);
  const own = book.names.map(({ name, ref, sheet }) => ({ name, scope: scope(sheet), ref: toStored(ref) }));
  const printed = book.sheets.flatMap((sheet, i) => printNames(sheet).map((name) => ({ ...name, scope: scope(i) })));
  // Excel keeps names in alphabetical order and some readers expect it.
  const sorted = [...own, ...printed].sort((a, b) => (a.name.toLowerCase() < b.name.toLowerCase() ? -1 : 1));
  return sorted.map(({ name, scope: where, ref }) => `<definedName name="${encodeAttribute(name)}"${where}>${encodeText(ref)}</definedName>`).join("");
}

/** The names by which Excel keeps what is printed of a sheet. */
export function printNames({ name, print }: NewSheet): NewName[] {
  const sheet = sheetReference(name);
  const area = print?.area === undefined ? undefined : absolute(print.area);
  const rows = print?.titleRows;
  return [
    ...(area === undefined ? [] : [{ name: "_xlnm.Print_Area", ref: `${sheet}!${area}` }]),
    ...(rows ? [{ name: "_xlnm.Print_Titles", ref: `${sheet}!$${rows.from}:$${rows.to}` }] : []),
  ];
}

/** "$A$1:$F$9", "$A:$C" or "$1:$3"; undefined for what is no range. */
export function absolute(range: string): string | undefined {
  const plain = range.replace(/\$/g, "").toUpperCase();
  const lines = /^([A-Z]{1,3}|\d+):([A-Z]{1,3}|\d+)$/.exec(plain);
  if (lines) return `$${lines[1]}:$${lines[2]}`;
  const read = readRange(plain);
  if (!read) return undefined;
  const corner = (row: number, column: number) => `$${columnLetters(column)}$${row + 1}`;
  const [from, to] = [corner(read.startRow, read.startColumn), corner(read.endRow, read.endColumn)];
  return from === to ? from : `${from}:${to}`;
}
