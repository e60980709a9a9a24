import type { ICommandService } from "@univerjs/core";
import { FormulaExecutedStateType, SetFormulaCalculationNotificationMutation, SetFormulaCalculationStartMutation, SetFormulaCalculationStopMutation } from "@univerjs/engine-formula";
import { LONGEST_MS, LongCalculation } from "../../src/host/grid/long-calculation";

/** The engine's side: what it is told, and what it tells. */
function engine() {
  const listeners: ((command: { id: string; params?: object }) => void)[] = [];
  const told: string[] = [];
  const sentences: string[] = [];
  const commands = {
    onCommandExecuted: (listener: (command: { id: string; params?: object }) => void) => listeners.push(listener),
    syncExecuteCommand: (id: string) => told.push(id),
  } as unknown as ICommandService;
  const long = new LongCalculation(commands, () => sentences.push("stopped"));
  const say = (id: string, params = {}) => listeners.forEach((listener) => listener({ id, params }));
  return {
    long,
    told,
    sentences,
    begin: () => say(SetFormulaCalculationStartMutation.id),
    end: (state: FormulaExecutedStateType) => say(SetFormulaCalculationNotificationMutation.id, { functionsExecutedState: state }),
  };
}

beforeEach(() => jest.useFakeTimers());
afterEach(() => jest.useRealTimers());

test("a calculation that takes too long is ended, and whoever waits for it goes on", async () => {
  const { begin, end, long, sentences, told } = engine();
  begin();
  const waiting = long.orStopped(new Promise<void>(() => undefined));
  jest.advanceTimersByTime(LONGEST_MS - 1);
  expect(told).toEqual([]);
  jest.advanceTimersByTime(1);
  expect(told).toEqual([SetFormulaCalculationStopMutation.id]);
  end(FormulaExecutedStateType.STOP_EXECUTION);
  await waiting;
  expect([sentences, long.wasStopped]).toEqual([["stopped"], true]);
  long.forget();
  expect(long.wasStopped).toBe(false);
});

test("one that ends in time is left alone, and so is one that begins again because of an edit", () => {
  const { begin, end, long, sentences, told } = engine();
  begin();
  jest.advanceTimersByTime(LONGEST_MS - 1);
  end(FormulaExecutedStateType.STOP_EXECUTION);
  begin();
  jest.advanceTimersByTime(LONGEST_MS - 1);
  end(FormulaExecutedStateType.SUCCESS);
  jest.advanceTimersByTime(LONGEST_MS);
  expect([told, sentences, long.wasStopped]).toEqual([[], [], false]);
});
