import { joinAddress } from "../../functions/cell-address";
import { ClientObject } from "./client-object";
import { invalidArgument } from "./excel-error";
import { anyRangeAddress, columnsOf, isUnbounded, rowsOf } from "./range-geometry";
import { gridPlace, type RangeTarget } from "./range-target";
import { valueTypeOf } from "./value-type";

type Members =
  | "address"
  | "cellCount"
  | "columnCount"
  | "columnIndex"
  | "formulas"
  | "formulasLocal"
  | "numberFormat"
  | "rowCount"
  | "rowIndex"
  | "text"
  | "values"
  | "valueTypes";

/** Excel gives this count for more cells than fit into 31 bits. */
const MOST_CELLS = 2 ** 31 - 1;

/** What stands in the cells of a range, and where they are. Of whole rows and columns Excel gives no single cells, but null. */
export abstract class RangeContent extends ClientObject<RangeTarget> implements Pick<Excel.Range, Members> {
  protected override readonly readers = {
    address: ({ sheetId, range }: RangeTarget) => joinAddress(this.local.sheetName(sheetId), anyRangeAddress(range)),
    cellCount: ({ range }: RangeTarget) => (rowsOf(range) * columnsOf(range) > MOST_CELLS ? -1 : rowsOf(range) * columnsOf(range)),
    rowIndex: ({ range }: RangeTarget) => range.startRow,
    columnIndex: ({ range }: RangeTarget) => range.startColumn,
    rowCount: ({ range }: RangeTarget) => rowsOf(range),
    columnCount: ({ range }: RangeTarget) => columnsOf(range),
    values: (target: RangeTarget) => this.content(target)?.values ?? null,
    formulas: (target: RangeTarget) => this.content(target)?.formulas ?? null,
    formulasLocal: (target: RangeTarget) => this.content(target)?.formulas ?? null,
    valueTypes: (target: RangeTarget) => this.content(target)?.values.map((row) => row.map(valueTypeOf)) ?? null,
    text: (target: RangeTarget) => this.cells(target, (sheet, address) => this.local.port.formats.text(sheet, address)),
    numberFormat: (target: RangeTarget) => this.cells(target, (sheet, address) => this.local.port.formats.numberFormats(sheet, address)),
  };

  get address(): string {
    return this.loadedCopy("address") as string;
  }

  get cellCount(): number {
    return this.loadedCopy("cellCount") as number;
  }

  get rowIndex(): number {
    return this.loadedCopy("rowIndex") as number;
  }

  get columnIndex(): number {
    return this.loadedCopy("columnIndex") as number;
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
    this.write("values", values, (sheet, address, content) => this.local.port.write(sheet, address, content));
  }

  get formulas(): unknown[][] {
    return this.loadedCopy("formulas") as unknown[][];
  }

  set formulas(formulas: unknown[][]) {
    this.write("formulas", formulas, (sheet, address, content) => this.local.port.write(sheet, address, content));
  }

  /** The grid writes formulas in one language only, whatever the user's. It can be read here, and not yet set. */
  get formulasLocal(): unknown[][] {
    return this.loadedCopy("formulasLocal") as unknown[][];
  }

  get valueTypes(): Excel.RangeValueType[][] {
    return this.loadedCopy("valueTypes") as Excel.RangeValueType[][];
  }

  /** Each cell as the grid shows it. */
  get text(): string[][] {
    return this.loadedCopy("text") as string[][];
  }

  get numberFormat(): unknown[][] {
    return this.loadedCopy("numberFormat") as unknown[][];
  }

  set numberFormat(formats: unknown[][]) {
    this.write("numberFormat", formats, (sheet, address, content) =>
      this.local.port.formats.setNumberFormats(sheet, address, content.map((row) => row.map((format) => (format === null ? null : String(format))))),
    );
  }

  /**
   * The rows are taken as they stand at sync, as in Excel, whose library sends the caller's own array then. A single value that is no
   * array goes into every cell.
   */
  private write(property: "formulas" | "numberFormat" | "values", given: unknown, act: (sheet: string, address: string, content: unknown[][]) => void): void {
    this.setCopy(property, given, (target) => {
      const [height, width] = [rowsOf(target.range), columnsOf(target.range)];
      if (isUnbounded(target.range)) throw invalidArgument(`Range.${property}`, "whole rows and columns cannot be set.");
      const rows: unknown[] = Array.isArray(given) ? given : Array.from({ length: height }, () => Array<unknown>(width).fill(given));
      const fits = (all: unknown[]): all is unknown[][] => all.length === height && all.every((row) => Array.isArray(row) && row.length === width);
      if (!fits(rows)) throw invalidArgument(`Range.${property}`, `the range has ${height} rows and ${width} columns, what was given has not.`);
      const { sheet, address } = gridPlace(this.local, target);
      act(sheet, address, rows);
    });
  }

  private content(target: RangeTarget) {
    return this.cells(target, (sheet, address) => this.local.port.read(sheet, address));
  }

  private cells<T>(target: RangeTarget, read: (sheet: string, address: string) => T): T | null {
    if (isUnbounded(target.range)) return null;
    const { sheet, address } = gridPlace(this.local, target);
    return read(sheet, address);
  }
}
