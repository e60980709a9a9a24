import { cellErrorFrom, isCellError, type CellError } from "./cell-error";
import { firstFunctions } from "./first";
import { LATER_IDS } from "./later-ids";
import { problems } from "./problems";
import type { WorksheetFunction } from "./topic-map";

/**
 * What Excel loads first: every function under its id. Excel calls with the arguments of the metadata and, since the
 * metadata asks for the address, the invocation behind them.
 */
for (const [id, calculate] of firstFunctions) CustomFunctions.associate(id, forExcel(id, calculate));

/** The others are fetched at the first call of one of them; Excel waits for a promise. */
for (const id of LATER_IDS) {
  CustomFunctions.associate(id, async (...args: unknown[]) => {
    const { laterFunctions } = await import(/* webpackChunkName: "functions-later" */ "./later");
    const calculate = laterFunctions.get(id);
    if (!calculate) throw new CustomFunctions.Error(CustomFunctions.ErrorCode.notAvailable);
    return forExcel(id, calculate)(...args);
  });
}

function forExcel(id: string, calculate: WorksheetFunction): (...args: unknown[]) => unknown {
  return (...args) => {
    const origin = (args[args.length - 1] as CustomFunctions.Invocation | undefined)?.address ?? "";
    const functionName = `ALGAL.${id}`;
    try {
      const answer = calculate(...(args.slice(0, -1) as never[]));
      const wrong = errorsIn(answer);
      problems.replaceFor(origin, functionName, wrong.map(({ message }) => ({ address: origin, functionName, sentence: message })).slice(0, 1));
      return wrong.length === 0 ? answer : (answer as unknown[][]).map((row) => row.map((cell) => (isCellError(cell) ? excelError(cell) : cell)));
    } catch (error) {
      const { code, message } = cellErrorFrom(error);
      problems.replaceFor(origin, functionName, [{ address: origin, functionName, sentence: message }]);
      throw excelError({ code, message });
    }
  };
}

const errorsIn = (answer: unknown): CellError[] => (Array.isArray(answer) ? answer.flat().filter(isCellError) : []);

/** Excel shows a sentence with #VALUE! and #N/A only; the pane shows it for all. */
function excelError({ code, message }: { code: string; message: string }): CustomFunctions.Error {
  switch (code) {
    case "#VALUE!":
      return new CustomFunctions.Error(CustomFunctions.ErrorCode.invalidValue, message);
    case "#N/A":
      return new CustomFunctions.Error(CustomFunctions.ErrorCode.notAvailable, message);
    case "#NUM!":
      return new CustomFunctions.Error(CustomFunctions.ErrorCode.invalidNumber);
    case "#DIV/0!":
      return new CustomFunctions.Error(CustomFunctions.ErrorCode.divisionByZero);
    default:
      // An error that came in from another cell goes on as the nearest one that a function may return.
      return new CustomFunctions.Error(CustomFunctions.ErrorCode.notAvailable, message);
  }
}
