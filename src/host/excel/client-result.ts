import { valueNotLoaded } from "./excel-error";

/** The answer of a method such as getCount: it can be read after the sync that settles it, and throws before. */
export function clientResult<T>(): { readonly result: OfficeExtension.ClientResult<T>; settle(value: T): void } {
  let settled: { readonly value: T } | undefined;
  return {
    result: {
      get value(): T {
        if (!settled) throw valueNotLoaded();
        return settled.value;
      },
    },
    settle(value) {
      settled = { value };
    },
  };
}
