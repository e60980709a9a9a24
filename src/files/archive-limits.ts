/** What a file may cost to open. A workbook of 100,000 rows stays far below each of them. */
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
}

export const MEGABYTE = 1024 * 1024;

export const ARCHIVE_LIMITS: ArchiveLimits = {
  fileBytes: 100 * MEGABYTE,
  partBytes: 256 * MEGABYTE,
  unpackedBytes: 512 * MEGABYTE,
  ratio: 200,
  ratioFromBytes: 10 * MEGABYTE,
  parts: 10_000,
};
