import type { BookStyle } from "../book";
import { argb } from "../style-writer";
import { tagStart, walkXml, withAttribute } from "../xml";

/** What is to differ in the style of a cell; a name with undefined says that it goes. */
export type StyleChange = { readonly [Name in keyof BookStyle]?: BookStyle[Name] | undefined };

/** The order in which a font holds what it says. */
const FONT_ORDER = ["b", "i", "strike", "condense", "extend", "outline", "shadow", "u", "vertAlign", "sz", "color", "name", "family", "charset", "scheme"];

/** What differs between two styles of the same cell. */
export function styleChange(before: BookStyle = {}, now: BookStyle = {}): StyleChange {
  const names = new Set([...Object.keys(before), ...Object.keys(now)] as (keyof BookStyle)[]);
  return Object.fromEntries([...names].filter((name) => JSON.stringify(before[name]) !== JSON.stringify(now[name])).map((name) => [name, now[name]]));
}

/** A font element with other marks, colour or size; its name and all else stay. @param usual the size that letters have when nothing is said */
export function changedFont(font: string, prefix: string, change: StyleChange, usual: number): string {
  const pieces = new Map(childrenOf(font).map(({ local, text }) => [local, text]));
  const put = (local: string, text: string | undefined) => (text === undefined ? pieces.delete(local) : pieces.set(local, text));
  for (const [name, local] of [["bold", "b"], ["italic", "i"], ["strike", "strike"], ["underline", "u"]] as const) {
    if (name in change) put(local, change[name] ? `<${prefix}${local}/>` : undefined);
  }
  if ("color" in change) put("color", change.color === undefined ? undefined : `<${prefix}color rgb="${argb(change.color)}"/>`);
  if ("size" in change) put("sz", `<${prefix}sz val="${change.size ?? usual}"/>`);
  const place = (local: string) => (FONT_ORDER.includes(local) ? FONT_ORDER.indexOf(local) : FONT_ORDER.length);
  const sorted = [...pieces].sort(([a], [b]) => place(a) - place(b)).map(([, text]) => text);
  return `<${prefix}font>${sorted.join("")}</${prefix}font>`;
}

/** The size of a font's letters. */
export function fontSize(font: string): number | undefined {
  const size = childrenOf(font).find(({ local }) => local === "sz");
  return size && Number(/\bval\s*=\s*["']([\d.]+)/.exec(size.text)?.[1] ?? Number.NaN);
}

/** A cell format with other numbers, and another alignment; protection and all else stay. */
export function changedFormat(format: string, prefix: string, attributes: Readonly<Record<string, string | undefined>>, alignment: Readonly<Record<string, string | undefined>>): string {
  const tagEnd = format.indexOf(">") + 1;
  const children = childrenOf(format);
  const before = children.find(({ local }) => local === "alignment")?.text ?? `<${prefix}alignment/>`;
  const after = Object.entries(alignment).reduce((text, [name, value]) => withAttribute(text, name, value), before);
  const rest = children.filter(({ local }) => local !== "alignment").map(({ text }) => text);
  const inner = [...(/<[^>]*=/.test(after) ? [after] : []), ...rest].join("");
  const tag = Object.entries(attributes).reduce((text, [name, value]) => withAttribute(text, name, value), format.slice(0, tagEnd)).replace(/\s*\/?>$/, "");
  return inner === "" ? `${tag}/>` : `${tag}>${inner}</${prefix}xf>`;
}

/** The number that a cell format gives by that name. */
export function formatNumber(format: string, name: string): number {
  return Number(new RegExp(`\\s${name}\\s*=\\s*["'](\\d+)["']`).exec(format.slice(0, format.indexOf(">")))?.[1] ?? 0);
}

/** The elements directly inside one that was cut out of a part, whose prefixes are declared elsewhere. */
function childrenOf(element: string): { readonly local: string; readonly text: string }[] {
  const prefixes = new Set([...element.matchAll(/[<\s/]([A-Za-z_][\w.-]*):/g)].map(([, prefix]) => prefix ?? ""));
  const declared = [...prefixes].filter((prefix) => prefix !== "xml" && prefix !== "xmlns").map((prefix) => ` xmlns:${prefix}="urn:${prefix}"`);
  const xml = `<whole${declared.join("")}>${element}</whole>`;
  const found: { local: string; text: string }[] = [];
  const starts: number[] = [];
  walkXml(xml, "styles", {
    open: (_tag, end) => starts.push(tagStart(xml, end)),
    close(tag, end) {
      const start = starts.pop();
      if (starts.length === 2 && start !== undefined) found.push({ local: tag.local, text: xml.slice(start, end) });
    },
  });
  return found;
}
