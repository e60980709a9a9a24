import { cellAddress, readRange } from "../../address";
import type { NewSheet, NewTable } from "../../new-book-model";
import type { ColumnNames } from "../../renamed-columns";
import type { PlacedBook } from "../placed-book";

/** What columns of tables are called now whose headings were typed over, by the table's name in small letters. @param before with what moved in its new place */
export function renamedHeadings(before: PlacedBook, now: PlacedBook): Map<string, ColumnNames> {
  const renamed = new Map<string, ColumnNames>();
  before.ids.forEach((id, i) => {
    const [was, is] = [before.book.sheets[i], now.book.sheets[now.ids.indexOf(id)]];
    for (const table of was?.tables ?? []) {
      const same = is?.tables?.find(({ name }) => name === table.name);
      if (!was || !is || !same || same.hasHeadings === false || table.hasHeadings === false) continue;
      const [old, headings] = [headingsIn(was, table), headingsIn(is, same)];
      if (old.length !== headings.length || readRange(table.ref)?.startColumn !== readRange(same.ref)?.startColumn) continue;
      const names = new Map(old.flatMap((heading, column) => (heading === "" || headings[column] === "" || heading === headings[column] ? [] : [[heading.toLowerCase(), headings[column] ?? ""] as const])));
      if (names.size > 0) renamed.set(table.name.toLowerCase(), names);
    }
  });
  return renamed;
}

function headingsIn({ cells }: NewSheet, { ref }: NewTable): string[] {
  const range = readRange(ref);
  if (!range) return [];
  return Array.from({ length: range.endColumn - range.startColumn + 1 }, (_heading, i) => {
    const value = cells.get(cellAddress(range.startRow, range.startColumn + i))?.value;
    return typeof value === "string" ? value : "";
  });
}
