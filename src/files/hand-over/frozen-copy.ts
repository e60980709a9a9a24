import { Problem } from "../../science/problem";
import { files } from "../../words/files";
import { type Archive, openArchive } from "../archive";
import type { ArchiveLimits } from "../archive-limits";
import { dropAddInReference } from "../drop-add-in-reference";
import { readRelationships } from "../relationships";
import { readWorkbookPart } from "../workbook-part";
import { isSpreadsheet } from "../xml";
import { withoutElements } from "../xml-parts";
import { addSheets, freeName, sheetNames } from "./add-sheet";
import { type CoverLine, coverPart } from "./cover-part";
import { freezeSheet, needsAddIn } from "./freeze-sheet";
import { dropCalculationChain, PartEdits } from "./part-edits";

/** What was frozen on one sheet. */
export interface FrozenCells {
  readonly sheet: string;
  readonly cells: readonly string[];
  /** Of these, the ones that had no stored value. */
  readonly blank: readonly string[];
}

export interface Cover {
  /** Name of the cover sheet; the next free one is taken. */
  readonly name: string;
  readonly lines: (frozen: readonly FrozenCells[], namesWithFormulas: readonly string[]) => readonly CoverLine[];
}

/**
 * A copy of a workbook file for somebody without the add-in: each formula that needs it is replaced by the value that was stored with
 * it, and a cover sheet stands in front. All that is not touched stays byte for byte; the original is not changed.
 * @throws Problem when the file cannot be read, or has no formula of ours
 */
export async function frozenCopy(original: Uint8Array, cover: Cover, limits?: ArchiveLimits): Promise<{ readonly file: Uint8Array; readonly frozen: readonly FrozenCells[] }> {
  const archive = await openArchive(original, limits);
  const workbook = await readWorkbookPart(archive);
  const parts = new PartEdits(archive);
  const frozen: FrozenCells[] = [];
  for (const { name, part } of workbook.sheets) {
    const { xml, frozen: cells, blank } = freezeSheet(await parts.text(part), part);
    parts.set(part, xml);
    if (cells.length > 0) frozen.push({ sheet: name, cells, blank });
    await freezeTables(archive, parts, part);
  }
  if (frozen.length === 0) throw new Problem("value", files.nothingToFreeze);
  await dropCalculationChain(parts, workbook);
  const withAlgal = workbook.names.filter(({ ref }) => needsAddIn(ref)).map(({ name }) => name);
  await addSheets(parts, workbook, [{ name: freeName(cover.name, await sheetNames(parts, workbook)), part: "cover", place: "first", content: (formats, namespace) => coverPart(cover.lines(frozen, withAlgal), formats, namespace) }]);
  await dropAddInReference(archive, parts);
  return { file: await archive.withParts(parts.changed(), parts.dropped), frozen };
}

/** A table would fill its formulas into new rows. */
export async function freezeTables(archive: Archive, parts: PartEdits, sheetPart: string): Promise<void> {
  for (const { kind, part } of await readRelationships(archive, sheetPart)) {
    if (kind !== "table") continue;
    parts.set(part, withoutElements(await parts.text(part), part, (tag, text) => isSpreadsheet(tag) && tag.local === "calculatedColumnFormula" && needsAddIn(text)));
  }
}
