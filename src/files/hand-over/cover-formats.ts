import { isSpreadsheet, walkXml, type XmlTag } from "../xml";
import { withAttributes, withElement } from "../xml-parts";
import type { CoverFormats } from "./cover-part";

const FONTS = 4;
/** The place of the format of dates, the day in the order of whoever reads it. */
const DATE = 6;

export const NO_FORMATS: CoverFormats = { title: 0, heading: 0, text: 0, quiet: 0, plain: 0, note: 0, date: 0 };

/** The styles part with fonts and cell formats for the cover sheet at the end of its lists; no other format changes its number. */
export function withCoverFormats(xml: string, part: string): { readonly xml: string; readonly formats: CoverFormats } {
  const fonts = childCount(xml, part, "fonts");
  const formats = childCount(xml, part, "cellXfs");
  if (fonts === null || formats === null) return { xml, formats: NO_FORMATS };
  const font = (prefix: string, bold: boolean, size: number, grey: boolean): string =>
    `<${prefix}font>${bold ? `<${prefix}b/>` : ""}<${prefix}sz val="${size}"/>${grey ? `<${prefix}color rgb="FF5C5C5C"/>` : ""}<${prefix}name val="Calibri"/></${prefix}font>`;
  const wraps = (place: number): boolean => place === 2 || place === 3;
  // Plain texts and notes have the letters of the wrapped ones; figures stand as a spreadsheet puts them.
  const format = (prefix: string, place: number): string =>
    `<${prefix}xf numFmtId="${place === DATE ? 14 : 0}" fontId="${fonts + (place < FONTS ? place : place === DATE ? 2 : place - 2)}" fillId="0" borderId="0" xfId="0" ${place === DATE ? 'applyNumberFormat="1" ' : ""}applyFont="1" applyAlignment="1"><${prefix}alignment${place < FONTS ? ' horizontal="left"' : ""} vertical="top"${wraps(place) ? ' wrapText="1"' : ""}/></${prefix}xf>`;
  let changed = withElement(xml, part, (prefix) => [font(prefix, true, 14, false), font(prefix, true, 11, false), font(prefix, false, 11, false), font(prefix, false, 10, true)].join(""), isList("fonts"));
  changed = withElement(changed, part, (prefix) => [0, 1, 2, 3, 4, 5, DATE].map((place) => format(prefix, place)).join(""), isList("cellXfs"));
  changed = withAttributes(changed, part, (tag) => (isList("fonts")(tag) ? { count: String(fonts + FONTS) } : isList("cellXfs")(tag) ? { count: String(formats + DATE + 1) } : null));
  return { xml: changed, formats: { title: formats, heading: formats + 1, text: formats + 2, quiet: formats + 3, plain: formats + 4, note: formats + 5, date: formats + DATE } };
}

const isList = (local: string) => (tag: XmlTag): boolean => isSpreadsheet(tag) && tag.local === local;

/** How many elements stand directly in the list of that name; null when the part has none. */
function childCount(xml: string, part: string, local: string): number | null {
  let depth = 0;
  let inside: number | null = null;
  let count: number | null = null;
  walkXml(xml, part, {
    open(tag) {
      if (inside !== null && depth === inside + 1) count = (count ?? 0) + 1;
      if (inside === null && count === null && isList(local)(tag)) [inside, count] = [depth, 0];
      depth += 1;
    },
    close() {
      depth -= 1;
      if (depth === inside) inside = null;
    },
  });
  return count;
}
