import { Problem } from "../science/problem";
import { files } from "../words/files";
import { type CellRange, cellAddress, rangeAddress, readRange } from "./address";
import type { NewSheet, NewTable } from "./new-book-model";
import { encodeText, escapeXml } from "./xml";

const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";

/** Writes the part of one table. Throws a Problem when a heading cell is not a text of its own. */
export function writeTable(sheet: NewSheet, table: NewTable, id: number): string {
  const range = readRange(table.ref);
  if (!range) throw new RangeError(`"${table.ref}" is not a range.`);
  const { hasHeadings = true, hasTotals = false } = table;
  const headings = hasHeadings ? headingsOf(sheet, table, range) : Array.from({ length: range.endColumn - range.startColumn + 1 }, (_, i) => table.columns?.[i] ?? `Column${i + 1}`);
  const name = escapeXml(table.name);
  const filtered = rangeAddress({ ...range, endRow: range.endRow - (hasTotals ? 1 : 0) });
  return [
    '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n',
    `<table xmlns="${MAIN}" id="${id}" name="${name}" displayName="${name}" ref="${table.ref}"${hasHeadings ? "" : ' headerRowCount="0"'}${hasTotals ? ' totalsRowCount="1"' : ' totalsRowShown="0"'}>`,
    hasHeadings ? `<autoFilter ref="${filtered}"/>` : "",
    `<tableColumns count="${headings.length}">${headings.map((text, i) => `<tableColumn id="${i + 1}" name="${encodeText(text).replace(/\n/g, "_x000a_")}"/>`).join("")}</tableColumns>`,
    `<tableStyleInfo name="${escapeXml(table.style ?? "TableStyleLight1")}" showFirstColumn="0" showLastColumn="0" showRowStripes="${table.bandedRows === false ? 0 : 1}" showColumnStripes="0"/>`,
    "</table>",
  ].join("");
}

/** The texts of a table's heading cells. Throws a Problem when one is not a text of its own. */
export function headingsOf(sheet: NewSheet, table: NewTable, range: CellRange): string[] {
  const seen = new Set<string>();
  return Array.from({ length: range.endColumn - range.startColumn + 1 }, (_, i) => {
    const address = cellAddress(range.startRow, range.startColumn + i);
    const heading = sheet.cells.get(address);
    const text = heading?.formula === undefined ? heading?.value : undefined;
    if (typeof text !== "string" || text === "" || seen.has(text.toLowerCase())) throw new Problem("value", files.tableHeading(table.name, address));
    seen.add(text.toLowerCase());
    return text;
  });
}
