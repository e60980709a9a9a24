import { type LineMove, movedLine, type SheetMoves } from "./line-move";
import { withChangedElements } from "./element-edits";
import { attribute, type XmlTag } from "../../xml";

/** Kinds of a drawing's anchors, by what its cells do to it. */
type Follows = "moves" | "movesAndGrows" | "stays";

/** A drawing part whose pictures, charts and shapes stand at the same cells after the changes, and whose shapes show the same cells. */
export function movedDrawing(xml: string, part: string, moves: SheetMoves, moved: (formula: string) => string): string {
  /** How far the first corner of the anchor that is open has moved, by what is counted. */
  let gone: Partial<Record<string, number>> = {};
  return withChangedElements(xml, part, ({ around, tag, text }) => {
    if (attribute(tag, "textlink")) return { attributes: { textlink: moved(attribute(tag, "textlink") ?? "") } };
    if (tag.local === "f") return { text: moved(text) };
    const [anchor, corner] = [around[around.length - 2], around[around.length - 1]];
    if (!anchor || (tag.local !== "row" && tag.local !== "col") || (corner?.local !== "from" && corner?.local !== "to")) return null;
    const follows = followsOf(anchor);
    if (follows === "stays") return null;
    const [line, along] = [Number(text), tag.local === "row" ? "rows" : "columns"] as const;
    const after = movedCorner(line, along, moves);
    if (corner.local === "from") gone = { ...gone, [along]: after - line };
    return { text: String(corner.local === "to" && follows === "moves" ? line + (gone[along] ?? 0) : after) };
  });
}

function followsOf(anchor: XmlTag): Follows {
  if (anchor.local === "oneCellAnchor") return "moves";
  const says = attribute(anchor, "editAs") ?? "twoCell";
  return says === "absolute" ? "stays" : says === "oneCell" ? "moves" : "movesAndGrows";
}

/** Where the line went, or the next one that is left. */
export function movedCorner(line: number, along: LineMove["along"], moves: SheetMoves): number {
  let at = line;
  for (const move of moves) {
    if (move.along !== along || at < move.first) continue;
    at = move.way === "insert" ? at + move.count : Math.max(move.first, at - move.count);
  }
  return at;
}

const SHAPE = /<v:shape\b[^>]*>[\s\S]*?<\/v:shape>/g;

/** The boxes of comments in the older drawing language, which other programs write without regard to the rules of XML. */
export function movedNotes(vml: string, moves: SheetMoves): string {
  return vml.replace(SHAPE, (shape) => {
    if (!/<x:ClientData\b[^>]*ObjectType\s*=\s*["']Note["']/.test(shape)) return shape;
    const number = (name: string) => Number(new RegExp(`<x:${name}>\\s*(\\d+)\\s*<`).exec(shape)?.[1] ?? Number.NaN);
    const [row, column] = [movedLine(number("Row"), "rows", moves), movedLine(number("Column"), "columns", moves)];
    if (row === undefined || column === undefined) return "";
    const [down, across] = [row - number("Row"), column - number("Column")];
    return shape
      .replace(/(<x:Row>\s*)\d+/, `$1${row}`)
      .replace(/(<x:Column>\s*)\d+/, `$1${column}`)
      // Columns and rows of the two corners, each with what it is off their edge.
      .replace(/(<x:Anchor>)([^<]*)/, (_whole, tag: string, list: string) => tag + list.split(",").map((piece, i) => (i % 2 === 0 ? piece.replace(/\d+/, (line) => String(Number(line) + (i % 4 === 0 ? across : down))) : piece)).join(","));
  });
}
