import { useEffect, useState } from "react";
import { findOpenLog, type OpenLog } from "../../workbook/open-log";
import { watchCells } from "../../workbook/problems";

const WAIT_MS = 1000;

/** The log and set-up of the open workbook, followed while the screen is in front; null while none is known. */
export function useOpenLog(inFront: boolean): OpenLog | null {
  const [openLog, setOpenLog] = useState<OpenLog | null>(null);
  useEffect(() => {
    if (!inFront) return undefined;
    let ended = false;
    let timer: ReturnType<typeof setTimeout> | undefined;
    const look = (): void => {
      timer = undefined;
      findOpenLog().then(
        (found) => ended || setOpenLog((before) => (same(before, found) ? before : found)),
        // A workbook that cannot be read now keeps the formula that stands there.
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
  return openLog;
}

function same(a: OpenLog | null, b: OpenLog | null): boolean {
  return a?.log === b?.log && a?.setUp === b?.setUp;
}
