import { ADD_IN_ID, EXTENSION, PANES } from "./add-in-reference";
import type { Archive } from "./archive";
import { CONTENT_TYPES } from "./package-part";
import { readRelationships, type Relationship, relationshipsPart } from "./relationships";
import { attribute, walkXml } from "./xml";
import { withoutElements } from "./xml-parts";

/** Parts of a file that are being changed: their text as it is by now, and which of them go. */
export interface EditedParts {
  readonly dropped: Set<string>;
  text(part: string): Promise<string>;
  set(part: string, text: string): void;
}

/** Takes the reference to this add-in out of a file, whoever wrote it; those to other add-ins stay. A file without one is not changed. */
export async function dropAddInReference(archive: Archive, parts: EditedParts): Promise<void> {
  for (const panes of await linked(archive, "", "webextensiontaskpanes")) {
    const extensions = await linked(archive, panes.part, "webextension");
    const ours: Relationship[] = [];
    for (const extension of extensions) if (leadsToUs(await parts.text(extension.part), extension.part)) ours.push(extension);
    if (ours.length === 0) continue;
    const links = relationshipsPart(panes.part);
    if (ours.length === extensions.length) {
      await dropLinks(parts, relationshipsPart(""), [panes]);
      await dropParts(archive, parts, [...ours.map(({ part }) => part), panes.part]);
    } else {
      parts.set(panes.part, withoutPanes(await parts.text(panes.part), panes.part, ours));
      await dropLinks(parts, links, ours);
      await dropParts(archive, parts, ours.map(({ part }) => part));
    }
  }
}

async function linked(archive: Archive, from: string, wanted: string): Promise<Relationship[]> {
  return (await readRelationships(archive, from)).filter(({ kind, part }) => kind === wanted && archive.has(part));
}

/** Excel writes the first reference; another one may say where else the same add-in is found. */
function leadsToUs(xml: string, part: string): boolean {
  let found = false;
  walkXml(xml, part, {
    open(tag) {
      if (tag.local === "reference" && tag.uri === EXTENSION) found ||= attribute(tag, "id")?.toLowerCase() === ADD_IN_ID;
    },
  });
  return found;
}

function withoutPanes(xml: string, part: string, gone: readonly Relationship[]): string {
  const places = new Set<number>();
  let pane = -1;
  walkXml(xml, part, {
    open(tag) {
      if (tag.uri !== PANES) return;
      if (tag.local === "taskpane") pane += 1;
      const id = Object.values(tag.attributes).find(({ local, prefix }) => local === "id" && prefix !== "")?.value;
      if (tag.local === "webextensionref" && gone.some((one) => one.id === id)) places.add(pane);
    },
  });
  let closed = -1;
  return withoutElements(xml, part, (tag) => {
    if (tag.uri !== PANES || tag.local !== "taskpane") return false;
    closed += 1;
    return places.has(closed);
  });
}

async function dropLinks(parts: EditedParts, part: string, gone: readonly Relationship[]): Promise<void> {
  parts.set(part, withoutElements(await parts.text(part), part, (tag) => tag.local === "Relationship" && gone.some(({ id }) => id === attribute(tag, "Id"))));
}

/** The parts, with their own links, and what tells of what kind they are. */
async function dropParts(archive: Archive, parts: EditedParts, gone: readonly string[]): Promise<void> {
  for (const part of gone) {
    parts.dropped.add(part);
    if (archive.has(relationshipsPart(part))) parts.dropped.add(relationshipsPart(part));
  }
  const names = new Set(gone.map((part) => `/${part}`.toLowerCase()));
  parts.set(CONTENT_TYPES, withoutElements(await parts.text(CONTENT_TYPES), CONTENT_TYPES, (tag) => tag.local === "Override" && names.has((attribute(tag, "PartName") ?? "").toLowerCase())));
}
