import type { Injector } from "@univerjs/core";
import { TriggerCalculationController } from "@univerjs/sheets-formula";
import { LONGEST_MS, type LongCalculation } from "./long-calculation";

const PAUSE_MS = 20;
/** Between the wait of the engine and its work there is a moment in which neither shows. */
const QUIET_PAUSES = 3;
/** A calculation that takes longer than it may is ended; then nothing is waited for any more. */
const LONGEST_WAIT_MS = LONGEST_MS + 5000;

/** Resolves when no calculation runs, and none waits for the next key: what the cells show is the answer to what was typed. */
export async function settled(injector: Injector, long: LongCalculation): Promise<void> {
  const trigger = injector.get(TriggerCalculationController);
  const began = performance.now();
  for (let quiet = 0; quiet < QUIET_PAUSES && performance.now() - began < LONGEST_WAIT_MS; ) {
    await new Promise((resolve) => setTimeout(resolve, PAUSE_MS));
    quiet = long.isRunning || trigger["_waitingCommandQueue"].length > 0 ? 0 : quiet + 1;
  }
}
