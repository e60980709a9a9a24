import { functions as words } from "../words/functions";
import { growth } from "../words/growth";
import { LEAST_INTERVALS, MOST_PAIRS, fitRegrowth, type CurveChoice, type HarvestPair, type RegrowthFit } from "../science/growth-fit";
import { Problem } from "../science/problem";
import { cellsOf, isBlank, numberIn, within } from "./arguments";

/**
 * Harvests from a range of days and a range of dry mass of the same shape. A row without its weight or without its days is left out:
 * in a log not every harvest is weighed.
 * @throws Problem or the cell's own error, naming the row that cannot be used
 */
export function harvestPairs(daysGiven: unknown, dryGiven: unknown): HarvestPair[] {
  const [days, dry] = [cellsOf(daysGiven), cellsOf(dryGiven)];
  if ([...days, ...dry].every((row) => row.every(isBlank))) return [];
  // A range that is still empty is a log without weights so far; an argument that is not there was forgotten.
  for (const [name, cells] of [["days", days], ["dry_g_m2", dry]] as const) {
    if (cells.length === 1 && cells[0]?.length === 1 && isBlank(cells[0][0])) throw new Problem("missing", words.needed(name));
  }
  if (days.length !== dry.length || days[0]?.length !== dry[0]?.length) throw new Problem("value", words.sizesDiffer("days", "dry_g_m2"));
  const alongRow = days.length === 1;
  const pairs: HarvestPair[] = [];
  days.forEach((row, rowPlace) => row.forEach((daysCell, column) => {
    const dryCell = dry[rowPlace]?.[column];
    if (isBlank(daysCell) || isBlank(dryCell)) return;
    try {
      pairs.push({
        days: within("days", numberIn("days", daysCell), { open: true, most: 3650, unit: words.units.days }),
        dryGPerM2: within("dry_g_m2", numberIn("dry_g_m2", dryCell), { most: 10_000, unit: "g dry m-2" }),
      });
    } catch (error) {
      if (error instanceof Problem) throw new Problem(error.kind, growth.rowWrong((alongRow ? column : rowPlace) + 1, error.message));
      throw error;
    }
  }));
  if (pairs.length > MOST_PAIRS) throw new Problem("value", growth.tooManyPairs(MOST_PAIRS));
  return pairs;
}

/** The unit's own curve, or null with the reason where its harvests tell none; no harvests at all are a reason too. */
export function ownRegrowth(pairs: readonly HarvestPair[], choice: CurveChoice): { readonly fit: RegrowthFit } | { readonly fit: null; readonly reason: string } {
  if (pairs.length === 0) return { fit: null, reason: growth.cannotFit.fewIntervals(0, LEAST_INTERVALS) };
  try {
    return { fit: fitRegrowth(pairs, choice) };
  } catch (error) {
    if (error instanceof Problem && error.kind === "missing") return { fit: null, reason: error.message };
    throw error;
  }
}
