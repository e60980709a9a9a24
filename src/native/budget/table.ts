import { cellAddress } from "../../files/address";
import type { Draft, DraftCell } from "../draft";

/** The first row of figures of every table of an account. */
const TOP = 5;

/** Columns of days, which are shown as dates. */
const DATES: ReadonlySet<string> = new Set(["day", "from", "to"]);

/** A table on the sheet of an account: one beside the other, each with its headings, all rows known before any is filled. */
export class Table<Column extends string> {
  private readonly columns: readonly Column[];

  /** `headings`: by the names of the columns, in order. */
  constructor(private readonly draft: Draft, private readonly left: number, title: string, headings: Readonly<Record<Column, string>>, readonly rows: number) {
    this.columns = Object.keys(headings) as Column[];
    draft.put(TOP - 2, left, title, "heading");
    this.columns.forEach((column, place) => draft.put(TOP - 1, left + place, headings[column], "heading"));
  }

  /** The first column that is free behind the table, one left between. */
  get next(): number {
    return this.left + this.columns.length + 1;
  }

  put(row: number, column: Column, content: DraftCell["content"]): void {
    this.draft.put(TOP + row, this.left + this.columns.indexOf(column), content, DATES.has(column) ? "date" : column === "verdict" ? "wrapped" : "text");
  }

  formula(row: number, column: Column, formula: string): void {
    this.put(row, column, { formula });
  }

  cell(row: number, column: Column): string {
    return this.draft.address(TOP + row, this.left + this.columns.indexOf(column));
  }

  /** All rows of a column; of a table without rows, the blank cell where its first would be. */
  column(column: Column, from = 0, to = this.rows - 1): string {
    const place = this.left + this.columns.indexOf(column);
    return this.draft.range(TOP + from, place, TOP + Math.max(from, to), place);
  }

  /** "C6" of a cell, without its sheet. */
  place(row: number, column: Column): string {
    return cellAddress(TOP + row, this.left + this.columns.indexOf(column));
  }
}
