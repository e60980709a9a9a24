import { decodeXml } from "../archive";

/**
 * The names of the older, "transitional" edition of the format, and those of the strict one (ISO/IEC 29500-1). A program that follows
 * one edition does not know the names of the other.
 */
const STRICT: readonly (readonly [transitional: string, strict: string])[] = [
  ["http://schemas.openxmlformats.org/spreadsheetml/2006/main", "http://purl.oclc.org/ooxml/spreadsheetml/main"],
  ["http://schemas.openxmlformats.org/officeDocument/2006/relationships", "http://purl.oclc.org/ooxml/officeDocument/relationships"],
  ["http://schemas.openxmlformats.org/officeDocument/2006/customXml", "http://purl.oclc.org/ooxml/officeDocument/customXml"],
  ["http://schemas.openxmlformats.org/drawingml/2006/main", "http://purl.oclc.org/ooxml/drawingml/main"],
  ["http://schemas.openxmlformats.org/drawingml/2006/chart", "http://purl.oclc.org/ooxml/drawingml/chart"],
  ["http://schemas.openxmlformats.org/drawingml/2006/spreadsheetDrawing", "http://purl.oclc.org/ooxml/drawingml/spreadsheetDrawing"],
];
/** What other programs put into the file is theirs, whatever it says. */
const TEXT_OF_OTHERS = /^customXml\/item\d+\.xml$/i;

export const isStrict = (workbookXml: string): boolean => workbookXml.includes(STRICT[0]?.[1] ?? "");

/** Changed and new parts of a file of the strict edition, with its names in what was written into them. */
export function inStrictEdition(parts: ReadonlyMap<string, Uint8Array>): Map<string, Uint8Array> {
  return new Map([...parts].map(([part, bytes]) => {
    if (TEXT_OF_OTHERS.test(part)) return [part, bytes];
    const xml = STRICT.reduce((text, [transitional, strict]) => text.replaceAll(`"${transitional}`, `"${strict}`), decodeXml(bytes, part));
    return [part, new TextEncoder().encode(xml)];
  }));
}
