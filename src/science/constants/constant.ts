import type { SourceKey } from "./sources";

/** How far a value can be trusted: seen in the source, worked out from such values, or none of these. */
export type Mark = "read" | "computed" | "from memory" | "common practice" | "judgement";

/** One number with what a keeper needs to judge it. `low` and `high` are the limits within which the truth is expected. */
export interface Constant {
  readonly name: string;
  readonly value: number;
  readonly low: number;
  readonly high: number;
  readonly unit: string;
  readonly mark: Mark;
  readonly source: SourceKey;
  readonly note?: string;
}
