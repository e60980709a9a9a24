/** The code of the error that the batch ends with. */
export async function codeOf(batch: (context: Excel.RequestContext) => Promise<unknown>): Promise<string> {
  return Excel.run(batch).then(
    () => "no error",
    (error: OfficeExtension.Error) => error.code,
  );
}
