import { deflateRawSync, inflateRawSync } from "node:zlib";

/** A zip archive read and written by hand, so that the tests do not lean on the library that the code under test uses. */
export interface ZipEntry {
  name: string;
  method: number;
  crc: number;
  /** As it lies in the file. */
  packed: Buffer;
  unpackedSize: number;
  flags: number;
  /** Notes of other programs: before the data, and in the table of contents. */
  localExtra: Buffer;
  centralExtra: Buffer;
}

const LOCAL = 0x04034b50;
const CENTRAL = 0x02014b50;
const END = 0x06054b50;

/** The entries in the order of the table of contents. */
export function zipEntries(file: Uint8Array): ZipEntry[] {
  const bytes = Buffer.from(file);
  const end = bytes.lastIndexOf(Buffer.from([0x50, 0x4b, 0x05, 0x06]));
  const count = bytes.readUInt16LE(end + 10);
  let at = bytes.readUInt32LE(end + 16);
  return Array.from({ length: count }, () => {
    const [nameLength, extraLength, commentLength] = [28, 30, 32].map((offset) => bytes.readUInt16LE(at + offset)) as [number, number, number];
    const local = bytes.readUInt32LE(at + 42);
    const packedSize = bytes.readUInt32LE(at + 20);
    const notes = local + 30 + bytes.readUInt16LE(local + 26);
    const data = notes + bytes.readUInt16LE(local + 28);
    const entry = {
      name: bytes.toString("utf8", at + 46, at + 46 + nameLength),
      method: bytes.readUInt16LE(at + 10),
      flags: bytes.readUInt16LE(at + 8),
      crc: bytes.readUInt32LE(at + 16),
      packed: bytes.subarray(data, data + packedSize),
      unpackedSize: bytes.readUInt32LE(at + 24),
      localExtra: bytes.subarray(notes, data),
      centralExtra: bytes.subarray(at + 46 + nameLength, at + 46 + nameLength + extraLength),
    };
    at += 46 + nameLength + extraLength + commentLength;
    return entry;
  });
}

export function unpack(entry: ZipEntry): Buffer {
  return entry.method === 0 ? entry.packed : inflateRawSync(entry.packed);
}

/** The unpacked text of one part. */
export function partText(file: Uint8Array, name: string): string {
  const entry = zipEntries(file).find((one) => one.name === name);
  if (!entry) throw new Error(`The file has no part ${name}.`);
  return unpack(entry).toString("utf8");
}

export interface ZipPart {
  name: string;
  content: string | Buffer;
  /** Lies for hostile files: what the headers say instead of the truth. */
  says?: { unpackedSize?: number; flags?: number };
  stored?: boolean;
  localExtra?: Buffer;
  centralExtra?: Buffer;
}

export function zipOf(parts: readonly ZipPart[], comment = ""): Buffer {
  const locals: Buffer[] = [];
  const central: Buffer[] = [];
  let offset = 0;
  for (const { name, content, says, stored, localExtra = Buffer.alloc(0), centralExtra = Buffer.alloc(0) } of parts) {
    const data = Buffer.from(content);
    const packed = stored ? data : deflateRawSync(data);
    const nameBytes = Buffer.from(name, "utf8");
    const shared = Buffer.alloc(26);
    shared.writeUInt16LE(20, 0);
    shared.writeUInt16LE(says?.flags ?? 0x0800, 2);
    shared.writeUInt16LE(stored ? 0 : 8, 4);
    shared.writeUInt32LE(0x5a216c3d, 6);
    shared.writeUInt32LE(crc32(data), 10);
    shared.writeUInt32LE(packed.length, 14);
    shared.writeUInt32LE(says?.unpackedSize ?? data.length, 18);
    shared.writeUInt16LE(nameBytes.length, 22);
    const inTable = Buffer.from(shared);
    shared.writeUInt16LE(localExtra.length, 24);
    inTable.writeUInt16LE(centralExtra.length, 24);
    const local = Buffer.concat([u32(LOCAL), shared, nameBytes, localExtra, packed]);
    const rest = Buffer.alloc(14);
    rest.writeUInt32LE(offset, 10);
    central.push(Buffer.concat([u32(CENTRAL), Buffer.from([20, 0]), inTable, rest, nameBytes, centralExtra]));
    locals.push(local);
    offset += local.length;
  }
  const table = Buffer.concat(central);
  const end = Buffer.alloc(18);
  end.writeUInt16LE(parts.length, 4);
  end.writeUInt16LE(parts.length, 6);
  end.writeUInt32LE(table.length, 8);
  end.writeUInt32LE(offset, 12);
  end.writeUInt16LE(Buffer.byteLength(comment), 16);
  return Buffer.concat([...locals, table, u32(END), end, Buffer.from(comment)]);
}

function u32(value: number): Buffer {
  const bytes = Buffer.alloc(4);
  bytes.writeUInt32LE(value);
  return bytes;
}

const CRC_TABLE = Array.from({ length: 256 }, (_, n) => {
  let c = n;
  for (let k = 0; k < 8; k += 1) c = c & 1 ? 0xedb88320 ^ (c >>> 1) : c >>> 1;
  return c >>> 0;
});

function crc32(data: Buffer): number {
  let crc = 0xffffffff;
  for (const byte of data) crc = (CRC_TABLE[(crc ^ byte) & 0xff] ?? 0) ^ (crc >>> 8);
  return (crc ^ 0xffffffff) >>> 0;
}
