import { Problem, type ProblemKind } from "../science/problem";

export type CellErrorCode = "#VALUE!" | "#N/A" | "#NUM!" | "#DIV/0!";

const CODE_OF: Record<ProblemKind, CellErrorCode> = {
  value: "#VALUE!",
  missing: "#N/A",
  number: "#NUM!",
  divide: "#DIV/0!",
};

/** An error value for one cell: the code that the grid shows, and the sentence behind it. */
export class CellError {
  constructor(readonly code: string, readonly message: string) {}
}

/** The one place where a problem of the science becomes an error of the worksheet. */
export function cellErrorFrom(error: unknown): CellError {
  if (error instanceof Problem) return new CellError(CODE_OF[error.kind], error.message);
  if (isCellError(error)) return error;
  throw error;
}

/** Whether a value that came out of a cell is an error value, ours or the host's (both carry a code such as "#N/A"). */
export function isCellError(value: unknown): value is CellError {
  return typeof value === "object" && value !== null && "code" in value && String((value as CellError).code).startsWith("#");
}
