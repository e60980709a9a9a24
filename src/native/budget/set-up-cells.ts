import { splitHeading } from "../../functions/log-headings";
import { numberFromText } from "../../science/number-text";
import { NotWritable } from "../not-writable";
import { type Given, type GivenRange, isBlankValue, isSame, figureText } from "../given";

export interface SetUpCell {
  readonly given: Given;
  readonly unit: string;
  /** Place of its row in the range, from 0. */
  readonly row: number;
}

/** What a number of the set-up may be, as the functions have it. */
export interface SetUpLimits {
  readonly least?: number;
  readonly open?: boolean;
  readonly most?: number;
}

const MOST = 1e12;
const isPerCent = (unit: string): boolean => /^(%|per ?cent)$/i.test(unit);

/** Conditions that a cell is a number within limits. */
export const numberConditions = (text: string, { least = 0, open = false, most = MOST }: SetUpLimits): string[] => [
  `ISNUMBER(${text})`,
  `${text}${open ? ">" : ">="}${figureText(least)}`,
  ...(Number.isFinite(most) ? [`${text}<=${figureText(most)}`] : []),
];

/** The rows of a set-up as cells: name at the left, value beside it. */
export class SetUpCells {
  private readonly rows = new Map<string, SetUpCell>();
  private readonly conditions = new Map<number, string[]>();

  constructor(readonly range: GivenRange) {
    range.rows.forEach(([key, given], row) => {
      if (!key || !given || isBlankValue(key.value) || isBlankValue(given.value)) return;
      const { name, unit } = splitHeading(String(key.value));
      this.rows.set(name.toLowerCase(), { given, unit, row });
    });
  }

  find(...keys: readonly string[]): SetUpCell | null {
    for (const key of keys) {
      const row = this.rows.get(key.trim().toLowerCase());
      if (row) return row;
    }
    return null;
  }

  /** The row of a number that the account follows as long as it stays within these limits. */
  limited(limits: SetUpLimits, ...keys: readonly string[]): SetUpCell | null {
    const found = this.find(...keys);
    if (found) this.limit(found, numberConditions(found.given.text, limits));
    return found;
  }

  /** A share of at most `most`; under a per cent sign 5 and a cell formatted 5% are the same, and 1 could be either. */
  share(most: number, ...keys: readonly string[]): string | null {
    const found = this.find(...keys);
    if (!found) return null;
    const value = numberText(found.given);
    if (!isPerCent(found.unit)) {
      this.limit(found, numberConditions(found.given.text, { most }));
      return value;
    }
    const share = `IF(${value}>1,${value}/100,${value})`;
    this.limit(found, [...numberConditions(found.given.text, {}), `${value}<>1`, `${share}<=${figureText(most)}`]);
    return share;
  }

  /** The conditions of a row whose number the account follows; null of another row. */
  conditionsOf(row: number): readonly string[] | null {
    return this.conditions.get(row) ?? null;
  }

  private limit({ row, given }: SetUpCell, conditions: readonly string[]): void {
    if (typeof given.value === "number") this.conditions.set(row, [...new Set([...(this.conditions.get(row) ?? []), ...conditions])]);
  }
}

/** The number that a cell holds, for a formula: the cell itself, or what its text was read as, as long as the text stays. */
export function numberText({ text, value, literal }: Given, read: (written: string) => number | null = numberFromText): string {
  if (typeof value === "number") return text;
  if (typeof value !== "string") throw new NotWritable();
  const number = read(value);
  if (number === null) throw new NotWritable();
  return literal ? figureText(number) : `IF(${isSame({ text, value })},${figureText(number)},NA())`;
}
