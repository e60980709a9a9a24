import { ClientObject, type LoadOption } from "./client-object";
import { invalidArgument } from "./excel-error";
import { onlyWhatStands } from "./only-what-stands";
import type { LocalContext } from "./request-context";

/** A function's answer, loaded like any other thing of the workbook. The target is the answer itself. */
class LocalFunctionResult extends ClientObject<number> implements Pick<Excel.FunctionResult<number>, "context" | "load" | "value"> {
  protected override readonly readers = { value: (answer: number) => answer };

  get value(): number {
    return this.loadedCopy("value") as number;
  }

  load(option?: LoadOption): Excel.FunctionResult<number> {
    this.queueLoad(option);
    return this as unknown as Excel.FunctionResult<number>;
  }
}

/** Of the functions that Excel calculates outside a cell, those that the workbook code calls. The local page opens workbooks of the 1900 date system only. */
class LocalFunctions implements Pick<Excel.Functions, "context" | "date"> {
  constructor(private readonly local: LocalContext) {}

  get context(): Excel.RequestContext {
    return this.local.asExcel;
  }

  date(year: unknown, month: unknown, day: unknown): Excel.FunctionResult<number> {
    const parts = [year, month, day].map(Number);
    if (!parts.every(Number.isInteger)) throw invalidArgument("Functions.date", "year, month and day are whole numbers.");
    const [y = 0, m = 0, d = 0] = parts;
    const offered: Partial<Excel.FunctionResult<number>> = onlyWhatStands(new LocalFunctionResult(this.local, "FunctionResult", () => Date.UTC(y, m - 1, d) / 86_400_000 + 25569), "FunctionResult");
    return offered as Excel.FunctionResult<number>;
  }
}

export function nativeFunctionsOf(local: LocalContext): Excel.Functions {
  const offered: Partial<Excel.Functions> = onlyWhatStands(new LocalFunctions(local), "Functions");
  return offered as Excel.Functions;
}
