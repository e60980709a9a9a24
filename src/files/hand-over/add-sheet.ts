import { addLink, addPart } from "../part-links";
import { relationshipsPart } from "../relationships";
import type { WorkbookPart } from "../workbook-part";
import { attribute, encodeAttribute, isSpreadsheet, walkXml } from "../xml";
import { withAttributes, withElement } from "../xml-parts";
import { NO_FORMATS, withCoverFormats } from "./cover-formats";
import type { PartEdits } from "./part-edits";
import { type Printed, withPrintNames } from "./print-names";

export const SHEET_TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml";

/** A sheet that comes into a file: in front of the others or behind them. */
export interface AddedSheet {
  /** A name that no other sheet has. */
  readonly name: string;
  /** Of its part in the file, without the ending: "cover". */
  readonly part: string;
  readonly place: "first" | "last";
  readonly printed?: Printed;
  readonly content: (formats: typeof NO_FORMATS, namespace: string) => string;
}

/** Puts new sheets into a workbook, their cell formats at the end of the style part's lists. The first sheet is the one that opens. */
export async function addSheets(parts: PartEdits, workbook: WorkbookPart, sheets: readonly AddedSheet[]): Promise<void> {
  const styles = workbook.relationships.find(({ kind }) => kind === "styles")?.part;
  const styled = styles === undefined ? null : withCoverFormats(await parts.text(styles), styles);
  if (styles !== undefined && styled) parts.set(styles, styled.xml);
  for (const sheet of sheets) await addSheet(parts, workbook, sheet, styled?.formats ?? NO_FORMATS);
  if (!sheets.some(({ place }) => place === "first")) return;
  parts.set(workbook.part, withAttributes(await parts.text(workbook.part), workbook.part, (tag) => (isSpreadsheet(tag) && tag.local === "workbookView" ? { activeTab: undefined, firstSheet: undefined } : null)));
  for (const { part } of workbook.relationships.filter(({ kind }) => kind === "worksheet" || kind === "chartsheet")) {
    parts.set(part, withAttributes(await parts.text(part), part, (tag) => (isSpreadsheet(tag) && tag.local === "sheetView" && attribute(tag, "tabSelected") !== undefined ? { tabSelected: undefined } : null)));
  }
}

async function addSheet(parts: PartEdits, workbook: WorkbookPart, { name, part: stem, place, content, printed }: AddedSheet, formats: typeof NO_FORMATS): Promise<void> {
  const folder = workbook.part.slice(0, workbook.part.lastIndexOf("/") + 1);
  const book = await bookFacts(parts, workbook.part);
  let target = `worksheets/${stem}.xml`;
  for (let i = 2; parts.has(folder + target); i += 1) target = `worksheets/${stem}${i}.xml`;
  await addPart(parts, folder + target, content(formats, book.namespace), SHEET_TYPE);
  const id = await addLink(parts, workbook.part, book.sheetLink, folder + target);
  const xml = withElement(await parts.text(workbook.part), workbook.part, (prefix) => `<${prefix}sheet name="${encodeAttribute(name)}" sheetId="${book.freeNumber}" ${book.idAttribute}="${id}"/>`, (tag) => isSpreadsheet(tag) && tag.local === "sheets", place);
  if (place === "last") return parts.set(workbook.part, printed ? withPrintNames(xml, workbook.part, name, book.names.length, printed) : xml);
  // The other sheets are one further along.
  parts.set(workbook.part, withAttributes(xml, workbook.part, (tag) => {
    const sheet = isSpreadsheet(tag) && tag.local === "definedName" ? attribute(tag, "localSheetId") : undefined;
    return sheet === undefined ? null : { localSheetId: String(Number(sheet) + 1) };
  }));
}

/** Names of all sheets, chart sheets too. */
export const sheetNames = async (parts: PartEdits, workbook: WorkbookPart): Promise<readonly string[]> => (await bookFacts(parts, workbook.part)).names;

export interface BookFacts {
  readonly namespace: string;
  readonly names: readonly string[];
  readonly freeNumber: number;
  /** The attribute that leads to a sheet's part, with the prefix that the file uses. */
  readonly idAttribute: string;
  /** The type of such a link, in the edition of the standard that the file follows. */
  readonly sheetLink: string;
}

export async function bookFacts(parts: PartEdits, part: string): Promise<BookFacts> {
  const names: string[] = [];
  const numbers: number[] = [];
  let [namespace, idAttribute, sheetLink] = ["", "r:id", ""];
  walkXml(await parts.text(part), part, {
    open(tag) {
      if (!isSpreadsheet(tag)) return;
      if (tag.local === "workbook") namespace = tag.uri;
      if (tag.local !== "sheet") return;
      names.push(attribute(tag, "name") ?? "");
      numbers.push(Number(attribute(tag, "sheetId") ?? 0));
      idAttribute = Object.values(tag.attributes).find(({ local, prefix }) => local === "id" && prefix !== "")?.name ?? idAttribute;
    },
  });
  const links = relationshipsPart(part);
  walkXml(await parts.text(links), links, {
    open(tag) {
      const type = attribute(tag, "Type") ?? "";
      if (type.endsWith("/worksheet")) sheetLink = type;
    },
  });
  return { namespace, names, freeNumber: Math.max(0, ...numbers) + 1, idAttribute, sheetLink };
}

/** The first name of that kind that is not taken; sheet names are told apart without regard to case. */
export function freeName(wanted: string, taken: readonly string[]): string {
  const lower = new Set(taken.map((name) => name.toLowerCase()));
  let name = wanted;
  for (let i = 2; lower.has(name.toLowerCase()); i += 1) name = `${wanted} ${i}`;
  return name;
}
