import { bookFacts } from "../hand-over/add-sheet";
import type { NewSheet } from "../new-book-model";
import { addLink } from "../part-links";
import { readRelationships } from "../relationships";
import { attribute, encodeAttribute, isSpreadsheet, tagStart, walkXml, withAttribute, type XmlTag } from "../xml";
import { withAttributes, withoutElements } from "../xml-parts";
import { addGridSheet } from "./add-grid-sheet";
import { dropLinked } from "./drop-linked";
import { type MergeContext, partOf } from "./merge-context";
import { PartElements, WORKBOOK_ORDER } from "./part-elements";

interface Tab {
  /** Of the grid; undefined for a chart sheet. */
  readonly id: string | undefined;
  readonly text: string;
}

/** Brings the order, names and visibility of the sheets, and those that came or went, into the file. @returns each sheet's place among all tabs, by its id */
export async function mergeTabs(context: MergeContext): Promise<ReadonlyMap<string, number>> {
  const { before, now, parts, workbook } = context;
  const tabs = await readTabs(context);
  const added = new Map<string, string>();
  for (const [i, id] of now.ids.entries()) {
    const sheet = now.book.sheets[i];
    if (sheet && !before.ids.includes(id)) added.set(id, await newTab(context, sheet, added.size));
  }
  const wanted = wantedTabs(tabs, context, added);
  const places = new Map(wanted.flatMap(({ id }, i) => (id === undefined ? [] : [[id, i] as const])));
  const same = wanted.length === tabs.length && wanted.every(({ text }, i) => text === tabs[i]?.text);
  if (same) return places;
  for (const id of before.ids) {
    if (now.ids.includes(id)) continue;
    const part = partOf(context, id);
    await dropLinked(context, workbook.part, (await readRelationships(context.archive, workbook.part)).filter((link) => link.part === part));
  }
  const elements = new PartElements(await parts.text(workbook.part), workbook.part, WORKBOOK_ORDER);
  elements.put("sheets", `<${elements.prefix}sheets>${wanted.map(({ text }) => text).join("")}</${elements.prefix}sheets>`);
  const moved = tabs.map((tab) => wanted.findIndex((one) => (tab.id === undefined ? one.text === tab.text : one.id === tab.id)));
  parts.set(workbook.part, withMovedPlaces(elements.text(), workbook.part, moved, wanted));
  return places;
}

async function readTabs({ before, parts, workbook }: MergeContext): Promise<Tab[]> {
  const tabs: Tab[] = [];
  const xml = await parts.text(workbook.part);
  let sheets = 0;
  walkXml(xml, workbook.part, {
    open(tag, end) {
      if (!isSpreadsheet(tag) || tag.local !== "sheet") return;
      const link = Object.values(tag.attributes).find(({ local, prefix }) => local === "id" && prefix !== "")?.value;
      const isWorksheet = workbook.relationships.find(({ id }) => id === link)?.kind === "worksheet";
      const text = xml.slice(tagStart(xml, end), end);
      tabs.push({ id: isWorksheet ? before.ids[sheets] : undefined, text: tag.isSelfClosing ? text : text.replace(/\s*>$/, "/>") });
      if (isWorksheet) sheets += 1;
    },
  });
  return tabs;
}

/** A chart sheet stays behind the sheet that it stood behind. */
function wantedTabs(tabs: readonly Tab[], { before, now }: MergeContext, added: ReadonlyMap<string, string>): Tab[] {
  const behind = (id: string | undefined) => {
    const from = id === undefined ? 0 : tabs.findIndex((tab) => tab.id === id) + 1;
    const next = tabs.findIndex((tab, i) => i >= from && tab.id !== undefined);
    return id !== undefined && from === 0 ? [] : tabs.slice(from, next < 0 ? tabs.length : next);
  };
  const known = now.ids.flatMap((id, i): Tab[] => {
    const [sheet, was] = [now.book.sheets[i], before.book.sheets[before.ids.indexOf(id)]];
    const tab = tabs.find((one) => one.id === id);
    if (!sheet) return [];
    if (!tab || !was) return [{ id, text: added.get(id) ?? "" }];
    const named = sheet.name === was.name ? tab.text : withAttribute(tab.text, "name", sheet.name);
    return [{ id, text: stateOf(sheet) === stateOf(was) ? named : withAttribute(named, "state", stateOf(sheet)) }, ...behind(id)];
  });
  // Those behind a sheet that is gone come last.
  const orphans = before.ids.filter((id) => !now.ids.includes(id)).flatMap((id) => behind(id));
  return [...behind(undefined), ...known, ...orphans];
}

function stateOf({ hidden, veryHidden }: NewSheet): string | undefined {
  return veryHidden ? "veryHidden" : hidden ? "hidden" : undefined;
}

async function newTab(context: MergeContext, sheet: NewSheet, before: number): Promise<string> {
  const { parts, workbook } = context;
  const facts = await bookFacts(parts, workbook.part);
  const link = await addLink(parts, workbook.part, facts.sheetLink, await addGridSheet(context, sheet));
  const prefix = new PartElements(await parts.text(workbook.part), workbook.part, WORKBOOK_ORDER).prefix;
  const state = stateOf(sheet);
  return `<${prefix}sheet name="${encodeAttribute(sheet.name)}" sheetId="${facts.freeNumber + before}"${state === undefined ? "" : ` state="${state}"`} ${facts.idAttribute}="${link}"/>`;
}

/** What names sheets by their place names the new one; names that belonged to a sheet that is gone go with it. @param moved the new place of each old one, -1 for none */
function withMovedPlaces(xml: string, part: string, moved: readonly number[], wanted: readonly Tab[]): string {
  const to = (text: string | undefined) => (text === undefined ? undefined : (moved[Number(text)] ?? -1));
  const isName = (tag: XmlTag) => isSpreadsheet(tag) && tag.local === "definedName";
  const kept = withoutElements(xml, part, (tag) => isName(tag) && to(attribute(tag, "localSheetId")) === -1);
  const first = wanted.findIndex(({ text }) => !/\sstate\s*=\s*["'](?:hidden|veryHidden)["']/.test(text));
  return withAttributes(kept, part, (tag) => {
    if (isName(tag) && attribute(tag, "localSheetId") !== undefined) return { localSheetId: String(to(attribute(tag, "localSheetId"))) };
    if (!isSpreadsheet(tag) || tag.local !== "workbookView") return null;
    const place = (name: string) => {
      const at = to(attribute(tag, name));
      return at === undefined ? {} : { [name]: String(at < 0 ? Math.max(first, 0) : at) };
    };
    return { ...place("activeTab"), ...place("firstSheet") };
  });
}
