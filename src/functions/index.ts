import { firstFunctions } from "./first";
import { laterFunctions } from "./later";
import type { WorksheetFunction } from "./topic-map";

export type { WorksheetFunction } from "./topic-map";

/** Every worksheet function by its id. */
export const worksheetFunctions: ReadonlyMap<string, WorksheetFunction> = new Map([...firstFunctions, ...laterFunctions]);
