import { contains, readCell, readRange } from "./address";
import type { BookTable } from "./book";
import { attribute, decodeText, isSpreadsheet, walkXml } from "./xml";

/** The name of the table in which a cell stands. */
export function tableAt(tables: readonly { readonly name: string; readonly ref: string }[] | undefined, address: string): string | undefined {
  const place = tables && tables.length > 0 ? readCell(address) : undefined;
  return place && tables?.find(({ ref }) => {
    const range = readRange(ref);
    return range !== undefined && contains(range, place.row, place.column);
  })?.name;
}

/** Reads the part of one table; undefined when it has no range. */
export function readTablePart(xml: string, part: string): BookTable | undefined {
  let table: BookTable | undefined;
  walkXml(xml, part, {
    open(tag) {
      if (!isSpreadsheet(tag)) return;
      const ref = attribute(tag, "ref");
      if (tag.local === "table" && ref !== undefined) {
        table = {
          name: decodeText(attribute(tag, "displayName") ?? attribute(tag, "name") ?? ""),
          ref,
          columns: [],
          hasHeadings: attribute(tag, "headerRowCount") !== "0",
          hasTotals: Number(attribute(tag, "totalsRowCount") ?? 0) > 0,
        };
      } else if (tag.local === "tableColumn") table?.columns.push(decodeText(attribute(tag, "name") ?? ""));
      else if (tag.local === "tableStyleInfo" && table) {
        const style = attribute(tag, "name");
        if (style !== undefined) table.style = decodeText(style);
      }
    },
  });
  return table;
}
