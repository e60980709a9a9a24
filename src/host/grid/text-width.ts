import { BooleanNumber, type IStyleData } from "@univerjs/core";

const PADDING_PIXELS = 10;
const DEFAULT_FONT = "Arial";
const DEFAULT_POINTS = 10;

let pen: CanvasRenderingContext2D | null | undefined;

/** Pixels that a text takes in a cell at 100 %, with the room at its sides. The longest of several lines counts. */
export function textWidth(text: string, style: IStyleData): number {
  pen ??= document.createElement("canvas").getContext("2d");
  if (!pen) return 0;
  const slant = style.it === BooleanNumber.TRUE ? "italic " : "";
  const weight = style.bl === BooleanNumber.TRUE ? "bold " : "";
  pen.font = `${slant}${weight}${style.fs ?? DEFAULT_POINTS}pt ${style.ff ?? DEFAULT_FONT}`;
  const measure = pen;
  return Math.ceil(Math.max(...text.split(/\r?\n/).map((line) => measure.measureText(line).width))) + PADDING_PIXELS;
}
