import { SaxesParser, type SaxesTagNS } from "saxes";
import { Problem } from "../science/problem";
import { files } from "../words/files";

export type XmlTag = SaxesTagNS;

export interface XmlVisitor {
  /** An opening tag and the place after its ">". An empty element gets close() right after. */
  open?(tag: XmlTag, end: number): void;
  /** A closing tag and the place after its ">"; for an empty element the same place as open(). */
  close?(tag: XmlTag, end: number): void;
  /** Character data, entities and CDATA resolved. It may come in pieces. */
  text?(text: string): void;
}

/** No part of a workbook comes near. The tokenizer looks for a namespace in all elements around, so each level makes the next dearer. */
const DEEPEST = 256;

/**
 * Walks one XML part with a real tokenizer. Namespaces are resolved; no entity is ever expanded beyond the five of XML itself.
 * Throws a Problem that names the part when it is not well-formed, declares a document type, or is nested without end.
 */
export function walkXml(xml: string, part: string, visitor: XmlVisitor): void {
  const parser = new SaxesParser({ xmlns: true });
  parser.on("error", () => {
    throw new Problem("value", files.damagedPart(part));
  });
  parser.on("doctype", () => {
    throw new Problem("value", files.declaresEntities(part));
  });
  const { open, close, text } = visitor;
  let depth = 0;
  parser.on("opentag", (tag) => {
    depth += 1;
    if (depth > DEEPEST) throw new Problem("value", files.nestedTooDeep(part));
    open?.(tag, parser.position);
  });
  parser.on("closetag", (tag) => {
    depth -= 1;
    close?.(tag, parser.position);
  });
  if (text) {
    parser.on("text", text);
    parser.on("cdata", text);
  }
  parser.write(xml).close();
}

/** Where the tag begins that ends here: a raw "<" cannot stand inside a tag. */
export function tagStart(xml: string, end: number): number {
  return xml.lastIndexOf("<", end - 1);
}

export function attribute(tag: XmlTag, name: string): string | undefined {
  return tag.attributes[name]?.value;
}

/** An XML boolean that is false when it is not there. */
export function flag(tag: XmlTag, name: string): boolean {
  return isTrue(attribute(tag, name) ?? "0");
}

export function isTrue(text: string): boolean {
  return text === "1" || text === "true" || text === "on";
}

const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const MAIN_STRICT = "http://purl.oclc.org/ooxml/spreadsheetml/main";

/** Whether an element belongs to the spreadsheet language itself, in either of its two namespaces, and not to an extension. */
export function isSpreadsheet(tag: XmlTag): boolean {
  // The tokenizer hands out one and the same string for a namespace, and that comparison is quick; the other reads all letters.
  if (tag.uri === lastUri) return true;
  if (tag.uri !== MAIN && tag.uri !== MAIN_STRICT) return false;
  lastUri = tag.uri;
  return true;
}

let lastUri = MAIN;

const ESCAPED: Record<string, string> = { "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;" };

export function escapeXml(text: string): string {
  return text.replace(/[&<>"]/g, (character) => ESCAPED[character] ?? character);
}

const CODED = /_x([0-9A-Fa-f]{4})_/g;
const UNWRITABLE = /[\u0000-\u0008\u000B\u000C\u000E-\u001F\uFFFE\uFFFF]|\r|[\uD800-\uDBFF](?![\uDC00-\uDFFF])|(?<![\uD800-\uDBFF])[\uDC00-\uDFFF]|_(?=x[0-9A-Fa-f]{4}_)/g;

/** Text as a workbook stores it: characters that XML cannot hold are written _xHHHH_. */
export function encodeText(text: string): string {
  return escapeXml(text.replace(UNWRITABLE, (character) => `_x${character.charCodeAt(0).toString(16).toUpperCase().padStart(4, "0")}_`));
}

/** The same for the value of an attribute, where a reader would take a line break for a blank. */
export function encodeAttribute(text: string): string {
  return encodeText(text).replace(/\n/g, "&#10;").replace(/\t/g, "&#9;");
}

/** The other way round, for text whose XML entities are already resolved. */
export function decodeText(text: string): string {
  return text.includes("_x") ? text.replace(CODED, (_, code: string) => String.fromCharCode(Number.parseInt(code, 16))) : text;
}

export interface Edit {
  start: number;
  end: number;
  text: string;
}

/** Applies edits that do not overlap; several at one place come in their order. Everything outside them stays as it is. */
export function applyEdits(text: string, edits: readonly Edit[]): string {
  const sorted = [...edits].sort((a, b) => a.start - b.start || a.end - b.end);
  const pieces: string[] = [];
  let at = 0;
  for (const { start, end, text: inserted } of sorted) {
    if (start < at) throw new Error("Two edits of one part overlap.");
    pieces.push(text.slice(at, start), inserted);
    at = end;
  }
  pieces.push(text.slice(at));
  return pieces.join("");
}

const ATTRIBUTE = /(\s+)([^\s=/>]+)(\s*=\s*)("[^"]*"|'[^']*')/g;

/** A well-formed opening tag's text with one attribute set, or taken away when the value is undefined. All else stays. */
export function withAttribute(tag: string, name: string, value: string | undefined): string {
  let found = false;
  const changed = tag.replace(ATTRIBUTE, (whole, space: string, key: string, equals: string) => {
    if (key !== name) return whole;
    found = true;
    return value === undefined ? "" : `${space}${key}${equals}"${escapeXml(value)}"`;
  });
  if (found || value === undefined) return changed;
  return changed.replace(/\s*\/?>$/, (end) => ` ${name}="${escapeXml(value)}"${end}`);
}
