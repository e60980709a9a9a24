/** Something of the workbook stands in the way; the message is a sentence for the user. */
export class WorkbookProblem extends Error {
  override readonly name = "WorkbookProblem";
}

/** The code of an error of the Excel API ("ItemNotFound"), or "" for any other. */
export function excelErrorCode(error: unknown): string {
  return typeof error === "object" && error !== null && "code" in error && typeof error.code === "string" ? error.code : "";
}
