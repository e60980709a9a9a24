import type { Archive } from "../archive";
import type { PartEdits } from "../hand-over/part-edits";
import type { SpillMarks } from "../patch-sheet";
import type { WorkbookPart } from "../workbook-part";
import type { MergedStyles } from "./merged-styles";
import type { PlacedBook } from "./placed-book";

/** What every step of a merging has in hand. */
export interface MergeContext {
  readonly archive: Archive;
  readonly workbook: WorkbookPart;
  readonly parts: PartEdits;
  readonly styles: MergedStyles;
  readonly marks: SpillMarks;
  /** As the grid took the file in, and as it holds it now. */
  readonly before: PlacedBook;
  readonly now: PlacedBook;
}

/** The part of one of the file's sheets, by the id that the grid gave it. */
export function partOf({ before, workbook }: MergeContext, id: string): string {
  const part = workbook.sheets[before.ids.indexOf(id)]?.part;
  if (part === undefined) throw new RangeError(`There is no sheet with the id "${id}".`);
  return part;
}
