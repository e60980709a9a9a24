import { GRID_COLUMNS } from "../address";
import type { NewSheet } from "../new-book-model";
import { USUAL_WIDTH } from "../sheet-writer";
import { type StoredRow, walkSheet } from "../sheet-walk";
import { applyEdits, attribute, type Edit, isSpreadsheet, tagStart, walkXml, withAttribute } from "../xml";
import { PartElements } from "./part-elements";

interface ColumnEntry {
  readonly from: number;
  readonly to: number;
  readonly tag: string;
}

/** A worksheet part with other widths of columns, and other columns hidden. What it says of them besides, such as a look or a group, stays. */
export function mergeColumns(xml: string, part: string, before: NewSheet, now: NewSheet): string {
  const hidden = ({ hiddenColumns }: NewSheet, column: number) => hiddenColumns?.includes(column + 1) === true;
  const width = ({ columnWidths }: NewSheet, column: number) => columnWidths?.[column] ?? 0;
  const count = Math.max(before.columnWidths?.length ?? 0, now.columnWidths?.length ?? 0, ...(before.hiddenColumns ?? []), ...(now.hiddenColumns ?? []));
  const changed = Array.from({ length: count }, (_column, i) => i).filter((i) => width(before, i) !== width(now, i) || hidden(before, i) !== hidden(now, i));
  if (changed.length === 0) return xml;
  const elements = new PartElements(xml, part);
  let entries = columnEntries(xml, part);
  for (const column of changed) {
    const at = entries.find(({ from, to }) => from <= column && to >= column);
    const sized = width(now, column) === width(before, column) ? {} : width(now, column) > 0 ? { width: String(width(now, column)), customWidth: "1" } : { width: undefined, customWidth: undefined };
    const attributes = { ...sized, ...(hidden(now, column) === hidden(before, column) ? {} : { hidden: hidden(now, column) ? "1" : undefined }) };
    let tag = Object.entries(attributes).reduce((text, [name, value]) => withAttribute(text, name, value), at?.tag ?? `<${elements.prefix}col/>`);
    // Where a column says no width, programs take none for it.
    if (!/\swidth\s*=/.test(tag) && /\s(?:hidden|style)\s*=/.test(tag)) tag = withAttribute(tag, "width", String(USUAL_WIDTH));
    const says = /\s(?!min|max)[\w]+\s*=/.test(tag);
    const rest = at ? [{ ...at, to: column - 1 }, { ...at, from: column + 1 }].filter(({ from, to }) => from <= to) : [];
    entries = [...entries.filter((entry) => entry !== at), ...rest, ...(says ? [{ from: column, to: column, tag }] : [])];
  }
  const written = entries.sort((a, b) => a.from - b.from).map(({ from, tag, to }) => withAttribute(withAttribute(tag, "min", String(from + 1)), "max", String(to + 1)));
  elements.put("cols", written.length === 0 ? "" : `<${elements.prefix}cols>${written.join("")}</${elements.prefix}cols>`);
  return elements.text();
}

function columnEntries(xml: string, part: string): ColumnEntry[] {
  const entries: ColumnEntry[] = [];
  walkXml(xml, part, {
    open(tag, end) {
      if (!isSpreadsheet(tag) || tag.local !== "col") return;
      const text = xml.slice(tagStart(xml, end), end);
      entries.push({ from: Number(attribute(tag, "min")) - 1, to: Math.min(Number(attribute(tag, "max")), GRID_COLUMNS) - 1, tag: tag.isSelfClosing ? text : text.replace(/\s*>$/, "/>") });
    },
  });
  return entries;
}

/** A worksheet part with other heights of rows, and other rows hidden. */
export function mergeRows(xml: string, part: string, before: NewSheet, now: NewSheet): string {
  const changes = new Map<number, Record<string, string | undefined>>();
  const put = (row: number, attributes: Record<string, string | undefined>) => changes.set(row, { ...changes.get(row), ...attributes });
  for (const row of new Set([...(before.rowHeights?.keys() ?? []), ...(now.rowHeights?.keys() ?? [])])) {
    const height = now.rowHeights?.get(row);
    if (height !== before.rowHeights?.get(row)) put(row, height === undefined ? { ht: undefined, customHeight: undefined } : { ht: String(height), customHeight: "1" });
  }
  for (const row of new Set([...(before.hiddenRows ?? []), ...(now.hiddenRows ?? [])])) {
    const hides = now.hiddenRows?.includes(row) === true;
    if (hides !== (before.hiddenRows?.includes(row) === true)) put(row, { hidden: hides ? "1" : undefined });
  }
  const rows: StoredRow[] = [];
  let data: { start: number; end: number; tagEnd: number; prefix: string } | undefined;
  walkSheet(xml, part, { places: true, row: (row) => rows.push(row), data: (found) => (data = found) });
  if (!data) return xml;
  const edits: Edit[] = [];
  const added: { row: number; text: string }[] = [];
  const withAll = (tag: string, attributes: Record<string, string | undefined>) => Object.entries(attributes).reduce((text, [name, value]) => withAttribute(text, name, value), tag);
  for (const [row, attributes] of [...changes].sort(([a], [b]) => a - b)) {
    const stored = rows.find((one) => one.row === row - 1);
    if (stored) edits.push({ start: stored.start, end: stored.tagEnd, text: withAll(xml.slice(stored.start, stored.tagEnd), attributes) });
    else if (Object.values(attributes).some((value) => value !== undefined)) added.push({ row, text: withAll(`<${data.prefix}row r="${row}"/>`, attributes) });
  }
  if (data.tagEnd === data.end && added.length > 0) edits.push({ start: data.start, end: data.end, text: `${xml.slice(data.start, data.tagEnd).replace(/\s*\/>$/, ">")}${added.map(({ text }) => text).join("")}</${data.prefix}sheetData>` });
  else for (const { row, text } of added) {
    const at = rows.find((one) => one.row > row - 1)?.start ?? tagStart(xml, data.end);
    edits.push({ start: at, end: at, text });
  }
  return applyEdits(xml, edits);
}
