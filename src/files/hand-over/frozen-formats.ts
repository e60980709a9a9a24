import { isSpreadsheet, tagStart, walkXml, withAttribute, type XmlTag } from "../xml";
import { withAttributes, withElement } from "../xml-parts";

/** Behind a value that was a formula: a warm light grey that letters of any colour can be read on. */
const FILL = "FFEFE3D3";

const isList = (local: string) => (tag: XmlTag): boolean => isSpreadsheet(tag) && tag.local === local;

/**
 * The styles part with a fill for values that were formulas, and each of the cell formats that are asked for once more with that fill.
 * `of`: the number of such a format by the number of the one that a cell had; the same number where the part has no such lists.
 */
export function withFrozenFormats(xml: string, part: string, asked: Iterable<number>): { readonly xml: string; readonly of: (style: number) => number } {
  const formats = children(xml, part, "cellXfs");
  const fills = children(xml, part, "fills");
  const wanted = [...new Set(asked)].filter((style) => formats?.[style] !== undefined);
  if (!formats || !fills || wanted.length === 0) return { xml, of: (style) => style };
  const numbers = new Map(wanted.map((style, place) => [style, formats.length + place]));
  const filled = wanted.map((style) => {
    const format = formats[style] ?? "";
    const end = format.indexOf(">") + 1;
    return withAttribute(withAttribute(format.slice(0, end), "fillId", String(fills.length)), "applyFill", "1") + format.slice(end);
  });
  let changed = withElement(xml, part, (prefix) => `<${prefix}fill><${prefix}patternFill patternType="solid"><${prefix}fgColor rgb="${FILL}"/><${prefix}bgColor indexed="64"/></${prefix}patternFill></${prefix}fill>`, isList("fills"));
  changed = withElement(changed, part, () => filled.join(""), isList("cellXfs"));
  changed = withAttributes(changed, part, (tag) => (isList("fills")(tag) ? { count: String(fills.length + 1) } : isList("cellXfs")(tag) ? { count: String(formats.length + wanted.length) } : null));
  return { xml: changed, of: (style) => numbers.get(style) ?? style };
}

/** The elements directly in the first list of that name, as they stand in the part; null when it has none. */
function children(xml: string, part: string, local: string): string[] | null {
  const found: string[] = [];
  let [depth, inside, start, isDone] = [0, -1, 0, false];
  walkXml(xml, part, {
    open(tag, end) {
      if (inside >= 0 && depth === inside + 1) start = tagStart(xml, end);
      if (inside < 0 && !isDone && isList(local)(tag)) inside = depth;
      depth += 1;
    },
    close(_tag, end) {
      depth -= 1;
      if (inside >= 0 && depth === inside + 1) found.push(xml.slice(start, end));
      if (depth === inside) [inside, isDone] = [-1, true];
    },
  });
  return isDone ? found : null;
}
