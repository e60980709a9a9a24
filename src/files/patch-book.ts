import { Problem } from "../science/problem";
import { files } from "../words/files";
import { openArchive } from "./archive";
import type { ArchiveLimits } from "./archive-limits";
import { PartEdits } from "./hand-over/part-edits";
import { type FormulaResult, patchSheet } from "./patch-sheet";
import { SpillMarkBook } from "./spill-marks";
import { readWorkbookPart } from "./workbook-part";

export type { FormulaResult } from "./patch-sheet";

/** By sheet name, then by the address of the formula's cell. */
export type BookResults = ReadonlyMap<string, ReadonlyMap<string, FormulaResult>>;

/**
 * A copy of a workbook file in which these formula cells, and the cells that they spill over, show new results. Every part that is
 * not touched keeps its packed bytes; in a touched sheet only the stored results change, and a formula whose answer spills is
 * marked as Excel marks it (array range, cell metadata). The original is not changed. Throws a Problem when a sheet or formula is
 * missing, an answer would cover a cell that is not empty, or a part cannot be read.
 */
export async function patchBook(original: Uint8Array, results: BookResults, limits?: ArchiveLimits): Promise<Uint8Array> {
  const archive = await openArchive(original, limits);
  const workbook = await readWorkbookPart(archive);
  const parts = new PartEdits(archive);
  const marks = await SpillMarkBook.of(parts, workbook);
  for (const [name, sheetResults] of results) {
    const sheet = workbook.sheets.find((entry) => entry.name === name);
    if (!sheet) throw new Problem("value", files.noSheet(name));
    parts.set(sheet.part, patchSheet(await parts.text(sheet.part), sheet.part, sheetResults, marks));
  }
  await marks.write();
  return archive.withParts(parts.changed());
}
