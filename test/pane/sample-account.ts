import fs from "node:fs";
import path from "node:path";
import { installExcel } from "../../src/host/excel/install";
import { readBook } from "../../src/files/read-book";
import { type BudgetSource, readBudgetSource } from "../../src/workbook/budget-source";
import { MemoryGrid } from "../workbook/memory-grid";

/** A sample workbook as it stands in its file: formulas with the values that were stored with them. */
export async function sampleGrid(file: string): Promise<MemoryGrid> {
  const book = await readBook(new Uint8Array(fs.readFileSync(path.join(__dirname, "../../samples", file))));
  const grid = new MemoryGrid(book.sheets.map(({ name }) => name));
  for (const { name, cells } of book.sheets) {
    for (const [address, { value, formula }] of cells) if (value !== null) grid.put(name, address, value, formula === undefined ? undefined : `=${formula}`);
  }
  return grid;
}

/** The account of a sample, read as the pane reads it. */
export async function sampleSource(file: string, wanted: string | null = null): Promise<{ source: BudgetSource; grid: MemoryGrid; names: readonly string[] }> {
  const grid = await sampleGrid(file);
  const uninstall = installExcel(grid);
  try {
    const found = await readBudgetSource(wanted);
    if (found.kind !== "source") throw new Error(JSON.stringify(found));
    return { source: found.source, grid, names: found.names };
  } finally {
    uninstall();
  }
}
