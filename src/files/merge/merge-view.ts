import type { NewSheet } from "../new-book-model";
import { frozenPane, merges } from "../sheet-writer";
import { argb } from "../style-writer";
import { isSpreadsheet, type XmlTag } from "../xml";
import { prefixed, withAttributes, withElement, withoutElements } from "../xml-parts";
import { PartElements } from "./part-elements";
import type { Aspect } from "./placed-book";

/** A worksheet part with other merged cells, frozen panes, grid lines or colour of its tab. */
export function mergeView(xml: string, part: string, now: NewSheet, aspects: ReadonlySet<Aspect>): string {
  let text = xml;
  if (aspects.has("merges")) text = putElement(text, part, "mergeCells", () => merges(now.merges ?? []));
  if (aspects.has("tabColor")) text = withTabColour(text, part, now.tabColor);
  if (aspects.has("frozenRows") || aspects.has("frozenColumns")) text = withPane(text, part, frozenRowsOf(now));
  if (aspects.has("hideGridLines")) text = withAttributes(withView(text, part), part, (tag) => (isNamed("sheetView")(tag) ? { showGridLines: now.hideGridLines ? "0" : undefined } : null));
  return text;
}

function frozenRowsOf({ frozenColumns = 0, frozenRows = 0 }: NewSheet): string {
  return frozenRows > 0 || frozenColumns > 0 ? frozenPane(frozenRows, frozenColumns) : "";
}

/** Puts one element, given in our own letters, in the place of those of its name. */
export function putElement(xml: string, part: string, local: string, element: () => string): string {
  const elements = new PartElements(xml, part);
  elements.put(local, prefixed(element(), elements.prefix));
  return elements.text();
}

function withTabColour(xml: string, part: string, colour: string | undefined): string {
  const bare = withoutElements(xml, part, isNamed("tabColor"));
  if (colour === undefined) return bare;
  const elements = new PartElements(bare, part);
  if (elements.first("sheetPr") === undefined) elements.put("sheetPr", `<${elements.prefix}sheetPr/>`);
  return withElement(elements.text(), part, (prefix) => `<${prefix}tabColor rgb="${argb(colour)}"/>`, isNamed("sheetPr"), "first");
}

/** What was selected, and which cell stands at the top, goes with the old pane. */
function withPane(xml: string, part: string, pane: string): string {
  const bare = withoutElements(withView(xml, part), part, (tag) => isNamed("pane")(tag) || isNamed("selection")(tag));
  return pane === "" ? bare : withElement(bare, part, (prefix) => prefixed(pane, prefix), isNamed("sheetView"), "first");
}

function withView(xml: string, part: string): string {
  const elements = new PartElements(xml, part);
  if (elements.first("sheetViews") !== undefined) return xml;
  elements.put("sheetViews", `<${elements.prefix}sheetViews><${elements.prefix}sheetView workbookViewId="0"/></${elements.prefix}sheetViews>`);
  return elements.text();
}

const isNamed = (local: string) => (tag: XmlTag): boolean => isSpreadsheet(tag) && tag.local === local;
