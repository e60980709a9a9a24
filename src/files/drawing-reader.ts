import { GRID_COLUMNS, GRID_ROWS, rangeAddress } from "./address";
import type { Archive } from "./archive";
import type { BookChart } from "./book-extras";
import { readChartPart } from "./chart-reader";
import { readRelationships } from "./relationships";
import type { Unshown } from "./unshown";
import { attribute, walkXml } from "./xml";

interface Anchor {
  name: string;
  /** The chart's relationship; undefined for something else. */
  id?: string;
  kind: "chart" | "otherChart" | "picture" | "shape";
  from: [row: number, column: number];
  to: [row: number, column: number];
  /** Whether the end lies inside its cell and not at its start. */
  inside: [row: boolean, column: boolean];
}

const [DEFAULT_ROWS, DEFAULT_COLUMNS] = [15, 8];

/** The charts of one drawing part; what else is drawn there is counted. */
export async function readDrawing(archive: Archive, part: string, unshown: Unshown): Promise<BookChart[]> {
  return (await placedCharts(archive, part, unshown)).map(({ chart }) => chart);
}

/** The same, each with the part of the file that holds it. */
export async function placedCharts(archive: Archive, part: string, unshown: Unshown): Promise<{ readonly chart: BookChart; readonly part: string }[]> {
  if (!archive.has(part)) return [];
  const relationships = await readRelationships(archive, part);
  const charts: { chart: BookChart; part: string }[] = [];
  for (const anchor of readAnchors(await archive.text(part), part)) {
    const target = relationships.find(({ id, kind }) => id === anchor.id && kind === "chart")?.part;
    const chart = anchor.kind === "chart" && target !== undefined && archive.has(target) ? readChartPart(await archive.text(target), target) : undefined;
    if (chart && target !== undefined) charts.push({ chart: { ...chart, name: anchor.name, position: positionOf(anchor) }, part: target });
    else unshown.count(anchor.kind === "chart" ? "otherChart" : anchor.kind);
  }
  return charts;
}

function readAnchors(xml: string, part: string): Anchor[] {
  const anchors: Anchor[] = [];
  let anchor: Anchor | undefined;
  let corner: "from" | "to" | undefined;
  let text = "";
  let fallback = 0;
  walkXml(xml, part, {
    open(tag) {
      text = "";
      // What stands there for older programs is the same thing once more.
      if (tag.local === "Fallback" || fallback > 0) fallback += 1;
      if (fallback > 0) return;
      if (/^(twoCell|oneCell|absolute)Anchor$/.test(tag.local)) {
        anchor = { name: "", kind: "shape", from: [0, 0], to: [-1, -1], inside: [false, false] };
        anchors.push(anchor);
      } else if (tag.local === "from" || tag.local === "to") corner = tag.local;
      else if (tag.local === "cNvPr" && anchor && anchor.name === "") anchor.name = attribute(tag, "name") ?? "";
      else if (tag.local === "pic" && anchor) anchor.kind = "picture";
      else if (tag.local === "graphicFrame" && anchor) anchor.kind = "otherChart";
      else if (tag.local === "chart" && anchor) {
        anchor.kind = tag.uri.endsWith("/chart") ? "chart" : "otherChart";
        const id = Object.values(tag.attributes).find(({ local, prefix }) => local === "id" && prefix !== "")?.value;
        if (id !== undefined) anchor.id = id;
      }
    },
    text(piece) {
      text += piece;
    },
    close(tag) {
      if (fallback > 0) {
        fallback -= 1;
        return;
      }
      if (!anchor || !corner) return;
      const number = Number(text);
      // A damaged place is none; one beyond the sheet is at its edge.
      const place = (size: number) => (Number.isInteger(number) && number >= 0 ? Math.min(number, size - 1) : 0);
      if (tag.local === corner) corner = undefined;
      else if (tag.local === "row") anchor[corner][0] = place(GRID_ROWS);
      else if (tag.local === "col") anchor[corner][1] = place(GRID_COLUMNS);
      else if (tag.local === "rowOff" && corner === "to") anchor.inside[0] = number > 0;
      else if (tag.local === "colOff" && corner === "to") anchor.inside[1] = number > 0;
    },
  });
  return anchors;
}

/** The cells that it covers. One without an end is as large as Excel makes a new chart. */
function positionOf({ from, inside, to }: Anchor): string {
  const [startRow, startColumn] = from;
  const end = (place: 0 | 1, otherwise: number, size: number) => Math.min(size - 1, to[place] < 0 ? from[place] + otherwise - 1 : Math.max(from[place], to[place] - (inside[place] ? 0 : 1)));
  return rangeAddress({ startRow, startColumn, endRow: end(0, DEFAULT_ROWS, GRID_ROWS), endColumn: end(1, DEFAULT_COLUMNS, GRID_COLUMNS) });
}
