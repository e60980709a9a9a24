import { BooleanNumber, generateRandomId, ICommandService, mergeWorksheetSnapshotWithDefault, type Nullable, type ICellData } from "@univerjs/core";
import {
  InsertSheetMutation,
  InsertSheetUndoMutationFactory,
  RemoveSheetCommand,
  RemoveSheetMutation,
  SetFrozenCommand,
  SetWorksheetActiveOperation,
  SetWorksheetColumnCountCommand,
  SetWorksheetHideCommand,
  SetWorksheetNameCommand,
  SetWorksheetOrderCommand,
  SetWorksheetRowCountCommand,
  SetWorksheetShowCommand,
} from "@univerjs/sheets";
import { type CellRange, rangeAddress } from "../engine/address";
import { emptySheet } from "../engine/snapshot";
import type { GridSheet, GridSheets } from "../grid-port";
import type { OpenWorkbook } from "./open-workbook";

/** The sheets of the open workbook in a visible Univer grid. */
export class UniverSheets implements GridSheets {
  constructor(private readonly open: OpenWorkbook) {}

  list(): GridSheet[] {
    return this.open.workbook.getSheets().map((sheet) => ({ id: sheet.getSheetId(), name: sheet.getName(), visible: sheet.getConfig().hidden !== BooleanNumber.TRUE }));
  }

  add(name: string): string {
    const { injector, unitId, workbook } = this.open;
    const id = generateRandomId(8);
    const insert = { unitId, index: this.list().length, sheet: mergeWorksheetSnapshotWithDefault({ ...emptySheet(workbook.uniqueSheetName(name)), id }) };
    // The grid's own command lays out and draws the new sheet in front. One that comes from elsewhere stays behind.
    if (!injector.get(ICommandService).syncExecuteCommand(InsertSheetMutation.id, insert, { fromCollab: true })) throw new Error("The grid refused a sheet.");
    this.open.remember([{ id: InsertSheetMutation.id, params: insert }], [{ id: RemoveSheetMutation.id, params: InsertSheetUndoMutationFactory(injector, insert) }]);
    return id;
  }

  rename(id: string, name: string): void {
    this.open.command(SetWorksheetNameCommand.id, { subUnitId: id, name });
  }

  remove(id: string): void {
    this.open.command(RemoveSheetCommand.id, { subUnitId: id });
  }

  move(id: string, position: number): void {
    if (this.list()[position]?.id !== id) this.open.command(SetWorksheetOrderCommand.id, { subUnitId: id, order: position });
  }

  setVisible(id: string, visible: boolean): void {
    if (visible) this.keepingFront(() => this.open.command(SetWorksheetShowCommand.id, { subUnitId: id }));
    else this.open.command(SetWorksheetHideCommand.id, { subUnitId: id });
  }

  size(sheet: string): { rows: number; columns: number } {
    const found = this.open.sheet(sheet);
    return { rows: found.getRowCount(), columns: found.getColumnCount() };
  }

  /** Makes a sheet large enough for a range, with a row and a column to spare. */
  makeRoom(sheetName: string, { endRow, endColumn }: CellRange): void {
    const sheet = this.open.sheet(sheetName);
    if (endRow >= sheet.getRowCount()) this.open.commandOn(sheet, SetWorksheetRowCountCommand.id, { rowCount: endRow + 2 });
    if (endColumn >= sheet.getColumnCount()) this.open.commandOn(sheet, SetWorksheetColumnCountCommand.id, { columnCount: endColumn + 2 });
  }

  used(sheetName: string, valuesOnly: boolean): string | null {
    const sheet = this.open.sheet(sheetName);
    let used: CellRange | null = null;
    const take = (row: number, column: number) => {
      used ??= { startRow: row, endRow: row, startColumn: column, endColumn: column };
      used.startRow = Math.min(used.startRow, row);
      used.endRow = Math.max(used.endRow, row);
      used.startColumn = Math.min(used.startColumn, column);
      used.endColumn = Math.max(used.endColumn, column);
    };
    this.open.reader().forEachValue(sheet, (row, column) => take(row, column));
    if (!valuesOnly) {
      sheet.getCellMatrix().forValue((row: number, column: number, cell: Nullable<ICellData>) => {
        if (cell?.s) take(row, column);
      });
    }
    return used && rangeAddress(used);
  }

  frozenRows(sheet: string): number {
    return Math.max(0, this.open.sheet(sheet).getFreeze().ySplit);
  }

  freezeRows(sheetName: string, rows: number): void {
    const sheet = this.open.sheet(sheetName);
    this.open.commandOn(sheet, SetFrozenCommand.id, { startRow: rows > 0 ? rows : -1, startColumn: -1, ySplit: rows, xSplit: 0 });
  }

  /** The grid brings a sheet that comes back to the front; Excel leaves the one that stood there. */
  private keepingFront(act: () => void): void {
    const front = this.open.workbook.getActiveSheet().getSheetId();
    act();
    if (this.open.workbook.getActiveSheet().getSheetId() !== front) this.open.command(SetWorksheetActiveOperation.id, { subUnitId: front });
  }
}
