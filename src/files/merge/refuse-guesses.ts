import { type Archive, openArchive } from "../archive";
import { fromStored } from "../formula-text";
import type { ReadWorkbook } from "../read-workbook";
import type { UnshownKind } from "../unshown";
import { readWorkbookPart } from "../workbook-part";
import { isSpreadsheet, walkXml } from "../xml";
import { CannotMerge } from "./cannot-merge";
import type { LineMove } from "./follow/line-move";
import { type PlacedBook, sheetOf } from "./placed-book";

/** What stands at no cell and names none. */
const ANYWHERE: ReadonlySet<UnshownKind> = new Set<UnshownKind>(["externalLink", "headerFooter", "macro", "protection"]);
/** What stands at cells and is not moved with them. */
const NOT_FOLLOWED: ReadonlySet<UnshownKind> = new Set<UnshownKind>(["control", "object", "query", "slicer"]);
/** What may name cells of other sheets. */
const READS_OTHERS: ReadonlySet<UnshownKind> = new Set<UnshownKind>(["chartSheet", "conditionalFormat", "control", "object", "otherChart", "pivotTable", "query", "slicer", "sparkline", "validation"]);
/** The same that is not named on under a sheet's new name. */
const NAMES_OTHERS: ReadonlySet<UnshownKind> = new Set<UnshownKind>(["control", "object", "query", "slicer"]);
/** Elements of a sheet, unknown to the grid and not counted either, that stand at rows, columns or cells. */
const AT_LINES: ReadonlySet<string> = new Set(["autoFilter", "cellWatches", "colBreaks", "customSheetViews", "dataConsolidate", "ignoredErrors", "protectedRanges", "rowBreaks", "scenarios", "sortState"]);
/** Those of them that are not followed. */
const VIEWS: ReadonlySet<string> = new Set(["customSheetViews", "dataConsolidate"]);

/** Throws where what the grid does not know would be left behind by what moved, or would name a sheet that is gone. */
export async function refuseGuesses({ before, moves, now, original, read, shifted }: { readonly before: PlacedBook; readonly moves: readonly LineMove[]; readonly now: PlacedBook; readonly original: Uint8Array; readonly read: ReadWorkbook; readonly shifted: ReadonlySet<string> }): Promise<void> {
  const stays = before.ids.filter((id) => now.ids.includes(id));
  const [lines, followed] = [stays.filter((id) => shifted.has(id)), stays.filter((id) => moves.some(({ sheetId }) => sheetId === id))];
  const isRenamed = stays.some((id) => sheetOf(before, id)?.name !== sheetOf(now, id)?.name);
  const isGone = before.ids.length > stays.length;
  if (lines.length + followed.length === 0 && !isRenamed && !isGone) return;
  const kinds = read.unshown.map(([kind]) => kind);
  if (lines.length > 0 && kinds.some((kind) => !ANYWHERE.has(kind))) throw new CannotMerge("Something unseen stands at cells, and cells moved.");
  if (followed.length > 0 && kinds.some((kind) => NOT_FOLLOWED.has(kind))) throw new CannotMerge("Something unseen stands at cells, and rows or columns came or went.");
  if (isRenamed && kinds.some((kind) => NAMES_OTHERS.has(kind))) throw new CannotMerge("Something unseen may name a sheet that has another name now.");
  if (isGone && kinds.some((kind) => READS_OTHERS.has(kind))) throw new CannotMerge("Something unseen may name a sheet that is gone.");
  const archive = await openArchive(original);
  const workbook = await readWorkbookPart(archive);
  const known = new Set(before.book.names.map(({ name, ref }) => `${name.toLowerCase()}|${ref}`));
  const isUnknown = ({ name, ref }: (typeof workbook.names)[number]) => !known.has(`${name.toLowerCase()}|${fromStored(ref)}`);
  if ((lines.length > 0 || isGone) && workbook.names.some(isUnknown)) throw new CannotMerge("The file has names that the grid does not follow.");
  for (const id of [...lines, ...followed]) {
    const part = workbook.sheets[before.ids.indexOf(id)]?.part ?? "";
    if (await holds(archive, part, shifted.has(id) ? AT_LINES : VIEWS, shifted.has(id))) throw new CannotMerge("Something unseen stands at rows or columns, and they moved.");
  }
}

async function holds(archive: Archive, part: string, elements: ReadonlySet<string>, groups: boolean): Promise<boolean> {
  let found = false;
  walkXml(await archive.text(part), part, {
    open(tag) {
      if (!isSpreadsheet(tag)) return;
      found ||= elements.has(tag.local) || (groups && (tag.local === "row" || tag.local === "col") && tag.attributes.outlineLevel !== undefined);
    },
  });
  return found;
}
