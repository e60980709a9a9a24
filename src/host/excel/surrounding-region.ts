import { type CellRange, readRange } from "../../files/address";
import type { GridPort } from "../grid-port";
import { covers, intersection } from "./range-geometry";

/** Grows a range until a blank row and a blank column, or the sheet's edge, stands on each side; corners count as neighbours. */
export function surroundingRegion(port: GridPort, sheet: string, from: CellRange): CellRange {
  const used = port.sheets.used(sheet, true);
  if (used === null) return from;
  const area = readRange(used) as CellRange;
  const filled = port.read(sheet, used).formulas.map((row) => row.map((cell) => cell !== "" && cell !== null));
  const holds = (part: CellRange): boolean => {
    const seen = intersection(part, area);
    if (!seen) return false;
    return filled.slice(seen.startRow - area.startRow, seen.endRow - area.startRow + 1).some((row) => row.slice(seen.startColumn - area.startColumn, seen.endColumn - area.startColumn + 1).includes(true));
  };
  let region = from;
  for (;;) {
    const grown = grownOnce(region, holds);
    if (covers(region, grown)) return region;
    region = grown;
  }
}

function grownOnce(region: CellRange, holds: (part: CellRange) => boolean): CellRange {
  const around = { startRow: Math.max(0, region.startRow - 1), endRow: region.endRow + 1, startColumn: Math.max(0, region.startColumn - 1), endColumn: region.endColumn + 1 };
  return {
    startRow: around.startRow < region.startRow && holds({ ...around, endRow: around.startRow }) ? around.startRow : region.startRow,
    endRow: holds({ ...around, startRow: around.endRow }) ? around.endRow : region.endRow,
    startColumn: around.startColumn < region.startColumn && holds({ ...around, endColumn: around.startColumn }) ? around.startColumn : region.startColumn,
    endColumn: holds({ ...around, startColumn: around.endColumn }) ? around.endColumn : region.endColumn,
  };
}
