import type { PlacedBook } from "../../files/merge/placed-book";
import type { ReadWorkbook } from "../../files/read-workbook";

/** The file that a workbook was opened from, so that a download can be made out of it. */
export interface Original {
  readonly id: string;
  /** What of it the page does not show. */
  readonly unshown: ReadWorkbook["unshown"];
  /** The file and what the grid made of it, as a text; null when the browser has lost it. */
  readonly packed: string | null;
}

export interface Unpacked {
  readonly bytes: Uint8Array;
  /** What the grid made of it when it was opened. */
  readonly before: PlacedBook;
}

/** Base64 goes three bytes by three, and what is given to one call must fit it. */
const CHUNK = 3 * 8192;
const MAP = "map of";

export function originalOf({ before, bytes }: Unpacked, unshown: Original["unshown"]): Original {
  return { id: crypto.randomUUID(), unshown, packed: JSON.stringify({ bytes: base64(bytes), before }, (_name, value: unknown) => (value instanceof Map ? { [MAP]: [...(value as Map<unknown, unknown>)] } : value)) };
}

/** The other way round. @throws for a text that is damaged */
export function unpacked(packed: string): Unpacked {
  const { before, bytes } = JSON.parse(packed, (_name, value: unknown) => (typeof value === "object" && value !== null && MAP in value ? new Map(value[MAP] as [unknown, unknown][]) : value)) as { before: PlacedBook; bytes: string };
  return { before, bytes: Uint8Array.from(atob(bytes), (letter) => letter.charCodeAt(0)) };
}

function base64(bytes: Uint8Array): string {
  const pieces: string[] = [];
  for (let at = 0; at < bytes.length; at += CHUNK) pieces.push(btoa(String.fromCharCode(...bytes.subarray(at, at + CHUNK))));
  return pieces.join("");
}
