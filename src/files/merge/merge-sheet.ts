import type { NewSheet } from "../new-book-model";
import { CannotMerge } from "./cannot-merge";
import { mergeCharts } from "./merge-charts";
import type { MergeContext } from "./merge-context";
import { mergeColumns, mergeRows } from "./merge-lines";
import { mergeRules } from "./merge-rules";
import { mergeTables } from "./merge-tables";
import { mergeView } from "./merge-view";
import { type Aspect, changedAspects } from "./placed-book";

/** What is not written into a part that has something else there. */
const NOT_MERGED: readonly Aspect[] = ["print", "usualWidth"];

/** Brings what changed on one of the file's sheets beside its cells into its part. Each aspect touches its own elements only. */
export async function mergeSheetAspects(context: MergeContext, part: string, before: NewSheet, now: NewSheet): Promise<void> {
  const { parts } = context;
  const aspects = changedAspects(before, now);
  const has = (...names: Aspect[]) => names.some((name) => aspects.has(name));
  if (has(...NOT_MERGED)) throw new CannotMerge("A sheet of the file prints otherwise.");
  // Headings may have been typed over, which is no change of the table as the grid holds it.
  await mergeTables(context, part, before, now);
  if (aspects.size === 0) return;
  let xml = await parts.text(part);
  if (has("columnWidths", "hiddenColumns")) xml = mergeColumns(xml, part, before, now);
  if (has("rowHeights", "hiddenRows")) xml = mergeRows(xml, part, before, now);
  if (has("merges", "tabColor", "frozenRows", "frozenColumns", "hideGridLines")) xml = mergeView(xml, part, now, aspects);
  if (has("validations", "conditionalFormats")) xml = await mergeRules(context, xml, part, before, now, aspects);
  parts.set(part, xml);
  if (has("charts")) await mergeCharts(context, part, before.charts ?? [], now.charts ?? []);
}
