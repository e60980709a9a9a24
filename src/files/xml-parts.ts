import { applyEdits, attribute, type Edit, tagStart, walkXml, withAttribute, type XmlTag } from "./xml";

/** Where a new element goes: at the end of its parent, or at its beginning. */
export type Place = "first" | "last";

/**
 * A part with one more element inside the first element that fits, or inside its root.
 * @param element given the parent's prefix with its colon, and the values of the attribute Id inside the part
 */
export function withElement(xml: string, part: string, element: (prefix: string, ids: ReadonlySet<string>) => string, isParent: ((tag: XmlTag) => boolean) | null = null, place: Place = "last"): string {
  const ids = new Set<string>();
  let depth = 0;
  let parent: { readonly tag: XmlTag; readonly depth: number; readonly start: number; readonly tagEnd: number } | undefined;
  let end: number | undefined;
  walkXml(xml, part, {
    open(tag, tagEnd) {
      if (!parent && (isParent ? isParent(tag) : depth === 0)) parent = { tag, depth, start: tagStart(xml, tagEnd), tagEnd };
      depth += 1;
      const id = attribute(tag, "Id");
      if (id !== undefined) ids.add(id);
    },
    close(_tag, closeEnd) {
      depth -= 1;
      if (parent && depth === parent.depth && end === undefined) end = closeEnd;
    },
  });
  if (!parent || end === undefined) return xml;
  const prefix = parent.tag.prefix === "" ? "" : `${parent.tag.prefix}:`;
  const text = element(prefix, ids);
  if (!parent.tag.isSelfClosing) {
    const at = place === "first" ? parent.tagEnd : tagStart(xml, end);
    return applyEdits(xml, [{ start: at, end: at, text }]);
  }
  return applyEdits(xml, [{ start: parent.start, end: parent.tagEnd, text: `${xml.slice(parent.start, parent.tagEnd).replace(/\s*\/>$/, ">")}${text}</${parent.tag.name}>` }]);
}

/** A part without the elements that fit, and all that is in them. */
export function withoutElements(xml: string, part: string, isGone: (tag: XmlTag, text: string) => boolean): string {
  const open: { readonly tag: XmlTag; readonly start: number; text: string }[] = [];
  const edits: Edit[] = [];
  walkXml(xml, part, {
    open(tag, end) {
      open.push({ tag, start: tagStart(xml, end), text: "" });
    },
    text(text) {
      const last = open[open.length - 1];
      if (last) last.text += text;
    },
    close(_tag, end) {
      const closed = open.pop();
      if (!closed || !isGone(closed.tag, closed.text)) return;
      // What was taken out inside it goes with it.
      while (edits.length > 0 && (edits[edits.length - 1]?.start ?? 0) >= closed.start) edits.pop();
      edits.push({ start: closed.start, end, text: "" });
    },
  });
  return edits.length > 0 ? applyEdits(xml, edits) : xml;
}

/** A part with attributes of its tags changed; undefined takes one away. */
export function withAttributes(xml: string, part: string, change: (tag: XmlTag) => Readonly<Record<string, string | undefined>> | null): string {
  const edits: Edit[] = [];
  walkXml(xml, part, {
    open(tag, end) {
      const changes = change(tag);
      if (!changes) return;
      const start = tagStart(xml, end);
      const before = xml.slice(start, end);
      const after = Object.entries(changes).reduce((text, [name, value]) => withAttribute(text, name, value), before);
      if (after !== before) edits.push({ start, end, text: after });
    },
  });
  return edits.length > 0 ? applyEdits(xml, edits) : xml;
}

/** "rId7": the first that none of the others has. */
export function freeId(ids: ReadonlySet<string>): string {
  let id = ids.size + 1;
  while (ids.has(`rId${id}`)) id += 1;
  return `rId${id}`;
}

/** Elements of our own as they stand in a part whose elements have a prefix; those that have one already keep it. @param prefix with its colon, or "" */
export function prefixed(elements: string, prefix: string): string {
  return prefix === "" ? elements : elements.replace(/<(\/?)(?![\w.-]*:)(?=[A-Za-z])/g, `<$1${prefix}`);
}
