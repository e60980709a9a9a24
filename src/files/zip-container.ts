import type { Entry } from "@zip.js/zip.js";

/** One entry of a zip archive with its data as they lie in the file, so that they can go into another file untouched. */
export interface PackedEntry {
  rawName: Uint8Array;
  comment: Uint8Array;
  /** What other programs noted about the entry (times, owners, room to grow): before the data, and in the table of contents. */
  localExtra: Uint8Array;
  centralExtra: Uint8Array;
  /** What a program must master to unpack it, as the archive writes that. */
  versionNeeded: number;
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
const NOTE_HEAD = 4;
const DEFLATE = 8;
/** Of a note about sizes that do not fit 32 bits. Ours do, and then it must not be there. */
const ZIP64_NOTE = 0x0001;
const ZIP64_VERSION = 45;
const VERSION_NEEDED = 20;
/** Sizes stand after the data instead of before; we know them, so they go before. */
const SIZES_FOLLOW = 0x0008;

/** Takes an entry out of its file without unpacking it; undefined when the entry does not stand where the table says. */
export function packedEntry(file: Uint8Array, entry: Entry): PackedEntry | undefined {
  const view = new DataView(file.buffer, file.byteOffset, file.byteLength);
  const { offset, compressedSize } = entry;
  if (offset + LOCAL_LENGTH > file.length || view.getUint32(offset, true) !== LOCAL_SIGNATURE) return undefined;
  const notes = offset + LOCAL_LENGTH + view.getUint16(offset + 26, true);
  const start = notes + view.getUint16(offset + 28, true);
  if (start + compressedSize > file.length) return undefined;
  return {
    rawName: entry.rawFilename,
    comment: entry.rawComment,
    localExtra: withoutSizes(file.subarray(notes, start)),
    centralExtra: withoutSizes(entry.rawExtraField),
    versionNeeded: entry.version >= ZIP64_VERSION && entry.compressionMethod <= DEFLATE ? VERSION_NEEDED : entry.version,
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

/** The notes of an entry without the one on its sizes. Notes that cannot be told apart stay as they are. */
function withoutSizes(notes: Uint8Array): Uint8Array {
  const view = new DataView(notes.buffer, notes.byteOffset, notes.byteLength);
  const kept: number[] = [];
  let at = 0;
  let found = false;
  while (at + NOTE_HEAD <= notes.length) {
    const end = at + NOTE_HEAD + view.getUint16(at + 2, true);
    if (end > notes.length) break;
    if (view.getUint16(at, true) === ZIP64_NOTE) found = true;
    else kept.push(...notes.subarray(at, end));
    at = end;
  }
  return found ? new Uint8Array([...kept, ...notes.subarray(at)]) : notes;
}

/**
 * Puts entries together into an archive.
 * @param comment what the archive says of itself
 */
export function zipFile(entries: readonly PackedEntry[], comment: Uint8Array = new Uint8Array()): Uint8Array {
  const centralSize = entries.reduce((sum, entry) => sum + CENTRAL_LENGTH + entry.rawName.length + entry.centralExtra.length + entry.comment.length, 0);
  const localSize = entries.reduce((sum, entry) => sum + LOCAL_LENGTH + entry.rawName.length + entry.localExtra.length + entry.packed.length, 0);
  const file = new Uint8Array(localSize + centralSize + END_LENGTH + comment.length);
  const view = new DataView(file.buffer);
  let at = 0;
  let central = localSize;
  for (const entry of entries) {
    view.setUint32(at, LOCAL_SIGNATURE, true);
    writeShared(view, at + 4, entry);
    view.setUint16(at + 28, entry.localExtra.length, true);
    view.setUint32(central, CENTRAL_SIGNATURE, true);
    view.setUint16(central + 4, entry.versionMadeBy, true);
    writeShared(view, central + 6, entry);
    view.setUint16(central + 30, entry.centralExtra.length, true);
    view.setUint16(central + 32, entry.comment.length, true);
    view.setUint16(central + 36, entry.internalAttributes, true);
    view.setUint32(central + 38, entry.externalAttributes, true);
    view.setUint32(central + 42, at, true);
    central = put(file, central + CENTRAL_LENGTH, entry.rawName, entry.centralExtra, entry.comment);
    at = put(file, at + LOCAL_LENGTH, entry.rawName, entry.localExtra, entry.packed);
  }
  view.setUint32(central, END_SIGNATURE, true);
  view.setUint16(central + 8, entries.length, true);
  view.setUint16(central + 10, entries.length, true);
  view.setUint32(central + 12, centralSize, true);
  view.setUint32(central + 16, localSize, true);
  view.setUint16(central + 20, comment.length, true);
  file.set(comment, central + END_LENGTH);
  return file;
}

/** Writes pieces one after the other; gives the place after the last. */
function put(file: Uint8Array, at: number, ...pieces: Uint8Array[]): number {
  for (const piece of pieces) {
    file.set(piece, at);
    at += piece.length;
  }
  return at;
}

/** The 26 bytes that stand both before the data and in the table of contents. */
function writeShared(view: DataView, at: number, entry: PackedEntry): void {
  view.setUint16(at, entry.versionNeeded, true);
  view.setUint16(at + 2, entry.flags, true);
  view.setUint16(at + 4, entry.method, true);
  view.setUint32(at + 6, entry.rawDate, true);
  view.setUint32(at + 10, entry.crc32, true);
  view.setUint32(at + 14, entry.packed.length, true);
  view.setUint32(at + 18, entry.unpackedSize, true);
  view.setUint16(at + 22, entry.rawName.length, true);
}
