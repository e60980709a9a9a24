import { builtInFormatId } from "../number-formats";
import { borderElement, fillElement, type StyleList, StyleWriter } from "../style-writer";
import { applyEdits, isSpreadsheet, type XmlTag } from "../xml";
import { prefixed, withAttributes, withElement } from "../xml-parts";
import { readStyleLists, type StyleLists } from "./style-lists";
import { changedFont, changedFormat, fontSize, formatNumber, type StyleChange } from "./style-pieces";

const PLAIN_FORMAT = '<xf numFmtId="0" fontId="0" fillId="0" borderId="0"/>';
const LIST_OF: Readonly<Record<Exclude<StyleList, "formats">, "borders" | "cellXfs" | "dxfs" | "fills" | "fonts">> = { fonts: "fonts", fills: "fills", borders: "borders", cells: "cellXfs", differences: "dxfs" };
const NO_LISTS: StyleLists = { prefix: "", fonts: [], fills: [], borders: [], cellXfs: [], dxfs: [], formats: new Map(), freeFormat: 0 };
/** What may follow a list in a styles part, for one that has to be put in. */
const AFTER_FORMATS = "fonts";
const BEFORE_DIFFERENCES = ["cellStyles", "cellXfs", "cellStyleXfs"];

/** The styles of a file with more at the end of each list: no format that the file has changes its number. */
export class MergedStyles {
  /** For the cells and rules of sheets that come in, and for what is changed in the file's own. */
  readonly writer: StyleWriter;
  private readonly lists: StyleLists;
  private readonly untouched: string;

  /** @param file the styles part; null for a file that has none @param font of the sheets that come in */
  constructor(private readonly file: { readonly xml: string; readonly part: string } | null, font?: { readonly name: string; readonly size: number }) {
    const lists = file ? readStyleLists(file.xml, file.part) : NO_LISTS;
    this.lists = lists;
    // Cells of a file without styles have the usual letters, and keep them.
    this.writer = !file ? new StyleWriter() : new StyleWriter(font, { formats: lists.freeFormat, fonts: lists.fonts.length, fills: lists.fills.length, borders: lists.borders.length, cells: lists.cellXfs.length, differences: lists.dxfs.length });
    this.untouched = this.counts();
  }

  /** The number of a cell format that differs from the one with that number in no more than this. @param staysText keeps Excel from taking a text for a formula when it is edited */
  changed(number: number, change: StyleChange, staysText = false): number {
    const { lists } = this;
    const format = lists.cellXfs[number] ?? this.plain(PLAIN_FORMAT);
    const has = (...names: (keyof StyleChange)[]) => names.some((name) => name in change);
    const attributes: Record<string, string | undefined> = {};
    if (has("numberFormat")) Object.assign(attributes, { numFmtId: String(this.numberFormat(change.numberFormat)), applyNumberFormat: "1" });
    if (has("bold", "italic", "strike", "underline", "color", "size")) {
      const font = changedFont(lists.fonts[formatNumber(format, "fontId")] ?? this.plain("<font/>"), lists.prefix, change, fontSize(lists.fonts[0] ?? "<font/>") ?? 11);
      Object.assign(attributes, { fontId: String(this.place(font, lists.fonts, "fonts")), applyFont: "1" });
    }
    if (has("fill")) Object.assign(attributes, { fillId: String(change.fill === undefined ? 0 : this.place(this.plain(fillElement(change.fill)), lists.fills, "fills")), applyFill: "1" });
    if (has("border")) Object.assign(attributes, { borderId: String(this.place(this.plain(borderElement(change.border ? { border: change.border } : {})), lists.borders, "borders")), applyBorder: "1" });
    const alignment = {
      ...(has("align") ? { horizontal: change.align } : {}),
      ...(has("verticalAlign") ? { vertical: change.verticalAlign } : {}),
      ...(has("wrap") ? { wrapText: change.wrap ? "1" : undefined } : {}),
    };
    if (Object.keys(alignment).length > 0) attributes.applyAlignment = "1";
    if (staysText && formatNumber(format, "quotePrefix") === 0) attributes.quotePrefix = "1";
    if (Object.keys(attributes).length === 0) return number;
    const written = changedFormat(format, lists.prefix, attributes, alignment);
    return this.place(written, lists.cellXfs, "cells");
  }

  get isChanged(): boolean {
    return this.counts() !== this.untouched;
  }

  /** The part; as it was where nothing came in. */
  text(): string {
    const { file, lists, writer } = this;
    if (!file) return writer.part();
    if (!this.isChanged) return file.xml;
    let xml = this.withFormats(file.xml, file.part);
    for (const [list, name] of Object.entries(LIST_OF) as [keyof typeof LIST_OF, (typeof LIST_OF)[keyof typeof LIST_OF]][]) {
      const { items } = writer[list];
      if (items.length === 0) continue;
      if (name === "dxfs") xml = this.withDifferences(xml);
      const count = String(lists[name].length + items.length);
      xml = withElement(xml, file.part, () => items.map((item) => this.plain(item)).join(""), isList(name));
      xml = withAttributes(xml, file.part, (tag) => (isList(name)(tag) ? { count } : null));
    }
    return xml;
  }

  private counts(): string {
    const { borders, cells, differences, fills, fonts, formats } = this.writer;
    return [borders, cells, differences, fills, fonts, formats].map(({ items }) => items.length).join();
  }

  private numberFormat(code: string | undefined): number {
    if (code === undefined) return 0;
    return builtInFormatId(code) ?? this.lists.formats.get(code) ?? this.writer.numberFormat(code);
  }

  /** Where the file has the same already, its number. */
  private place(item: string, known: readonly string[], list: keyof typeof LIST_OF): number {
    const at = known.indexOf(item);
    return at >= 0 ? at : this.writer[list].number(item);
  }

  /** An element of our own with the file's prefix. */
  private plain(item: string): string {
    return prefixed(item, this.lists.prefix);
  }

  private withFormats(xml: string, part: string): string {
    const { formats } = this.writer;
    if (formats.items.length === 0) return xml;
    const elements = this.plain(this.writer.formatElements());
    const at = new RegExp(`<${this.lists.prefix}numFmts\\b`).exec(xml);
    if (at) {
      const grown = withElement(xml, part, () => elements, isList("numFmts"));
      return withAttributes(grown, part, (tag) => (isList("numFmts")(tag) ? { count: String(this.lists.formats.size + formats.items.length) } : null));
    }
    const place = xml.indexOf(`<${this.lists.prefix}${AFTER_FORMATS}`);
    const { prefix } = this.lists;
    return applyEdits(xml, [{ start: place, end: place, text: `<${prefix}numFmts count="${formats.items.length}">${elements}</${prefix}numFmts>` }]);
  }

  private withDifferences(xml: string): string {
    const { prefix } = this.lists;
    if (new RegExp(`<${prefix}dxfs\\b`).test(xml)) return xml;
    for (const name of BEFORE_DIFFERENCES) {
      const close = new RegExp(`</${prefix}${name}\\s*>`).exec(xml);
      if (close) return applyEdits(xml, [{ start: close.index + close[0].length, end: close.index + close[0].length, text: `<${prefix}dxfs count="0"/>` }]);
    }
    return xml;
  }
}

const isList = (local: string) => (tag: XmlTag): boolean => isSpreadsheet(tag) && tag.local === local;
