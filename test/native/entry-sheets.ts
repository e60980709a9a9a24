import { cellAddress, rangeAddress, sheetReference } from "../../src/files/address";
import type { NewBook, NewCell, NewSheet } from "../../src/files/new-book-model";
import type { Kind } from "./function-arguments";

export type Value = number | string | null;

/** A typed figure, and what other figure may stand there. */
export interface Entry {
  readonly sheet: string;
  readonly address: string;
  readonly kind: Extract<Kind, { kind: "number" | "reading" }>;
  readonly value: number;
  /** The largest that the entry may become, where its kind does not say. */
  readonly most: number;
}

/** The sheets of a generated workbook while it is filled. */
export class EntrySheets {
  readonly entries: Entry[] = [];
  readonly names: NewBook["names"] = [];
  private readonly cells = new Map<string, NewCell>();
  private nextRow = 1;

  constructor(readonly name: string) {
    this.cells.set("A1", { value: "Entries, all invented" });
  }

  /** Puts values below all others, in column B, one below the other; gives their range, or their cell where it is one. */
  put(values: readonly Value[], noted?: (value: number) => Omit<Entry, "sheet" | "address" | "value">): { text: string; addresses: string[] } {
    const first = this.nextRow;
    const addresses = values.map((value, at) => {
      const address = cellAddress(first + at, 1);
      if (value !== null) this.cells.set(address, { value });
      if (noted && typeof value === "number") this.entries.push({ sheet: this.name, address, value, ...noted(value) });
      return address;
    });
    this.nextRow += values.length + 1;
    return { text: `${sheetReference(this.name)}!${rangeAddress({ startRow: first, startColumn: 1, endRow: first + values.length - 1, endColumn: 1 })}`, addresses };
  }

  /** A name of the workbook for a reference. */
  named(text: string): string {
    const name = `entry_${this.names.length + 1}`;
    this.names.push({ name, ref: text.replace(/([A-Z]+)(\d+)(?=$|:)/g, "$$$1$$$2") });
    return name;
  }

  get sheet(): NewSheet {
    return { name: this.name, cells: this.cells };
  }
}

/** A sheet whose rows are these, from A1 on. */
export function sheetOfRows(name: string, rows: readonly (readonly unknown[])[]): NewSheet {
  const cells = new Map<string, NewCell>();
  rows.forEach((row, r) => row.forEach((value, c) => {
    if (typeof value === "number" || (typeof value === "string" && value !== "")) cells.set(cellAddress(r, c), { value });
  }));
  return { name, cells };
}
