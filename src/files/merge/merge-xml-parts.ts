import type { BookXmlPart } from "../book-extras";
import { inUtf8, placedXmlParts, writeXmlPart } from "../custom-xml-part";
import { OFFICE, relationships } from "../package-part";
import { addLink, addPart, freePart } from "../part-links";
import { readRelationships, relationshipsPart } from "../relationships";
import { dropLinked } from "./drop-linked";
import type { MergeContext } from "./merge-context";

/** Brings the XML parts that were added, changed or taken out into the file. */
export async function mergeXmlParts(context: MergeContext): Promise<void> {
  const { archive, before, now, parts, workbook } = context;
  const [was, is] = [before.book.xmlParts ?? [], now.book.xmlParts ?? []];
  if (JSON.stringify(was) === JSON.stringify(is)) return;
  const placed = await placedXmlParts(archive, workbook.relationships);
  for (const old of was) {
    const same = is.find(({ id }) => id === old.id);
    const part = placed.find(({ text }) => text.id === old.id)?.part;
    if (part === undefined || same?.xml === old.xml) continue;
    if (same) parts.set(part, inUtf8(same.xml));
    else await dropLinked(context, workbook.part, (await readRelationships(archive, workbook.part)).filter((link) => link.part === part));
  }
  for (const part of is) if (!was.some(({ id }) => id === part.id)) await add(context, part);
}

async function add({ parts, workbook }: MergeContext, text: BookXmlPart): Promise<void> {
  const part = freePart(parts, "customXml/item");
  const number = Number(/(\d+)\.xml$/.exec(part)?.[1]);
  const { item, links, properties, propertiesType } = writeXmlPart(text, number);
  await addPart(parts, part, item, undefined);
  await addPart(parts, `customXml/itemProps${number}.xml`, properties, propertiesType);
  parts.set(relationshipsPart(part), relationships(links));
  await addLink(parts, workbook.part, `${OFFICE}/relationships/customXml`, part);
}
