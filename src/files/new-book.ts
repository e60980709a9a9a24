import { Problem } from "../science/problem";
import { files } from "../words/files";
import { readRange, sheetReference } from "./address";
import { packArchive } from "./archive";
import { TextWriter } from "./cell-writer";
import { toStored } from "./formula-text";
import { METADATA_RELATIONSHIP, METADATA_TYPE, NEW_METADATA_PART } from "./metadata-part";
import type { NewBook, NewSheet } from "./new-book-model";
import { writeSheet, writeTable } from "./sheet-writer";
import { StyleWriter } from "./style-writer";
import { encodeAttribute, encodeText } from "./xml";

const HEAD = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n';
const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006";
const PACKAGE = "http://schemas.openxmlformats.org/package/2006";
const SPREADSHEET_TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml";
const CREATOR = "Algal Ledger";
const FIXED_DATE = "2024-01-01T00:00:00Z";
/** LibreOffice shows the stored texts of formulas that it does not know only in files of a program that it trusts, by this name. */
const TRUSTED_PROGRAM = "Microsoft Excel";
/** Says which calculation the stored values come from; an older one would make Excel calculate before the add-in is there. */
const CALCULATION = 191029;

/**
 * Writes a new .xlsx file: formulas in Excel's stored form with the values given for them, spilling formulas marked as Excel marks
 * them. The same book gives the same bytes on every machine. Throws a Problem for names and tables that Excel would not open.
 */
export async function writeBook(book: NewBook): Promise<Uint8Array> {
  checkSheetNames(book.sheets);
  const parts = new Map<string, string>();
  const types: [part: string, type: string][] = [];
  const links: Link[] = [];
  const put = (part: string, xml: string, type: string) => {
    parts.set(part, xml);
    types.push([part, type]);
  };

  const styles = new StyleWriter();
  const texts = new TextWriter();
  let tables = 0;
  let marked = false;
  const sheetParts: [string, string][] = [];
  book.sheets.forEach((sheet, i) => {
    const tableLinks: Link[] = [];
    for (const table of sheet.tables ?? []) {
      tables += 1;
      put(`xl/tables/table${tables}.xml`, writeTable(sheet, table, tables), `${SPREADSHEET_TYPE}.table+xml`);
      tableLinks.push({ type: `${OFFICE}/relationships/table`, target: `../tables/table${tables}.xml` });
    }
    const written = writeSheet(sheet, i === firstVisible(book.sheets), styles, texts, tableLinks.map((_, n) => `rId${n + 1}`));
    marked ||= written.marked;
    sheetParts.push([`xl/worksheets/sheet${i + 1}.xml`, written.xml]);
    links.push({ type: `${OFFICE}/relationships/worksheet`, target: `worksheets/sheet${i + 1}.xml` });
    if (tableLinks.length > 0) parts.set(`xl/worksheets/_rels/sheet${i + 1}.xml.rels`, relationships(tableLinks));
  });
  for (const [part, xml] of sheetParts) put(part, xml, `${SPREADSHEET_TYPE}.worksheet+xml`);

  put("xl/styles.xml", styles.part(), `${SPREADSHEET_TYPE}.styles+xml`);
  put("xl/sharedStrings.xml", texts.part(), `${SPREADSHEET_TYPE}.sharedStrings+xml`);
  links.push({ type: `${OFFICE}/relationships/styles`, target: "styles.xml" }, { type: `${OFFICE}/relationships/sharedStrings`, target: "sharedStrings.xml" });
  if (marked) {
    put("xl/metadata.xml", NEW_METADATA_PART, METADATA_TYPE);
    links.push({ type: METADATA_RELATIONSHIP, target: "metadata.xml" });
  }
  put("xl/workbook.xml", workbookPart(book), `${SPREADSHEET_TYPE}.sheet.main+xml`);
  put("docProps/core.xml", coreProperties(book), "application/vnd.openxmlformats-package.core-properties+xml");
  put("docProps/app.xml", `${HEAD}<Properties xmlns="${OFFICE}/extended-properties"><Application>${TRUSTED_PROGRAM}</Application></Properties>`, "application/vnd.openxmlformats-officedocument.extended-properties+xml");
  parts.set("xl/_rels/workbook.xml.rels", relationships(links));

  const all = new Map([["[Content_Types].xml", contentTypes(types)], ["_rels/.rels", FILE_RELATIONSHIPS], ...parts]);
  return packArchive(new Map([...all].map(([name, xml]) => [name, new TextEncoder().encode(xml)])));
}

interface Link {
  type: string;
  target: string;
}

function relationships(links: readonly Link[]): string {
  const written = links.map(({ type, target }, i) => `<Relationship Id="rId${i + 1}" Type="${type}" Target="${target}"/>`);
  return `${HEAD}<Relationships xmlns="${PACKAGE}/relationships">${written.join("")}</Relationships>`;
}

