import { type Entry, ERR_UNSAFE_FILENAME, type FileEntry, Uint8ArrayReader, Uint8ArrayWriter, ZipReader, ZipWriter } from "@zip.js/zip.js";
import { Problem } from "../science/problem";
import { files } from "../words/files";
import { ARCHIVE_LIMITS, type ArchiveLimits, MEGABYTE } from "./archive-limits";
import { refuseOtherFormats } from "./other-formats";
import { type PackedEntry, packedEntry, zipFile } from "./zip-container";

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
const UTF8_NAME = 0x0800;
// The worker-free, embedded deflate gives the same bytes on every machine; the streams of the platform do not. On a page they have
// to do: the embedded one is loaded from an address that the page's own rules forbid, and there no bytes are compared.
const PACKING = { level: 6, useWebWorkers: false, useCompressionStream: "document" in globalThis, extendedTimestamp: false, dataDescriptor: false, bufferedWrite: true, keepOrder: true };

/** Reads a file's table of parts and checks it against the limits. Throws a Problem with one sentence for whatever is not a zip archive. */
export async function openArchive(bytes: Uint8Array, limits: ArchiveLimits = ARCHIVE_LIMITS): Promise<Archive> {
  if (bytes.length === 0) throw new Problem("value", files.empty);
  if (bytes.length > limits.fileBytes) throw new Problem("value", files.tooLarge(limits.fileBytes / MEGABYTE));
  refuseOtherFormats(bytes);
  const entries = await readEntries(bytes);
  checkEntries(entries, limits);
  return new ZipArchive(bytes, entries, limits);
}

/** Packs parts into a new file, in their order. */
export async function packArchive(parts: ReadonlyMap<string, Uint8Array>): Promise<Uint8Array> {
  return zipFile([...(await packParts(parts)).values()]);
}

async function readEntries(bytes: Uint8Array): Promise<Entry[]> {
  try {
    return await new ZipReader(new Uint8ArrayReader(bytes), { useWebWorkers: false }).getEntries({ filenameValidation: "balanced" });
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
    if (entry.filename.includes("\0")) throw new Problem("value", files.unsafeName);
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

  constructor(private readonly file: Uint8Array, private readonly entries: readonly Entry[], private readonly limits: ArchiveLimits) {
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
      await entry.getData(collect, { useWebWorkers: false, checkCrc32: true, checkOverlappingEntry: true });
    } catch (error) {
      throw error instanceof Problem ? error : new Problem("value", files.damagedPart(entry.filename));
    }
    return joined(pieces, size);
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
      const { flags, method, crc32, unpackedSize, packed: content } = replaced.get(keyOf(entry.filename)) ?? original;
      return { ...original, flags: (original.flags & UTF8_NAME) | (flags & ~UTF8_NAME), method, crc32, unpackedSize, packed: content };
    });
    const added = [...packed].flatMap(([name, entry]) => (this.has(name) ? [] : [entry]));
    return zipFile([...copied, ...added]);
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

/** The text of an XML part, a byte order mark kept so that the same bytes can be written again. UTF-8, or UTF-16 with its mark. */
export function decodeXml(bytes: Uint8Array, part: string): string {
  const [first, second] = bytes;
  const encoding = first === 0xff && second === 0xfe ? "utf-16le" : first === 0xfe && second === 0xff ? "utf-16be" : "utf-8";
  try {
    return new TextDecoder(encoding, { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    throw new Problem("value", files.damagedPart(part));
  }
}

/** Whether decodeXml read these bytes as UTF-8, so that the text can be written back to the same bytes. */
export function isUtf8(bytes: Uint8Array): boolean {
  return !((bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff));
}
