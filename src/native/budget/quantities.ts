import type { Uncertain } from "../../science/uncertain";
import { budget as words } from "../../words/native-account";
import type { Draft } from "../draft";
import { Table } from "./table";

/** How the limits of a quantity are written: best value, low and high as formulas. A rectangular one takes its best value from the limits. */
export interface QuantityText {
  readonly name: string;
  readonly best?: string;
  readonly low: string;
  readonly high: string;
  readonly shape: "rectangular" | "triangular";
}

/** The uncertain quantities of an account, each once: best value, limits, mean and standard uncertainty (JCGM 100:2008, 4.3.7 to 4.3.9). */
export class QuantityTable {
  private readonly table: Table<"name" | "best" | "low" | "high" | "mean" | "u" | "far">;
  private filled = 0;

  constructor(draft: Draft, left: number, rows: number) {
    this.table = new Table(draft, left, words.quantities, words.quantityHeadings, rows);
  }

  /** A sum that is an error as soon as one of the quantities is. */
  get sum(): string {
    return `SUM(${this.table.column("best")},${this.table.column("u")})`;
  }

  get next(): number {
    return this.table.next;
  }

  add({ name, best, low, high, shape }: QuantityText): QuantityCells {
    const row = this.filled;
    this.filled += 1;
    const { table } = this;
    const at = { best: table.cell(row, "best"), low: table.cell(row, "low"), high: table.cell(row, "high"), mean: table.cell(row, "mean"), u: table.cell(row, "u"), far: table.cell(row, "far") };
    table.put(row, "name", name);
    table.formula(row, "best", shape === "rectangular" ? `(${at.low}+${at.high})/2` : (best ?? at.low));
    table.formula(row, "low", low);
    table.formula(row, "high", high);
    table.formula(row, "mean", shape === "rectangular" ? at.best : `(${at.low}+${at.best}+${at.high})/3`);
    table.formula(row, "u", shape === "rectangular" ? `(${at.high}-${at.low})/SQRT(12)` : `SQRT(((${at.best}-${at.low})^2+(${at.high}-${at.best})^2+(${at.high}-${at.low})^2)/36)`);
    // Where its value plus or minus 2 u says little: no tails, or a best value well off the middle.
    if (shape === "rectangular") table.put(row, "far", 1);
    else table.formula(row, "far", `IF(ABS(${at.mean}-${at.best})>0.1*${at.u},1,0)`);
    return at;
  }
}

/** The cells of one quantity. */
export type QuantityCells = Readonly<Record<"best" | "low" | "high" | "mean" | "u" | "far", string>>;

/** A value known to plus or minus a share of itself. */
export const withinShareText = (name: string, value: string, share: string): QuantityText => ({ name, low: `${value}*(1-${share})`, high: `${value}*(1+${share})`, shape: "rectangular" });

export const isRectangular = ({ shape }: Uncertain): boolean => shape !== "triangular";
