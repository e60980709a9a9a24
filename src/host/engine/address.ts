import { type CellRange, readRange as readRangeOrNothing } from "../../files/address";

export { cellAddress, type CellRange, cellsOf, columnLetters, contains, rangeAddress } from "../../files/address";

/** Reads "B7" or "B7:C9", with or without dollar signs, corners in any order; throws a RangeError on anything else. */
export function readRange(address: string): CellRange {
  const range = readRangeOrNothing(address);
  if (!range) throw new RangeError(`"${address}" is not a cell or a range.`);
  return range;
}
