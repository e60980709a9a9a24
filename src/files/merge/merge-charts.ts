import type { BookChart, BookSeries } from "../book-extras";
import { chartAnchor, DRAWING, SHEET_DRAWING } from "../chart-writer";
import { placedCharts } from "../drawing-reader";
import { OFFICE } from "../package-part";
import { readRelationships } from "../relationships";
import { Unshown } from "../unshown";
import { applyEdits, attribute, type Edit, escapeXml, tagStart, walkXml } from "../xml";
import { withElement } from "../xml-parts";
import { addChart, addDrawing } from "./add-grid-sheet";
import { CannotMerge } from "./cannot-merge";
import type { MergeContext } from "./merge-context";
import { PartElements } from "./part-elements";

/** Brings charts that were added to one of the file's sheets, and those that read other cells now, into the file. */
export async function mergeCharts(context: MergeContext, sheetPart: string, before: readonly BookChart[], now: readonly BookChart[]): Promise<void> {
  const { archive, parts } = context;
  const drawing = (await readRelationships(archive, sheetPart)).find(({ kind }) => kind === "drawing")?.part;
  const placed = drawing === undefined ? [] : await placedCharts(archive, drawing, new Unshown());
  if (placed.length !== before.length || now.length < before.length) throw new CannotMerge("A chart of the file is gone.");
  for (const [i, was] of before.entries()) {
    const [is, part] = [now[i], placed[i]?.part];
    if (!is || part === undefined || JSON.stringify(withoutSources(was)) !== JSON.stringify(withoutSources(is))) throw new CannotMerge("A chart of the file looks otherwise.");
    if (JSON.stringify(was) !== JSON.stringify(is)) parts.set(part, withSources(await parts.text(part), part, was.series, is.series));
  }
  const added = now.slice(before.length);
  if (added.length === 0) return;
  if (drawing !== undefined) return addAnchors(context, drawing, added);
  const link = await addDrawing(context, sheetPart, added);
  const elements = new PartElements(await parts.text(sheetPart), sheetPart);
  elements.put("drawing", `<${elements.prefix}drawing xmlns:r="${OFFICE}/relationships" r:id="${link}"/>`);
  parts.set(sheetPart, elements.text());
}

function withoutSources({ series, ...rest }: BookChart) {
  return { ...rest, series: series.map(({ name }) => name) };
}

/** A chart part in which some series read other cells. */
function withSources(xml: string, part: string, before: readonly BookSeries[], now: readonly BookSeries[]): string {
  const edits: Edit[] = [];
  let series = -1;
  let source: "values" | "xValues" | undefined;
  let start: number | undefined;
  let done = 0;
  walkXml(xml, part, {
    open(tag, end) {
      if (tag.local === "ser") series += 1;
      else if (tag.local === "val" || tag.local === "yVal") source = "values";
      else if (tag.local === "cat" || tag.local === "xVal") source = "xValues";
      else if (tag.local === "f") start = end;
    },
    close(tag, end) {
      if (tag.local === "val" || tag.local === "yVal" || tag.local === "cat" || tag.local === "xVal") source = undefined;
      if (tag.local !== "f" || start === undefined || source === undefined) return;
      const [was, is] = [before[series]?.[source], now[series]?.[source]];
      if (was === is || is === undefined || is === null) return;
      edits.push({ start, end: tagStart(xml, end), text: escapeXml(is) });
      done += 1;
    },
  });
  const wanted = now.reduce((sum, one, i) => sum + Number(one.values !== before[i]?.values) + Number(one.xValues !== before[i]?.xValues), 0);
  if (done !== wanted) throw new CannotMerge("A chart of the file does not tell its cells apart.");
  return applyEdits(xml, edits);
}

async function addAnchors(context: MergeContext, drawing: string, charts: readonly BookChart[]): Promise<void> {
  const { parts } = context;
  let free = 1;
  walkXml(await parts.text(drawing), drawing, {
    open(tag) {
      if (tag.local === "cNvPr") free = Math.max(free, Number(attribute(tag, "id") ?? 0));
    },
  });
  for (const chart of charts) {
    const link = await addChart(context, drawing, chart);
    free += 1;
    const anchor = chartAnchor(chart, free, link).replace("<xdr:twoCellAnchor>", `<xdr:twoCellAnchor xmlns:xdr="${SHEET_DRAWING}" xmlns:a="${DRAWING}" xmlns:r="${OFFICE}/relationships">`);
    parts.set(drawing, withElement(await parts.text(drawing), drawing, () => anchor));
  }
}
