import { FIRST_OWN_FORMAT } from "../number-formats";
import { attribute, decodeText, isSpreadsheet, tagStart, walkXml } from "../xml";

/** The lists of a styles part whose items are known by their place, as the file holds them. */
export interface StyleLists {
  /** Of the spreadsheet elements, with its colon, or "". */
  readonly prefix: string;
  readonly fonts: readonly string[];
  readonly fills: readonly string[];
  readonly borders: readonly string[];
  readonly cellXfs: readonly string[];
  readonly dxfs: readonly string[];
  /** Numbers of the number formats, by their codes. */
  readonly formats: ReadonlyMap<string, number>;
  /** The first number that no format has. */
  readonly freeFormat: number;
}

const LISTS = ["fonts", "fills", "borders", "cellXfs", "dxfs"] as const;
type ListName = (typeof LISTS)[number];

export function readStyleLists(xml: string, part: string): StyleLists {
  const lists: Record<ListName, string[]> = { fonts: [], fills: [], borders: [], cellXfs: [], dxfs: [] };
  const formats = new Map<string, number>();
  const open: { readonly local: string; readonly start: number }[] = [];
  let prefix = "";
  let freeFormat = FIRST_OWN_FORMAT;
  walkXml(xml, part, {
    open(tag, end) {
      const own = isSpreadsheet(tag);
      if (open.length === 0 && tag.prefix !== "") prefix = `${tag.prefix}:`;
      if (own && tag.local === "numFmt" && open[1]?.local === "numFmts") {
        const number = Number(attribute(tag, "numFmtId"));
        const code = decodeText(attribute(tag, "formatCode") ?? "");
        if (!formats.has(code)) formats.set(code, number);
        if (number >= freeFormat) freeFormat = number + 1;
      }
      open.push({ local: own ? tag.local : "", start: tagStart(xml, end) });
    },
    close(_tag, end) {
      const closed = open.pop();
      const list = open.length === 2 ? LISTS.find((name) => name === open[1]?.local) : undefined;
      if (closed && list) lists[list].push(xml.slice(closed.start, end));
    },
  });
  return { prefix, ...lists, formats, freeFormat };
}
