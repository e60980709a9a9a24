import type { Archive } from "../archive";
import { fromStored } from "../formula-text";
import type { ReadWorkbook } from "../read-workbook";
import type { UnshownKind } from "../unshown";
import type { WorkbookPart } from "../workbook-part";
import { isSpreadsheet, walkXml } from "../xml";
import { CannotMerge } from "./cannot-merge";
import { type PlacedBook, sheetOf } from "./placed-book";

/** What stands at no cell and names none. */
const ANYWHERE: ReadonlySet<UnshownKind> = new Set<UnshownKind>(["externalLink", "headerFooter", "macro", "protection"]);
/** What may name cells of other sheets. */
const READS_OTHERS: ReadonlySet<UnshownKind> = new Set<UnshownKind>(["chartSheet", "conditionalFormat", "control", "object", "otherChart", "pivotTable", "query", "slicer", "sparkline", "validation"]);
/** Elements of a sheet, unknown to the grid and not counted either, that stand at rows, columns or cells. */
const AT_LINES: ReadonlySet<string> = new Set(["autoFilter", "cellWatches", "colBreaks", "customSheetViews", "dataConsolidate", "ignoredErrors", "protectedRanges", "rowBreaks", "scenarios", "sortState"]);

/** Throws where what the grid does not know would be left behind by what moved, or would name a sheet that is gone. */
export async function refuseGuesses({ archive, before, now, read, shifted, workbook }: { readonly archive: Archive; readonly before: PlacedBook; readonly now: PlacedBook; readonly read: ReadWorkbook; readonly shifted: ReadonlySet<string>; readonly workbook: WorkbookPart }): Promise<void> {
  const stays = before.ids.filter((id) => now.ids.includes(id));
  const lines = stays.filter((id) => shifted.has(id));
  const isOtherwise = before.ids.length > stays.length || stays.some((id) => sheetOf(before, id)?.name !== sheetOf(now, id)?.name);
  const kinds = read.unshown.map(([kind]) => kind);
  if (lines.length > 0 && kinds.some((kind) => !ANYWHERE.has(kind))) throw new CannotMerge("Something unseen stands at cells, and cells moved.");
  if (isOtherwise && kinds.some((kind) => READS_OTHERS.has(kind))) throw new CannotMerge("Something unseen may name a sheet that has another name now.");
  if (lines.length === 0 && !isOtherwise) return;
  const known = new Set(before.book.names.map(({ name, ref }) => `${name.toLowerCase()}|${ref}`));
  if (workbook.names.some(({ name, ref }) => !known.has(`${name.toLowerCase()}|${fromStored(ref)}`))) throw new CannotMerge("The file has names that the grid does not follow.");
  for (const id of stays) {
    const part = workbook.sheets[before.ids.indexOf(id)]?.part ?? "";
    if (shifted.has(id) && (await holdsLines(archive, part))) throw new CannotMerge("Something unseen stands at rows or columns, and they moved.");
  }
}

async function holdsLines(archive: Archive, part: string): Promise<boolean> {
  let found = false;
  walkXml(await archive.text(part), part, {
    open(tag) {
      if (!isSpreadsheet(tag)) return;
      found ||= AT_LINES.has(tag.local) || ((tag.local === "row" || tag.local === "col") && tag.attributes.outlineLevel !== undefined);
    },
  });
  return found;
}
