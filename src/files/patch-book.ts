import { Problem } from "../science/problem";
import { files } from "../words/files";
import { type Archive, decodeXml, isUtf8, openArchive } from "./archive";
import type { ArchiveLimits } from "./archive-limits";
import { METADATA_RELATIONSHIP, METADATA_TYPE, type MetadataPart, NEW_METADATA_PART, readMetadataPart } from "./metadata-part";
import { CONTENT_TYPES } from "./package-part";
import { type FormulaResult, patchSheet } from "./patch-sheet";
import { relationshipsPart } from "./relationships";
import { readWorkbookPart, type WorkbookPart } from "./workbook-part";
import { freeId, withElement } from "./xml-parts";

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
  const marks = await SpillMarkBook.of(archive, workbook);
  const parts = new Map<string, Uint8Array>();
  for (const [name, sheetResults] of results) {
    const sheet = workbook.sheets.find((entry) => entry.name === name);
    if (!sheet) throw new Problem("value", files.noSheet(name));
    const xml = await writableText(archive, sheet.part);
    const patched = patchSheet(xml, sheet.part, sheetResults, marks);
    if (patched !== xml) parts.set(sheet.part, new TextEncoder().encode(patched));
  }
  for (const [name, text] of await marks.parts()) parts.set(name, new TextEncoder().encode(text));
  return archive.withParts(parts);
}

async function writableText(archive: Archive, part: string): Promise<string> {
  const bytes = await archive.bytes(part);
  if (!isUtf8(bytes)) throw new Problem("value", files.unusualEncoding(part));
  return decodeXml(bytes, part);
}

/** Keeps the marks for formulas that spill, and writes the part that explains them when a first one is asked for. */
class SpillMarkBook {
  private asked = false;

  private constructor(private readonly archive: Archive, private readonly workbook: WorkbookPart, private readonly part: string | undefined, private readonly metadata: MetadataPart) {}

  static async of(archive: Archive, workbook: WorkbookPart): Promise<SpillMarkBook> {
    const part = workbook.relationships.find((relationship) => relationship.kind === "sheetMetadata")?.part;
    const metadata = part === undefined ? { dynamic: new Set<number>(), mark: { number: 1, xml: NEW_METADATA_PART } } : readMetadataPart(await writableText(archive, part), part);
    return new SpillMarkBook(archive, workbook, part, metadata);
  }

  spillsFreely(metadata: number): boolean {
    return this.metadata.dynamic.has(metadata);
  }

  newMark(): number {
    if (!this.metadata.mark) throw new Problem("value", files.cannotMarkSpill(this.part ?? ""));
    this.asked = true;
    return this.metadata.mark.number;
  }

  /** The parts that have to change so that the marks mean something. */
  async parts(): Promise<Map<string, string>> {
    const xml = this.metadata.mark?.xml;
    if (!this.asked || xml === undefined) return new Map();
    if (this.part !== undefined) return new Map([[this.part, xml]]);
    const folder = this.workbook.part.slice(0, this.workbook.part.lastIndexOf("/") + 1);
    const target = freeName(this.archive, folder);
    const relationships = relationshipsPart(this.workbook.part);
    return new Map([
      [folder + target, xml],
      [CONTENT_TYPES, withElement(await writableText(this.archive, CONTENT_TYPES), CONTENT_TYPES, (prefix) => `<${prefix}Override PartName="/${folder}${target}" ContentType="${METADATA_TYPE}"/>`)],
      [relationships, withElement(await writableText(this.archive, relationships), relationships, (prefix, ids) => `<${prefix}Relationship Id="${freeId(ids)}" Type="${METADATA_RELATIONSHIP}" Target="${target}"/>`)],
    ]);
  }
}

function freeName(archive: Archive, folder: string): string {
  let name = "metadata.xml";
  for (let i = 1; archive.has(folder + name); i += 1) name = `metadata${i}.xml`;
  return name;
}
