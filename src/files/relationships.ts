import type { Archive } from "./archive";
import { attribute, walkXml } from "./xml";

export interface Relationship {
  id: string;
  /** The last word of the relationship's type: "worksheet", "styles". Both editions of the standard share it. */
  kind: string;
  /** The part that it leads to, by its full name without a leading slash. */
  part: string;
}

/** The part that holds the relationships of a part; of the whole file for "". */
export function relationshipsPart(part: string): string {
  const cut = part.lastIndexOf("/") + 1;
  return `${part.slice(0, cut)}_rels/${part.slice(cut)}.rels`;
}

/** What a part refers to inside the file. A part without relationships has none; links to outside are left out. */
export async function readRelationships(archive: Archive, part: string): Promise<Relationship[]> {
  const name = relationshipsPart(part);
  if (!archive.has(name)) return [];
  const found: Relationship[] = [];
  walkXml(await archive.text(name), name, {
    open(tag) {
      if (tag.local !== "Relationship" || attribute(tag, "TargetMode") === "External") return;
      const type = attribute(tag, "Type") ?? "";
      const target = attribute(tag, "Target") ?? "";
      found.push({ id: attribute(tag, "Id") ?? "", kind: type.slice(type.lastIndexOf("/") + 1), part: resolveTarget(part, target) });
    },
  });
  return found;
}

/** A target as it is written in a part, as the full name of a part. Steps up end at the root of the file. */
function resolveTarget(part: string, target: string): string {
  const folder = target.startsWith("/") ? [] : part.split("/").slice(0, -1);
  for (const step of decodeTarget(target).split("/")) {
    if (step === "..") folder.pop();
    else if (step !== "" && step !== ".") folder.push(step);
  }
  return folder.join("/");
}

function decodeTarget(target: string): string {
  const path = target.split(/[?#]/)[0] ?? "";
  try {
    return decodeURI(path);
  } catch {
    return path;
  }
}
