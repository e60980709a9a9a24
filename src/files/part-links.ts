import type { PartEdits } from "./hand-over/part-edits";
import { CONTENT_TYPES, relationships } from "./package-part";
import { relationshipsPart } from "./relationships";
import { attribute, encodeAttribute, walkXml } from "./xml";
import { freeId, withElement } from "./xml-parts";

/** Of a part that is of no kind in particular. */
const ANY_XML = "application/xml";

/** Puts a new part into a file, and says of what kind it is; without a type as the file says of all whose names end so. */
export async function addPart(parts: PartEdits, part: string, xml: string, given: string | undefined): Promise<void> {
  parts.set(part, xml);
  const ending = /\.([^./]+)$/.exec(part)?.[1] ?? "";
  const type = given ?? (hasDefault(await parts.text(CONTENT_TYPES), ending) ? undefined : ANY_XML);
  if (type === undefined) return;
  parts.set(CONTENT_TYPES, withElement(await parts.text(CONTENT_TYPES), CONTENT_TYPES, (prefix) => `<${prefix}Override PartName="/${encodeAttribute(part)}" ContentType="${type}"/>`));
}

function hasDefault(types: string, ending: string): boolean {
  let found = false;
  walkXml(types, CONTENT_TYPES, {
    open(tag) {
      found ||= tag.local === "Default" && attribute(tag, "Extension")?.toLowerCase() === ending.toLowerCase();
    },
  });
  return found;
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
