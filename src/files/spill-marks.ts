import { Problem } from "../science/problem";
import { files } from "../words/files";
import type { PartEdits } from "./hand-over/part-edits";
import { METADATA_RELATIONSHIP, METADATA_TYPE, type MetadataPart, NEW_METADATA_PART, readMetadataPart } from "./metadata-part";
import { addLink, addPart } from "./part-links";
import type { SpillMarks } from "./patch-sheet";
import type { WorkbookPart } from "./workbook-part";

/** Keeps the marks for formulas that spill, and writes the part that explains them when a first one is asked for. */
export class SpillMarkBook implements SpillMarks {
  private asked = false;

  private constructor(private readonly parts: PartEdits, private readonly workbook: WorkbookPart, private readonly part: string | undefined, private readonly metadata: MetadataPart) {}

  static async of(parts: PartEdits, workbook: WorkbookPart): Promise<SpillMarkBook> {
    const part = workbook.relationships.find((relationship) => relationship.kind === "sheetMetadata")?.part;
    const metadata = part === undefined ? { dynamic: new Set<number>(), mark: { number: 1, xml: NEW_METADATA_PART } } : readMetadataPart(await parts.text(part), part);
    return new SpillMarkBook(parts, workbook, part, metadata);
  }

  spillsFreely(metadata: number): boolean {
    return this.metadata.dynamic.has(metadata) || (this.asked && metadata === this.metadata.mark?.number);
  }

  newMark(): number {
    if (!this.metadata.mark) throw new Problem("value", files.cannotMarkSpill(this.part ?? ""));
    this.asked = true;
    return this.metadata.mark.number;
  }

  /** Writes what the marks mean into the parts, when one was asked for. */
  async write(): Promise<void> {
    const { parts } = this;
    const xml = this.metadata.mark?.xml;
    if (!this.asked || xml === undefined) return;
    if (this.part !== undefined) return parts.set(this.part, xml);
    const folder = this.workbook.part.slice(0, this.workbook.part.lastIndexOf("/") + 1);
    let target = `${folder}metadata.xml`;
    for (let i = 1; parts.has(target); i += 1) target = `${folder}metadata${i}.xml`;
    await addPart(parts, target, xml, METADATA_TYPE);
    await addLink(parts, this.workbook.part, METADATA_RELATIONSHIP, target);
  }
}
