import { useEffect, useState } from "react";
import { type FoundBudget, readBudgetSource } from "../../workbook/budget-source";
import { watchCells } from "../../workbook/problems";

const WAIT_MS = 500;

export type Looked = FoundBudget | { readonly kind: "looking" } | { readonly kind: "notRead" };

/**
 * The account of the open workbook, followed while the screen is in front. It stays the same object as long as the cells that it
 * reads stay the same, so that nothing is reckoned twice.
 */
export function useBudgetSource(inFront: boolean, wanted: string | null): Looked {
  const [looked, setLooked] = useState<Looked>({ kind: "looking" });
  useEffect(() => {
    if (!inFront) return undefined;
    let [ended, reading, changed] = [false, false, false];
    let timer: ReturnType<typeof setTimeout> | undefined;
    const show = (next: Looked): void => {
      if (!ended) setLooked((before) => (JSON.stringify(before) === JSON.stringify(next) ? before : next));
    };
    const look = async (): Promise<void> => {
      timer = undefined;
      [reading, changed] = [true, false];
      await readBudgetSource(wanted).then(show, () => show({ kind: "notRead" }));
      reading = false;
      if (changed && !ended) schedule();
    };
    const schedule = (): void => {
      if (reading) changed = true;
      else timer ??= setTimeout(() => void look(), WAIT_MS);
    };
    const watch = watchCells(schedule).catch(() => async () => {});
    void look();
    return () => {
      ended = true;
      clearTimeout(timer);
      void watch.then((end) => end()).catch(() => {});
    };
  }, [inFront, wanted]);
  return looked;
}
