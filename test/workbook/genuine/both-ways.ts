import { readFileSync } from "node:fs";
import { join } from "node:path";
import { installExcel } from "../../../src/host/excel/install";
import { MemoryGrid } from "../memory-grid";
import { installGenuineExcel } from "./genuine-excel";

/** The oldest Excel that the manifest lets in: what the workbook code asks for must stand in it. */
export const OLDEST_EXCEL_API = /<Set Name="ExcelApi" MinVersion="([\d.]+)"/.exec(readFileSync(join(__dirname, "../../../manifest/manifest.xml"), "utf8"))?.[1] ?? "1.1";

/** Fills the grid, runs workbook code, and gives what the code answered. */
export type Scenario = (grid: MemoryGrid) => Promise<unknown>;

export interface Outcome {
  readonly answer: unknown;
  /** The error that the scenario ended with, null when it succeeded. */
  readonly refusal: string | null;
  /** A line for each thing of the workbook. */
  readonly book: readonly string[];
}

/** Runs a scenario on the stand-in alone, and on Excel's own library with the stand-in behind it. */
export async function bothWays(sheets: string[], scenario: Scenario): Promise<{ readonly standIn: Outcome; readonly genuine: Outcome; readonly batches: number; readonly leftReferences: number }> {
  const standIn = await outcome(sheets, scenario, (grid) => installExcel(grid));
  let batches = 0;
  let leftReferences = 0;
  const genuine = await outcome(sheets, scenario, (grid) => {
    const uninstall = installGenuineExcel(grid, { newestExcelApi: OLDEST_EXCEL_API });
    return () => {
      batches = uninstall.host.batches.length;
      leftReferences = uninstall.host.references.size;
      uninstall();
    };
  });
  return { standIn, genuine, batches, leftReferences };
}

async function outcome(sheets: string[], scenario: Scenario, install: (grid: MemoryGrid) => () => void): Promise<Outcome> {
  const grid = new MemoryGrid(sheets);
  const uninstall = install(grid);
  try {
    const ended = await scenario(grid).then((answer) => ({ answer, refusal: null }), (error: Error) => ({ answer: null, refusal: `${error.name}: ${error.message}` }));
    return { ...ended, book: bookOf(grid) };
  } finally {
    uninstall();
  }
}

/** All that the grid holds: cells with formulas, formats, widths, names, tables, rules, marks, charts, pages, XML parts, selection. */
function bookOf(grid: MemoryGrid): string[] {
  const sheets = grid.sheets.list().flatMap(({ name }) => {
    const { cells, numberFormats, styles, widths, heights, ...plain } = grid.sheets.byName(name);
    const lines = Object.entries({ cells, numberFormats, styles, widths, heights }).flatMap(([kind, entries]) => [...entries].map((entry) => `${name} ${kind} ${JSON.stringify(entry)}`).sort());
    return [JSON.stringify(plain), ...lines];
  });
  const { pages, veryHidden, ...lists } = grid.state.current();
  const beyondCells = Object.entries(lists).flatMap(([kind, things]) => (things as readonly unknown[]).map((thing) => `${kind} ${JSON.stringify(thing)}`));
  return [...sheets, ...beyondCells, ...[pages, veryHidden, grid.names.list(), grid.selection()].map((one) => JSON.stringify(one))];
}
