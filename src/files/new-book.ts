import { Problem } from "../science/problem";
import { files } from "../words/files";
import { ADD_IN_LINK, ADD_IN_PARTS } from "./add-in-reference";
import { customFunctionsIn } from "./formula-text";
import { packArchive } from "./archive";
import { TextWriter } from "./cell-writer";
import { writeChart, writeDrawing } from "./chart-writer";
import { writeXmlPart } from "./custom-xml-part";
import { METADATA_RELATIONSHIP, METADATA_TYPE, NEW_METADATA_PART } from "./metadata-part";
import type { NewBook, NewSheet } from "./new-book-model";
import { definedNames } from "./names-writer";
import { CONTENT_TYPES, contentTypes, HEAD, type Link, OFFICE, PACKAGE, relationships } from "./package-part";
import { coreProperties, PROGRAM_PROPERTIES } from "./properties-part";
import { writeSheet } from "./sheet-writer";
import { StyleWriter } from "./style-writer";
import { writeTable } from "./table-writer";
import { encodeAttribute } from "./xml";

const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const SPREADSHEET_TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml";
/** Says which calculation the stored values come from; an older one would make Excel calculate before the add-in is there. */
const CALCULATION = 191029;

/**
 * Writes a new .xlsx file: formulas in Excel's stored form with the values given for them, spilling formulas marked as Excel marks
 * them, and a reference to the add-in so that Excel offers it. Outside a browser the same book gives the same bytes on every
 * machine. Throws a Problem for names and tables that Excel would not open.
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

  const styles = new StyleWriter(book.font);
  const texts = new TextWriter();
  const front = inFront(book);
  let [tables, charts, drawings] = [0, 0, 0];
  let marked = false;
  const sheetParts: [string, string][] = [];
  book.sheets.forEach((sheet, i) => {
    const sheetLinks: Link[] = [];
    for (const table of sheet.tables ?? []) {
      tables += 1;
      put(`xl/tables/table${tables}.xml`, writeTable(sheet, table, tables), `${SPREADSHEET_TYPE}.table+xml`);
      sheetLinks.push({ type: `${OFFICE}/relationships/table`, target: `../tables/table${tables}.xml` });
    }
    const tableIds = sheetLinks.map((_, n) => `rId${n + 1}`);
    if (sheet.charts?.length) {
      drawings += 1;
      const chartLinks = sheet.charts.map((chart): Link => {
        charts += 1;
        put(`xl/charts/chart${charts}.xml`, writeChart(chart), "application/vnd.openxmlformats-officedocument.drawingml.chart+xml");
        return { type: `${OFFICE}/relationships/chart`, target: `../charts/chart${charts}.xml` };
      });
      put(`xl/drawings/drawing${drawings}.xml`, writeDrawing(sheet.charts), "application/vnd.openxmlformats-officedocument.drawing+xml");
      parts.set(`xl/drawings/_rels/drawing${drawings}.xml.rels`, relationships(chartLinks));
      sheetLinks.push({ type: `${OFFICE}/relationships/drawing`, target: `../drawings/drawing${drawings}.xml` });
    }
    const written = writeSheet(sheet, i === front, styles, texts, { tables: tableIds, ...(sheet.charts?.length ? { drawing: `rId${sheetLinks.length}` } : {}) });
    marked ||= written.marked;
    sheetParts.push([`xl/worksheets/sheet${i + 1}.xml`, written.xml]);
    links.push({ type: `${OFFICE}/relationships/worksheet`, target: `worksheets/sheet${i + 1}.xml` });
    if (sheetLinks.length > 0) parts.set(`xl/worksheets/_rels/sheet${i + 1}.xml.rels`, relationships(sheetLinks));
  });
  for (const [part, xml] of sheetParts) put(part, xml, `${SPREADSHEET_TYPE}.worksheet+xml`);

  put("xl/styles.xml", styles.part(), `${SPREADSHEET_TYPE}.styles+xml`);
  put("xl/sharedStrings.xml", texts.part(), `${SPREADSHEET_TYPE}.sharedStrings+xml`);
  links.push({ type: `${OFFICE}/relationships/styles`, target: "styles.xml" }, { type: `${OFFICE}/relationships/sharedStrings`, target: "sharedStrings.xml" });
  if (marked) {
    put("xl/metadata.xml", NEW_METADATA_PART, METADATA_TYPE);
    links.push({ type: METADATA_RELATIONSHIP, target: "metadata.xml" });
  }
  book.xmlParts?.forEach((part, i) => {
    const { item, properties, propertiesType, links: itemLinks } = writeXmlPart(part, i + 1);
    parts.set(`customXml/item${i + 1}.xml`, item);
    put(`customXml/itemProps${i + 1}.xml`, properties, propertiesType);
    parts.set(`customXml/_rels/item${i + 1}.xml.rels`, relationships(itemLinks));
    links.push({ type: `${OFFICE}/relationships/customXml`, target: `../customXml/item${i + 1}.xml` });
  });
  put("xl/workbook.xml", workbookPart(book), `${SPREADSHEET_TYPE}.sheet.main+xml`);
  put("docProps/core.xml", coreProperties(book), "application/vnd.openxmlformats-package.core-properties+xml");
  put("docProps/app.xml", PROGRAM_PROPERTIES, "application/vnd.openxmlformats-officedocument.extended-properties+xml");
  parts.set("xl/_rels/workbook.xml.rels", relationships(links));
  // A keeper's workbook that has none of our functions needs no add-in.
  const refers = usesFunctions(book);
  for (const { part, xml, type } of refers ? ADD_IN_PARTS : []) {
    parts.set(part, xml);
    if (type !== undefined) types.push([part, type]);
  }

  const all = new Map([[CONTENT_TYPES, contentTypes(types)], ["_rels/.rels", relationships(refers ? [...FILE_LINKS, ADD_IN_LINK] : FILE_LINKS)], ...parts]);
  return packArchive(new Map([...all].map(([name, xml]) => [name, new TextEncoder().encode(xml)])));
}

const usesFunctions = ({ sheets }: NewBook): boolean => sheets.some(({ cells }) => [...cells.values()].some(({ formula }) => formula !== undefined && customFunctionsIn(formula).length > 0));

const FILE_LINKS = [
  { type: `${OFFICE}/relationships/officeDocument`, target: "xl/workbook.xml" },
  { type: `${PACKAGE}/relationships/metadata/core-properties`, target: "docProps/core.xml" },
  { type: `${OFFICE}/relationships/extended-properties`, target: "docProps/app.xml" },
];

function workbookPart(book: NewBook): string {
  const active = inFront(book);
  const sheets = book.sheets.map((sheet, i) => `<sheet name="${encodeAttribute(sheet.name)}" sheetId="${i + 1}"${sheet.veryHidden ? ' state="veryHidden"' : sheet.hidden ? ' state="hidden"' : ""} r:id="rId${i + 1}"/>`);
  const names = definedNames(book);
  return [
    HEAD,
    `<workbook xmlns="${MAIN}" xmlns:r="${OFFICE}/relationships">`,
    `<workbookPr${book.date1904 ? ' date1904="1"' : ""} defaultThemeVersion="166925"/>`,
    `<bookViews><workbookView xWindow="0" yWindow="0" windowWidth="24000" windowHeight="12000"${active > 0 ? ` firstSheet="${book.active === undefined ? active : 0}" activeTab="${active}"` : ""}/></bookViews>`,
    `<sheets>${sheets.join("")}</sheets>`,
    names === "" ? "" : `<definedNames>${names}</definedNames>`,
    `<calcPr calcId="${CALCULATION}"/>`,
    "</workbook>",
  ].join("");
}

function inFront({ active, sheets }: NewBook): number {
  const seen = ({ hidden, veryHidden }: NewSheet) => !hidden && !veryHidden;
  const wanted = active === undefined ? undefined : sheets[active];
  return wanted && seen(wanted) ? sheets.indexOf(wanted) : Math.max(0, sheets.findIndex(seen));
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
