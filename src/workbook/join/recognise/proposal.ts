import type { DateOrder } from "../../../functions/date-text";
import type { Form } from "../../../science/nutrient-forms";
import type { HeadingMeaning } from "./meaning";
import type { WrittenUnit } from "./units";
import type { ColumnValues } from "./values";
import type { Kind } from "./vocabulary";

export type Sureness = "sure" | "likely" | "ask";

/** What one column of a log is taken for. */
export interface ColumnProposal {
  /** The heading as the keeper wrote it; two heading rows are joined. */
  readonly heading: string;
  /** Our heading for it; null: left alone, or not settled before the question is answered. */
  readonly meaning: string | null;
  readonly kind: Kind;
  readonly unit: string | null;
  readonly basis: Form | null;
  readonly sureness: Sureness;
  readonly why: string;
  /** Our headings to choose from when asked; leaving it alone is always possible. */
  readonly choices: readonly string[];
  /** For the date column: the order of its text dates, and the orders to choose from when asked. */
  readonly dateOrder: DateOrder | null;
  readonly dateOrders: readonly DateOrder[];
}

/** All that is known of one column, for those who propose. */
export interface ColumnFacts {
  readonly heading: string;
  readonly said: HeadingMeaning;
  readonly kind: Kind;
  readonly values: ColumnValues;
  readonly own: readonly WrittenUnit[];
  readonly fromRow: readonly WrittenUnit[];
  readonly fromGroup: readonly WrittenUnit[];
  readonly group: string;
  /** The name of a screen matters only beside another column of the kind. */
  readonly severalOfKind: boolean;
  /** Names of the screens that the harvest columns name, in lower case; none for a single one. */
  readonly screens: readonly string[];
}

const NONE = { unit: null, basis: null, choices: [], dateOrder: null, dateOrders: [] } as const;
export const leftAlone = (heading: string, sureness: Sureness, why: string): ColumnProposal => ({ heading, meaning: null, kind: "leftAlone", sureness, why, ...NONE });
export const asked = (heading: string, kind: Kind, why: string, choices: readonly string[]): ColumnProposal => ({ ...NONE, heading, meaning: null, kind, sureness: "ask", why, choices });
export const meant = (heading: string, kind: Kind, meaning: string, sureness: Sureness, why: string, unit: string | null = null, basis: Form | null = null): ColumnProposal => ({ ...NONE, heading, meaning, kind, unit, basis, sureness, why });
