import { DEFAULT_TABLE_STYLE, freeName, nextId } from "./book-state";
import { ClientCollection } from "./client-collection";
import type { LoadOption } from "./client-object";
import { invalidArgument, notImplemented } from "./excel-error";
import { headingTexts } from "./heading-texts";
import { onlyWhatStands } from "./only-what-stands";
import { targetFinder } from "./range";
import { columnsOf, covers, intersection, rowsOf } from "./range-geometry";
import { gridPlace, needed, placed, type RangeTarget, rangeIn, splitReference } from "./range-target";
import type { LocalContext } from "./request-context";
import { tableOf } from "./table";
import { refuseOverlap, tableRange } from "./table-shape";

/** Which tables a list has, and the sheet on which an address without one lies. */
interface TableScope {
  /** null for the whole workbook. */
  readonly sheetId: string | null;
  /** Only tables that touch it (or lie in it). */
  readonly within?: RangeTarget;
  readonly fullyContained?: boolean;
}

type Members = "add" | "context" | "count" | "getCount" | "getItem" | "getItemAt" | "getItemOrNullObject" | "items" | "load";
type ScopedMembers = "context" | "getCount" | "getFirst" | "getItem" | "items" | "load";

class LocalTables extends ClientCollection<TableScope, Excel.Table> implements Pick<Excel.TableCollection, Members>, Pick<Excel.TableScopedCollection, Exclude<ScopedMembers, "load">> {
  /**
   * Makes a table of a range. As in Excel, its headings become texts, none blank and none twice. Formulas of the grid know the
   * table as Log[NO3] and Log[[#This Row],[NO3]], not as [@NO3]: formulas of a row are written with addresses (C2, D2), which
   * Excel takes as well.
   */
  add(address: Excel.Range | string, hasHeaders: boolean): Excel.Table {
    if (!hasHeaders) throw notImplemented("TableCollection", "add(address, false): write a row of headings first");
    const find = typeof address === "string" ? null : targetFinder(address);
    return this.item(() => {
      const scope = needed(this.found(), "TableCollection.add");
      const target = needed(find ? find() : this.readAddress(scope, String(address)), "TableCollection.add");
      return this.make(target);
    });
  }

  getFirst(): Excel.Table {
    return this.itemWhere(([first]) => first, "getFirst");
  }

  load(option?: LoadOption): Excel.TableCollection & Excel.TableScopedCollection {
    this.queueLoadItems(option);
    return this as unknown as Excel.TableCollection & Excel.TableScopedCollection;
  }

  protected override keys({ sheetId, within, fullyContained }: TableScope): string[] {
    const { tables } = this.local.state();
    return tables
      .filter((table) => sheetId === null || table.sheetId === sheetId)
      .filter((table) => within === undefined || (fullyContained ? covers(within.range, tableRange(table)) : intersection(within.range, tableRange(table)) !== null))
      .map(({ id }) => id);
  }

  protected override nameOf(id: string): string {
    return this.local.state().tables.find((table) => table.id === id)?.name ?? "";
  }

  protected override item(find: () => string | null): Excel.Table {
    return tableOf(this.local, find);
  }

  private make(target: RangeTarget): string {
    refuseOverlap(this.local, target.sheetId, target.range, null, "TableCollection.add");
    // A table has a row below its headings, even an empty one.
    const range = rowsOf(target.range) > 1 ? target.range : { ...target.range, endRow: target.range.endRow + 1 };
    this.writeHeadings({ ...target, range: { ...range, endRow: range.startRow } });
    const { tables } = this.local.port.state.current();
    const id = nextId(tables);
    const name = freeName("Table", [...tables.map((table) => table.name), ...this.local.port.names.list().map((one) => one.name)]);
    const added = { ...placed({ ...target, range }), id, name, columns: [], hasHeadings: true, hasTotals: false, style: DEFAULT_TABLE_STYLE };
    this.local.changeState({ tables: [...tables, added] });
    return id;
  }

  /** Writes only the headings that have to change. */
  private writeHeadings(target: RangeTarget): void {
    const { sheet, address } = gridPlace(this.local, target);
    const before = this.local.port.read(sheet, address).values[0] ?? Array<unknown>(columnsOf(target.range)).fill("");
    const after = headingTexts(before).map((heading, i) => (heading === before[i] ? null : heading));
    if (after.some((heading) => heading !== null)) this.local.port.write(sheet, address, [after]);
  }

  private readAddress({ sheetId }: TableScope, address: string): RangeTarget {
    const named = address.includes("!") ? splitReference(this.local, address) : null;
    if (named) return named;
    if (address.includes("!")) throw invalidArgument("TableCollection.add", `"${address}" is no range of the workbook.`);
    return rangeIn(sheetId ?? needed(this.local.sheetId(this.local.port.activeSheet()), "TableCollection.add"), address);
  }
}

/** The tables of the workbook, or of one sheet. @param find gives the sheet's id, null below a null sheet, or the whole workbook */
export function tablesOf(local: LocalContext, find: () => { readonly sheetId: string | null } | null): Excel.TableCollection {
  const offered: Partial<Excel.TableCollection> = onlyWhatStands(new LocalTables(local, "TableCollection", find), "TableCollection");
  return offered as Excel.TableCollection;
}

/** The tables that touch a range, or lie in it. */
export function tablesInRange(local: LocalContext, find: () => RangeTarget | null, fullyContained: boolean): Excel.TableScopedCollection {
  const scope = (): TableScope | null => {
    const within = find();
    return within && { sheetId: within.sheetId, within, fullyContained };
  };
  const offered: Partial<Excel.TableScopedCollection> = onlyWhatStands(new LocalTables(local, "TableScopedCollection", scope), "TableScopedCollection");
  return offered as Excel.TableScopedCollection;
}
