/** Arguments come in the order of the metadata; a range is rows of cells, one cell is 1 x 1, an omitted one is null. */
export type WorksheetFunction = (...args: never[]) => unknown;

/** The worksheet functions of topic files by their id: the upper-case exports. */
export const functionsOf = (topics: readonly object[]): ReadonlyMap<string, WorksheetFunction> =>
  new Map(
    topics.flatMap((topic) => Object.entries(topic).filter(([name, value]) => /^[A-Z][A-Z0-9_]+$/.test(name) && typeof value === "function")) as [string, WorksheetFunction][],
  );
