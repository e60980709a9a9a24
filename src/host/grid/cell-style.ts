import { BooleanNumber, HorizontalAlign, type IBorderStyleData, type IStyleData, type Nullable, VerticalAlign, WrapStrategy } from "@univerjs/core";
import { BORDER_LINES, type BookBorder, type BookStyle } from "../../files/book";
import { GRID_FONT, LINE_NUMBERS } from "../engine/snapshot";

const ALIGN: Readonly<Record<number, BookStyle["align"]>> = { [HorizontalAlign.LEFT]: "left", [HorizontalAlign.CENTER]: "center", [HorizontalAlign.RIGHT]: "right" };
/** The grid's own is the middle. */
const VERTICAL: Readonly<Record<number, BookStyle["verticalAlign"]>> = { [VerticalAlign.TOP]: "top", [VerticalAlign.BOTTOM]: "bottom" };
const BLACK = "#000000";

/** The style of a cell of the grid as a file holds it; undefined for one that says nothing. */
export function bookStyle(data: IStyleData): BookStyle | undefined {
  const [color, fill] = [hexColour(data.cl?.rgb), hexColour(data.bg?.rgb)];
  const align = ALIGN[data.ht ?? -1];
  const verticalAlign = VERTICAL[data.vt ?? -1];
  const border = borderOf(data);
  const style: BookStyle = {
    ...(data.bl === BooleanNumber.TRUE ? { bold: true } : {}),
    ...(data.it === BooleanNumber.TRUE ? { italic: true } : {}),
    ...(data.ul?.s === BooleanNumber.TRUE ? { underline: true } : {}),
    ...(data.st?.s === BooleanNumber.TRUE ? { strike: true } : {}),
    ...(data.fs !== undefined && data.fs !== GRID_FONT.size ? { size: data.fs } : {}),
    ...(color !== undefined && color !== BLACK ? { color } : {}),
    ...(fill === undefined ? {} : { fill }),
    ...(data.n?.pattern && data.n.pattern !== "General" ? { numberFormat: data.n.pattern } : {}),
    ...(align ? { align } : {}),
    ...(verticalAlign ? { verticalAlign } : {}),
    ...(data.tb === WrapStrategy.WRAP ? { wrap: true } : {}),
    ...(border ? { border } : {}),
  };
  return Object.keys(style).length > 0 ? style : undefined;
}

function borderOf({ bd }: IStyleData): BookStyle["border"] {
  const edges = ([["top", bd?.t], ["right", bd?.r], ["bottom", bd?.b], ["left", bd?.l]] as const).flatMap(([edge, drawn]) => {
    const border = bookBorder(drawn);
    return border ? [[edge, border] as const] : [];
  });
  return edges.length > 0 ? Object.fromEntries(edges) : undefined;
}

function bookBorder(drawn: Nullable<IBorderStyleData>): BookBorder | undefined {
  const line = BORDER_LINES.find((name) => LINE_NUMBERS[name] === drawn?.s);
  const color = hexColour(drawn?.cl?.rgb);
  return line && { line, ...(color === undefined || color === BLACK ? {} : { color }) };
}

/** "#rrggbb" of what a style sheet would take: "#abc", "#aabbcc", "rgb(1, 2, 3)"; undefined for none, or one that cannot be seen. */
export function hexColour(colour: Nullable<string>): string | undefined {
  const text = (colour ?? "").trim().toLowerCase();
  if (/^#[0-9a-f]{6}$/.test(text)) return text;
  if (/^#[0-9a-f]{3}$/.test(text)) return text.replace(/[0-9a-f]/g, "$&$&");
  const parts = /^rgba?\(\s*(\d+)[\s,]+(\d+)[\s,]+(\d+)\s*(?:[,/]\s*([\d.]+)\s*)?\)$/.exec(text);
  if (!parts || Number(parts[4] ?? 1) === 0) return undefined;
  return `#${parts.slice(1, 4).map((part) => Math.min(255, Number(part)).toString(16).padStart(2, "0")).join("")}`;
}
