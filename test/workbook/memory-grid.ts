import { cellAddress, rangeAddress, readRange } from "../../src/host/engine/address";
import type { GridPort, GridSelection } from "../../src/host/grid-port";

interface MemoryCell {
  value: unknown;
  formula?: string;
}

/** A grid in memory for the tests of workbook code: it keeps a diary of what was asked, and calculates nothing. */
export class MemoryGrid implements GridPort {
  /** "read Log!B2", "write Log!B2", "select Log!B2", in order. */
  readonly diary: string[] = [];
  private readonly sheets = new Map<string, Map<string, MemoryCell>>();
  private readonly changeListeners = new Set<() => void>();
  private readonly selectionListeners = new Set<() => void>();
  private selected: GridSelection;

  constructor(names: string[]) {
    for (const name of names) this.sheets.set(name, new Map());
    this.selected = { sheet: names[0] ?? "", address: "A1" };
  }

  /** Puts a cell down as a user would, with the value that its formula shows. */
  put(sheet: string, address: string, value: unknown, formula?: string): void {
    this.cells(sheet).set(address, { value, formula });
    this.changed();
  }

  empty(sheet: string, address: string): void {
    this.cells(sheet).delete(address);
    this.changed();
  }

  removeSheet(sheet: string): void {
    this.sheets.delete(sheet);
    this.changed();
  }

  get listenerCount(): number {
    return this.changeListeners.size;
  }

  sheetNames(): string[] {
    return [...this.sheets.keys()];
  }

  activeSheet(): string {
    return this.selected.sheet;
  }

  read(sheet: string, address: string): { values: unknown[][]; formulas: unknown[][] } {
    this.diary.push(`read ${sheet}!${address}`);
    const rows = cellsOf(address).map((row) => row.map((cell) => this.cells(sheet).get(cell)));
    return {
      values: rows.map((row) => row.map((cell) => cell?.value ?? "")),
      formulas: rows.map((row) => row.map((cell) => cell?.formula ?? cell?.value ?? "")),
    };
  }

  write(sheet: string, address: string, content: unknown[][]): void {
    this.diary.push(`write ${sheet}!${address}`);
    cellsOf(address).forEach((row, r) => row.forEach((cell, c) => this.cells(sheet).set(cell, { value: content[r]?.[c] })));
    this.changed();
  }

  select(sheet: string, address: string): void {
    this.diary.push(`select ${sheet}!${address}`);
    this.selected = { sheet, address: rangeAddress(readRange(address)) };
    for (const listener of [...this.selectionListeners]) listener();
  }

  selection(): GridSelection {
    return this.selected;
  }

  onChange(listener: () => void): () => void {
    this.changeListeners.add(listener);
    return () => this.changeListeners.delete(listener);
  }

  onSelection(listener: () => void): () => void {
    this.selectionListeners.add(listener);
    return () => this.selectionListeners.delete(listener);
  }

  private cells(sheet: string): Map<string, MemoryCell> {
    const cells = this.sheets.get(sheet);
    if (!cells) throw new RangeError(`no sheet ${sheet}`);
    return cells;
  }

  private changed(): void {
    for (const listener of [...this.changeListeners]) listener();
  }
}

function cellsOf(address: string): string[][] {
  const { startRow, endRow, startColumn, endColumn } = readRange(address);
  return Array.from({ length: endRow - startRow + 1 }, (_row, r) =>
    Array.from({ length: endColumn - startColumn + 1 }, (_column, c) => cellAddress(startRow + r, startColumn + c)),
  );
}
