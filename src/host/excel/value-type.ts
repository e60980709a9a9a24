/** Excel's names for what a cell holds; the compiler holds them against Excel's own. */
export const RangeValueType: { readonly [Name in keyof typeof Excel.RangeValueType]: `${(typeof Excel.RangeValueType)[Name]}` } = {
  unknown: "Unknown",
  empty: "Empty",
  string: "String",
  integer: "Integer",
  double: "Double",
  boolean: "Boolean",
  error: "Error",
  richValue: "RichValue",
};

const ERROR = /^#(VALUE!|N\/A|NUM!|DIV\/0!|NAME\?|REF!|NULL!|SPILL!|CALC!|CYCLE!|BUSY!|CONNECT!|GETTING_DATA|ERROR!)$/;

/** The type of a raw cell value of the grid, where errors are texts such as "#N/A". Excel calls every number a double. */
export function valueTypeOf(value: unknown): string {
  if (value === "" || value === null || value === undefined) return RangeValueType.empty;
  if (typeof value === "number") return RangeValueType.double;
  if (typeof value === "boolean") return RangeValueType.boolean;
  if (typeof value === "string") return ERROR.test(value) ? RangeValueType.error : RangeValueType.string;
  return RangeValueType.unknown;
}
