import { cellAddress, cellsOf, readRange } from "../../src/host/engine/address";
import type { ClearWhat, GridFormats, GridStyle } from "../../src/host/grid-port";
import type { MemorySheets } from "./memory-sheets";

const PLAIN: GridStyle = { bold: false, italic: false, color: "#000000", fill: "", wrap: false, align: "General" };
const DEFAULT_WIDTH = 64;
const DEFAULT_HEIGHT = 20;
const PIXELS_PER_CHARACTER = 8;

/** How the cells of the grid in memory look. Of number formats it shows fixed decimals only. */
export class MemoryFormats implements GridFormats {
  constructor(private readonly sheets: MemorySheets) {}

  text(sheet: string, address: string): string[][] {
    const { cells, numberFormats } = this.sheets.byName(sheet);
    return addressesOf(address).map((row) => row.map((cell) => shown(cells.get(cell)?.value, numberFormats.get(cell))));
  }

  numberFormats(sheet: string, address: string): string[][] {
    const { numberFormats } = this.sheets.byName(sheet);
    return addressesOf(address).map((row) => row.map((cell) => numberFormats.get(cell) ?? "General"));
  }

  setNumberFormats(sheet: string, address: string, formats: readonly (readonly (string | null)[])[]): void {
    const { numberFormats } = this.sheets.byName(sheet);
    addressesOf(address).forEach((row, r) =>
      row.forEach((cell, c) => {
        const format = formats[r]?.[c];
        if (format === "General") numberFormats.delete(cell);
        else if (format !== null && format !== undefined) numberFormats.set(cell, format);
      }),
    );
  }

  style(sheet: string, address: string): { readonly [Name in keyof GridStyle]: GridStyle[Name] | null } {
    const { styles } = this.sheets.byName(sheet);
    const all = addressesOf(address).flat().map((cell) => ({ ...PLAIN, ...styles.get(cell) }));
    const first = all[0] ?? PLAIN;
    const common = (Object.keys(PLAIN) as (keyof GridStyle)[]).map((name) => [name, all.every((style) => style[name] === first[name]) ? first[name] : null]);
    return Object.fromEntries(common);
  }

  setStyle(sheet: string, address: string, style: Partial<GridStyle>): void {
    const { styles } = this.sheets.byName(sheet);
    for (const cell of addressesOf(address).flat()) styles.set(cell, { ...styles.get(cell), ...style });
  }

  clear(sheet: string, address: string, what: ClearWhat): void {
    const { cells, numberFormats, styles } = this.sheets.byName(sheet);
    for (const cell of addressesOf(address).flat()) {
      if (what !== "formats") cells.delete(cell);
      if (what === "contents") continue;
      numberFormats.delete(cell);
      styles.delete(cell);
    }
  }

  columnWidths(sheet: string, address: string): number[] {
    const { widths } = this.sheets.byName(sheet);
    return columnsOf(address).map((column) => widths.get(column) ?? DEFAULT_WIDTH);
  }

  setColumnWidth(sheet: string, address: string, pixels: number): void {
    const { widths } = this.sheets.byName(sheet);
    for (const column of columnsOf(address)) widths.set(column, pixels);
  }

  rowHeights(sheet: string, address: string): number[] {
    const { heights } = this.sheets.byName(sheet);
    return rowsOf(address).map((row) => heights.get(row) ?? DEFAULT_HEIGHT);
  }

  setRowHeight(sheet: string, address: string, pixels: number): void {
    const { heights } = this.sheets.byName(sheet);
    for (const row of rowsOf(address)) heights.set(row, pixels);
  }

  fitColumns(sheet: string, address: string): void {
    const { widths } = this.sheets.byName(sheet);
    const rows = this.text(sheet, address);
    columnsOf(address).forEach((column, c) => {
      const longest = Math.max(...rows.map((row) => row[c]?.length ?? 0));
      if (longest > 0) widths.set(column, longest * PIXELS_PER_CHARACTER);
    });
  }
}

function shown(value: unknown, format = "General"): string {
  const decimals = /^0(?:\.(0+))?$/.exec(format);
  if (typeof value === "number" && decimals) return value.toFixed(decimals[1]?.length ?? 0);
  if (typeof value === "boolean") return String(value).toUpperCase();
  return value === undefined || value === null ? "" : String(value);
}

/** Addresses of the cells, row by row. */
export function addressesOf(address: string): string[][] {
  const { startRow, endRow, startColumn, endColumn } = readRange(address);
  const rows = Array.from({ length: endRow - startRow + 1 }, (): string[] => []);
  for (const { row, column } of cellsOf({ startRow, endRow, startColumn, endColumn })) rows[row - startRow]?.push(cellAddress(row, column));
  return rows;
}

function columnsOf(address: string): number[] {
  const { startColumn, endColumn } = readRange(address);
  return Array.from({ length: endColumn - startColumn + 1 }, (_column, i) => startColumn + i);
}

function rowsOf(address: string): number[] {
  const { startRow, endRow } = readRange(address);
  return Array.from({ length: endRow - startRow + 1 }, (_, row) => startRow + row);
}
