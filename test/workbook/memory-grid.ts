import { rangeAddress, readRange } from "../../src/host/engine/address";
import { type BookState, EMPTY_STATE } from "../../src/host/excel/book-state";
import type { GridChange, GridContent, GridName, GridNames, GridPort, GridSelection, GridState } from "../../src/host/grid-port";
import { addressesOf, MemoryFormats } from "./memory-formats";
import { type MemoryCell, MemorySheets } from "./memory-sheets";

/** A grid in memory for the tests of workbook code: it keeps a diary of what was asked, and calculates nothing. */
export class MemoryGrid implements GridPort {
  /** "read Log!B2", "write Log!B2", "select Log!B2", in order. */
  readonly diary: string[] = [];
  readonly sheets: MemorySheets;
  readonly formats: MemoryFormats;
  readonly names: GridNames = new MemoryNames();
  readonly state: GridState = new MemoryState();
  private readonly changeListeners = new Set<(changes: readonly GridChange[]) => void>();
  private readonly selectionListeners = new Set<() => void>();
  private selected: GridSelection;

  constructor(names: string[]) {
    this.sheets = new MemorySheets(names, () => this.changed([]));
    this.formats = new MemoryFormats(this.sheets);
    this.selected = { sheet: names[0] ?? "", address: "A1" };
  }

  /** Puts a cell down as a user would, with the value that its formula shows. */
  put(sheet: string, address: string, value: unknown, formula?: string): void {
    this.cells(sheet).set(address, { value, formula });
    this.edited(sheet, address);
  }

  empty(sheet: string, address: string): void {
    this.cells(sheet).delete(address);
    this.edited(sheet, address);
  }

  removeSheet(sheet: string): void {
    this.sheets.remove(this.sheets.byName(sheet).id);
  }

  get listenerCount(): number {
    return this.changeListeners.size + this.selectionListeners.size;
  }

  sheetNames(): string[] {
    return this.sheets.list().map(({ name }) => name);
  }

  activeSheet(): string {
    return this.selected.sheet;
  }

  read(sheet: string, address: string): GridContent {
    this.diary.push(`read ${sheet}!${address}`);
    const rows = addressesOf(address).map((row) => row.map((cell) => this.cells(sheet).get(cell)));
    return {
      values: rows.map((row) => row.map((cell) => cell?.value ?? "")),
      formulas: rows.map((row) => row.map((cell) => cell?.formula ?? cell?.value ?? "")),
    };
  }

  write(sheet: string, address: string, content: unknown[][]): void {
    this.diary.push(`write ${sheet}!${address}`);
    addressesOf(address).forEach((row, r) =>
      row.forEach((cell, c) => {
        const value = content[r]?.[c];
        if (value === "") this.cells(sheet).delete(cell);
        else if (value !== null && value !== undefined) this.cells(sheet).set(cell, cellOf(value));
      }),
    );
    this.edited(sheet, address);
  }

  select(sheet: string, address: string): void {
    this.diary.push(`select ${sheet}!${address}`);
    this.selected = { sheet, address: rangeAddress(readRange(address)) };
    for (const listener of [...this.selectionListeners]) listener();
  }

  selection(): GridSelection {
    return this.selected;
  }

  onChange(listener: (changes: readonly GridChange[]) => void): () => void {
    this.changeListeners.add(listener);
    return () => this.changeListeners.delete(listener);
  }

  onSelection(listener: () => void): () => void {
    this.selectionListeners.add(listener);
    return () => this.selectionListeners.delete(listener);
  }

  asOneStep(act: () => void): void {
    act();
  }

  private cells(sheet: string): Map<string, MemoryCell> {
    return this.sheets.byName(sheet).cells;
  }

  private edited(sheet: string, address: string): void {
    this.changed([{ sheetId: this.sheets.byName(sheet).id, address, kind: "RangeEdited" }]);
  }

  private changed(changes: readonly GridChange[]): void {
    for (const listener of [...this.changeListeners]) listener(changes);
  }
}

/** A formula shows itself: nothing is calculated here. */
function cellOf(value: unknown): MemoryCell {
  return typeof value === "string" && value.startsWith("=") ? { value, formula: value } : { value };
}

class MemoryNames implements GridNames {
  private names: GridName[] = [];
  private made = 0;

  list(): readonly GridName[] {
    return this.names;
  }

  add(name: Omit<GridName, "id">): string {
    this.made += 1;
    const id = `name${this.made}`;
    this.names = [...this.names, { ...name, id }];
    return id;
  }

  remove(id: string): void {
    this.names = this.names.filter((name) => name.id !== id);
  }
}

class MemoryState implements GridState {
  private state: BookState = EMPTY_STATE;
  private readonly listeners = new Set<() => void>();

  current(): BookState {
    return this.state;
  }

  /** Goes through JSON, as on its way into a file. */
  change(next: BookState): void {
    this.state = JSON.parse(JSON.stringify(next)) as BookState;
    for (const listener of [...this.listeners]) listener();
  }

  onChange(listener: () => void): () => void {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  }
}
