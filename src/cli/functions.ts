import generated from "../functions/generated/functions.json";
import { type FunctionMetadata, type FunctionsMetadata, sheetName } from "../host/engine/metadata";

export const metadata: FunctionsMetadata = generated;

/** Names without the namespace, in capitals. */
export const functionNames: ReadonlySet<string> = new Set(metadata.functions.map((entry) => entry.name.toUpperCase()));

/** Finds a function by its name, with or without the namespace. */
export function findFunction(name: string): FunctionMetadata | undefined {
  const wanted = name.trim().toUpperCase();
  return metadata.functions.find((entry) => entry.name.toUpperCase() === wanted || sheetName(entry).toUpperCase() === wanted);
}

/** "ALGAL.NET_VOLUME(length, [height])" */
export function signature(entry: FunctionMetadata): string {
  return `${sheetName(entry)}(${entry.parameters.map(({ name, optional }) => (optional ? `[${name}]` : name)).join(", ")})`;
}
