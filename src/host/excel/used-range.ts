import { type CellRange, rangeAddress } from "../engine/address";
import type { GridPort } from "../grid-port";

const ROWS_AT_ONCE = 256;
const COLUMNS = 64;

/**
 * The smallest range around all filled cells of a sheet; null for a blank sheet. The grid does not say how far it is filled, so
 * it is read from the top in blocks until a whole block is blank: what stands below 256 blank rows, or right of column BL, is not seen.
 */
export function usedRange(port: GridPort, sheet: string): CellRange | null {
  let found: CellRange | null = null;
  for (let top = 0; ; top += ROWS_AT_ONCE) {
    const block = filledPart(port, sheet, top);
    if (!block) return found;
    found = found ? around(found, block) : block;
  }
}

function filledPart(port: GridPort, sheet: string, top: number): CellRange | null {
  const block = { startRow: top, startColumn: 0, endRow: top + ROWS_AT_ONCE - 1, endColumn: COLUMNS - 1 };
  let found: CellRange | null = null;
  port.read(sheet, rangeAddress(block)).formulas.forEach((row, r) =>
    row.forEach((content, column) => {
      if (content === "" || content === null) return;
      const cell = { startRow: top + r, startColumn: column, endRow: top + r, endColumn: column };
      found = found ? around(found, cell) : cell;
    }),
  );
  return found;
}

function around(a: CellRange, b: CellRange): CellRange {
  return {
    startRow: Math.min(a.startRow, b.startRow),
    startColumn: Math.min(a.startColumn, b.startColumn),
    endRow: Math.max(a.endRow, b.endRow),
    endColumn: Math.max(a.endColumn, b.endColumn),
  };
}
