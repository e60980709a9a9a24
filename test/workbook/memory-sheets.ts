import { type CellRange, rangeAddress, readRange } from "../../src/host/engine/address";
import type { GridSheet, GridSheets, GridStyle } from "../../src/host/grid-port";

export interface MemoryCell {
  value: unknown;
  formula?: string;
}

/** A sheet of the grid in memory; cells, formats and styles by A1 address. */
export interface MemorySheet {
  readonly id: string;
  name: string;
  visible: boolean;
  frozenRows: number;
  readonly cells: Map<string, MemoryCell>;
  readonly numberFormats: Map<string, string>;
  readonly styles: Map<string, Partial<GridStyle>>;
  /** Pixels, by column. */
  readonly widths: Map<number, number>;
  readonly heights: Map<number, number>;
}

const SIZE = { rows: 1000, columns: 26 };

export class MemorySheets implements GridSheets {
  private readonly sheets: MemorySheet[] = [];
  private made = 0;

  constructor(names: readonly string[], private readonly changed: () => void) {
    for (const name of names) this.make(name);
  }

  /** @throws for a sheet that is not there */
  byName(name: string): MemorySheet {
    const sheet = this.sheets.find((one) => one.name === name);
    if (!sheet) throw new RangeError(`no sheet ${name}`);
    return sheet;
  }

  list(): GridSheet[] {
    return this.sheets.map(({ id, name, visible }) => ({ id, name, visible }));
  }

  add(name: string): string {
    const { id } = this.make(name);
    this.changed();
    return id;
  }

  rename(id: string, name: string): void {
    this.byId(id).name = name;
    this.changed();
  }

  remove(id: string): void {
    this.sheets.splice(this.sheets.indexOf(this.byId(id)), 1);
    this.changed();
  }

  move(id: string, position: number): void {
    const sheet = this.byId(id);
    this.sheets.splice(this.sheets.indexOf(sheet), 1);
    this.sheets.splice(position, 0, sheet);
  }

  setVisible(id: string, visible: boolean): void {
    this.byId(id).visible = visible;
  }

  size(): { rows: number; columns: number } {
    return SIZE;
  }

  used(sheet: string, valuesOnly: boolean): string | null {
    const { cells, numberFormats, styles } = this.byName(sheet);
    const filled = [...cells].filter(([, { formula, value }]) => formula !== undefined || (value !== "" && value !== null && value !== undefined)).map(([address]) => address);
    const ranges = [...filled, ...(valuesOnly ? [] : [...numberFormats.keys(), ...styles.keys()])].map(readRange);
    return ranges.length === 0 ? null : rangeAddress(ranges.reduce(around));
  }

  frozenRows(sheet: string): number {
    return this.byName(sheet).frozenRows;
  }

  freezeRows(sheet: string, rows: number): void {
    this.byName(sheet).frozenRows = rows;
  }

  private byId(id: string): MemorySheet {
    const sheet = this.sheets.find((one) => one.id === id);
    if (!sheet) throw new RangeError(`no sheet with the id ${id}`);
    return sheet;
  }

  private make(name: string): MemorySheet {
    this.made += 1;
    const sheet = { id: `id${this.made}`, name, visible: true, frozenRows: 0, cells: new Map(), numberFormats: new Map(), styles: new Map(), widths: new Map(), heights: new Map() };
    this.sheets.push(sheet);
    return sheet;
  }
}

function around(a: CellRange, b: CellRange): CellRange {
  return {
    startRow: Math.min(a.startRow, b.startRow),
    startColumn: Math.min(a.startColumn, b.startColumn),
    endRow: Math.max(a.endRow, b.endRow),
    endColumn: Math.max(a.endColumn, b.endColumn),
  };
}
