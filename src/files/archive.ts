import { type Entry, ERR_UNSAFE_FILENAME, type FileEntry, Uint8ArrayReader, Uint8ArrayWriter, ZipReader, ZipWriter } from "@zip.js/zip.js";
import { Problem } from "../science/problem";
import { files } from "../words/files";
import { ARCHIVE_LIMITS, type ArchiveLimits, MEGABYTE } from "./archive-limits";
import { countMarks } from "./xml-marks";
import { refuseOtherFormats } from "./other-formats";
import { decodeXml } from "./xml-encoding";
import { type PackedEntry, packedEntry, zipFile } from "./zip-container";

export { decodeXml, isUtf8 } from "./xml-encoding";

/** The parts of a workbook file. Names are found whatever their case, as the packaging standard says, without a leading slash. */
export interface Archive {
  /** As stored, in stored order. */
  readonly names: string[];
  has(name: string): boolean;
  /** The part unpacked; throws a Problem when it is missing, damaged or too large. */
  bytes(name: string): Promise<Uint8Array>;
  /** A part that is XML, as text. */
  text(name: string): Promise<string>;
  /** A new file: these parts replaced (by name) or added at the end, every other part's packed bytes as they were, in the same order, without those that are dropped. */
  withParts(parts: ReadonlyMap<string, Uint8Array>, dropped?: ReadonlySet<string>): Promise<Uint8Array>;
}

/** 1980-01-01 00:00, the first moment that a zip archive can say: one fixed date keeps new files the same byte for byte. */
const FIRST_ZIP_DATE = 0x00210000;
const CONTROL = /[\u0000-\u001f\u007f-\u009f\u2028\u2029]/;
const UTF8_NAME = 0x0800;
// The worker-free, embedded deflate gives the same bytes on every machine; the streams of the platform do not. On a page they have
// to do: the embedded one is loaded from an address that the page's own rules forbid, and there no bytes are compared.
const STREAMS = { useWebWorkers: false, useCompressionStream: "document" in globalThis };
const PACKING = { ...STREAMS, level: 6, extendedTimestamp: false, dataDescriptor: false, bufferedWrite: true, keepOrder: true };

/** Reads a file's table of parts and checks it against the limits. Throws a Problem with one sentence for whatever is not a zip archive. */
export async function openArchive(bytes: Uint8Array, limits: ArchiveLimits = ARCHIVE_LIMITS): Promise<Archive> {
  if (bytes.length === 0) throw new Problem("value", files.empty);
  if (bytes.length > limits.fileBytes) throw new Problem("value", files.tooLarge(limits.fileBytes / MEGABYTE));
  refuseOtherFormats(bytes);
  const { entries, comment } = await readTable(bytes);
  checkEntries(entries, limits);
  return new ZipArchive(bytes, entries, comment, limits);
}

/** Packs parts into a new file, in their order. */
export async function packArchive(parts: ReadonlyMap<string, Uint8Array>): Promise<Uint8Array> {
  return zipFile([...(await packParts(parts)).values()]);
}

async function readTable(bytes: Uint8Array): Promise<{ entries: Entry[]; comment: Uint8Array }> {
  try {
    const reader = new ZipReader(new Uint8ArrayReader(bytes), { useWebWorkers: false });
    const entries = await reader.getEntries({ filenameValidation: "balanced" });
    return { entries, comment: reader.comment };
  } catch (error) {
    if (error instanceof Error && error.message === ERR_UNSAFE_FILENAME) throw new Problem("value", files.unsafeName);
    throw new Problem("value", files.damaged);
  }
}

function checkEntries(entries: readonly Entry[], limits: ArchiveLimits): void {
  if (entries.length > limits.parts) throw new Problem("value", files.tooManyParts(limits.parts));
  const seen = new Set<string>();
  let unpacked = 0;
  for (const entry of entries) {
    // Such a name could also break a sentence that tells of the part, or steer the screen that shows it.
    if (CONTROL.test(entry.filename)) throw new Problem("value", files.unsafeName);
    const key = keyOf(entry.filename);
    if (key.split("/").includes("..") || key.startsWith("/")) throw new Problem("value", files.unsafeName);
    if (seen.has(key)) throw new Problem("value", files.twoPartsOfOneName(entry.filename));
    seen.add(key);
    if (entry.encrypted) throw new Problem("value", files.encrypted);
    checkSize(entry.filename, entry.uncompressedSize, entry.compressedSize, limits);
    unpacked += entry.uncompressedSize;
    if (unpacked > limits.unpackedBytes) throw new Problem("value", files.unpackedTooLarge(limits.unpackedBytes / MEGABYTE));
  }
}