const FILE_RELATIONSHIPS = relationships([
  { type: `${OFFICE}/relationships/officeDocument`, target: "xl/workbook.xml" },
  { type: `${PACKAGE}/relationships/metadata/core-properties`, target: "docProps/core.xml" },
  { type: `${OFFICE}/relationships/extended-properties`, target: "docProps/app.xml" },
]);

function contentTypes(types: readonly [string, string][]): string {
  const own = types.map(([part, type]) => `<Override PartName="/${part}" ContentType="${type}"/>`).join("");
  return `${HEAD}<Types xmlns="${PACKAGE}/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/>${own}</Types>`;
}

function workbookPart(book: NewBook): string {
  const active = firstVisible(book.sheets);
  const sheets = book.sheets.map((sheet, i) => `<sheet name="${encodeAttribute(sheet.name)}" sheetId="${i + 1}"${sheet.hidden ? ' state="hidden"' : ""} r:id="rId${i + 1}"/>`);
  const names = definedNames(book);
  return [
    HEAD,
    `<workbook xmlns="${MAIN}" xmlns:r="${OFFICE}/relationships">`,
    `<workbookPr${book.date1904 ? ' date1904="1"' : ""} defaultThemeVersion="166925"/>`,
    `<bookViews><workbookView xWindow="0" yWindow="0" windowWidth="24000" windowHeight="12000"${active > 0 ? ` firstSheet="${active}" activeTab="${active}"` : ""}/></bookViews>`,
    `<sheets>${sheets.join("")}</sheets>`,
    names === "" ? "" : `<definedNames>${names}</definedNames>`,
    `<calcPr calcId="${CALCULATION}"/>`,
    "</workbook>",
  ].join("");
}

function definedNames(book: NewBook): string {
  const own = book.names.map(({ name, ref }) => ({ name, scope: "", ref: toStored(ref) }));
  const printed = book.sheets.flatMap(({ name, print }, i) => {
    const sheet = sheetReference(name);
    const area = print?.area === undefined ? undefined : readRange(print.area);
    const rows = print?.titleRows;
    return [
      ...(area ? [{ name: "_xlnm.Print_Area", scope: ` localSheetId="${i}"`, ref: `${sheet}!${absolute(print?.area ?? "")}` }] : []),
      ...(rows ? [{ name: "_xlnm.Print_Titles", scope: ` localSheetId="${i}"`, ref: `${sheet}!$${rows.from}:$${rows.to}` }] : []),
    ];
  });
  // Excel keeps names in alphabetical order and some readers expect it.
  const sorted = [...own, ...printed].sort((a, b) => (a.name.toLowerCase() < b.name.toLowerCase() ? -1 : 1));
  return sorted.map(({ name, scope, ref }) => `<definedName name="${encodeAttribute(name)}"${scope}>${encodeText(ref)}</definedName>`).join("");
}

function absolute(range: string): string {
  return range.replace(/\$/g, "").replace(/([A-Z]+)(\d+)/gi, "$$$1$$$2");
}

function coreProperties({ properties = {} }: NewBook): string {
  const { title, subject, description, created = FIXED_DATE } = properties;
  const text = (element: string, content: string | undefined) => (content === undefined ? "" : `<${element}>${encodeText(content)}</${element}>`);
  const date = (element: string) => `<dcterms:${element} xsi:type="dcterms:W3CDTF">${encodeText(created)}</dcterms:${element}>`;
  return [
    HEAD,
    `<cp:coreProperties xmlns:cp="${PACKAGE}/metadata/core-properties" xmlns:dc="http://purl.org/dc/elements/1.1/" xmlns:dcterms="http://purl.org/dc/terms/" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance">`,
    text("dc:title", title),
    text("dc:subject", subject),
    text("dc:creator", CREATOR),
    text("dc:description", description),
    text("cp:lastModifiedBy", CREATOR),
    date("created"),
    date("modified"),
    "</cp:coreProperties>",
  ].join("");
}

function firstVisible(sheets: readonly NewSheet[]): number {
  return Math.max(0, sheets.findIndex((sheet) => !sheet.hidden));
}

function checkSheetNames(sheets: readonly NewSheet[]): void {
  if (sheets.length === 0) throw new Problem("value", files.noSheets);
  const seen = new Set<string>();
  for (const { name } of sheets) {
    if (name.length === 0 || name.length > 31 || /[[\]:*?/\\]|^'|'$/.test(name)) throw new Problem("value", files.sheetName(name));
    const key = name.toLowerCase();
    if (seen.has(key)) throw new Problem("value", files.sheetNameTwice(name));
    seen.add(key);
  }
}
