import { toStored } from "../formula-text";
import { printNames } from "../names-writer";
import type { NewName } from "../new-book-model";
import { attribute, encodeAttribute, encodeText, isSpreadsheet, walkXml } from "../xml";
import { prefixed, withElement, withoutElements } from "../xml-parts";
import { CannotMerge } from "./cannot-merge";
import type { MergeContext } from "./merge-context";
import { PartElements, WORKBOOK_ORDER } from "./part-elements";
import type { PlacedBook } from "./placed-book";

/** Brings the names that were added, changed or taken out into the workbook part. The others, and those that the grid does not know, stay. @param places of the sheets among all tabs, by id */
export async function mergeNames({ before, now, parts, workbook }: MergeContext, places: ReadonlyMap<string, number>): Promise<void> {
  const [was, is] = [byKey(before), byKey(now)];
  const same = (one: NewName | undefined, other: NewName | undefined) => one?.ref === other?.ref && one?.name === other?.name;
  const gone = [...was].filter(([key, name]) => !same(name, is.get(key))).map(([, name]) => name);
  const printed = now.book.sheets.flatMap((sheet, i) => (before.ids.includes(now.ids[i] ?? "") ? [] : printNames(sheet).map((name) => ({ ...name, sheet: i }))));
  const added = [...[...is].filter(([key, name]) => !same(name, was.get(key))).map(([, name]) => name), ...printed];
  if (gone.length + added.length === 0) return;
  let xml = await parts.text(workbook.part);
  for (const name of gone) xml = withoutName(xml, workbook.part, name);
  const prefix = new PartElements(xml, workbook.part, WORKBOOK_ORDER).prefix;
  const written = prefixed(added.map(({ name, ref, sheet }) => `<definedName name="${encodeAttribute(name)}"${sheet === undefined ? "" : ` localSheetId="${places.get(now.ids[sheet] ?? "") ?? fail(name)}"`}>${encodeText(toStored(ref))}</definedName>`).join(""), prefix);
  const elements = new PartElements(xml, workbook.part, WORKBOOK_ORDER);
  if (elements.first("definedNames") !== undefined) xml = withElement(xml, workbook.part, () => written, (tag) => isSpreadsheet(tag) && tag.local === "definedNames");
  else {
    elements.put("definedNames", `<${prefix}definedNames>${written}</${prefix}definedNames>`);
    xml = elements.text();
  }
  const left = new PartElements(xml, workbook.part, WORKBOOK_ORDER);
  // An empty list is no list that the format knows.
  if (!/<(?:[\w.-]+:)?definedName\b/.test(left.first("definedNames") ?? "")) left.put("definedNames", "");
  parts.set(workbook.part, left.text());
}

function fail(name: string): never {
  throw new CannotMerge(`The name ${name} belongs to a sheet that is not there.`);
}

function byKey({ book, ids }: PlacedBook): Map<string, NewName> {
  return new Map(book.names.map((name) => [`${name.name.toLowerCase()}|${name.sheet === undefined ? "" : (ids[name.sheet] ?? "")}`, name]));
}

/** The grid was given the name of the whole workbook, or the only one that is spelt so. */
function withoutName(xml: string, part: string, { name }: NewName): string {
  const scopes: (string | undefined)[] = [];
  const alike = (text: string | undefined) => text?.toLowerCase() === name.toLowerCase();
  walkXml(xml, part, {
    open(tag) {
      if (isSpreadsheet(tag) && tag.local === "definedName" && alike(attribute(tag, "name"))) scopes.push(attribute(tag, "localSheetId"));
    },
  });
  const scope = scopes.length === 1 ? scopes[0] : undefined;
  return withoutElements(xml, part, (tag) => isSpreadsheet(tag) && tag.local === "definedName" && alike(attribute(tag, "name")) && attribute(tag, "localSheetId") === scope);
}
