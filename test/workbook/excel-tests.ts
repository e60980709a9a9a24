import { worksheetFunctions } from "../../src/functions";
import metadata from "../../src/functions/generated/functions.json";
import { createEngine, type Engine } from "../../src/host/engine/engine";
import { installExcel } from "../../src/host/excel/install";
import { MemoryGrid } from "./memory-grid";

/** For a test file: an engine that calculates, and a grid in memory with `Excel` on it, taken away after each test. */
export function excelTests(): { engine(): Engine; open(sheets: string[]): MemoryGrid } {
  let engine: Engine;
  let uninstall = (): void => undefined;
  beforeAll(() => {
    engine = createEngine({ metadata: metadata as never, functions: worksheetFunctions as never });
  });
  afterAll(() => engine.dispose());
  afterEach(() => {
    uninstall();
    uninstall = () => undefined;
  });
  return {
    engine: () => engine,
    open(sheets) {
      const grid = new MemoryGrid(sheets);
      uninstall = installExcel(grid);
      return grid;
    },
  };
}
