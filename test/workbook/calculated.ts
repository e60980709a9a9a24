import type { BookCell } from "../../src/files/book";
import { CellError } from "../../src/functions/cell-error";
import type { CalculatedSheet, Engine } from "../../src/host/engine/engine";
import type { MemoryGrid } from "./memory-grid";

/** Cells typed in: "Log!A4" to its content. */
export type Typed = Readonly<Record<string, string | number>>;

/** All sheets of a grid in memory as the engine of the local page calculates them. */
export async function calculatedGrid(engine: Engine, grid: MemoryGrid, typed: Typed = {}): Promise<Map<string, CalculatedSheet>> {
  const sheets = grid.sheetNames().map((name) => {
    const cells = new Map<string, BookCell>();
    for (const [address, { value, formula }] of grid.sheets.byName(name).cells) {
      cells.set(address, formula ? { value: null, formula: formula.replace(/^=/, "") } : { value: value as string | number });
    }
    for (const [place, value] of Object.entries(typed)) {
      const [sheet, address] = place.split("!");
      if (sheet === name && address) cells.set(address, { value });
    }
    return { name, cells };
  });
  engine.open({ sheets, names: [], date1904: false });
  const answers = await engine.calculate();
  return new Map(answers.map((sheet, place) => [grid.sheetNames()[place] ?? "", sheet]));
}

/** "Balance!B5 and why", for every cell that shows an error. */
export const errors = (sheets: Map<string, CalculatedSheet>): string[] =>
  [...sheets].flatMap(([name, { values }]) => [...values].filter(([, value]) => value instanceof CellError).map(([address, value]) => `${name}!${address} ${String((value as CellError).message)}`));
