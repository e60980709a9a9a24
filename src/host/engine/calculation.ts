import { ICommandService, type Injector } from "@univerjs/core";
import {
  FormulaExecutedStateType,
  SetFormulaCalculationNotificationMutation,
  SetFormulaCalculationStartMutation,
  SetTriggerFormulaCalculationStartMutation,
} from "@univerjs/engine-formula";

/** Calculates every formula of every open workbook; resolves when the values stand in the sheets. */
export function calculateAll(injector: Injector): Promise<void> {
  const calculated = whenCalculated(injector);
  injector.get(ICommandService).syncExecuteCommand(SetTriggerFormulaCalculationStartMutation.id, { commands: [], forceCalculation: true }, { onlyLocal: true });
  return calculated;
}

/** Resolves when a calculation of all formulas, which begins after this was called, has its values in the sheets. */
export function whenCalculated(injector: Injector): Promise<void> {
  const commands = injector.get(ICommandService);
  return new Promise((resolve) => {
    let started = false;
    const listening = commands.onCommandExecuted((command) => {
      // A smaller calculation may be under way: only the end of one that was told to take everything counts.
      if (command.id === SetFormulaCalculationStartMutation.id) started ||= (command.params as { forceCalculation?: boolean }).forceCalculation === true;
      if (command.id !== SetFormulaCalculationNotificationMutation.id || !started) return;
      const { functionsExecutedState: state } = command.params as { functionsExecutedState?: FormulaExecutedStateType };
      // A stopped calculation is started again by the engine, with what was left and what came in.
      if (state === undefined || state === FormulaExecutedStateType.STOP_EXECUTION) return;
      listening.dispose();
      resolve();
    });
  });
}
