import { BooleanNumber } from "@univerjs/core";
import { FunctionType, type IFunctionInfo } from "@univerjs/engine-formula";
import { host } from "../../words/host";
import { type FunctionMetadata, sheetName } from "./metadata";

/** What the grid offers while a formula is typed: the function's help, an example, and the help of each argument. */
export function describe(entry: FunctionMetadata, example?: string): IFunctionInfo {
  const description = entry.description ?? "";
  return {
    functionName: sheetName(entry),
    functionType: FunctionType.User,
    description: example ? host.withExample(description, example) : description,
    abstract: description,
    functionParameter: entry.parameters.map((parameter) => ({
      name: parameter.name,
      detail: parameter.description ?? "",
      example: "",
      require: parameter.optional ? BooleanNumber.FALSE : BooleanNumber.TRUE,
      repeat: BooleanNumber.FALSE,
    })),
  };
}
