import { cellAddress, sheetReference } from "../files/address";
import { isBeyondLimits } from "./formula-limits";
import { NotWritable } from "./not-writable";
import { localised } from "./references";

export type DraftLook = "title" | "heading" | "text" | "quiet" | "date" | "wrapped";

/** A cell of a sheet that comes with the copy. A formula is without its "=", in the form that every spreadsheet program knows. */
export interface DraftCell {
  readonly content: number | string | { readonly formula: string; readonly array?: string };
  readonly look: DraftLook;
}

export interface DraftLayout {
  /** First and last row of headings, counted from 1: they stand on every page. */
  readonly headings: readonly [number, number];
  /** How many columns from A are printed, on pages of their width; all of them where it is left out. */
  readonly columns?: number;
}

/** A sheet that is being written: the workings or the sources. */
export class Draft {
  readonly cells = new Map<string, DraftCell>();
  /** How many rows from the first are printed; all of them where it is null. */
  printedRows: number | null = null;
  private last = -1;

  /** `name`: free in the workbook; `widths`: of the columns from A, in characters; `layout`: which rows are headings, and what of it is printed. */
  constructor(readonly name: string, readonly widths: readonly number[], readonly layout: DraftLayout = { headings: [4, 4] }) {}

  /** The first row, counted from 0, below all that is written. */
  get nextRow(): number {
    return this.last + 1;
  }

  /** Puts a cell and gives its address for formulas on any sheet: "Workings!$D$5". Rows and columns count from 0. */
  put(row: number, column: number, content: DraftCell["content"], look: DraftLook = "text"): string {
    if (typeof content === "object" && isBeyondLimits(content.formula)) throw new NotWritable("tooLong");
    const own = typeof content === "object" ? { ...content, formula: localised(content.formula, this.name) } : content;
    if (content !== "") this.cells.set(cellAddress(row, column), { content: own, look });
    this.last = Math.max(this.last, row);
    return this.address(row, column);
  }

  putRow(row: number, contents: readonly DraftCell["content"][], look: DraftLook = "text"): void {
    contents.forEach((content, column) => this.put(row, column, content, look));
    this.last = Math.max(this.last, row);
  }

  address(row: number, column: number): string {
    return `${sheetReference(this.name)}!${dollars(row, column)}`;
  }

  /** "Workings!$D$5:$D$117" */
  range(row: number, column: number, endRow: number, endColumn: number): string {
    return `${this.address(row, column)}:${dollars(endRow, endColumn)}`;
  }
}

const dollars = (row: number, column: number): string => cellAddress(row, column).replace(/^([A-Z]+)(\d+)$/, "$$$1$$$2");
