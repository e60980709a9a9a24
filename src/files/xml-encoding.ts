import { Problem } from "../science/problem";
import { files } from "../words/files";

type Encoding = "utf-8" | "utf-16le" | "utf-16be";

/** What a part says of itself in its first line. */
const DECLARED = /^\uFEFF?<\?xml[^>]*?\sencoding\s*=\s*["']([\w.-]{1,40})["']/;
/** Letters of plain ASCII are the same in UTF-8; and a part that was written from text in memory may still claim to be UTF-16. */
const READABLE = /^(?:utf-?8|us-ascii|ascii|utf-?16(?:le|be)?)$/i;

/**
 * The text of an XML part, a byte order mark kept so that the same bytes can be written again. UTF-8 or UTF-16, as the packaging
 * standard allows; the bytes decide which. Throws a Problem for a part that says it is in another one, in which letters beyond
 * ASCII would be read wrong, and for bytes that are no text.
 */
export function decodeXml(bytes: Uint8Array, part: string): string {
  let text: string;
  try {
    text = new TextDecoder(encodingOf(bytes), { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    const declared = DECLARED.exec(new TextDecoder("latin1").decode(bytes.subarray(0, 200)))?.[1];
    throw new Problem("value", declared === undefined || READABLE.test(declared) ? files.damagedPart(part) : files.otherEncoding(part, declared));
  }
  const declared = DECLARED.exec(text)?.[1];
  if (declared !== undefined && !READABLE.test(declared)) throw new Problem("value", files.otherEncoding(part, declared));
  return text;
}

/** Whether decodeXml read these bytes as UTF-8, so that the text can be written back to the same bytes. */
export function isUtf8(bytes: Uint8Array): boolean {
  return encodingOf(bytes) === "utf-8";
}

/** By the byte order mark, or by the zero beside the "<" that a part begins with. */
function encodingOf([first, second]: Uint8Array): Encoding {
  if ((first === 0xff && second === 0xfe) || (first === 0x3c && second === 0)) return "utf-16le";
  if ((first === 0xfe && second === 0xff) || (first === 0 && second === 0x3c)) return "utf-16be";
  return "utf-8";
}
