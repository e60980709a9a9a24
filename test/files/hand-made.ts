import { type ZipPart, zipOf } from "./zip-bytes";

const HEAD = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n';
export const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const PACKAGE = "http://schemas.openxmlformats.org/package/2006";
const TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml";

export interface HandMade {
  /** The inside of sheetData. */
  rows: string;
  /** Before and after sheetData. */
  before?: string;
  after?: string;
  /** Whole parts that replace or join the plain ones. */
  parts?: Record<string, string>;
  /** More relationships of the workbook: kind and target. */
  links?: Record<string, string>;
  /** Inside the workbook element, before and after the sheets. */
  workbookPr?: string;
  names?: string;
  sheets?: string;
}

/** Parts of a small workbook with one sheet "Log", written by hand as plainly as the format allows. */
export function handMadeParts({ rows, before = "", after = "", parts = {}, links = {}, workbookPr = "", names = "", sheets = "" }: HandMade): ZipPart[] {
  const more = Object.entries(links).map(([kind, target], i) => `<Relationship Id="rIdMore${i}" Type="${OFFICE}/${kind}" Target="${target}"/>`);
  const plain: Record<string, string> = {
    "[Content_Types].xml": `${HEAD}<Types xmlns="${PACKAGE}/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/><Override PartName="/xl/workbook.xml" ContentType="${TYPE}.sheet.main+xml"/><Override PartName="/xl/worksheets/sheet1.xml" ContentType="${TYPE}.worksheet+xml"/></Types>`,
    "_rels/.rels": `${HEAD}<Relationships xmlns="${PACKAGE}/relationships"><Relationship Id="rId1" Type="${OFFICE}/officeDocument" Target="xl/workbook.xml"/></Relationships>`,
    "xl/workbook.xml": `${HEAD}<workbook xmlns="${MAIN}" xmlns:r="${OFFICE}">${workbookPr}<sheets><sheet name="Log" sheetId="1" r:id="rId1"/>${sheets}</sheets>${names}</workbook>`,
    "xl/_rels/workbook.xml.rels": `${HEAD}<Relationships xmlns="${PACKAGE}/relationships"><Relationship Id="rId1" Type="${OFFICE}/worksheet" Target="worksheets/sheet1.xml"/>${more.join("")}</Relationships>`,
    "xl/worksheets/sheet1.xml": `${HEAD}<worksheet xmlns="${MAIN}" xmlns:r="${OFFICE}">${before}<sheetData>${rows}</sheetData>${after}</worksheet>`,
  };
  return Object.entries({ ...plain, ...parts }).map(([name, content]) => ({ name, content }));
}

export function handMade(made: HandMade): Buffer {
  return zipOf(handMadeParts(made));
}
