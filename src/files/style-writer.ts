import type { BookStyle } from "./book";
import type { BookConditionalFormat } from "./book-extras";
import { builtInFormatId, FIRST_OWN_FORMAT } from "./number-formats";
import { encodeAttribute } from "./xml";

const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const EDGES = ["left", "right", "top", "bottom"] as const;
const NO_FILL = '<fill><patternFill patternType="none"/></fill>';
const PATTERN_FILL = '<fill><patternFill patternType="gray125"/></fill>';
const NO_BORDER = "<border><left/><right/><top/><bottom/><diagonal/></border>";
const DEFAULT_FONT = { name: "Calibri", size: 11 };

export type StyleList = "borders" | "cells" | "differences" | "fills" | "fonts" | "formats";
const ALL_NEW: Readonly<Record<StyleList, number>> = { formats: FIRST_OWN_FORMAT, fonts: 0, fills: 0, borders: 0, cells: 0, differences: 0 };

/** Collects the styles that the cells of a new workbook use, each once, and gives them numbers. */
export class StyleWriter {
  readonly formats: NumberedList;
  readonly fonts: NumberedList;
  readonly fills: NumberedList;
  readonly borders: NumberedList;
  readonly cells: NumberedList;
  readonly differences: NumberedList;

  /** @param first the numbers that the first of each list gets, where the lists go on behind those of a file */
  constructor(private readonly font: { readonly name: string; readonly size: number } = DEFAULT_FONT, first: Readonly<Record<StyleList, number>> = ALL_NEW) {
    this.formats = new NumberedList(first.formats);
    this.fonts = new NumberedList(first.fonts);
    this.fills = new NumberedList(first.fills);
    this.borders = new NumberedList(first.borders);
    this.cells = new NumberedList(first.cells);
    this.differences = new NumberedList(first.differences);
    if (first !== ALL_NEW) return;
    this.fonts.number(fontElement({}, font));
    // Programs take the first two fills for these, whatever the file says.
    this.fills.number(NO_FILL);
    this.fills.number(PATTERN_FILL);
    this.borders.number(NO_BORDER);
    this.cells.number('<xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0"/>');
  }

  /** The number of a cell format. staysText keeps Excel from taking a text that begins like a formula for one when it is edited. */
  cellFormat(style: BookStyle = {}, staysText = false): number {
    const format = this.numberFormat(style.numberFormat);
    const font = this.fonts.number(fontElement(style, this.font));
    const fill = style.fill === undefined ? 0 : this.fills.number(fillElement(style.fill));
    const border = this.borders.number(borderElement(style));
    const alignment = alignmentElement(style);
    const applies = [
      format > 0 ? ' applyNumberFormat="1"' : "",
      font > 0 ? ' applyFont="1"' : "",
      fill > 0 ? ' applyFill="1"' : "",
      border > 0 ? ' applyBorder="1"' : "",
      alignment === "" ? "" : ' applyAlignment="1"',
    ].join("");
    const quoted = staysText ? ' quotePrefix="1"' : "";
    const start = `<xf numFmtId="${format}" fontId="${font}" fillId="${fill}" borderId="${border}" xfId="0"${quoted}${applies}`;
    return this.cells.number(alignment === "" ? `${start}/>` : `${start}>${alignment}</xf>`);
  }

  /** The number of what a conditional format changes. */
  difference(style: BookConditionalFormat["style"]): number {
    const bold = style.bold === undefined ? "" : style.bold ? "<b/>" : '<b val="0"/>';
    const marks = `${bold}${style.italic ? "<i/>" : ""}${style.color === undefined ? "" : `<color rgb="${argb(style.color)}"/>`}`;
    const fill = style.fill === undefined ? "" : `<fill><patternFill patternType="solid"><fgColor rgb="${argb(style.fill)}"/><bgColor rgb="${argb(style.fill)}"/></patternFill></fill>`;
    return this.differences.number(`<dxf>${marks === "" ? "" : `<font>${marks}</font>`}${fill}</dxf>`);
  }

  part(): string {
    const { formats, fonts, fills, borders, cells, differences } = this;
    return [
      '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n',
      `<styleSheet xmlns="${MAIN}">`,
      formats.items.length === 0 ? "" : `<numFmts count="${formats.items.length}">${this.formatElements()}</numFmts>`,
      fonts.element("fonts"),
      fills.element("fills"),
      borders.element("borders"),
      '<cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs>',
      cells.element("cellXfs"),
      '<cellStyles count="1"><cellStyle name="Normal" xfId="0" builtinId="0"/></cellStyles>',
      differences.element("dxfs"),
      '<tableStyles count="0" defaultTableStyle="TableStyleMedium2" defaultPivotStyle="PivotStyleLight16"/>',
      "</styleSheet>",
    ].join("");
  }

  /** The number formats as a file lists them. */
  formatElements(): string {
    return this.formats.items.map((code, i) => `<numFmt numFmtId="${this.formats.first + i}" formatCode="${encodeAttribute(code)}"/>`).join("");
  }

  /** The number of a number format. */
  numberFormat(format: string | undefined): number {
    if (format === undefined) return 0;
    return builtInFormatId(format) ?? this.formats.number(format);
  }
}

/** Texts that are kept once each, in the order in which they came. */
class NumberedList {
  readonly items: string[] = [];
  private readonly numbers = new Map<string, number>();

  constructor(readonly first = 0) {}

  number(item: string): number {
    const known = this.numbers.get(item);
    if (known !== undefined) return known;
    const number = this.first + this.items.length;
    this.items.push(item);
    this.numbers.set(item, number);
    return number;
  }

  element(name: string): string {
    return `<${name} count="${this.items.length}">${this.items.join("")}</${name}>`;
  }
}

/** "#rrggbb" as a file writes it, opaque. */
export function argb(colour: string): string {
  return `FF${colour.slice(1).toUpperCase()}`;
}

function fontElement({ bold, color, italic, size, strike, underline }: BookStyle, usual: { readonly name: string; readonly size: number }): string {
  const marks = `${bold ? "<b/>" : ""}${italic ? "<i/>" : ""}${strike ? "<strike/>" : ""}${underline ? "<u/>" : ""}`;
  const colour = color === undefined ? "" : `<color rgb="${argb(color)}"/>`;
  return `<font>${marks}<sz val="${size ?? usual.size}"/>${colour}<name val="${encodeAttribute(usual.name)}"/><family val="2"/></font>`;
}

/** A ground of one colour. */
export function fillElement(colour: string): string {
  return `<fill><patternFill patternType="solid"><fgColor rgb="${argb(colour)}"/><bgColor indexed="64"/></patternFill></fill>`;
}

export function borderElement({ border }: Pick<BookStyle, "border">): string {
  if (!border) return NO_BORDER;
  const edges = EDGES.map((edge) => {
    const drawn = border[edge];
    if (!drawn) return `<${edge}/>`;
    return `<${edge} style="${drawn.line}"><color ${drawn.color === undefined ? 'auto="1"' : `rgb="${argb(drawn.color)}"`}/></${edge}>`;
  });
  return `<border>${edges.join("")}<diagonal/></border>`;
}

function alignmentElement({ align, verticalAlign, wrap }: BookStyle): string {
  const attributes = `${align ? ` horizontal="${align}"` : ""}${verticalAlign ? ` vertical="${verticalAlign}"` : ""}${wrap ? ' wrapText="1"' : ""}`;
  return attributes === "" ? "" : `<alignment${attributes}/>`;
}
