import type { PartEdits } from "./hand-over/part-edits";
import { CONTENT_TYPES, relationships } from "./package-part";
import { relationshipsPart } from "./relationships";
import { encodeAttribute } from "./xml";
import { freeId, withElement } from "./xml-parts";

/** Puts a new part into a file, and says of what kind it is. */
export async function addPart(parts: PartEdits, part: string, xml: string, type: string | undefined): Promise<void> {
  parts.set(part, xml);
  if (type === undefined) return;
  parts.set(CONTENT_TYPES, withElement(await parts.text(CONTENT_TYPES), CONTENT_TYPES, (prefix) => `<${prefix}Override PartName="/${encodeAttribute(part)}" ContentType="${type}"/>`));
}

/** Lets one part refer to another. @returns the id of the link */
export async function addLink(parts: PartEdits, from: string, type: string, target: string): Promise<string> {
  const links = relationshipsPart(from);
  if (!parts.has(links)) parts.set(links, relationships([]));
  let id = "";
  parts.set(links, withElement(await parts.text(links), links, (prefix, ids) => {
    id = freeId(ids);
    return `<${prefix}Relationship Id="${id}" Type="${encodeAttribute(type)}" Target="${encodeAttribute(relativeTarget(from, target))}"/>`;
  }));
  return id;
}

/** The first part of that kind that the file has not: "xl/tables/table3.xml". */
export function freePart(parts: PartEdits, stem: string): string {
  let number = 1;
  while (parts.has(`${stem}${number}.xml`)) number += 1;
  return `${stem}${number}.xml`;
}

/** A part's name as seen from another: "../tables/table3.xml". */
function relativeTarget(from: string, target: string): string {
  const [here, there] = [from.split("/").slice(0, -1), target.split("/")];
  let shared = 0;
  while (shared < here.length && shared < there.length - 1 && here[shared] === there[shared]) shared += 1;
  return [...here.slice(shared).map(() => ".."), ...there.slice(shared)].join("/");
}