function checkSize(name: string, unpacked: number, packed: number, limits: ArchiveLimits): void {
  if (unpacked > limits.partBytes) throw new Problem("value", files.partTooLarge(name, limits.partBytes / MEGABYTE));
  if (unpacked > limits.ratioFromBytes && unpacked > limits.ratio * packed) throw new Problem("value", files.packedTooTightly(name, limits.ratio));
}

function keyOf(name: string): string {
  return name.replace(/\\/g, "/").toLowerCase();
}

class ZipArchive implements Archive {
  readonly names: string[];
  private readonly byName: Map<string, FileEntry>;
  private readonly counted = new Set<string>();
  private marks = 0;

  constructor(private readonly file: Uint8Array, private readonly entries: readonly Entry[], private readonly comment: Uint8Array, private readonly limits: ArchiveLimits) {
    this.names = entries.map((entry) => entry.filename);
    this.byName = new Map(entries.flatMap((entry) => (entry.directory ? [] : [[keyOf(entry.filename), entry]])));
  }

  has(name: string): boolean {
    return this.byName.has(keyOf(name));
  }

  async bytes(name: string): Promise<Uint8Array> {
    const entry = this.byName.get(keyOf(name));
    if (!entry) throw new Problem("value", files.missingPart(name));
    const pieces: Uint8Array[] = [];
    let size = 0;
    const collect = new WritableStream<Uint8Array>({
      write: (piece) => {
        size += piece.length;
        // The table of parts may lie about sizes: what really comes out counts.
        checkSize(entry.filename, size, entry.compressedSize, this.limits);
        if (size > entry.uncompressedSize) throw new Problem("value", files.damagedPart(entry.filename));
        pieces.push(piece);
      },
    });
    try {
      await entry.getData(collect, { ...STREAMS, checkCrc32: true, checkOverlappingEntry: true });
    } catch (error) {
      throw error instanceof Problem ? error : new Problem("value", files.damagedPart(entry.filename));
    }
    const content = joined(pieces, size);
    if (!this.counted.has(entry.filename)) {
      this.counted.add(entry.filename);
      this.marks += countMarks(content, entry.filename);
      if (this.marks > this.limits.marks) throw new Problem("value", files.tooMuchToRead);
    }
    return content;
  }

  async text(name: string): Promise<string> {
    return decodeXml(await this.bytes(name), name);
  }

  async withParts(parts: ReadonlyMap<string, Uint8Array>, dropped: ReadonlySet<string> = new Set()): Promise<Uint8Array> {
    const packed = await packParts(parts);
    const replaced = new Map([...packed].map(([name, entry]) => [keyOf(name), entry]));
    const gone = new Set([...dropped].map(keyOf));
    const copied = this.entries.filter(({ filename }) => !gone.has(keyOf(filename))).map((entry) => {
      const original = packedEntry(this.file, entry);
      if (!original) throw new Problem("value", files.damagedPart(entry.filename));
      const { flags, versionNeeded, method, crc32, unpackedSize, packed: content } = replaced.get(keyOf(entry.filename)) ?? original;
      return { ...original, flags: (original.flags & UTF8_NAME) | (flags & ~UTF8_NAME), versionNeeded, method, crc32, unpackedSize, packed: content };
    });
    const added = [...packed].flatMap(([name, entry]) => (this.has(name) ? [] : [entry]));
    return zipFile([...copied, ...added], this.comment);
  }
}

/** Packs each part by itself. */
async function packParts(parts: ReadonlyMap<string, Uint8Array>): Promise<Map<string, PackedEntry>> {
  const writer = new ZipWriter(new Uint8ArrayWriter(), PACKING);
  for (const [name, content] of parts) await writer.add(name, new Uint8ArrayReader(content), { rawLastModDate: FIRST_ZIP_DATE, versionMadeBy: 20, msDosCompatible: true });
  const file = await writer.close();
  const entries = await new ZipReader(new Uint8ArrayReader(file), { useWebWorkers: false }).getEntries();
  return new Map(
    entries.map((entry) => {
      const packed = packedEntry(file, entry);
      if (!packed) throw new Error(`${entry.filename} was not packed.`);
      return [entry.filename, packed];
    }),
  );
}

function joined(pieces: readonly Uint8Array[], size: number): Uint8Array {
  const [only] = pieces;
  if (pieces.length === 1 && only) return only;
  const whole = new Uint8Array(size);
  let at = 0;
  for (const piece of pieces) {
    whole.set(piece, at);
    at += piece.length;
  }
  return whole;
}
