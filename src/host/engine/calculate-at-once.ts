import { ICommandService, type Injector } from "@univerjs/core";
import { SetFormulaCalculationStartMutation } from "@univerjs/engine-formula";
import { TriggerCalculationController } from "@univerjs/sheets-formula";
import { calculateAll, whenCalculated } from "./calculation";

/** All is calculated, so what changed before does not matter. */
const ALL = { dirtyRanges: [], dirtyNameMap: {}, dirtyDefinedNameMap: {}, dirtySuperTableMap: {}, dirtyUnitFeatureMap: {}, dirtyUnitOtherFormulaMap: {}, clearDependencyTreeCache: {}, forceCalculation: true };

/**
 * Calculates every formula of every open workbook without the tenth of a second in which the engine waits for what else somebody may
 * type. For an engine without a screen, which nothing but this has calculate.
 */
export async function calculateAtOnce(injector: Injector): Promise<void> {
  // A workbook that was just opened asks for a calculation of its own, as soon as other work lets it.
  await new Promise((resolve) => setTimeout(resolve, 0));
  const trigger = injector.get(TriggerCalculationController);
  if (trigger["_executionInProgressParams"] !== null) return calculateAll(injector);
  // It would stop this one a tenth of a second from now, and is part of it.
  clearTimeout(trigger["_setTimeoutKey"]);
  trigger["_waitingCommandQueue"] = [];
  const calculated = whenCalculated(injector);
  injector.get(ICommandService).syncExecuteCommand(SetFormulaCalculationStartMutation.id, ALL, { onlyLocal: true });
  return calculated;
}
