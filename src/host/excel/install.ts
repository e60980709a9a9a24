import type { GridPort } from "../grid-port";
import { ASYNC_RESULT_STATUS, createWorkbookOn, documentOf, FILE_TYPE, type HostFile } from "./document";
import { ExcelError } from "./excel-error";
import { onlyWhatStands } from "./only-what-stands";
import { LocalContext } from "./request-context";
import { RangeValueType } from "./value-type";

type Batch<T> = (context: Excel.RequestContext) => Promise<T>;

/**
 * Puts `Excel`, `Office` and `OfficeExtension` on the global object, so that code written for Excel runs on the grid unchanged.
 * @param file what hands the workbook out as a file; without it nothing can
 * @returns the function that puts back what stood there before
 */
export function installExcel(port: GridPort, file?: HostFile): () => void {
  const places = globalThis as Record<string, unknown>;
  const installed: Record<string, object> = {
    Excel: onlyWhatStands({ run: runOn(port), RangeValueType, ...(file ? { createWorkbook: createWorkbookOn(file) } : {}) }, "Excel"),
    Office: office(file),
    OfficeExtension: onlyWhatStands({ Error: ExcelError }, "OfficeExtension"),
  };
  const before = Object.keys(installed).map((name) => [name, Object.getOwnPropertyDescriptor(places, name)] as const);
  Object.assign(places, installed);
  return () => {
    for (const [name, descriptor] of before) {
      if (descriptor) Object.defineProperty(places, name, descriptor);
      else delete places[name];
    }
  };
}

/** `Excel.run(batch)`, `Excel.run(options, batch)` and `Excel.run(context, batch)`; what is still queued at the end is done. */
function runOn(port: GridPort): typeof Excel.run {
  return async <T>(first: unknown, second?: Batch<T>): Promise<T> => {
    const batch = second ?? (first as Batch<T>);
    const context = second && first instanceof LocalContext ? first.asExcel : new LocalContext(port).asExcel;
    const result = await batch(context);
    await context.sync();
    return result;
  };
}

/**
 * The few members of Office that the pane asks for. What is absent here (the theme) is absent in some editions of Excel too,
 * and is asked for as something that may be missing.
 */
function office(file: HostFile | undefined): Partial<typeof Office> {
  // The type declaration numbers these names, the real library gives them as text.
  const host = "Excel" as unknown as Office.HostType;
  const platform = "OfficeOnline" as unknown as Office.PlatformType;
  const language = typeof navigator === "undefined" ? "en-GB" : navigator.language;
  const context: Pick<Office.Context, "contentLanguage" | "displayLanguage" | "host" | "platform"> & Partial<Pick<Office.Context, "document">> = {
    contentLanguage: language,
    displayLanguage: language,
    host,
    platform,
    ...(file ? { document: documentOf(file) } : {}),
  };
  return {
    FileType: FILE_TYPE,
    AsyncResultStatus: ASYNC_RESULT_STATUS,
    context: context as Office.Context,
    onReady: async (callback) => {
      const info = { host, platform };
      await Promise.resolve(callback?.(info));
      return info;
    },
  };
}
