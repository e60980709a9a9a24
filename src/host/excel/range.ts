import type { ClearWhat } from "../grid-port";
import type { Loadable, LoadOption } from "./client-object";
import { conditionalFormatsOf } from "./conditional-formats";
import { dataValidationOf } from "./data-validation";
import { notImplemented } from "./excel-error";
import { onlyWhatStands } from "./only-what-stands";
import { RangeContent } from "./range-content";
import { rangeFormatOf } from "./range-format";
import { entireColumns, entireRows, intersection, moved, resized } from "./range-geometry";
import { gridPart, needed, type RangeTarget, rangeIn, targetAt } from "./range-target";
import type { LocalContext } from "./request-context";
import { surroundingRegion } from "./surrounding-region";

type Shape = "getCell" | "getColumn" | "getEntireColumn" | "getEntireRow" | "getIntersectionOrNullObject" | "getLastRow" | "getOffsetRange" | "getResizedRange" | "getRow" | "getSurroundingRegion" | "getUsedRangeOrNullObject";
type Members = Shape | "clear" | "conditionalFormats" | "context" | "dataValidation" | "format" | "getTables" | "isNullObject" | "load" | "select" | "worksheet";

const CLEARS: Readonly<Record<string, ClearWhat>> = { All: "all", Contents: "contents", Formats: "formats" };

class LocalRange extends RangeContent implements Pick<Excel.Range, Members> {
  private formatOnce: Excel.RangeFormat | undefined = undefined;
  private validationOnce: Excel.DataValidation | undefined = undefined;

  constructor(local: LocalContext, find: () => RangeTarget | null) {
    super(local, "Range", find);
  }

  get format(): Excel.RangeFormat {
    this.formatOnce ??= rangeFormatOf(this.local, () => this.found());
    return this.formatOnce;
  }

  get dataValidation(): Excel.DataValidation {
    this.validationOnce ??= dataValidationOf(this.local, () => this.found());
    return this.validationOnce;
  }

  get conditionalFormats(): Excel.ConditionalFormatCollection {
    return conditionalFormatsOf(this.local, () => this.found(), (find) => rangeOf(this.local, find));
  }

  get worksheet(): Excel.Worksheet {
    return this.local.worksheet(this.below(({ sheetId }) => sheetId));
  }

  protected override part(name: string): Loadable | undefined {
    if (name === "format") return this.format;
    if (name === "dataValidation") return this.dataValidation;
    return name === "worksheet" ? this.worksheet : undefined;
  }

  load(option?: LoadOption): Excel.Range {
    this.queueLoad(option);
    return asExcel(this);
  }

  select(): void {
    this.queueWith((target) => {
      const { sheet, address } = needed(gridPart(this.local, target), "Range.select");
      this.local.port.select(sheet, address);
    });
  }

  clear(applyTo: Excel.ClearApplyTo | `${Excel.ClearApplyTo}` = "All"): void {
    const what = CLEARS[applyTo];
    if (!what) throw notImplemented("Range", `clear("${applyTo}")`);
    this.queueWith((target) => {
      const part = gridPart(this.local, target);
      if (part) this.local.port.formats.clear(part.sheet, part.address, what);
    });
    if (what !== "contents") this.conditionalFormats.clearAll();
    if (what === "all") this.dataValidation.clear();
  }

  /** @param row counted from 0; the cell may lie outside the range, but not outside the sheet */
  getCell(row: number, column: number): Excel.Range {
    return this.shape("getCell", ({ startRow, startColumn }) => moved({ startRow, startColumn, endRow: startRow, endColumn: startColumn }, row, column));
  }

  getRow(row: number): Excel.Range {
    return this.shape("getRow", (range) => moved({ ...range, endRow: range.startRow }, row, 0));
  }

  getLastRow(): Excel.Range {
    return this.shape("getLastRow", (range) => ({ ...range, startRow: range.endRow }));
  }

  getColumn(column: number): Excel.Range {
    return this.shape("getColumn", (range) => moved({ ...range, endColumn: range.startColumn }, 0, column));
  }

  getOffsetRange(rowOffset: number, columnOffset: number): Excel.Range {
    return this.shape("getOffsetRange", (range) => moved(range, rowOffset, columnOffset));
  }

  getResizedRange(deltaRows: number, deltaColumns: number): Excel.Range {
    return this.shape("getResizedRange", (range) => resized(range, deltaRows, deltaColumns));
  }

  getEntireRow(): Excel.Range {
    return this.shape("getEntireRow", entireRows);
  }

  getEntireColumn(): Excel.Range {
    return this.shape("getEntireColumn", entireColumns);
  }

  /** The range and its neighbours, up to a blank row and a blank column on every side. */
  getSurroundingRegion(): Excel.Range {
    return rangeOf(this.local, 
      this.below(({ sheetId, range }) => {
        const name = this.local.sheetName(sheetId);
        return { sheetId, range: surroundingRegion(this.local.port, name, range) };
      }),
    );
  }

  getIntersectionOrNullObject(anotherRange: Excel.Range | string): Excel.Range {
    const other = typeof anotherRange === "string" ? null : targetFinder(anotherRange);
    return rangeOf(this.local, 
      this.below((target) => {
        const against = other ? other() : rangeIn(target.sheetId, String(anotherRange));
        const range = against && against.sheetId === target.sheetId ? intersection(target.range, against.range) : null;
        return range && { sheetId: target.sheetId, range };
      }),
    );
  }

  getUsedRangeOrNullObject(valuesOnly = false): Excel.Range {
    return rangeOf(this.local, 
      this.below(({ sheetId, range }) => {
        const used = usedRange(this.local, sheetId, valuesOnly);
        const part = used && intersection(used.range, range);
        return part && { sheetId, range: part };
      }),
    );
  }

  getTables(fullyContained = false): Excel.TableScopedCollection {
    return this.local.tablesIn(() => this.found(), fullyContained);
  }

  private shape(member: string, change: (range: RangeTarget["range"]) => RangeTarget["range"] | undefined): Excel.Range {
    return rangeOf(this.local, this.below(({ sheetId, range }) => targetAt(sheetId, change(range), `Range.${member}`)));
  }
}

/** @param find runs at sync; gives null below a null sheet */
export function rangeOf(local: LocalContext, find: () => RangeTarget | null): Excel.Range {
  return asExcel(onlyWhatStands(new LocalRange(local, find), "Range"));
}

/** How a range that was handed to another object is found, once it stands. */
export function targetFinder(range: Excel.Range): () => RangeTarget | null {
  const local: unknown = range;
  if (!(local instanceof LocalRange)) throw notImplemented("Range", "an argument of another kind");
  return () => local.found();
}

/** The sheet's used range; null on an empty sheet. */
export function usedRange(local: LocalContext, sheetId: string, valuesOnly: boolean): RangeTarget | null {
  const address = local.port.sheets.used(local.sheetName(sheetId), valuesOnly);
  return address === null ? null : rangeIn(sheetId, address);
}

/** The compiler holds each member against Excel's own; the members that are missing fail loudly when they are used. */
function asExcel(range: LocalRange): Excel.Range {
  const offered: Partial<Excel.Range> = range;
  return offered as Excel.Range;
}
