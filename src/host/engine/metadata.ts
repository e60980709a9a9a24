/** The part of the custom-functions metadata (functions.json) that the local host reads. */
export interface FunctionsMetadata {
  functions: FunctionMetadata[];
}

export interface FunctionMetadata {
  id: string;
  name: string;
  description?: string;
  helpUrl?: string;
  parameters: ParameterMetadata[];
}

export interface ParameterMetadata {
  name: string;
  description?: string;
  /** "matrix" takes rows of cells, anything else one value. */
  dimensionality?: string;
  optional?: boolean;
}

/** A worksheet function: arguments in the order of the metadata, the answer a value or rows of values. */
export type SheetFunction = (...args: never[]) => unknown;

/** All that is needed to offer the functions in a grid. */
export interface FunctionSet {
  metadata: FunctionsMetadata;
  /** By id. */
  functions: ReadonlyMap<string, SheetFunction>;
  /** A formula by id, for the help while typing. */
  examples?: Readonly<Record<string, string>>;
}

const NAMESPACE = "ALGAL";

/** The name in a formula: "ALGAL.LIGHT_DAILY". */
export function sheetName(entry: FunctionMetadata): string {
  return `${NAMESPACE}.${entry.name}`;
}
