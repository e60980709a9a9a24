import { useEffect, useState } from "react";
import { type BudgetFormulas, findBudgetFormulas } from "../../workbook/budget-formulas";
import { watchCells } from "../../workbook/problems";

const WAIT_MS = 500;

/** The budget formulas of the open workbook, followed while the screen is in front: another workbook may be opened beside the pane. */
export function useBudgetFormulas(inFront: boolean): BudgetFormulas {
  const [formulas, setFormulas] = useState<BudgetFormulas>({});
  useEffect(() => {
    if (!inFront) return undefined;
    let ended = false;
    let timer: ReturnType<typeof setTimeout> | undefined;
    const look = (): void => {
      timer = undefined;
      findBudgetFormulas().then(
        (found) => ended || setFormulas((before) => (JSON.stringify(before) === JSON.stringify(found) ? before : found)),
        // A workbook that cannot be read now keeps the formulas that stand there.
        () => {},
      );
    };
    const watch = watchCells(() => {
      timer ??= setTimeout(look, WAIT_MS);
    }).catch(() => async () => {});
    look();
    return () => {
      ended = true;
      clearTimeout(timer);
      void watch.then((end) => end()).catch(() => {});
    };
  }, [inFront]);
  return formulas;
}
