import type { Archive } from "../archive";
import { CONTENT_TYPES } from "../package-part";
import { readRelationships, type Relationship, relationshipsPart } from "../relationships";
import { attribute } from "../xml";
import { withoutElements } from "../xml-parts";
import type { MergeContext } from "./merge-context";

/** Takes links of a part out of the file, and the parts that nothing else leads to. */
export async function dropLinked({ archive, parts }: Pick<MergeContext, "archive" | "parts">, from: string, gone: readonly Relationship[]): Promise<void> {
  const links = relationshipsPart(from);
  parts.set(links, withoutElements(await parts.text(links), links, (tag) => tag.local === "Relationship" && gone.some(({ id }) => id === attribute(tag, "Id"))));
  const kept = await reached(archive, (part, link) => parts.dropped.has(link.part) || (part === from && gone.some(({ id }) => id === link.id)));
  const dropped = [...(await reached(archive, () => false))].filter((part) => !kept.has(part));
  for (const part of dropped) {
    parts.dropped.add(part);
    if (archive.has(relationshipsPart(part))) parts.dropped.add(relationshipsPart(part));
  }
  const names = new Set(dropped.map((part) => `/${part}`.toLowerCase()));
  parts.set(CONTENT_TYPES, withoutElements(await parts.text(CONTENT_TYPES), CONTENT_TYPES, (tag) => tag.local === "Override" && names.has((attribute(tag, "PartName") ?? "").toLowerCase())));
}

/** The parts that the file's own links lead to, without those that are left out. */
async function reached(archive: Archive, isLeftOut: (part: string, link: Relationship) => boolean): Promise<Set<string>> {
  const found = new Set<string>();
  const waiting = [""];
  for (let part = waiting.pop(); part !== undefined; part = waiting.pop()) {
    for (const link of await readRelationships(archive, part)) {
      if (found.has(link.part) || !archive.has(link.part) || isLeftOut(part, link)) continue;
      found.add(link.part);
      waiting.push(link.part);
    }
  }
  return found;
}
