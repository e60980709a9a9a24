import type { Archive } from "./archive";
import type { BookXmlPart } from "./book-extras";
import { HEAD, type Link, OFFICE } from "./package-part";
import { type Relationship, readRelationships } from "./relationships";
import { attribute, encodeAttribute, walkXml } from "./xml";

const CUSTOM_XML = "http://schemas.openxmlformats.org/officeDocument/2006/customXml";
const GUID = /^\{[0-9A-Fa-f]{8}(-[0-9A-Fa-f]{4}){3}-[0-9A-Fa-f]{12}\}$/;

export interface WrittenXmlPart {
  item: string;
  properties: string;
  propertiesType: string;
  links: Link[];
}

/** Writes the text of another program as the file keeps it: the text itself, and a part with its id. @param number counted from 1 */
export function writeXmlPart({ id, namespaceUri, xml }: BookXmlPart, number: number): WrittenXmlPart {
  const guid = GUID.test(id) ? id : freshGuid(number);
  const schema = namespaceUri === "" ? "<ds:schemaRefs/>" : `<ds:schemaRefs><ds:schemaRef ds:uri="${encodeAttribute(namespaceUri)}"/></ds:schemaRefs>`;
  return {
    item: inUtf8(xml),
    properties: `${HEAD}<ds:datastoreItem ds:itemID="${guid}" xmlns:ds="${CUSTOM_XML}">${schema}</ds:datastoreItem>`,
    propertiesType: "application/vnd.openxmlformats-officedocument.customXmlProperties+xml",
    links: [{ type: `${OFFICE}/relationships/customXmlProps`, target: `itemProps${number}.xml` }],
  };
}

/** The texts that a workbook carries for other programs. One that cannot be read is left out. */
export async function readXmlParts(archive: Archive, workbook: readonly Relationship[]): Promise<BookXmlPart[]> {
  return (await placedXmlParts(archive, workbook)).map(({ text }) => text);
}

/** The same, each with the part of the file that holds it. */
export async function placedXmlParts(archive: Archive, workbook: readonly Relationship[]): Promise<{ readonly part: string; readonly text: BookXmlPart }[]> {
  const parts: { part: string; text: BookXmlPart }[] = [];
  for (const { kind, part } of workbook) {
    if (kind !== "customXml" || !archive.has(part)) continue;
    const xml = (await archive.text(part)).replace(/^\uFEFF/, "");
    const namespaceUri = rootNamespace(xml, part);
    if (namespaceUri === undefined) continue;
    const id = await idOf(archive, part);
    const taken = parts.some(({ text }) => text.id === id);
    parts.push({ part, text: { id: id === undefined || taken ? freshGuid(parts.length + 1) : id, namespaceUri, xml } });
  }
  return parts;
}

async function idOf(archive: Archive, item: string): Promise<string | undefined> {
  const properties = (await readRelationships(archive, item)).find(({ kind }) => kind === "customXmlProps")?.part;
  if (properties === undefined || !archive.has(properties)) return undefined;
  let id: string | undefined;
  walkXml(await archive.text(properties), properties, {
    open(tag) {
      if (tag.local === "datastoreItem") id = Object.values(tag.attributes).find(({ local }) => local === "itemID")?.value ?? attribute(tag, "itemID");
    },
  });
  return id !== undefined && GUID.test(id) ? id : undefined;
}

function rootNamespace(xml: string, part: string): string | undefined {
  let root: string | undefined;
  try {
    walkXml(xml, part, { open: (tag) => (root ??= tag.uri) });
  } catch {
    return undefined;
  }
  return root;
}

/** New files are in UTF-8, whatever the text says of itself. */
export function inUtf8(xml: string): string {
  return xml.replace(/^\uFEFF/, "").replace(/^(<\?xml[^>]*?)\s+encoding\s*=\s*(?:"[^"]*"|'[^']*')/, '$1 encoding="UTF-8"');
}

function freshGuid(number: number): string {
  return `{00000000-0000-4000-8000-${number.toString(16).toUpperCase().padStart(12, "0")}}`;
}
