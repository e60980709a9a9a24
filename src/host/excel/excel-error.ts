/**
 * An error of the kind that the Excel API gives: tell them apart by `code`. The texts are for developers; what a user reads is
 * made where the error is caught.
 */
export class ExcelError extends Error implements Pick<OfficeExtension.Error, "code" | "debugInfo" | "traceMessages"> {
  override readonly name = "RichApi.Error";
  readonly traceMessages: string[] = [];
  readonly debugInfo: OfficeExtension.DebugInfo;

  constructor(readonly code: string, message: string, errorLocation?: string) {
    super(message);
    this.debugInfo = { code, message, errorLocation };
  }
}

export const propertyNotLoaded = (entity: string, property: string): ExcelError =>
  new ExcelError(
    "PropertyNotLoaded",
    `The property '${property}' is not available. Before reading the property's value, call the load method on the containing object and call "context.sync()" on the associated request context.`,
    `${entity}.${property}`,
  );

/** For the answer of a method such as getCount, which is not loaded but comes with the next sync. */
export const valueNotLoaded = (): ExcelError =>
  new ExcelError("ValueNotLoaded", 'The value of the result object has not been loaded yet. Before reading the value property, call "context.sync()" on the associated request context.', "clientResult.value");

export const itemNotFound = (location: string): ExcelError => new ExcelError("ItemNotFound", "The requested resource doesn't exist.", location);

export const invalidArgument = (location: string, reason: string): ExcelError =>
  new ExcelError("InvalidArgument", `The argument is invalid or missing or has an incorrect format: ${reason}`, location);

/** For an object whose own request failed before it stood. */
export const invalidObjectPath = (entity: string): ExcelError =>
  new ExcelError("InvalidObjectPath", "The object path is not working for what was asked, because an earlier request of the batch failed.", entity);

/** For a member that real Excel has and the local host does not: said at once, so that no write is lost in silence. */
export const notImplemented = (entity: string, member: string): ExcelError =>
  new ExcelError("NotImplemented", `The local host does not have ${entity}.${member} of the Excel API.`, `${entity}.${member}`);

/** Whatever the grid throws becomes an error of the API's kind. */
export function asExcelError(error: unknown): ExcelError {
  if (error instanceof ExcelError) return error;
  return new ExcelError("GeneralException", error instanceof Error ? error.message : String(error));
}
