import { ClientCollection } from "./client-collection";
import { ClientObject, type LoadOption } from "./client-object";
import { invalidArgument, notImplemented } from "./excel-error";
import { onlyWhatStands } from "./only-what-stands";
import { rangeOf } from "./range";
import { anyRangeAddress, columnsOf, rowsOf } from "./range-geometry";
import { gridPlace, needed } from "./range-target";
import type { LocalContext } from "./request-context";
import { bodyRange, changeTable, isBlank, refuseOverlap, tableRange, tableState } from "./table-shape";

interface RowTarget {
  /** The table's id. */
  readonly table: string;
  /** Counted from 0, below the headings. */
  readonly index: number;
}

class LocalRow extends ClientObject<RowTarget> implements Pick<Excel.TableRow, "context" | "getRange" | "index" | "load" | "values"> {
  protected override readonly readers = {
    index: ({ index }: RowTarget) => index,
    values: (target: RowTarget) => {
      const { sheet, address } = gridPlace(this.local, this.place(target));
      return this.local.port.read(sheet, address).values;
    },
  };

  get index(): number {
    return this.loadedCopy("index") as number;
  }

  get values(): unknown[][] {
    return this.loadedCopy("values") as unknown[][];
  }

  getRange(): Excel.Range {
    return rangeOf(this.local, this.below((target) => this.place(target)));
  }

  load(option?: LoadOption): Excel.TableRow {
    this.queueLoad(option);
    return this as Partial<Excel.TableRow> as Excel.TableRow;
  }

  private place({ table, index }: RowTarget) {
    const state = tableState(this.local, table);
    const body = bodyRange(state);
    return { sheetId: state.sheetId, range: { ...body, startRow: body.startRow + index, endRow: body.startRow + index } };
  }
}

type Members = "add" | "context" | "count" | "getCount" | "getItemAt" | "items" | "load";
type Cells = Parameters<Excel.TableRowCollection["add"]>[1];

/** The rows of a table below its headings. */
class LocalRows extends ClientCollection<string, Excel.TableRow> implements Pick<Excel.TableRowCollection, Members> {
  /**
   * Adds rows at the end of the table, where the cells below must be blank: the grid moves no cells to make room. Unlike Excel,
   * it fills in no formulas of the rows above; what is given is what stands there.
   * @param index nothing, or the number of rows
   */
  add(index?: number | null, values?: Cells): Excel.TableRow {
    return this.item(() => {
      const given = Array.isArray(values) ? values.map((row) => (Array.isArray(row) ? [...(row as unknown[])] : [row])) : values;
      const table = tableState(this.local, needed(this.found(), "TableRowCollection.add"));
      const [range, body] = [tableRange(table), bodyRange(table)];
      if (table.hasTotals) throw notImplemented("TableRowCollection", "add above a row of totals");
      if (index !== undefined && index !== null && index !== -1 && index !== rowsOf(body)) throw notImplemented("TableRowCollection", "add between the rows of a table");
      const rows = Array.isArray(given) ? given : [Array<unknown>(columnsOf(range)).fill(given ?? null)];
      if (rows.length === 0 || rows.some((row) => row.length !== columnsOf(range))) throw invalidArgument("TableRowCollection.add", `the table has ${columnsOf(range)} columns.`);
      const added = { ...range, startRow: range.endRow + 1, endRow: range.endRow + rows.length };
      refuseOverlap(this.local, table.sheetId, added, table.id, "TableRowCollection.add");
      if (!isBlank(this.local, table.sheetId, added)) throw invalidArgument("TableRowCollection.add", "something stands below the table.");
      const { sheet, address } = gridPlace(this.local, { sheetId: table.sheetId, range: added });
      this.local.port.write(sheet, address, rows);
      changeTable(this.local, table.id, { ref: anyRangeAddress({ ...range, endRow: added.endRow }) });
      return String(rowsOf(body));
    });
  }

  load(option?: LoadOption): Excel.TableRowCollection {
    this.queueLoadItems(option);
    return this as Partial<Excel.TableRowCollection> as Excel.TableRowCollection;
  }

  protected override keys(table: string): string[] {
    return Array.from({ length: rowsOf(bodyRange(tableState(this.local, table))) }, (_row, i) => String(i));
  }

  protected override nameOf(index: string): string {
    return index;
  }

  protected override item(find: () => string | null): Excel.TableRow {
    const findRow = (): RowTarget | null => {
      const index = find();
      const table = this.found();
      return index === null || table === null ? null : { table, index: Number(index) };
    };
    const offered: Partial<Excel.TableRow> = onlyWhatStands(new LocalRow(this.local, "TableRow", findRow), "TableRow");
    return offered as Excel.TableRow;
  }
}

/** @param find gives the table's id */
export function tableRowsOf(local: LocalContext, find: () => string | null): Excel.TableRowCollection {
  const offered: Partial<Excel.TableRowCollection> = onlyWhatStands(new LocalRows(local, "TableRowCollection", find), "TableRowCollection");
  return offered as Excel.TableRowCollection;
}
