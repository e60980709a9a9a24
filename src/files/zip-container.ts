import type { Entry } from "@zip.js/zip.js";

/** One entry of a zip archive with its data as they lie in the file, so that they can go into another file untouched. */
export interface PackedEntry {
  rawName: Uint8Array;
  comment: Uint8Array;
  /** General purpose bits: 0x0800 says that the name is UTF-8. */
  flags: number;
  method: number;
  /** Date and time as the archive writes them. */
  rawDate: number;
  crc32: number;
  unpackedSize: number;
  versionMadeBy: number;
  internalAttributes: number;
  externalAttributes: number;
  packed: Uint8Array;
}

const LOCAL_SIGNATURE = 0x04034b50;
const CENTRAL_SIGNATURE = 0x02014b50;
const END_SIGNATURE = 0x06054b50;
const LOCAL_LENGTH = 30;
const CENTRAL_LENGTH = 46;
const END_LENGTH = 22;
const VERSION_NEEDED = 20;
/** Sizes stand after the data instead of before; we know them, so they go before. */
const SIZES_FOLLOW = 0x0008;

/** Takes an entry out of its file without unpacking it; undefined when the entry does not stand where the table says. */
export function packedEntry(file: Uint8Array, entry: Entry): PackedEntry | undefined {
  const view = new DataView(file.buffer, file.byteOffset, file.byteLength);
  const { offset, compressedSize } = entry;
  if (offset + LOCAL_LENGTH > file.length || view.getUint32(offset, true) !== LOCAL_SIGNATURE) return undefined;
  const start = offset + LOCAL_LENGTH + view.getUint16(offset + 26, true) + view.getUint16(offset + 28, true);
  if (start + compressedSize > file.length) return undefined;
  return {
    rawName: entry.rawFilename,
    comment: entry.rawComment,
    flags: (entry.rawBitFlag ?? 0) & ~SIZES_FOLLOW,
    method: entry.compressionMethod,
    rawDate: Number(entry.rawLastModDate),
    crc32: entry.crc32 ?? 0,
    unpackedSize: entry.uncompressedSize,
    versionMadeBy: entry.versionMadeBy,
    internalAttributes: entry.internalFileAttributes,
    externalAttributes: entry.externalFileAttributes,
    packed: file.subarray(start, start + compressedSize),
  };
}

/** Puts entries together into an archive. Their extra fields (times of other systems) are left out; all else is as it was. */
export function zipFile(entries: readonly PackedEntry[]): Uint8Array {
  const centralSize = entries.reduce((sum, entry) => sum + CENTRAL_LENGTH + entry.rawName.length + entry.comment.length, 0);
  const localSize = entries.reduce((sum, entry) => sum + LOCAL_LENGTH + entry.rawName.length + entry.packed.length, 0);
  const file = new Uint8Array(localSize + centralSize + END_LENGTH);
  const view = new DataView(file.buffer);
  let at = 0;
  let central = localSize;
  for (const entry of entries) {
    view.setUint32(at, LOCAL_SIGNATURE, true);
    writeShared(view, at + 4, entry);
    view.setUint32(central, CENTRAL_SIGNATURE, true);
    view.setUint16(central + 4, entry.versionMadeBy, true);
    writeShared(view, central + 6, entry);
    view.setUint16(central + 32, entry.comment.length, true);
    view.setUint16(central + 36, entry.internalAttributes, true);
    view.setUint32(central + 38, entry.externalAttributes, true);
    view.setUint32(central + 42, at, true);
    file.set(entry.rawName, central + CENTRAL_LENGTH);
    file.set(entry.comment, central + CENTRAL_LENGTH + entry.rawName.length);
    central += CENTRAL_LENGTH + entry.rawName.length + entry.comment.length;
    file.set(entry.rawName, at + LOCAL_LENGTH);
    file.set(entry.packed, at + LOCAL_LENGTH + entry.rawName.length);
    at += LOCAL_LENGTH + entry.rawName.length + entry.packed.length;
  }
  view.setUint32(central, END_SIGNATURE, true);
  view.setUint16(central + 8, entries.length, true);
  view.setUint16(central + 10, entries.length, true);
  view.setUint32(central + 12, centralSize, true);
  view.setUint32(central + 16, localSize, true);
  return file;
}

/** The 26 bytes that stand both before the data and in the table of contents. */
function writeShared(view: DataView, at: number, entry: PackedEntry): void {
  view.setUint16(at, VERSION_NEEDED, true);
  view.setUint16(at + 2, entry.flags, true);
  view.setUint16(at + 4, entry.method, true);
  view.setUint32(at + 6, entry.rawDate, true);
  view.setUint32(at + 10, entry.crc32, true);
  view.setUint32(at + 14, entry.packed.length, true);
  view.setUint32(at + 18, entry.unpackedSize, true);
  view.setUint16(at + 22, entry.rawName.length, true);
}
