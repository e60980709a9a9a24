import type { IDisposable, Injector } from "@univerjs/core";
import { IFunctionService } from "@univerjs/engine-formula";
import { IDescriptionService } from "@univerjs/sheets-formula";
import type { ProblemBook } from "../../functions/problem-book";
import { readDeclarationsAnew } from "./declared-names";
import { describe } from "./description";
import { SheetFunctionExecutor } from "./executor";
import { keepEmptyTexts } from "./empty-texts";
import { readFigures } from "./figures";
import { leaveOutLookupIndex } from "./lookup-index";
import { type FunctionSet, sheetName } from "./metadata";
import { correctNativeAnswers } from "./native-answers";
import { ProblemWatch } from "./problem-watch";

/**
 * Makes every function of the metadata known to a Univer instance, for calculating and for the help while typing, and starts the
 * watch that fills the problem book. Throws when the metadata names a function that has no code, or the other way round.
 */
export function registerFunctions(injector: Injector, { metadata, functions, examples }: FunctionSet, problems: ProblemBook): IDisposable {
  leaveOutLookupIndex();
  keepEmptyTexts();
  readFigures();
  readDeclarationsAnew();
  correctNativeAnswers(injector);
  const executors: SheetFunctionExecutor[] = [];
  const watch = new ProblemWatch(injector, problems, () => executors.forEach((executor) => executor.forgetCalls()));
  const ids = new Set(metadata.functions.map((entry) => entry.id));
  for (const id of functions.keys()) if (!ids.has(id)) throw new Error(`The function ${id} is not in the metadata.`);
  for (const entry of metadata.functions) {
    const implementation = functions.get(entry.id);
    if (!implementation) throw new Error(`The metadata names ${entry.id}, and no such function is there.`);
    executors.push(new SheetFunctionExecutor(entry, implementation, watch.report));
  }
  const service = injector.get(IFunctionService);
  service.registerExecutors(...executors);
  const descriptions = injector.get(IDescriptionService).registerDescriptions(metadata.functions.map((entry) => describe(entry, examples?.[entry.id])));
  return {
    dispose() {
      descriptions.dispose();
      service.unregisterExecutors(...metadata.functions.map(sheetName));
      watch.dispose();
    },
  };
}
