import type { ICommandService } from "@univerjs/core";
import { FormulaExecutedStateType, SetFormulaCalculationNotificationMutation, SetFormulaCalculationStartMutation, SetFormulaCalculationStopMutation } from "@univerjs/engine-formula";

/** The engine works in the page itself, and fills its memory with the ranges that it has read. */
export const LONGEST_MS = 30_000;

/** Ends a calculation that takes too long, so that the page stays of use. Its formulas show what they showed before. */
export class LongCalculation {
  private timer: ReturnType<typeof setTimeout> | undefined;
  private isStopping = false;
  private readonly waiting = new Set<() => void>();
  /** Whether formulas of the open workbook show answers of before. */
  wasStopped = false;
  isRunning = false;

  constructor(private readonly commands: Pick<ICommandService, "onCommandExecuted" | "syncExecuteCommand">, private readonly tell: () => void) {
    commands.onCommandExecuted(({ id, params }) => {
      if (id === SetFormulaCalculationStartMutation.id) this.begin();
      if (id !== SetFormulaCalculationNotificationMutation.id) return;
      const state = (params as { functionsExecutedState?: FormulaExecutedStateType } | undefined)?.functionsExecutedState;
      if (state !== undefined) this.end(state);
    });
  }

  /** Another workbook is opened. */
  forget(): void {
    this.wasStopped = false;
  }

  /** Resolves with the calculation, or when one was ended. */
  async orStopped(calculation: Promise<void>): Promise<void> {
    let stop: () => void = () => undefined;
    const stopped = new Promise<void>((resolve) => (stop = resolve));
    this.waiting.add(stop);
    await Promise.race([calculation, stopped]);
    this.waiting.delete(stop);
  }

  private begin(): void {
    this.isRunning = true;
    clearTimeout(this.timer);
    this.timer = setTimeout(() => {
      this.isStopping = true;
      this.commands.syncExecuteCommand(SetFormulaCalculationStopMutation.id, {});
    }, LONGEST_MS);
  }

  /** The engine is stopped for every edit, too, and then begins again by itself. */
  private end(state: FormulaExecutedStateType): void {
    this.isRunning = false;
    clearTimeout(this.timer);
    const isOurs = this.isStopping;
    this.isStopping = false;
    if (!isOurs || state !== FormulaExecutedStateType.STOP_EXECUTION) return;
    this.wasStopped = true;
    this.tell();
    for (const stop of [...this.waiting]) stop();
  }
}
