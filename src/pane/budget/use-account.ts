import { useCallback, useEffect, useRef, useState } from "react";
import { isCellError } from "../../functions/cell-error";
import { Problem } from "../../science/problem";
import type { BudgetSource } from "../../workbook/budget-source";
import { type AccountView, reckoning } from "./account";

/** A reckoning that takes longer than this is said, and can be stopped. */
const SLOW_MS = 500;

export type Reckoned =
  /** `before`: of the source before, as long as the new one is being reckoned. */
  | { readonly kind: "reckoning"; readonly slow: boolean; readonly before: AccountView | null }
  | { readonly kind: "ready"; readonly account: AccountView }
  | { readonly kind: "problem"; readonly sentence: string }
  | { readonly kind: "stopped" };

export interface Reckoner {
  readonly reckoned: Reckoned;
  readonly stop: () => void;
  readonly again: () => void;
}

/** Reckons the account of a source step by step; between the steps the pane and Excel can do their own work. */
export function useAccount(source: BudgetSource | null): Reckoner {
  const [reckoned, setReckoned] = useState<Reckoned>({ kind: "reckoning", slow: false, before: null });
  const [run, setRun] = useState(0);
  const halt = useRef(() => {});
  const [fault, setFault] = useState<{ readonly error: unknown } | null>(null);
  // A fault of ours belongs to the screen's own keeper of faults.
  if (fault) throw fault.error;

  useEffect(() => {
    if (!source) return undefined;
    const steps = reckoning(source);
    setReckoned((last) => ({ kind: "reckoning", slow: false, before: last.kind === "ready" ? last.account : last.kind === "reckoning" ? last.before : null }));
    let timer: ReturnType<typeof setTimeout>;
    const slow = setTimeout(() => setReckoned((last) => (last.kind === "reckoning" ? { ...last, slow: true } : last)), SLOW_MS);
    halt.current = () => {
      clearTimeout(timer);
      clearTimeout(slow);
    };
    const end = (next: Reckoned): void => {
      clearTimeout(slow);
      setReckoned(next);
    };
    const step = (): void => {
      try {
        const next = steps.next();
        if (next.done) end({ kind: "ready", account: next.value });
        else timer = setTimeout(step);
      } catch (error) {
        if (error instanceof Problem || isCellError(error)) end({ kind: "problem", sentence: error.message });
        else setFault({ error });
      }
    };
    timer = setTimeout(step);
    return halt.current;
  }, [source, run]);

  const stop = useCallback(() => {
    halt.current();
    setReckoned({ kind: "stopped" });
  }, []);
  const again = useCallback(() => {
    setReckoned({ kind: "reckoning", slow: false, before: null });
    setRun((before) => before + 1);
  }, []);
  return { reckoned, stop, again };
}
