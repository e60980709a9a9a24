import { CELL_INVERTED_INDEX_CACHE } from "@univerjs/engine-formula";

/**
 * The engine keeps an index from value to rows, which a comparison of a range fills and the next one reads. What it finds is not what
 * the comparison itself would give: there 0 is the same as an empty text and a text "5" the same as the number 5, and an error in the
 * range is passed over; so that a reading of 0 would count as blank, but only once its column had been compared before. Its upkeep also
 * searches all values of a column for every cell that a formula wrote. So it stays empty, and each comparison looks at the cells.
 */
export function leaveOutLookupIndex(): void {
  const index = CELL_INVERTED_INDEX_CACHE;
  index.set = () => undefined;
  index.setContinueBuildingCache = () => undefined;
  index.canUseCache = () => ({ rowsInCache: [], rowsNotInCache: [] });
}
