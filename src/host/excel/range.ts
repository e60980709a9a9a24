import { joinAddress } from "../../functions/cell-address";
import { type CellRange, rangeAddress, readRange } from "../engine/address";
import { ClientObject, type LoadOption } from "./client-object";
import { invalidArgument } from "./excel-error";
import { onlyWhatStands } from "./only-what-stands";
import type { LocalContext } from "./request-context";
import { valueTypeOf } from "./value-type";

export interface RangeTarget {
  sheet: string;
  range: CellRange;
}

type Members =
  | "address"
  | "columnCount"
  | "context"
  | "formulas"
  | "formulasLocal"
  | "isNullObject"
  | "load"
  | "rowCount"
  | "select"
  | "values"
  | "valueTypes";

class LocalRange extends ClientObject<RangeTarget> implements Pick<Excel.Range, Members> {
  protected override readonly readers = {
    address: ({ sheet, range }: RangeTarget) => joinAddress(sheet, rangeAddress(range)),
    rowCount: ({ range }: RangeTarget) => rows(range),
    columnCount: ({ range }: RangeTarget) => columns(range),
    values: (target: RangeTarget) => this.content(target).values,
    formulas: (target: RangeTarget) => this.content(target).formulas,
    formulasLocal: (target: RangeTarget) => this.content(target).formulas,
    valueTypes: (target: RangeTarget) => this.content(target).values.map((row) => row.map(valueTypeOf)),
  };

  get address(): string {
    return this.loadedCopy("address") as string;
  }

  get rowCount(): number {
    return this.loadedCopy("rowCount") as number;
  }

  get columnCount(): number {
    return this.loadedCopy("columnCount") as number;
  }

  get values(): unknown[][] {
    return this.loadedCopy("values") as unknown[][];
  }

  set values(values: unknown[][]) {
    this.write("values", values);
  }

  get formulas(): unknown[][] {
    return this.loadedCopy("formulas") as unknown[][];
  }

  set formulas(formulas: unknown[][]) {
    this.write("formulas", formulas);
  }

  /** The grid writes formulas in one language only, whatever the user's. It can be read here, and not yet set. */
  get formulasLocal(): unknown[][] {
    return this.loadedCopy("formulasLocal") as unknown[][];
  }

  get valueTypes(): Excel.RangeValueType[][] {
    return this.loadedCopy("valueTypes") as Excel.RangeValueType[][];
  }

  load(option?: LoadOption): Excel.Range {
    this.queueLoad(option);
    return asExcel(this);
  }

  select(): void {
    this.queueWith(({ sheet, range }) => this.local.port.select(sheet, rangeAddress(range)));
  }

  /** The rows are copied now: what the caller does to its array later is not written. */
  private write(property: "values" | "formulas", given: unknown[][]): void {
    const content = given.map((row) => [...row]);
    this.keepCopy(property, content);
    this.queueWith(({ sheet, range }) => {
      const fits = content.length === rows(range) && content.every((row) => row.length === columns(range));
      if (!fits) throw invalidArgument(`Range.${property}`, `the range has ${rows(range)} rows and ${columns(range)} columns, what was given has not.`);
      this.local.port.write(sheet, rangeAddress(range), content);
    });
  }

  private content({ sheet, range }: RangeTarget) {
    return this.local.port.read(sheet, rangeAddress(range));
  }
}

/** @param find runs at sync; gives null below a null sheet */
export function rangeOf(local: LocalContext, find: () => RangeTarget | null): Excel.Range {
  return asExcel(onlyWhatStands(new LocalRange(local, "Range", find), "Range"));
}

/** Reads an A1 address at sync, where Excel too finds fault with it. */
export function rangeIn(sheet: string, address: string): RangeTarget {
  try {
    return { sheet, range: readRange(address) };
  } catch (error) {
    throw invalidArgument("Worksheet.getRange", (error as Error).message);
  }
}

/** The compiler holds each member against Excel's own; the members that are missing fail loudly when they are used. */
function asExcel(range: LocalRange): Excel.Range {
  const offered: Partial<Excel.Range> = range;
  return offered as Excel.Range;
}

const rows = ({ startRow, endRow }: CellRange): number => endRow - startRow + 1;
const columns = ({ startColumn, endColumn }: CellRange): number => endColumn - startColumn + 1;
