/** What a file may cost to open. A workbook of 100,000 rows and a dozen columns stays below each of them. */
export interface ArchiveLimits {
  /** The file as it lies on the disk, bytes. */
  fileBytes: number;
  /** One part unpacked, bytes. */
  partBytes: number;
  /** All parts unpacked, bytes. */
  unpackedBytes: number;
  /** How many times its packed size a part may unpack to, if it is larger than ratioFromBytes. */
  ratio: number;
  ratioFromBytes: number;
  parts: number;
  /** Tags and attributes in all parts that are read, told by their "<" and "=": what reading them costs goes by these. */
  marks: number;
}

export const MEGABYTE = 1024 * 1024;

export const ARCHIVE_LIMITS: ArchiveLimits = {
  fileBytes: 100 * MEGABYTE,
  partBytes: 128 * MEGABYTE,
  unpackedBytes: 512 * MEGABYTE,
  ratio: 100,
  ratioFromBytes: 10 * MEGABYTE,
  parts: 10_000,
  marks: 16_000_000,
};

/** Cells of one worksheet, and cells that its array formulas say they fill: a few letters can claim a whole worksheet. */
export const MOST_CELLS = 2_000_000;
