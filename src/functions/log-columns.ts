import { functions } from "../words/functions";
import { log as words } from "../words/log";
import { nutrientOf, substanceOf } from "../science/nutrient-forms";
import { Problem } from "../science/problem";
import { isBlank, type Cells } from "./arguments";
import { isCellError } from "./cell-error";
import { columnOf, type Column } from "./log-headings";

export interface HeadedColumn {
  readonly place: number;
  readonly heading: string;
  readonly column: Column;
  /** What it states whatever its unit, so that the same weight in g and in kg is not counted twice; "" where columns add up. */
  readonly meaning: string;
}
export type Of<K extends Column["kind"]> = HeadedColumn & { readonly column: Extract<Column, { kind: K }> };

/** The columns of a log by its heading row. @throws Problem where two of them state one thing, so that nothing is counted twice */
export function headed(cells: Cells): HeadedColumn[] {
  if (cells.length < 2) throw new Problem("missing", functions.emptyRange("The log"));
  const columns = (cells[0] ?? []).map((heading, place): HeadedColumn => {
    if (isCellError(heading)) throw heading;
    const column = columnOf(heading);
    return { place, heading: isBlank(heading) ? "" : String(heading).trim(), column, meaning: meaningOf(column) };
  });
  const hasDate = columns.some((one) => one.column.kind === "date" && /^date\b/i.test(one.heading));
  // Beside a date, "Day" is the day of the week or a count.
  const read = columns.map((one) => (hasDate && one.column.kind === "date" && /^day\b/i.test(one.heading) ? { ...one, column: { kind: "ignored" } as const } : one));
  const seen = new Map<string, string>();
  for (const { heading, column } of read) {
    if (column.kind === "ignored") continue;
    // What comes in or goes out by other ways may have several columns, each with its own words; they add up.
    const same = column.kind === "otherIn" || column.kind === "otherOut" ? heading.toLowerCase() : column.kind === "reading" ? `reading ${substanceOf(column.basis.form)}` : column.kind === "condition" ? column.of.replace("temperatureF", "temperatureC") : JSON.stringify(column).toLowerCase();
    const before = seen.get(same);
    if (before !== undefined) throw new Problem("value", before.toLowerCase() === heading.toLowerCase() ? words.twice(heading) : words.sameSubstance(before, heading));
    seen.set(same, heading);
  }
  const nitrogen = read.filter((one) => one.column.kind === "reading" && nutrientOf(one.column.basis.form) === "N");
  const total = nitrogen.find((one) => one.column.kind === "reading" && substanceOf(one.column.basis.form) === "total nitrogen");
  const part = nitrogen.find((one) => one !== total);
  if (total && part) throw new Problem("value", words.sameSubstance(total.heading, part.heading));
  return read;
}

function meaningOf(column: Column): string {
  switch (column.kind) {
    case "feed":
      return `feed ${column.food}`.toLowerCase();
    case "harvest":
      return `harvest ${column.draining} ${column.screen}`.toLowerCase();
    case "fedBack":
      return `fed back ${column.screen}`.toLowerCase();
    case "change":
    case "topUp":
      return column.kind;
    default:
      return "";
  }
}
