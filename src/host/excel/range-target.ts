import { type CellRange, rangeAddress } from "../../files/address";
import type { PlacedRange } from "./book-state";
import { invalidArgument, itemNotFound } from "./excel-error";
import { anyRangeAddress, intersection, readAnyRange } from "./range-geometry";
import type { LocalContext } from "./request-context";

/** A place in the workbook: a sheet by its id, and cells of it. Whole rows and columns reach to the edge of Excel's sheet. */
export interface RangeTarget {
  readonly sheetId: string;
  readonly range: CellRange;
}

/** Reads an A1 address at sync, where Excel too finds fault with it. */
export function rangeIn(sheetId: string, address: string): RangeTarget {
  const range = readAnyRange(address);
  if (!range) throw invalidArgument("Worksheet.getRange", `"${address}" is not a cell or a range.`);
  return { sheetId, range };
}

/** @param range undefined when it would leave the sheet */
export function targetAt(sheetId: string, range: CellRange | undefined, member: string): RangeTarget {
  if (!range) throw invalidArgument(member, "the range would leave the sheet, or have no cell.");
  return { sheetId, range };
}

export const placed = ({ sheetId, range }: RangeTarget): PlacedRange => ({ sheetId, ref: anyRangeAddress(range) });

export function targetOfPlaced({ sheetId, ref }: PlacedRange): RangeTarget {
  return rangeIn(sheetId, ref);
}

export interface GridPlace {
  /** The sheet's name. */
  readonly sheet: string;
  readonly address: string;
}

/** The part of a range that the grid has: its sheets are smaller than Excel's. null when it has nothing of it. */
export function gridPart(local: LocalContext, { sheetId, range }: RangeTarget): GridPlace | null {
  const sheet = local.sheetName(sheetId);
  const { rows, columns } = local.port.sheets.size(sheet);
  const part = intersection(range, { startRow: 0, startColumn: 0, endRow: rows - 1, endColumn: columns - 1 });
  return part && { sheet, address: rangeAddress(part) };
}

/** A range of cells as the grid is asked for it, never "A:C". */
export function gridPlace(local: LocalContext, { sheetId, range }: RangeTarget): GridPlace {
  return { sheet: local.sheetName(sheetId), address: rangeAddress(range) };
}

/** Sheet and range of an address with or without a sheet name, as names and lists are written: "Log!$A$1:$B$9". */
export function splitReference(local: LocalContext, reference: string): RangeTarget | null {
  const cut = reference.lastIndexOf("!");
  const written = cut < 0 ? "" : reference.slice(0, cut);
  const quoted = written.startsWith("'") && written.endsWith("'") && written.length > 1;
  const sheetId = local.sheetId(quoted ? written.slice(1, -1).replace(/''/g, "'") : written);
  const range = readAnyRange(reference.slice(cut + 1));
  return sheetId !== null && range ? { sheetId, range } : null;
}

/** Fails for a target that is null, where Excel needs one. */
export function needed<T>(target: T | null, location: string): T {
  if (target === null) throw itemNotFound(location);
  return target;
}
