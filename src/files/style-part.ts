import type { BookStyle } from "./book";
import { type ColourReader, colourReader, INDEXED } from "./colours";
import { builtInFormat } from "./number-formats";
import { attribute, decodeText, flag, isSpreadsheet, isTrue, walkXml, type XmlTag } from "./xml";

type Font = Pick<BookStyle, "bold" | "italic" | "color">;

interface CellFormat {
  font: number;
  fill: number;
  numberFormat: number;
  align?: BookStyle["align"];
  wrap: boolean;
}

const BLACK = "#000000";
const ALIGNMENTS: ReadonlySet<string> = new Set(["left", "center", "right"]);

/** The style of each cell format of a styles part, by its number; undefined for one that shows nothing special. */
export function readStylePart(xml: string, part: string, theme: readonly string[]): (BookStyle | undefined)[] {
  const formats = new Map<number, string>();
  const fonts: Font[] = [];
  const fills: (string | undefined)[] = [];
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
      } else if (tag.local === "xf" && parent === "cellXfs") cells.push(cellFormat(tag));
      else if (tag.local === "alignment" && list === "cellXfs") readAlignment(tag, cells[cells.length - 1]);
      else if (tag.local === "rgbColor" && parent === "indexedColors") palette.push(`#${(attribute(tag, "rgb") ?? "").slice(-6).toLowerCase()}`);
    },
    close() {
      path.pop();
    },
  });

  const colour = colourReader(theme, palette.length > 0 ? [...palette, ...INDEXED.slice(palette.length)] : INDEXED);
  for (const work of later) work(colour);
  return cells.map((cell) => styleOf(cell, fonts[cell.font], fills[cell.fill], formats.get(cell.numberFormat) ?? builtInFormat(cell.numberFormat)));
}

function readFont(tag: XmlTag, font: Font, later: ((colour: ColourReader) => void)[]): void {
  const on = isTrue(attribute(tag, "val") ?? "1");
  if (tag.local === "b") font.bold = on;
  else if (tag.local === "i") font.italic = on;
  else if (tag.local === "color") {
    later.push((colour) => {
      const value = colour(tag);
      if (value !== undefined) font.color = value;
    });
  }
}

function cellFormat(tag: XmlTag): CellFormat {
  const number = (name: string) => Number(attribute(tag, name) ?? 0);
  return { font: number("fontId"), fill: number("fillId"), numberFormat: number("numFmtId"), wrap: false };
}

function readAlignment(tag: XmlTag, cell: CellFormat | undefined): void {
  if (!cell) return;
  const horizontal = attribute(tag, "horizontal");
  if (horizontal !== undefined && ALIGNMENTS.has(horizontal)) cell.align = horizontal as BookStyle["align"];
  cell.wrap = flag(tag, "wrapText");
}

function styleOf(cell: CellFormat, font: Font | undefined, fill: string | undefined, numberFormat: string | undefined): BookStyle | undefined {
  const style: BookStyle = {};
  if (font?.bold) style.bold = true;
  if (font?.italic) style.italic = true;
  // Black is what text has anyway.
  if (font?.color !== undefined && font.color !== BLACK) style.color = font.color;
  if (fill !== undefined) style.fill = fill;
  if (numberFormat !== undefined && numberFormat !== "General") style.numberFormat = numberFormat;
  if (cell.align) style.align = cell.align;
  if (cell.wrap) style.wrap = true;
  return Object.keys(style).length > 0 ? style : undefined;
}
