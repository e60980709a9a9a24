import { ClientObject, type Loadable, type LoadOption } from "./client-object";
import { invalidArgument, notImplemented } from "./excel-error";
import { onlyWhatStands } from "./only-what-stands";
import { rangeOf, targetFinder } from "./range";
import { columnsOf, rowsOf } from "./range-geometry";
import { gridPlace, needed, placed, rangeIn, splitReference } from "./range-target";
import type { LocalContext } from "./request-context";
import { tableColumnsOf } from "./table-columns";
import { tableRowsOf } from "./table-rows";
import { bodyRange, changeTable, headingRow, refuseName, refuseOverlap, tableRange, tableState } from "./table-shape";

type Members =
  | "clearFilters"
  | "columns"
  | "context"
  | "convertToRange"
  | "delete"
  | "getDataBodyRange"
  | "getHeaderRowRange"
  | "getRange"
  | "id"
  | "isNullObject"
  | "load"
  | "name"
  | "resize"
  | "rows"
  | "showHeaders"
  | "showTotals"
  | "style"
  | "worksheet";

/** A table. The target is its id. The grid draws no style and no filter buttons; the style is kept for Excel. */
class LocalTable extends ClientObject<string> implements Pick<Excel.Table, Members> {
  protected override readonly readers = {
    id: (id: string) => id,
    name: (id: string) => tableState(this.local, id).name,
    showHeaders: (id: string) => tableState(this.local, id).hasHeadings,
    showTotals: (id: string) => tableState(this.local, id).hasTotals,
    style: (id: string) => tableState(this.local, id).style,
  };
  private columnsOnce: Excel.TableColumnCollection | undefined = undefined;
  private rowsOnce: Excel.TableRowCollection | undefined = undefined;

  get columns(): Excel.TableColumnCollection {
    this.columnsOnce ??= tableColumnsOf(this.local, () => this.found());
    return this.columnsOnce;
  }

  get rows(): Excel.TableRowCollection {
    this.rowsOnce ??= tableRowsOf(this.local, () => this.found());
    return this.rowsOnce;
  }

  protected override part(name: string): Loadable | undefined {
    if (name === "columns") return this.columns;
    return name === "rows" ? this.rows : undefined;
  }

  get id(): string {
    return this.loadedCopy("id") as string;
  }

  get name(): string {
    return this.loadedCopy("name") as string;
  }

  set name(name: string) {
    this.setCopy("name", name, (id) => {
      refuseName(this.local, name, id, "Table.name");
      changeTable(this.local, id, { name });
    });
  }

  get showHeaders(): boolean {
    return this.loadedCopy("showHeaders") as boolean;
  }

  set showHeaders(show: boolean) {
    this.setCopy("showHeaders", show, (id) => {
      if (tableState(this.local, id).hasHeadings !== show) throw notImplemented("Table", `showHeaders = ${show}`);
    });
  }

  get showTotals(): boolean {
    return this.loadedCopy("showTotals") as boolean;
  }

  /** Set to what it is, nothing happens; the local host adds and removes no row of totals. */
  set showTotals(show: boolean) {
    this.setCopy("showTotals", show, (id) => {
      if (tableState(this.local, id).hasTotals !== show) throw notImplemented("Table", `showTotals = ${show}`);
    });
  }

  get style(): string {
    return this.loadedCopy("style") as string;
  }

  set style(style: string) {
    this.setCopy("style", style, (id) => changeTable(this.local, id, { style }));
  }

  get worksheet(): Excel.Worksheet {
    return this.local.worksheet(this.below((id) => tableState(this.local, id).sheetId));
  }

  getRange(): Excel.Range {
    return this.rangeBy(tableRange);
  }

  getHeaderRowRange(): Excel.Range {
    return this.rangeBy(headingRow);
  }

  getDataBodyRange(): Excel.Range {
    return this.rangeBy(bodyRange);
  }

  /** The headings stay in their row, and the new range meets the old one, as Excel asks. */
  resize(newRange: Excel.Range | string): void {
    const find = typeof newRange === "string" ? null : targetFinder(newRange);
    this.queueWith((id) => {
      const table = tableState(this.local, id);
      const address = String(newRange);
      const target = needed(find ? find() : address.includes("!") ? splitReference(this.local, address) : rangeIn(table.sheetId, address), "Table.resize");
      const before = tableRange(table);
      if (target.sheetId !== table.sheetId || target.range.startRow !== before.startRow) throw invalidArgument("Table.resize", "the headings of the table stay in their row.");
      if (rowsOf(target.range) < 2) throw invalidArgument("Table.resize", "a table has a row below its headings.");
      refuseOverlap(this.local, table.sheetId, target.range, id, "Table.resize");
      changeTable(this.local, id, { ref: placed(target).ref, columns: table.columns.slice(0, columnsOf(target.range)) });
    });
  }

  /** The table is gone, its cells stay. */
  convertToRange(): Excel.Range {
    const range = this.getRange();
    this.queueWith((id) => this.forget(id));
    return range;
  }

  /** The table is gone, and what stood in its cells. */
  delete(): void {
    this.queueWith((id) => {
      const table = tableState(this.local, id);
      const { sheet, address } = gridPlace(this.local, { sheetId: table.sheetId, range: tableRange(table) });
      this.local.port.formats.clear(sheet, address, "all");
      this.forget(id);
    });
  }

  /** The local host has no filters on tables, so that there is never one to clear. */
  clearFilters(): void {
    this.queueWith(() => undefined);
  }

  load(option?: LoadOption): Excel.Table {
    this.queueLoad(option);
    return this as Partial<Excel.Table> as Excel.Table;
  }

  private forget(id: string): void {
    this.local.changeState({ tables: this.local.port.state.current().tables.filter((table) => table.id !== id) });
  }

  private rangeBy(part: typeof tableRange): Excel.Range {
    return rangeOf(
      this.local,
      this.below((id) => {
        const table = tableState(this.local, id);
        return { sheetId: table.sheetId, range: part(table) };
      }),
    );
  }
}

export function tableOf(local: LocalContext, find: () => string | null): Excel.Table {
  const offered: Partial<Excel.Table> = onlyWhatStands(new LocalTable(local, "Table", find), "Table");
  return offered as Excel.Table;
}
