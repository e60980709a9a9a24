import metadata from "../../functions/generated/functions.json";
import { worksheetFunctions } from "../../functions";
import { createEngine } from "../../host/engine/engine";
import type { Calculate } from "../../native/scratch";

/** An engine beside the workbook, which calculates the plain formulas before they leave; loaded when a copy is first made. */
export function calculating(): { readonly calculate: Calculate; readonly dispose: () => void } {
  const engine = createEngine({ metadata, functions: worksheetFunctions });
  return {
    calculate: (book) => {
      engine.open(book);
      return engine.calculate();
    },
    dispose: () => engine.dispose(),
  };
}
