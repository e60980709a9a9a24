import { CELL_INVERTED_INDEX_CACHE } from "@univerjs/engine-formula";

let quickened = false;

/**
 * The engine keeps an index from value to rows for its lookup functions, and tells it of every cell that a formula wrote. Each of
 * these notes searches all values of the column, which makes a spilled answer of n rows cost n squared (40 s for 7,300 rows of 11).
 * A note is only needed for rows that a lookup has indexed already; rows that are not indexed yet are read afresh when one comes.
 */
export function quickenLookupIndex(): void {
  if (quickened) return;
  quickened = true;
  const index = CELL_INVERTED_INDEX_CACHE;
  const note = index.set.bind(index);
  index.set = (unitId, sheetId, column, value, row, isForceUpdate = false) => {
    if (isForceUpdate && index.shouldContinueBuildingCache(unitId, sheetId, column, row)) return;
    note(unitId, sheetId, column, value, row, isForceUpdate);
  };
}
