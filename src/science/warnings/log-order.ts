import type { BadEntry, RowEntry } from "../budget/log";
import { LIMITS } from "../constants/limits";
import { latestOf, warning, type Accounts, type Warning, type WarningOf } from "./warning";

const LISTED = 5;

/** Warnings about the rows themselves: cells that cannot be used, dates out of order, rows twice, gaps. */
export function logWarnings({ N, P }: Accounts): Warning[] {
  const { rows } = N.log;
  return [...badCells([...N.log.bad, ...P.log.bad], "serious"), ...badCells([...N.log.unusable, ...P.log.unusable], "caution"), ...outOfOrder(rows), ...duplicates(rows), ...gaps(rows)];
}

/** Each cell once, although both budgets read it. */
function badCells(entries: readonly BadEntry[], severity: "serious" | "caution"): WarningOf<"BAD_CELL">[] {
  const sentences = new Map(entries.map((entry) => [entry.sentence, entry]));
  return [...sentences.values()].map((entry) => warning("BAD_CELL", severity, entry, { sentence: entry.sentence }));
}

/** Rows against the order of the sheet, which may run from old to new or from new to old. */
function outOfOrder(rows: readonly RowEntry[]): WarningOf<"DATE_ORDER">[] {
  let [up, down] = [0, 0];
  rows.forEach((row, place) => {
    const before = rows[place - 1];
    if (before && row.day > before.day) up += 1;
    if (before && row.day < before.day) down += 1;
  });
  const sign = down > up ? -1 : 1;
  const found: WarningOf<"DATE_ORDER">[] = [];
  for (let place = 1; place < rows.length; place += 1) {
    const [twoBefore, before, row] = [rows[place - 2], rows[place - 1], rows[place]];
    if (!before || !row || sign * row.day >= sign * before.day) continue;
    // A row that stands well after the one before the break is in order itself: then the one between is not.
    const wrong = twoBefore && sign * row.day >= sign * twoBefore.day ? before : row;
    const other = wrong === before && twoBefore ? twoBefore : before;
    found.push(warning("DATE_ORDER", "caution", wrong, { rowBefore: other.row }));
  }
  return latestOf(found, LISTED);
}

function duplicates(rows: readonly RowEntry[]): WarningOf<"DUPLICATE_ROW">[] {
  return latestOf(
    rows.flatMap((row) => (row.sameAs === null ? [] : [warning("DUPLICATE_ROW", "caution", row, { sameAs: row.sameAs })])),
    LISTED,
  );
}

/** Stretches without a row that are long by themselves and by the keeper's own habit. */
function gaps(rows: readonly RowEntry[]): WarningOf<"LOG_GAP">[] {
  const ordered = [...rows].sort((a, b) => a.day - b.day);
  const steps = ordered.flatMap((row, place) => {
    const days = row.day - (ordered[place - 1]?.day ?? row.day);
    return days > 0 ? [{ row, days }] : [];
  });
  const sorted = steps.map((step) => step.days).sort((a, b) => a - b);
  const usual = sorted[(sorted.length - 1) >> 1] ?? 0;
  const long = steps.filter(({ days }) => days > LIMITS.gapDays.value && days > LIMITS.gapSteps.value * usual);
  return latestOf(long.map(({ row, days }) => warning("LOG_GAP", "caution", row, { days, usual })), LISTED);
}
