import { splitHeading } from "../../functions/log-headings";
import { numberFromText } from "../../science/number-text";
import { NotWritable } from "../cell-writer";
import { type Given, type GivenRange, isBlankValue, isSame, figureText } from "../given";

export interface SetUpCell {
  readonly given: Given;
  readonly unit: string;
}

/** The rows of a set-up as cells: name at the left, value beside it. */
export class SetUpCells {
  private readonly rows = new Map<string, SetUpCell>();

  constructor(private readonly range: GivenRange) {
    for (const [key, given] of range.rows) {
      if (!key || !given || isBlankValue(key.value) || isBlankValue(given.value)) continue;
      const { name, unit } = splitHeading(String(key.value));
      this.rows.set(name.toLowerCase(), { given, unit });
    }
  }

  find(...keys: readonly string[]): SetUpCell | null {
    for (const key of keys) {
      const row = this.rows.get(key.trim().toLowerCase());
      if (row) return row;
    }
    return null;
  }

  /** A share; under a per cent sign 5 and a cell formatted 5% are the same. */
  share(...keys: readonly string[]): string | null {
    const row = this.find(...keys);
    if (!row) return null;
    const value = numberText(row.given);
    return /^(%|per ?cent)$/i.test(row.unit) ? `IF(${value}>1,${value}/100,${value})` : value;
  }

  /** Conditions that hold as long as the names are those of the hand-over. */
  get unchanged(): string[] {
    return this.range.rows.flatMap(([key]) => (key && !key.literal && typeof key.value === "string" && !isBlankValue(key.value) ? [isSame(key)] : []));
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
