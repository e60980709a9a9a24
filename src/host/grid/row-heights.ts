import { ICommandService, type Injector } from "@univerjs/core";
import { CancelMarkDirtyRowAutoHeightOperation, MarkDirtyRowAutoHeightOperation, RemoveSheetMutation } from "@univerjs/sheets";

interface MarkParams {
  readonly unitId: string;
  readonly subUnitId: string;
  readonly id: string;
}

/** Far more than stand in line at any time. */
const MOST_KEPT = 500;

/**
 * The grid fits the heights of rows in idle moments, and stops for good when it comes to a sheet that is gone by then. So what
 * stands in line for a sheet is taken out before the sheet goes.
 */
export class RowHeights {
  private readonly inLine = new Map<string, MarkParams>();

  constructor(private readonly injector: Injector) {
    const commands = injector.get(ICommandService);
    commands.onCommandExecuted(({ id, params }) => {
      if (id === MarkDirtyRowAutoHeightOperation.id) this.keep(params as MarkParams);
    });
    commands.beforeCommandExecuted(({ id, params }) => {
      if (id !== RemoveSheetMutation.id) return;
      const { subUnitId, unitId } = params as MarkParams;
      this.cancel((mark) => mark.unitId === unitId && mark.subUnitId === subUnitId);
    });
  }

  /** Before a workbook is closed. */
  cancelAll(): void {
    this.cancel(() => true);
  }

  private keep(mark: MarkParams): void {
    this.inLine.set(mark.id, mark);
    const [oldest] = this.inLine.keys();
    if (this.inLine.size > MOST_KEPT && oldest !== undefined) this.inLine.delete(oldest);
  }

  private cancel(which: (mark: MarkParams) => boolean): void {
    for (const mark of [...this.inLine.values()].filter(which)) {
      this.inLine.delete(mark.id);
      this.injector.get(ICommandService).syncExecuteCommand(CancelMarkDirtyRowAutoHeightOperation.id, { unitId: mark.unitId, id: mark.id });
    }
  }
}
