import { cellAddress, GRID_COLUMNS, readRange } from "./address";
import { type Span, type StoredCell, type StoredRow, walkSheet } from "./sheet-walk";
import { attribute, type Edit, flag, tagStart, withAttribute } from "./xml";

export interface InsertedCell {
  row: number;
  column: number;
  /** The whole element. */
  text: string;
}

/** Where every row and cell of a worksheet part stands in its text. */
export class GridIndex {
  /** Of the spreadsheet elements, with its colon, or "". */
  readonly prefix: string;
  private readonly cells = new Map<number, StoredCell>();
  private readonly rows: StoredRow[] = [];
  private readonly byRow = new Map<number, { row: StoredRow; cells: StoredCell[] }>();
  private readonly columns: { from: number; to: number; style: number }[] = [];
  private readonly data: (Span & { tagEnd: number }) | undefined;
  private readonly dimension: (Span & { ref: string }) | undefined;

  constructor(private readonly xml: string, part: string) {
    let current: StoredCell[] = [];
    let data: (Span & { tagEnd: number; prefix: string }) | undefined;
    let dimension: (Span & { ref: string }) | undefined;
    walkSheet(xml, part, {
      places: true,
      cell: (cell) => {
        this.cells.set(cell.row * GRID_COLUMNS + cell.column, cell);
        current.push(cell);
      },
      row: (row) => {
        this.rows.push(row);
        this.byRow.set(row.row, { row, cells: current });
        current = [];
      },
      data: (found) => (data = found),
      other: (tag, end) => {
        if (tag.local === "dimension") dimension = { start: tagStart(xml, end), end, ref: attribute(tag, "ref") ?? "" };
        if (tag.local === "col") {
          this.columns.push({ from: Number(attribute(tag, "min")) - 1, to: Number(attribute(tag, "max")) - 1, style: Number(attribute(tag, "style") ?? 0) });
        }
      },
    });
    this.data = data;
    this.dimension = dimension;
    this.prefix = data?.prefix ?? "";
  }

  cell(row: number, column: number): StoredCell | undefined {
    return this.cells.get(row * GRID_COLUMNS + column);
  }

  /** The cell format that an empty place has from its row or column. */
  styleAt(row: number, column: number): number {
    const tag = this.byRow.get(row)?.row.tag;
    if (tag && flag(tag, "customFormat")) return Number(attribute(tag, "s") ?? 0);
    return this.columns.find(({ from, to }) => column >= from && column <= to)?.style ?? 0;
  }

  /** The edits that put new cells in their places in the order of rows and columns, and widen what tells the used range. */
  insertions(inserted: readonly InsertedCell[]): Edit[] {
    if (inserted.length === 0 || !this.data) return [];
    const perRow = new Map<number, InsertedCell[]>();
    for (const cell of [...inserted].sort((a, b) => a.row - b.row || a.column - b.column)) {
      const list = perRow.get(cell.row);
      if (list) list.push(cell);
      else perRow.set(cell.row, [cell]);
    }
    const edits: Edit[] = [];
    const newRows: { row: number; text: string }[] = [];
    for (const [row, cells] of perRow) {
      const existing = this.byRow.get(row);
      if (existing) edits.push(...this.intoRow(existing.row, existing.cells, cells));
      else newRows.push({ row, text: `<${this.prefix}row r="${row + 1}">${cells.map((cell) => cell.text).join("")}</${this.prefix}row>` });
    }
    return [...edits, ...this.betweenRows(newRows), ...this.widened(inserted)];
  }

  private intoRow(row: StoredRow, cells: readonly StoredCell[], inserted: readonly InsertedCell[]): Edit[] {
    const tag = widenSpans(this.xml.slice(row.start, row.tagEnd), attribute(row.tag, "spans"), inserted);
    if (row.tag.isSelfClosing) {
      const text = `${tag.replace(/\s*\/>$/, ">")}${inserted.map((cell) => cell.text).join("")}</${row.prefix}row>`;
      return [{ start: row.start, end: row.end, text }];
    }
    const edits: Edit[] = [];
    if (tag !== this.xml.slice(row.start, row.tagEnd)) edits.push({ start: row.start, end: row.tagEnd, text: tag });
    const end = tagStart(this.xml, row.end);
    let next = 0;
    for (const cell of inserted) {
      while (next < cells.length && (cells[next]?.column ?? 0) < cell.column) next += 1;
      const at = cells[next]?.start ?? end;
      edits.push({ start: at, end: at, text: cell.text });
    }
    return edits;
  }

  private betweenRows(newRows: readonly { row: number; text: string }[]): Edit[] {
    const data = this.data;
    if (!data || newRows.length === 0) return [];
    if (data.tagEnd === data.end) {
      const tag = this.xml.slice(data.start, data.tagEnd).replace(/\s*\/>$/, ">");
      return [{ ...data, text: `${tag}${newRows.map(({ text }) => text).join("")}</${this.prefix}sheetData>` }];
    }
    const end = tagStart(this.xml, data.end);
    let next = 0;
    return newRows.map(({ row, text }) => {
      while (next < this.rows.length && (this.rows[next]?.row ?? 0) < row) next += 1;
      const at = this.rows[next]?.start ?? end;
      return { start: at, end: at, text };
    });
  }

  private widened(inserted: readonly InsertedCell[]): Edit[] {
    const used = this.dimension && readRange(this.dimension.ref);
    if (!this.dimension || !used) return [];
    const rows = inserted.map((cell) => cell.row);
    const columns = inserted.map((cell) => cell.column);
    const wide = {
      startRow: rows.reduce((a, b) => Math.min(a, b), used.startRow),
      startColumn: columns.reduce((a, b) => Math.min(a, b), used.startColumn),
      endRow: rows.reduce((a, b) => Math.max(a, b), used.endRow),
      endColumn: columns.reduce((a, b) => Math.max(a, b), used.endColumn),
    };
    const ref = `${cellAddress(wide.startRow, wide.startColumn)}:${cellAddress(wide.endRow, wide.endColumn)}`;
    const { start, end } = this.dimension;
    const same = wide.startRow === used.startRow && wide.startColumn === used.startColumn && wide.endRow === used.endRow && wide.endColumn === used.endColumn;
    return same ? [] : [{ start, end, text: withAttribute(this.xml.slice(start, end), "ref", ref) }];
  }
}

/** A row may say between which columns its cells stand ("1:4", counted from 1); new cells outside widen it. */
function widenSpans(tag: string, spans: string | undefined, inserted: readonly InsertedCell[]): string {
  const match = /^(\d+):(\d+)$/.exec(spans ?? "");
  if (!match) return tag;
  const from = Math.min(Number(match[1]), ...inserted.map((cell) => cell.column + 1));
  const to = Math.max(Number(match[2]), ...inserted.map((cell) => cell.column + 1));
  return from === Number(match[1]) && to === Number(match[2]) ? tag : withAttribute(tag, "spans", `${from}:${to}`);
}
