import type { ICellData } from "@univerjs/core";
import { ISuperTableService, RemoveSuperTableMutation, SetSuperTableMutation } from "@univerjs/engine-formula";
import { SetRangeValuesMutation } from "@univerjs/sheets";
import { cellAddress } from "../../files/address";
import { type ColumnNames, withRenamedColumns } from "../../files/renamed-columns";
import { tableAt } from "../../files/table-part";
import { readRange } from "../engine/address";
import { tableForFormulas } from "../engine/tables";
import { stateOnSheets, type TableState } from "../excel/book-state";
import { headingTexts } from "../excel/heading-texts";
import type { OpenWorkbook } from "./open-workbook";
import type { UniverState } from "./univer-state";

/** What formulas were told of a table; its columns come last. */
type Description = [sheetId: string, ref: string, hasHeadings: boolean, hasTotals: boolean, columns?: string[]];

/**
 * Keeps the tables that formulas can name (Log[NO3]) the same as those of the workbook. Told by its own commands, the engine
 * calculates the formulas that name a table again.
 */
export class UniverTables {
  /** What formulas were told of each table, by its name. */
  private told = new Map<string, string>();
  private seen: readonly TableState[] | undefined;

  constructor(private readonly open: OpenWorkbook, private readonly state: UniverState) {}

  /** The workbook was just opened and its tables registered. */
  begin(): void {
    this.told = new Map(this.tables().map((table) => [table.name, this.description(table)]));
  }

  /** Something that the workbook holds beyond its cells has changed; only tables matter. */
  stateChanged(): void {
    if (this.state.current().tables !== this.seen) this.update();
  }

  update(): void {
    this.seen = this.state.current().tables;
    const tables = this.tables();
    const service = this.open.injector.get(ISuperTableService);
    for (const tableName of this.told.keys()) {
      if (!tables.some((table) => table.name === tableName)) this.open.tryCommand(RemoveSuperTableMutation.id, { tableName });
    }
    for (const table of tables) {
      if (this.told.get(table.name) === this.description(table)) continue;
      // A table of another make than the engine knows was left out when a formula asked for its parts, and stays so.
      const known = (table.hasHeadings && !table.hasTotals) || service.hasTable(this.open.unitId, table.name);
      if (known) this.open.tryCommand(SetSuperTableMutation.id, { tableName: table.name, reference: tableForFormulas(table, table.sheetId, this.columns(table)) });
    }
    const before = this.told;
    this.told = new Map(tables.map((table) => [table.name, this.description(table)]));
    this.renameIn(new Map(tables.flatMap((table) => [this.newNames(table, before.get(table.name))].flatMap((names) => (names ? [[table.name.toLowerCase(), names] as const] : [])))));
  }

  /** What columns are called now whose headings alone were typed over. */
  private newNames(table: TableState, told: string | undefined): ColumnNames | undefined {
    if (told === undefined || told === this.description(table)) return undefined;
    const [was, is] = [JSON.parse(told), JSON.parse(this.description(table))] as [Description, Description];
    const [headings, now] = [was.pop(), is.pop()] as [string[], string[]];
    if (JSON.stringify(was) !== JSON.stringify(is)) return undefined;
    return new Map(headings.flatMap((heading, i) => (now[i] === undefined || now[i] === heading ? [] : [[heading.toLowerCase(), now[i]] as const])));
  }

  /** Formulas go on naming the columns, as in Excel. It is no step of undo: when the heading is taken back the formulas follow it again. */
  private renameIn(names: ReadonlyMap<string, ColumnNames>): void {
    if (names.size === 0) return;
    const reader = this.open.reader();
    for (const sheet of this.open.workbook.getSheets()) {
      const cellValue: Record<number, Record<number, ICellData>> = {};
      const own = this.state.current().tables.filter((table) => table.sheetId === sheet.getSheetId());
      sheet.getCellMatrix().forValue((row, column) => {
        const formula = reader.formula(sheet, row, column);
        if (!formula?.includes("[")) return;
        const renamed = withRenamedColumns(formula, (table) => names.get(table), tableAt(own, cellAddress(row, column)));
        if (renamed !== formula) (cellValue[row] ??= {})[column] = { f: renamed, si: null };
      });
      if (Object.keys(cellValue).length > 0) this.open.tryCommand(SetRangeValuesMutation.id, { subUnitId: sheet.getSheetId(), cellValue });
    }
  }

  private tables(): readonly TableState[] {
    return stateOnSheets(this.state.current(), new Set(this.open.workbook.getSheets().map((sheet) => sheet.getSheetId()))).tables;
  }

  private description(table: TableState): string {
    return JSON.stringify([table.sheetId, table.ref, table.hasHeadings, table.hasTotals, this.columns(table)]);
  }

  private columns(table: TableState): string[] {
    if (!table.hasHeadings) return [...table.columns];
    const { startRow, startColumn, endColumn } = readRange(table.ref);
    const [sheet, reader] = [this.open.sheetById(table.sheetId), this.open.reader()];
    return headingTexts(Array.from({ length: endColumn - startColumn + 1 }, (_heading, i) => reader.value(sheet, startRow, startColumn + i)));
  }
}
