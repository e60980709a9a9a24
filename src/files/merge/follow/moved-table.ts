import { readRange } from "../../address";
import { attribute, isSpreadsheet, walkXml } from "../../xml";
import { withElement } from "../../xml-parts";
import { CannotMerge } from "../cannot-merge";
import { COLUMNS, movedLine, movedList, movedRange, movedSpan, ROWS, type SheetMoves } from "./line-move";
import { withChangedElements } from "./element-edits";

/** The part of a table after the changes: with columns that came into it, without those that were taken out. One of which nothing is left stays as it was. */
export function movedTable(xml: string, part: string, moves: SheetMoves, moved: (formula: string) => string): string {
  let table: { ref: string; hasHeadings: boolean; totals: number } | undefined;
  const columns: { id: number; name: string }[] = [];
  walkXml(xml, part, {
    open(tag) {
      if (!isSpreadsheet(tag)) return;
      if (tag.local === "table") table = { ref: attribute(tag, "ref") ?? "", hasHeadings: attribute(tag, "headerRowCount") !== "0", totals: Number(attribute(tag, "totalsRowCount") ?? 0) };
      if (tag.local === "tableColumn") columns.push({ id: Number(attribute(tag, "id")), name: attribute(tag, "name") ?? "" });
    },
  });
  const range = readRange(table?.ref ?? "");
  const after = range && movedRange(range, moves);
  if (!table || !range || !after) return xml;
  if (table.hasHeadings && movedLine(range.startRow, ROWS, moves) === undefined) throw new CannotMerge("The headings of a table were deleted.");
  if (table.totals > 0 && movedLine(range.endRow, ROWS, moves) === undefined) throw new CannotMerge("The totals of a table were deleted.");
  if (!movedSpan(range.startRow + (table.hasHeadings ? 1 : 0), range.endRow - table.totals, ROWS, moves)) throw new CannotMerge("All rows of a table were deleted.");
  let column = -1;
  const changed = withChangedElements(xml, part, ({ around, tag, text }) => {
    if (!isSpreadsheet(tag)) return null;
    if (tag.local === "tableColumn") {
      column += 1;
      return movedLine(range.startColumn + column, COLUMNS, moves) === undefined ? { isGone: true } : null;
    }
    if (tag.local === "calculatedColumnFormula" || tag.local === "totalsRowFormula") return { text: moved(text) };
    if (tag.local === "filterColumn" && around[around.length - 1]?.local === "autoFilter") {
      const at = movedLine(range.startColumn + Number(attribute(tag, "colId")), COLUMNS, moves);
      return at === undefined ? { isGone: true } : { attributes: { colId: String(at - after.startColumn) } };
    }
    if (tag.local === "sortState" || tag.local === "sortCondition") {
      const ref = movedList(attribute(tag, "ref") ?? "", moves);
      return ref === "" ? { isGone: true } : { attributes: { ref } };
    }
    return tag.local === "table" || tag.local === "autoFilter" ? { attributes: { ref: movedList(attribute(tag, "ref") ?? "", moves) || undefined } } : null;
  });
  return moves.some(({ along }) => along === COLUMNS) ? withNewColumns(changed, part, columnsAfter(columns, range.startColumn, after.startColumn, after.endColumn, moves)) : changed;
}

/** For each column of the table, whether it was there, or the number and name of one that came in. */
function columnsAfter(columns: readonly { id: number; name: string }[], from: number, start: number, end: number, moves: SheetMoves): (string | null)[] {
  const stands = new Set(columns.map((_column, i) => movedLine(from + i, COLUMNS, moves)));
  const names = new Set(columns.map(({ name }) => name.toLowerCase()));
  let id = Math.max(0, ...columns.map((one) => one.id));
  return Array.from({ length: end - start + 1 }, (_column, i) => {
    if (stands.has(start + i)) return null;
    let number = 1;
    while (names.has(`column${number}`)) number += 1;
    names.add(`column${number}`);
    id += 1;
    return `tableColumn id="${id}" name="Column${number}"`;
  });
}

function withNewColumns(xml: string, part: string, columns: readonly (string | null)[]): string {
  const old = [...xml.matchAll(/<((?:[\w.-]+:)?)tableColumn\b(?:[^>]*\/>|[\s\S]*?<\/(?:[\w.-]+:)?tableColumn>)/g)].map(([text]) => text);
  const prefix = /^<([\w.-]+:)?/.exec(old[0] ?? "")?.[1] ?? "";
  const written = columns.map((column) => (column === null ? (old.shift() ?? "") : `<${prefix}${column}/>`)).join("");
  const emptied = withChangedElements(xml, part, ({ tag }) => (isSpreadsheet(tag) && tag.local === "tableColumn" ? { isGone: true } : isSpreadsheet(tag) && tag.local === "tableColumns" ? { attributes: { count: String(columns.length) } } : null));
  return withElement(emptied, part, () => written, (tag) => isSpreadsheet(tag) && tag.local === "tableColumns");
}
