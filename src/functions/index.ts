/** Every worksheet function by its id. Arguments come in the order of the metadata; a range is rows of cells, one cell is 1 x 1, an omitted one is null. */
export type WorksheetFunction = (...args: never[]) => unknown;

export const worksheetFunctions: ReadonlyMap<string, WorksheetFunction> = new Map();
