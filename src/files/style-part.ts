import { BORDER_LINES, type BookBorder, type BorderLine, type BookStyle } from "./book";
import { type ColourReader, colourReader, INDEXED } from "./colours";
import { builtInFormat } from "./number-formats";
import { attribute, decodeText, flag, isSpreadsheet, isTrue, walkXml, type XmlTag } from "./xml";

type Font = Pick<BookStyle, "bold" | "color" | "italic" | "size" | "strike" | "underline">;
type Border = NonNullable<BookStyle["border"]>;
type Edge = keyof Border;

interface CellFormat {
  font: number;
  fill: number;
  border: number;
  numberFormat: number;
  verticalAlign?: BookStyle["verticalAlign"];
  align?: BookStyle["align"];
  wrap: boolean;
}

const BLACK = "#000000";
const ALIGNMENTS: ReadonlySet<string> = new Set(["left", "center", "right"]);
const VERTICAL: ReadonlySet<string> = new Set(["top", "center", "bottom"]);
const LINES: ReadonlySet<string> = new Set(BORDER_LINES);
const EDGES: ReadonlySet<string> = new Set<Edge>(["left", "right", "top", "bottom"]);

/** The style of each cell format of a styles part, by its number; undefined for one that shows nothing special. */
export function readStylePart(xml: string, part: string, theme: readonly string[]): (BookStyle | undefined)[] {
  const formats = new Map<number, string>();
  const fonts: Font[] = [];
  const fills: (string | undefined)[] = [];
  const borders: Border[] = [];
  const cells: CellFormat[] = [];
  const palette: string[] = [];
  const path: string[] = [];
  let solid = false;
  // Where a file brings its own palette it stands at the end, so colours are worked out after the walk.
  const later: ((colour: ColourReader) => void)[] = [];

  walkXml(xml, part, {
    open(tag) {
      const parent = path[path.length - 1];
      const list = path[1];
      path.push(isSpreadsheet(tag) ? tag.local : "");
      if (!isSpreadsheet(tag)) return;
      if (tag.local === "numFmt" && parent === "numFmts") formats.set(Number(attribute(tag, "numFmtId")), decodeText(attribute(tag, "formatCode") ?? ""));
      else if (tag.local === "font" && parent === "fonts") fonts.push({});
      else if (list === "fonts" && parent === "font") readFont(tag, fonts[fonts.length - 1] ?? {}, later);
      else if (tag.local === "fill" && parent === "fills") fills.push(undefined);
      else if (list === "fills" && tag.local === "patternFill") solid = attribute(tag, "patternType") === "solid";
      else if (list === "fills" && tag.local === "fgColor" && solid) {
        const place = fills.length - 1;
        later.push((colour) => (fills[place] = colour(tag)));
      } else if (tag.local === "border" && parent === "borders") borders.push({});
      else if (list === "borders") readBorder(tag, parent, borders[borders.length - 1] ?? {}, later);
      else if (tag.local === "xf" && parent === "cellXfs") cells.push(cellFormat(tag));
      else if (tag.local === "alignment" && list === "cellXfs") readAlignment(tag, cells[cells.length - 1]);
      else if (tag.local === "rgbColor" && parent === "indexedColors") palette.push(`#${(attribute(tag, "rgb") ?? "").slice(-6).toLowerCase()}`);
    },
    close() {
      path.pop();
    },
  });

  const colour = colourReader(theme, palette.length > 0 ? [...palette, ...INDEXED.slice(palette.length)] : INDEXED);
  for (const work of later) work(colour);
  // What cells have that say nothing.
  const usualSize = fonts[cells[0]?.font ?? 0]?.size;
  return cells.map((cell) => {
    const { size, ...font } = fonts[cell.font] ?? {};
    const numberFormat = formats.get(cell.numberFormat) ?? builtInFormat(cell.numberFormat);
    return styleOf(cell, { ...font, ...(size === undefined || size === usualSize ? {} : { size }) }, fills[cell.fill], borders[cell.border] ?? {}, numberFormat);
  });
}

function readFont(tag: XmlTag, font: Font, later: ((colour: ColourReader) => void)[]): void {
  const on = isTrue(attribute(tag, "val") ?? "1");
  if (tag.local === "b") font.bold = on;
  else if (tag.local === "i") font.italic = on;
  else if (tag.local === "strike") font.strike = on;
  else if (tag.local === "u") font.underline = attribute(tag, "val") !== "none";
  else if (tag.local === "sz") font.size = Number(attribute(tag, "val") ?? 0) || undefined;
  else if (tag.local === "color") {
    later.push((colour) => {
      const value = colour(tag);
      if (value !== undefined) font.color = value;
    });
  }
}

function readBorder(tag: XmlTag, parent: string | undefined, border: Border, later: ((colour: ColourReader) => void)[]): void {
  const line = attribute(tag, "style") ?? "";
  if (EDGES.has(tag.local) && LINES.has(line)) border[tag.local as Edge] = { line: line as BorderLine };
  const edge: BookBorder | undefined = tag.local === "color" && EDGES.has(parent ?? "") ? border[parent as Edge] : undefined;
  if (edge) {
    later.push((colour) => {
      const value = colour(tag);
      if (value !== undefined) edge.color = value;
    });
  }
}

function cellFormat(tag: XmlTag): CellFormat {
  const number = (name: string) => Number(attribute(tag, name) ?? 0);
  return { font: number("fontId"), fill: number("fillId"), border: number("borderId"), numberFormat: number("numFmtId"), wrap: false };
}

function readAlignment(tag: XmlTag, cell: CellFormat | undefined): void {
  if (!cell) return;
  const horizontal = attribute(tag, "horizontal");
  if (horizontal !== undefined && ALIGNMENTS.has(horizontal)) cell.align = horizontal as BookStyle["align"];
  const vertical = attribute(tag, "vertical");
  if (vertical !== undefined && VERTICAL.has(vertical)) cell.verticalAlign = vertical as BookStyle["verticalAlign"];
  cell.wrap = flag(tag, "wrapText");
}

function styleOf(cell: CellFormat, font: Font, fill: string | undefined, border: Border, numberFormat: string | undefined): BookStyle | undefined {
  const style: BookStyle = {};
  if (font.bold) style.bold = true;
  if (font.italic) style.italic = true;
  // Black is what text has anyway.
  if (font.color !== undefined && font.color !== BLACK) style.color = font.color;
  if (fill !== undefined) style.fill = fill;
  if (numberFormat !== undefined && numberFormat !== "General") style.numberFormat = numberFormat;
  if (cell.align) style.align = cell.align;
  if (cell.wrap) style.wrap = true;
  if (font.underline) style.underline = true;
  if (font.strike) style.strike = true;
  if (font.size !== undefined) style.size = font.size;
  if (cell.verticalAlign) style.verticalAlign = cell.verticalAlign;
  if (Object.keys(border).length > 0) style.border = border;
  return Object.keys(style).length > 0 ? style : undefined;
}
