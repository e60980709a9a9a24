import type { DateOrder } from "../../functions/date-text";

/** Of the workbook's own XML parts, those that remember a join. */
export const JOIN_NAMESPACE = "urn:algal-ledger:join:1";

/** Where the added columns stand: right of a range, in a table, or on a sheet of their own. */
export type JoinPlace = "beside" | "table" | "sheet";

/** What a workbook remembers of one joined log. Where its parts lie is kept in names, which move with the cells. */
export interface JoinRecord {
  readonly id: number;
  readonly place: JoinPlace;
  /** What each column of the log was taken for, in its order. */
  readonly columns: readonly { readonly heading: string; readonly meaning: string | null }[];
  readonly dateOrder: DateOrder | null;
  readonly table: string | null;
  /** Headings of the columns that were added to the table. */
  readonly tableColumns: readonly string[];
  /** Number formats of the added cells before, row by row; one text where all are alike. */
  readonly formats: string | readonly (readonly string[])[];
  /** Width of the last added column before, in points; null where it was left. */
  readonly width: number | null;
}

export const JOIN_PARTS = ["log", "added", "join", "balance", "charts", "foods", "rows"] as const;
export type JoinPart = (typeof JOIN_PARTS)[number];

/** The name that keeps the place of a part. */
export const partName = (id: number, part: JoinPart): string => `Algal_join_${id}_${part}`;

export function recordXml(record: JoinRecord): string {
  const text = JSON.stringify(record).replace(/&/g, "&amp;").replace(/</g, "&lt;").replace(/>/g, "&gt;");
  return `<join xmlns="${JOIN_NAMESPACE}">${text}</join>`;
}

/** Null for a part that was changed by somebody else so that it cannot be read. */
export function readRecord(xml: string): JoinRecord | null {
  const text = /<(?:\w+:)?join\b[^>]*>([\s\S]*)<\/(?:\w+:)?join>/.exec(xml)?.[1];
  if (text === undefined) return null;
  try {
    const plain = text.replace(/&lt;/g, "<").replace(/&gt;/g, ">").replace(/&quot;/g, '"').replace(/&apos;/g, "'").replace(/&amp;/g, "&");
    const record = JSON.parse(plain) as Partial<JoinRecord>;
    return typeof record.id === "number" && Array.isArray(record.columns) && typeof record.place === "string" ? (record as JoinRecord) : null;
  } catch {
    return null;
  }
}
