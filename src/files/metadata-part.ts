import { applyEdits, attribute, type Edit, isSpreadsheet, isTrue, tagStart, walkXml, withAttribute, type XmlTag } from "./xml";

const DYNAMIC = "XLDAPR";
const DYNAMIC_URI = "{bdbb8cdc-fa1e-496e-a857-3c3f30c029c3}";
const DYNAMIC_NS = "http://schemas.microsoft.com/office/spreadsheetml/2017/dynamicarray";
const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";

export const METADATA_TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheetMetadata+xml";
export const METADATA_RELATIONSHIP = "http://schemas.openxmlformats.org/officeDocument/2006/relationships/sheetMetadata";

export interface MetadataPart {
  /** Numbers of cell metadata, counted from 1 as cells do, that mark a formula which spills as far as its answer needs. */
  dynamic: ReadonlySet<number>;
  /**
   * The number that newly marked cells take, and the part's text with that mark in it where it is not there yet.
   * Undefined for a part that is built so oddly that no mark can be added.
   */
  mark?: { number: number; xml?: string };
}

/** The part of a workbook that has none yet, with one mark. Excel writes the same for a workbook of spilling formulas. */
export const NEW_METADATA_PART = `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>
<metadata xmlns="${MAIN}" xmlns:xda="${DYNAMIC_NS}"><metadataTypes count="1">${typeElement("")}</metadataTypes>${futureElement("")}<cellMetadata count="1">${cellElement("", 1, 0)}</cellMetadata></metadata>`;

export function readMetadataPart(xml: string, part: string): MetadataPart {
  const types: string[] = [];
  const properties: boolean[] = [];
  const records: { type: number; value: number }[][] = [];
  const places: Places = { prefix: "" };
  const path: string[] = [];
  let future = "";

  walkXml(xml, part, {
    open(tag, end) {
      const parent = path[path.length - 1];
      path.push(tag.local);
      if (tag.local === "metadata" && isSpreadsheet(tag)) places.prefix = tag.prefix === "" ? "" : `${tag.prefix}:`;
      if (tag.local === "metadataType") types.push(attribute(tag, "name") ?? "");
      if (tag.local === "futureMetadata") future = attribute(tag, "name") ?? "";
      if (tag.local === "bk" && parent === "futureMetadata" && future === DYNAMIC) properties.push(false);
      if (tag.local === "dynamicArrayProperties" && future === DYNAMIC) properties[properties.length - 1] = isTrue(attribute(tag, "fDynamic") ?? "0");
      if (tag.local === "bk" && parent === "cellMetadata") records.push([]);
      if (tag.local === "rc" && path.includes("cellMetadata")) records[records.length - 1]?.push({ type: Number(attribute(tag, "t")), value: Number(attribute(tag, "v")) });
      if (tag.local === "metadataTypes" || tag.local === "cellMetadata") places[tag.local] = { tag, start: tagStart(xml, end), end };
    },
    close(tag, end) {
      path.pop();
      if (tag.local === "futureMetadata" || tag.local === "mdxMetadata" || tag.local === "metadataStrings" || tag.local === "metadataTypes") places.beforeCells = end;
      if (tag.local === "metadataTypes") places.typesEnd = tagStart(xml, end);
      if (tag.local === "cellMetadata") places.cellsEnd = tagStart(xml, end);
    },
  });

  const type = types.indexOf(DYNAMIC) + 1;
  const numbers = records.flatMap((record, i) => (type > 0 && record.some((entry) => entry.type === type && properties[entry.value]) ? [i + 1] : []));
  const [first] = numbers;
  if (first !== undefined) return { dynamic: new Set(numbers), mark: { number: first } };
  const marked = withMark(xml, places, types, properties.length, records.length);
  return { dynamic: new Set(), ...(marked === undefined ? {} : { mark: { number: records.length + 1, xml: marked } }) };
}

interface Places {
  prefix: string;
  metadataTypes?: { tag: XmlTag; start: number; end: number };
  cellMetadata?: { tag: XmlTag; start: number; end: number };
  typesEnd?: number;
  cellsEnd?: number;
  beforeCells?: number;
}

/** Adds the type, its properties and one record to a part that has other metadata only. What is there keeps its numbers. */
function withMark(xml: string, places: Places, types: readonly string[], properties: number, records: number): string | undefined {
  const { prefix, metadataTypes, typesEnd, cellMetadata, cellsEnd, beforeCells } = places;
  // A part that has begun with this type but marks no cell with it, or that has no types at all, is not one that Excel writes.
  if (!metadataTypes || typesEnd === undefined || beforeCells === undefined || types.includes(DYNAMIC) || properties > 0 || metadataTypes.tag.isSelfClosing) return undefined;
  const counted = (at: { start: number; end: number }, count: number): Edit => ({ ...at, text: withAttribute(xml.slice(at.start, at.end), "count", String(count)) });
  const record = cellElement(prefix, types.length + 1, 0);
  const edits: Edit[] = [counted(metadataTypes, types.length + 1), { start: typesEnd, end: typesEnd, text: typeElement(prefix) }];
  if (cellMetadata && cellsEnd !== undefined && !cellMetadata.tag.isSelfClosing) {
    edits.push({ start: beforeCells, end: beforeCells, text: futureElement(prefix) }, counted(cellMetadata, records + 1), { start: cellsEnd, end: cellsEnd, text: record });
  } else {
    const cells = `<${prefix}cellMetadata count="1">${record}</${prefix}cellMetadata>`;
    edits.push({ start: beforeCells, end: cellMetadata?.end ?? beforeCells, text: futureElement(prefix) + cells });
  }
  return applyEdits(xml, edits);
}

function typeElement(prefix: string): string {
  return `<${prefix}metadataType name="${DYNAMIC}" minSupportedVersion="120000" copy="1" pasteAll="1" pasteValues="1" merge="1" splitFirst="1" rowColShift="1" clearFormats="1" clearComments="1" assign="1" coerce="1" cellMeta="1"/>`;
}

function futureElement(prefix: string): string {
  const p = prefix;
  return `<${p}futureMetadata name="${DYNAMIC}" count="1"><${p}bk><${p}extLst><${p}ext uri="${DYNAMIC_URI}"><xda:dynamicArrayProperties xmlns:xda="${DYNAMIC_NS}" fDynamic="1" fCollapsed="0"/></${p}ext></${p}extLst></${p}bk></${p}futureMetadata>`;
}

function cellElement(prefix: string, type: number, value: number): string {
  return `<${prefix}bk><${prefix}rc t="${type}" v="${value}"/></${prefix}bk>`;
}
