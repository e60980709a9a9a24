import { Problem } from "../science/problem";
import { files } from "../words/files";

const COMPOUND_FILE = [0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1];
/** The name of the stream that an encrypted workbook keeps its content in, as the compound file spells it. */
const ENCRYPTED_STREAM = utf16("EncryptedPackage");
/** "PK" and what may follow at the very start of a zip archive: a part, or the end of an empty one. */
const ZIP_STARTS = [[0x50, 0x4b, 0x03, 0x04], [0x50, 0x4b, 0x05, 0x06]];

/** Throws a Problem that says what the file is, when it is plainly something else than a zip archive. */
export function refuseOtherFormats(bytes: Uint8Array): void {
  if (startsWith(bytes, COMPOUND_FILE)) {
    throw new Problem("value", holds(bytes, ENCRYPTED_STREAM) ? files.encrypted : files.oldFormat);
  }
  if (!ZIP_STARTS.some((start) => startsWith(bytes, start))) throw new Problem("value", files.notAWorkbook);
}

function startsWith(bytes: Uint8Array, start: readonly number[]): boolean {
  return start.every((byte, i) => bytes[i] === byte);
}

function utf16(text: string): number[] {
  return [...text].flatMap((character) => [character.charCodeAt(0), 0]);
}

function holds(bytes: Uint8Array, wanted: readonly number[]): boolean {
  const [first = 0] = wanted;
  for (let at = bytes.indexOf(first); at >= 0; at = bytes.indexOf(first, at + 1)) {
    if (wanted.every((byte, i) => bytes[at + i] === byte)) return true;
  }
  return false;
}
