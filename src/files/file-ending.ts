import { openArchive } from "./archive";
import { CONTENT_TYPES } from "./package-part";
import { attribute, walkXml } from "./xml";

/** What the name of a workbook file ends with, by what its main part is. With another ending Excel refuses to open it. */
export type FileEnding = "xlsm" | "xlsx" | "xltm" | "xltx";

const ENDINGS: readonly (readonly [type: string, ending: FileEnding])[] = [
  ["application/vnd.openxmlformats-officedocument.spreadsheetml.template.main+xml", "xltx"],
  ["application/vnd.ms-excel.sheet.macroenabled.main+xml", "xlsm"],
  ["application/vnd.ms-excel.template.macroenabled.main+xml", "xltm"],
];

/** Throws a Problem for what is no archive. */
export async function fileEnding(file: Uint8Array): Promise<FileEnding> {
  const archive = await openArchive(file);
  const types = new Set<string>();
  walkXml(await archive.text(CONTENT_TYPES), CONTENT_TYPES, {
    open: (tag) => types.add((attribute(tag, "ContentType") ?? "").toLowerCase()),
  });
  return ENDINGS.find(([type]) => types.has(type))?.[1] ?? "xlsx";
}
