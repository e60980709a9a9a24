import { serialOf } from "../../functions/dates";
import { headed, type HeadedColumn, type Of } from "../../functions/log-columns";
import { numberFromText } from "../../science/number-text";
import { Problem } from "../../science/problem";
import { NotWritable } from "../not-writable";
import { type Given, type GivenRange, isBlankValue } from "../given";
import { numberText } from "./set-up-cells";

/** What functions are handed for a range. */
export const valuesOf = (range: GivenRange | null): unknown[][] | null => (range ? range.rows.map((row) => row.map(({ value }) => value)) : null);

/** The most that any figure of a log may be. */
const MOST = 1e12;

function amountIn(written: string): number | null {
  try {
    return numberFromText(written);
  } catch (error) {
    if (error instanceof Problem) return null;
    throw error;
  }
}

/** The cells of a log by row and column, the heading row being row 1. */
export class LogCells {
  readonly columns: readonly HeadedColumn[];
  private readonly dateColumn: HeadedColumn;

  constructor(readonly range: GivenRange) {
    this.columns = headed(valuesOf(range) ?? []);
    const date = this.columns.find((one) => one.column.kind === "date");
    if (!date) throw new NotWritable();
    this.dateColumn = date;
  }

  /** The column of the dates, counted from 0. */
  get datePlace(): number {
    return this.dateColumn.place;
  }

  of<K extends HeadedColumn["column"]["kind"]>(kind: K): Of<K>[] {
    return this.columns.filter((one): one is Of<K> => one.column.kind === kind);
  }

  at(row: number, column: HeadedColumn): Given {
    const given = this.range.rows[row - 1]?.[column.place];
    if (!given) throw new NotWritable();
    return given;
  }

  isFilled(row: number, column: HeadedColumn): boolean {
    return !isBlankValue(this.at(row, column).value);
  }

  /** Whether a cell is an entry of the account: an amount that our function takes. */
  isEntry(row: number, column: HeadedColumn): boolean {
    const { value } = this.at(row, column);
    const amount = typeof value === "number" ? value : typeof value === "string" && !isBlankValue(value) ? amountIn(value) : null;
    return amount !== null && amount > 0 && amount <= MOST;
  }

  /** The day of a row as a serial number. */
  day(row: number): string {
    return numberText(this.at(row, this.dateColumn), (written) => serialOf(written, 0));
  }

  /** The figure of a cell in grams or litres. */
  figure(row: number, column: HeadedColumn, factor: number): string {
    const text = numberText(this.at(row, column));
    return factor === 1 ? text : `${text}*${factor}`;
  }

  /** A share of water: 25 under a per cent heading and a cell formatted 25% are the same. */
  share(row: number, column: HeadedColumn): string {
    const text = numberText(this.at(row, column));
    return `IF(${text}>1,${text}/100,${text})`;
  }
}
