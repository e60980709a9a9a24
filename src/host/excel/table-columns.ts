import type { CellRange } from "../../files/address";
import { ClientCollection } from "./client-collection";
import { ClientObject, type LoadOption } from "./client-object";
import { invalidArgument, itemNotFound, notImplemented } from "./excel-error";
import { headingTexts } from "./heading-texts";
import { onlyWhatStands } from "./only-what-stands";
import { rangeOf } from "./range";
import { anyRangeAddress, columnsOf, rowsOf } from "./range-geometry";
import { gridPlace, needed } from "./range-target";
import type { LocalContext } from "./request-context";
import { bodyRange, changeTable, columnNames, headingRow, isBlank, refuseOverlap, tableRange, tableState } from "./table-shape";

/** A column of a table: the table's id and the heading's name when it was found. */
interface ColumnTarget {
  readonly table: string;
  readonly name: string;
}

type ColumnMembers = "context" | "delete" | "getDataBodyRange" | "getHeaderRowRange" | "getRange" | "index" | "isNullObject" | "load" | "name";

class LocalColumn extends ClientObject<ColumnTarget> implements Pick<Excel.TableColumn, ColumnMembers> {
  protected override readonly readers = { name: ({ name }: ColumnTarget) => name, index: (target: ColumnTarget) => this.indexOf(target) };

  get name(): string {
    return this.loadedCopy("name") as string;
  }

  get index(): number {
    return this.loadedCopy("index") as number;
  }

  getRange(): Excel.Range {
    return this.columnOf(tableRange);
  }

  getHeaderRowRange(): Excel.Range {
    return this.columnOf(headingRow);
  }

  getDataBodyRange(): Excel.Range {
    return this.columnOf(bodyRange);
  }

  /** The last column can be deleted: to close a gap the grid would have to move cells. */
  delete(): void {
    this.queueWith((target) => {
      const table = tableState(this.local, target.table);
      const range = tableRange(table);
      const width = columnsOf(range);
      if (this.indexOf(target) !== width - 1 || width === 1) throw notImplemented("TableColumn", "delete() of a column that is not the last of several");
      const { sheet, address } = gridPlace(this.local, { sheetId: table.sheetId, range: { ...range, startColumn: range.endColumn } });
      this.local.port.formats.clear(sheet, address, "all");
      changeTable(this.local, table.id, { ref: anyRangeAddress({ ...range, endColumn: range.endColumn - 1 }), columns: table.columns.slice(0, -1) });
    });
  }

  load(option?: LoadOption): Excel.TableColumn {
    this.queueLoad(option);
    return this as Partial<Excel.TableColumn> as Excel.TableColumn;
  }

  private columnOf(part: typeof tableRange): Excel.Range {
    return rangeOf(
      this.local,
      this.below((target) => {
        const table = tableState(this.local, target.table);
        const range = part(table);
        const column = range.startColumn + this.indexOf(target);
        return { sheetId: table.sheetId, range: { ...range, startColumn: column, endColumn: column } };
      }),
    );
  }

  private indexOf({ table, name }: ColumnTarget): number {
    const index = columnNames(this.local, tableState(this.local, table)).indexOf(name);
    if (index < 0) throw itemNotFound("TableColumn");
    return index;
  }
}

type Members = "add" | "context" | "count" | "getCount" | "getItem" | "getItemAt" | "getItemOrNullObject" | "items" | "load";
type Cells = Parameters<Excel.TableColumnCollection["add"]>[1];

/** The columns of a table, found by their headings. */
class LocalColumns extends ClientCollection<string, Excel.TableColumn> implements Pick<Excel.TableColumnCollection, Members> {
  /**
   * Adds a column at the right of the table, where the cells must be blank: the grid moves no cells to make room.
   * @param index nothing, or the number of columns
   * @param values a cell a row, with the heading first
   */
  add(index?: number | null, values?: Cells, name?: string): Excel.TableColumn {
    return this.item(() => {
      const content = Array.isArray(values) ? values.map((row) => (Array.isArray(row) ? [...(row as unknown[])] : [row])) : values;
      const table = tableState(this.local, needed(this.found(), "TableColumnCollection.add"));
      const range = tableRange(table);
      if (index !== undefined && index !== null && index !== -1 && index !== columnsOf(range)) throw notImplemented("TableColumnCollection", "add between the columns of a table");
      const column: CellRange = { ...range, startColumn: range.endColumn + 1, endColumn: range.endColumn + 1 };
      refuseOverlap(this.local, table.sheetId, column, table.id, "TableColumnCollection.add");
      if (!isBlank(this.local, table.sheetId, column)) throw invalidArgument("TableColumnCollection.add", "something stands at the right of the table.");
      const cells = Array.isArray(content) ? content : Array.from({ length: rowsOf(range) }, () => [content ?? null]);
      if (cells.length !== rowsOf(range)) throw invalidArgument("TableColumnCollection.add", `the table has ${rowsOf(range)} rows with its headings, ${cells.length} were given.`);
      const headings = headingTexts([...columnNames(this.local, table), name ?? (Array.isArray(content) ? content[0]?.[0] : "")]);
      const heading = headings[headings.length - 1] ?? "";
      const rows = table.hasHeadings ? [[heading], ...cells.slice(1)] : cells;
      const { sheet, address } = gridPlace(this.local, { sheetId: table.sheetId, range: column });
      this.local.port.write(sheet, address, rows);
      changeTable(this.local, table.id, { ref: anyRangeAddress({ ...range, endColumn: range.endColumn + 1 }), columns: table.hasHeadings ? [] : headings });
      return heading;
    });
  }

  load(option?: LoadOption): Excel.TableColumnCollection {
    this.queueLoadItems(option);
    return this as Partial<Excel.TableColumnCollection> as Excel.TableColumnCollection;
  }

  protected override keys(table: string): string[] {
    return columnNames(this.local, tableState(this.local, table));
  }

  protected override nameOf(name: string): string {
    return name;
  }

  protected override item(find: () => string | null): Excel.TableColumn {
    const findColumn = (): ColumnTarget | null => {
      const name = find();
      const table = this.found();
      return name === null || table === null ? null : { table, name };
    };
    const offered: Partial<Excel.TableColumn> = onlyWhatStands(new LocalColumn(this.local, "TableColumn", findColumn), "TableColumn");
    return offered as Excel.TableColumn;
  }
}

/** @param find gives the table's id */
export function tableColumnsOf(local: LocalContext, find: () => string | null): Excel.TableColumnCollection {
  const offered: Partial<Excel.TableColumnCollection> = onlyWhatStands(new LocalColumns(local, "TableColumnCollection", find), "TableColumnCollection");
  return offered as Excel.TableColumnCollection;
}
