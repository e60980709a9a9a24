import { rangeAddress, readRange } from "../address";
import type { NewSheet, NewTable } from "../new-book-model";
import { OFFICE } from "../package-part";
import { readRelationships, type Relationship } from "../relationships";
import { readTablePart } from "../table-part";
import { headingsOf, writeTable } from "../table-writer";
import { attribute, isSpreadsheet, type XmlTag } from "../xml";
import { withAttributes, withElement, withoutElements } from "../xml-parts";
import { addTable } from "./add-grid-sheet";
import { CannotMerge } from "./cannot-merge";
import { dropLinked } from "./drop-linked";
import type { MergeContext } from "./merge-context";
import { PartElements } from "./part-elements";

/** Brings tables that grew, were renamed, came or went, and headings that were typed over, into the file. Formulas of columns, filters and totals stay. */
export async function mergeTables(context: MergeContext, sheetPart: string, before: NewSheet, now: NewSheet): Promise<void> {
  const [was, is] = [before.tables ?? [], now.tables ?? []];
  if (was.length + is.length === 0) return;
  const links = await tableLinks(context, sheetPart);
  if (links.length !== was.length) throw new CannotMerge("The tables of the file are not told apart.");
  const taken = new Set<NewTable>();
  for (const [i, old] of was.entries()) {
    const link = links[i];
    const same = is.find(({ name }) => name === old.name) ?? is.find(({ name, ref }) => ref === old.ref && !was.some((other) => other.name === name));
    if (!link) continue;
    if (!same) await dropTable(context, sheetPart, link);
    else {
      taken.add(same);
      await mergeTable(context, link.part, before, old, now, same);
    }
  }
  for (const table of is) if (!taken.has(table)) await putTable(context, sheetPart, now, table);
}

async function tableLinks({ archive, parts }: MergeContext, sheetPart: string): Promise<Relationship[]> {
  const links: Relationship[] = [];
  for (const link of await readRelationships(archive, sheetPart)) if (link.kind === "table" && archive.has(link.part) && readTablePart(await parts.text(link.part), link.part)) links.push(link);
  return links;
}

async function mergeTable({ parts }: MergeContext, part: string, before: NewSheet, was: NewTable, now: NewSheet, is: NewTable): Promise<void> {
  const [headingsBefore, headings] = [headingsIn(before, was), headingsIn(now, is)];
  const same = JSON.stringify([was, headingsBefore]) === JSON.stringify([is, headings]);
  if (same) return;
  if (was.hasHeadings !== is.hasHeadings || was.hasTotals !== is.hasTotals || headingsBefore.length !== headings.length) throw new CannotMerge("A table of the file has other columns or other kinds of rows.");
  const range = readRange(is.ref);
  if (!range) throw new RangeError(`"${is.ref}" is not a range.`);
  const filtered = rangeAddress({ ...range, endRow: range.endRow - (is.hasTotals ? 1 : 0) });
  let column = -1;
  const changed = withAttributes(await parts.text(part), part, (tag) => {
    if (isNamed("table")(tag)) return { ...(was.ref === is.ref ? {} : { ref: is.ref }), ...(was.name === is.name ? {} : { name: is.name, displayName: is.name }) };
    if (isNamed("autoFilter")(tag)) return was.ref === is.ref ? null : { ref: filtered };
    if (isNamed("tableStyleInfo")(tag)) return was.style === is.style ? null : { name: is.style };
    if (!isNamed("tableColumn")(tag)) return null;
    column += 1;
    const heading = headings[column];
    return heading === undefined || heading === headingsBefore[column] ? null : { name: heading.replace(/\n/g, "_x000a_") };
  });
  // The order by which it was sorted names the old rows.
  parts.set(part, was.ref === is.ref ? changed : withoutElements(changed, part, isNamed("sortState")));
}

function headingsIn(sheet: NewSheet, table: NewTable): string[] {
  const range = readRange(table.ref);
  if (!range) throw new RangeError(`"${table.ref}" is not a range.`);
  return table.hasHeadings === false ? [...(table.columns ?? [])] : headingsOf(sheet, table, range);
}

async function putTable(context: MergeContext, sheetPart: string, now: NewSheet, table: NewTable): Promise<void> {
  const { parts } = context;
  const link = await addTable(context, sheetPart, (id) => writeTable(now, table, id));
  const xml = await parts.text(sheetPart);
  const elements = new PartElements(xml, sheetPart);
  const element = `<${elements.prefix}tablePart xmlns:r="${OFFICE}/relationships" r:id="${link}"/>`;
  const before = elements.first("tableParts");
  if (before === undefined || /\/>$/.test(before)) {
    elements.put("tableParts", `<${elements.prefix}tableParts count="1">${element}</${elements.prefix}tableParts>`);
    parts.set(sheetPart, elements.text());
  } else parts.set(sheetPart, withCount(withElement(xml, sheetPart, () => element, isNamed("tableParts")), sheetPart));
}

async function dropTable(context: MergeContext, sheetPart: string, link: Relationship): Promise<void> {
  const { parts } = context;
  await dropLinked(context, sheetPart, [link]);
  const isLink = (tag: XmlTag) => isNamed("tablePart")(tag) && Object.values(tag.attributes).some(({ local, prefix, value }) => local === "id" && prefix !== "" && value === link.id);
  const bare = withCount(withoutElements(await parts.text(sheetPart), sheetPart, isLink), sheetPart);
  const elements = new PartElements(bare, sheetPart);
  if (!/<(?:[\w.-]+:)?tablePart\b/.test(elements.first("tableParts") ?? "")) elements.put("tableParts", "");
  parts.set(sheetPart, elements.text());
}

function withCount(xml: string, part: string): string {
  const count = [...xml.matchAll(/<(?:[\w.-]+:)?tablePart\b/g)].length;
  return withAttributes(xml, part, (tag) => (isNamed("tableParts")(tag) && attribute(tag, "count") !== undefined ? { count: String(count) } : null));
}

const isNamed = (local: string) => (tag: XmlTag): boolean => isSpreadsheet(tag) && tag.local === local;
