import { BooleanNumber } from "@univerjs/core";
import { FunctionType, type IFunctionInfo } from "@univerjs/engine-formula";
import { type FunctionMetadata, sheetName } from "./metadata";

/** What the grid offers while a formula is typed: the function's help and that of each argument. */
export function describe(entry: FunctionMetadata): IFunctionInfo {
  return {
    functionName: sheetName(entry),
    functionType: FunctionType.User,
    description: entry.description ?? "",
    abstract: entry.description ?? "",
    functionParameter: entry.parameters.map((parameter) => ({
      name: parameter.name,
      detail: parameter.description ?? "",
      example: "",
      require: parameter.optional ? BooleanNumber.FALSE : BooleanNumber.TRUE,
      repeat: BooleanNumber.FALSE,
    })),
  };
}
