import { Problem } from "../../science/problem";
import { files } from "../../words/files";
import { type Archive, decodeXml, isUtf8, openArchive } from "../archive";
import type { ArchiveLimits } from "../archive-limits";
import { readRelationships, relationshipsPart } from "../relationships";
import { readWorkbookPart, type WorkbookPart } from "../workbook-part";
import { attribute, encodeAttribute, isSpreadsheet, walkXml } from "../xml";
import { freeId, withAttributes, withElement, withoutElements } from "../xml-parts";
import { NO_FORMATS, withCoverFormats } from "./cover-formats";
import { type CoverLine, coverPart } from "./cover-part";
import { freezeSheet, needsAddIn } from "./freeze-sheet";

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

const CONTENT_TYPES = "[Content_Types].xml";
const SHEET_TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml";

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
  await addCover(archive, parts, workbook, cover.name, (formats, namespace) => coverPart(cover.lines(frozen, workbook.names.filter(({ ref }) => needsAddIn(ref)).map(({ name }) => name)), formats, namespace));
  return { file: await archive.withParts(parts.changed(), parts.dropped), frozen };
}

/** Parts as they are by now, and which of them differ from the file. */
class PartEdits {
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

  set(part: string, text: string): void {
    this.texts.set(part, text);
  }

  changed(): Map<string, Uint8Array> {
    const changed = [...this.texts].filter(([part, text]) => this.before.get(part) !== text && !this.dropped.has(part));
    return new Map(changed.map(([part, text]) => [part, new TextEncoder().encode(text)]));
  }
}

/** A table would fill its formulas into new rows. */
async function freezeTables(archive: Archive, parts: PartEdits, sheetPart: string): Promise<void> {
  for (const { kind, part } of await readRelationships(archive, sheetPart)) {
    if (kind !== "table") continue;
    parts.set(part, withoutElements(await parts.text(part), part, (tag, text) => isSpreadsheet(tag) && tag.local === "calculatedColumnFormula" && needsAddIn(text)));
  }
}

/** The order in which cells were calculated names cells that have no formula any more. It is only a help, and is made anew. */
async function dropCalculationChain(parts: PartEdits, workbook: WorkbookPart): Promise<void> {
  const chain = workbook.relationships.find(({ kind }) => kind === "calcChain");
  if (!chain) return;
  parts.dropped.add(chain.part);
  const links = relationshipsPart(workbook.part);
  parts.set(links, withoutElements(await parts.text(links), links, (tag) => tag.local === "Relationship" && attribute(tag, "Id") === chain.id));
  parts.set(CONTENT_TYPES, withoutElements(await parts.text(CONTENT_TYPES), CONTENT_TYPES, (tag) => tag.local === "Override" && attribute(tag, "PartName")?.toLowerCase() === `/${chain.part}`.toLowerCase()));
}

async function addCover(archive: Archive, parts: PartEdits, workbook: WorkbookPart, wanted: string, content: (formats: typeof NO_FORMATS, namespace: string) => string): Promise<void> {
  const folder = workbook.part.slice(0, workbook.part.lastIndexOf("/") + 1);
  let target = "worksheets/cover.xml";
  for (let i = 2; archive.has(folder + target); i += 1) target = `worksheets/cover${i}.xml`;
  const styles = workbook.relationships.find(({ kind }) => kind === "styles")?.part;
  const styled = styles === undefined ? null : withCoverFormats(await parts.text(styles), styles);
  if (styles !== undefined && styled) parts.set(styles, styled.xml);

  const book = await bookFacts(parts, workbook.part);
  parts.set(folder + target, content(styled?.formats ?? NO_FORMATS, book.namespace));
  parts.set(CONTENT_TYPES, withElement(await parts.text(CONTENT_TYPES), CONTENT_TYPES, (prefix) => `<${prefix}Override PartName="/${encodeAttribute(folder + target)}" ContentType="${SHEET_TYPE}"/>`));
  const links = relationshipsPart(workbook.part);
  let id = "";
  parts.set(links, withElement(await parts.text(links), links, (prefix, ids) => {
    id = freeId(ids);
    return `<${prefix}Relationship Id="${id}" Type="${encodeAttribute(book.sheetLink)}" Target="${target}"/>`;
  }));
  const name = freeName(wanted, book.names);
  let xml = withElement(await parts.text(workbook.part), workbook.part, (prefix) => `<${prefix}sheet name="${encodeAttribute(name)}" sheetId="${book.freeNumber}" ${book.idAttribute}="${id}"/>`, (tag) => isSpreadsheet(tag) && tag.local === "sheets", "first");
  // The other sheets are one further along, and the cover comes to the front.
  xml = withAttributes(xml, workbook.part, (tag) => {
    if (!isSpreadsheet(tag)) return null;
    if (tag.local === "workbookView") return { activeTab: undefined, firstSheet: undefined };
    const sheet = tag.local === "definedName" ? attribute(tag, "localSheetId") : undefined;
    return sheet === undefined ? null : { localSheetId: String(Number(sheet) + 1) };
  });
  parts.set(workbook.part, xml);
  for (const { part } of workbook.relationships.filter(({ kind }) => kind === "worksheet" || kind === "chartsheet")) {
    parts.set(part, withAttributes(await parts.text(part), part, (tag) => (isSpreadsheet(tag) && tag.local === "sheetView" && attribute(tag, "tabSelected") !== undefined ? { tabSelected: undefined } : null)));
  }
}

interface BookFacts {
  readonly namespace: string;
  readonly names: readonly string[];
  readonly freeNumber: number;
  /** The attribute that leads to a sheet's part, with the prefix that the file uses. */
  readonly idAttribute: string;
  /** The type of such a link, in the edition of the standard that the file follows. */
  readonly sheetLink: string;
}

async function bookFacts(parts: PartEdits, part: string): Promise<BookFacts> {
  const names: string[] = [];
  const numbers: number[] = [];
  let [namespace, idAttribute, sheetLink] = ["", "r:id", ""];
  walkXml(await parts.text(part), part, {
    open(tag) {
      if (!isSpreadsheet(tag)) return;
      if (tag.local === "workbook") namespace = tag.uri;
      if (tag.local !== "sheet") return;
      names.push(attribute(tag, "name") ?? "");
      numbers.push(Number(attribute(tag, "sheetId") ?? 0));
      idAttribute = Object.values(tag.attributes).find(({ local, prefix }) => local === "id" && prefix !== "")?.name ?? idAttribute;
    },
  });
  const links = relationshipsPart(part);
  walkXml(await parts.text(links), links, {
    open(tag) {
      const type = attribute(tag, "Type") ?? "";
      if (type.endsWith("/worksheet")) sheetLink = type;
    },
  });
  return { namespace, names, freeNumber: Math.max(0, ...numbers) + 1, idAttribute, sheetLink };
}

/** Sheet names are told apart without regard to case. */
function freeName(wanted: string, taken: readonly string[]): string {
  const lower = new Set(taken.map((name) => name.toLowerCase()));
  let name = wanted;
  for (let i = 2; lower.has(name.toLowerCase()); i += 1) name = `${wanted} ${i}`;
  return name;
}
