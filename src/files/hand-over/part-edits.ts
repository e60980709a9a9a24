import { Problem } from "../../science/problem";
import { files } from "../../words/files";
import { type Archive, decodeXml, isUtf8 } from "../archive";
import { CONTENT_TYPES } from "../package-part";
import { relationshipsPart } from "../relationships";
import type { WorkbookPart } from "../workbook-part";
import { attribute } from "../xml";
import { withoutElements } from "../xml-parts";

/** Parts as they are by now, and which of them differ from the file. */
export class PartEdits {
  readonly dropped = new Set<string>();
  private readonly texts = new Map<string, string>();
  private readonly before = new Map<string, string>();

  constructor(private readonly archive: Archive) {}

  async text(part: string): Promise<string> {
    const known = this.texts.get(part);
    if (known !== undefined) return known;
    const bytes = await this.archive.bytes(part);
    if (!isUtf8(bytes)) throw new Problem("value", files.unusualEncoding(part));
    const text = decodeXml(bytes, part);
    this.texts.set(part, text);
    this.before.set(part, text);
    return text;
  }

  /** Whether the copy has that part, the file's own or a new one. */
  has(part: string): boolean {
    return this.texts.has(part) || this.archive.has(part);
  }

  set(part: string, text: string): void {
    this.texts.set(part, text);
  }

  /** Names of the parts that the file has not. */
  added(): string[] {
    return [...this.texts.keys()].filter((part) => !this.before.has(part));
  }

  changed(): Map<string, Uint8Array> {
    const changed = [...this.texts].filter(([part, text]) => this.before.get(part) !== text && !this.dropped.has(part));
    return new Map(changed.map(([part, text]) => [part, new TextEncoder().encode(text)]));
  }
}

/** The order in which cells were calculated names cells that have no formula any more. It is only a help, and is made anew. */
export async function dropCalculationChain(parts: PartEdits, workbook: WorkbookPart): Promise<void> {
  const chain = workbook.relationships.find(({ kind }) => kind === "calcChain");
  if (!chain) return;
  parts.dropped.add(chain.part);
  const links = relationshipsPart(workbook.part);
  parts.set(links, withoutElements(await parts.text(links), links, (tag) => tag.local === "Relationship" && attribute(tag, "Id") === chain.id));
  parts.set(CONTENT_TYPES, withoutElements(await parts.text(CONTENT_TYPES), CONTENT_TYPES, (tag) => tag.local === "Override" && attribute(tag, "PartName")?.toLowerCase() === `/${chain.part}`.toLowerCase()));
}
