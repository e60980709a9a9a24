import { applyEdits, type Edit, escapeXml, tagStart, walkXml, withAttribute, type XmlTag } from "../../xml";

/** An element with its text, and what stood around it. */
export interface SeenElement {
  readonly tag: XmlTag;
  readonly text: string;
  /** From the root to its parent. */
  readonly around: readonly XmlTag[];
}

/** What becomes of one element; a change that is left out leaves all as it was. */
export interface ElementChange {
  readonly isGone?: boolean;
  readonly attributes?: Readonly<Record<string, string | undefined>>;
  readonly text?: string;
}

/** A part with some of its elements changed or taken out; each is asked for at its end, inner ones before outer ones. */
export function withChangedElements(xml: string, part: string, change: (element: SeenElement) => ElementChange | null): string {
  const open: { readonly tag: XmlTag; readonly start: number; readonly tagEnd: number; text: string }[] = [];
  let edits: Edit[] = [];
  walkXml(xml, part, {
    open: (tag, end) => void open.push({ tag, start: tagStart(xml, end), tagEnd: end, text: "" }),
    text(text) {
      const last = open[open.length - 1];
      if (last) last.text += text;
    },
    close(_tag, end) {
      const closed = open.pop();
      const found = closed && change({ tag: closed.tag, text: closed.text, around: open.map(({ tag }) => tag) });
      if (!closed || !found) return;
      if (found.isGone) {
        edits = edits.filter(({ start }) => start < closed.start);
        edits.push({ start: closed.start, end, text: "" });
        return;
      }
      const before = xml.slice(closed.start, closed.tagEnd);
      const after = Object.entries(found.attributes ?? {}).reduce((text, [name, value]) => withAttribute(text, name, value), before);
      if (after !== before) edits.push({ start: closed.start, end: closed.tagEnd, text: after });
      if (found.text !== undefined && found.text !== closed.text && closed.tagEnd < end) edits.push({ start: closed.tagEnd, end: tagStart(xml, end), text: escapeXml(found.text) });
    },
  });
  return edits.length > 0 ? applyEdits(xml, edits) : xml;
}
