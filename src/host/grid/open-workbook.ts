import { ICommandService, type IMutationInfo, type Injector, IUndoRedoService, IUniverInstanceService, UniverInstanceType, type Workbook, type Worksheet } from "@univerjs/core";
import { FormulaDataModel } from "@univerjs/engine-formula";
import { SheetReader } from "../engine/sheet-reader";

/** The workbook that the grid shows, and the commands that change it: a command can be undone, a change past it could not. */
export class OpenWorkbook {
  constructor(readonly injector: Injector) {}

  get workbook(): Workbook {
    const workbook = this.injector.get(IUniverInstanceService).getCurrentUnitOfType<Workbook>(UniverInstanceType.UNIVER_SHEET);
    if (!workbook) throw new Error("No workbook is open.");
    return workbook;
  }

  get unitId(): string {
    return this.workbook.getUnitId();
  }

  sheet(name: string): Worksheet {
    return this.reader().sheet(name);
  }

  sheetById(id: string): Worksheet {
    const sheet = this.workbook.getSheetBySheetId(id);
    if (!sheet) throw new RangeError(`There is no sheet with the id "${id}".`);
    return sheet;
  }

  reader(): SheetReader {
    return new SheetReader(this.workbook, this.injector.get(FormulaDataModel));
  }

  /** Fails when the grid refuses, so that no request is lost in silence. */
  command(id: string, params: object): void {
    if (!this.injector.get(ICommandService).syncExecuteCommand(id, { unitId: this.unitId, ...params })) throw new Error(`The grid refused ${id}.`);
  }

  /** For what may fail without harm, such as scrolling a sheet that has no picture yet. */
  tryCommand(id: string, params: object): void {
    this.injector.get(ICommandService).syncExecuteCommand(id, { unitId: this.unitId, ...params });
  }

  /** What was done by changes of the grid's own and not by a command, for undo and redo. */
  remember(redoMutations: IMutationInfo[], undoMutations: IMutationInfo[]): void {
    this.injector.get(IUndoRedoService).pushUndoRedo({ unitID: this.unitId, redoMutations, undoMutations });
  }

  commandOn(sheet: Worksheet, id: string, params: object): void {
    this.command(id, { subUnitId: sheet.getSheetId(), ...params });
  }
}
