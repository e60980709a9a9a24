import { type FileEnding, fileEnding } from "../../files/file-ending";
import { host } from "../../words/host";

const TYPES: Readonly<Record<FileEnding, string>> = {
  xlsm: "application/vnd.ms-excel.sheet.macroEnabled.12",
  xlsx: "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
  xltm: "application/vnd.ms-excel.template.macroEnabled.12",
  xltx: "application/vnd.openxmlformats-officedocument.spreadsheetml.template",
};
/** Characters that no system takes in the name of a file. */
const UNFIT = /[\\/:*?"<>|\u0000-\u001f]+/g;
const LONGEST_NAME = 120;

/** Gives a finished workbook to the browser to save: with macros in it, or as a template, with the ending of such a file. */
export async function giveFile(bytes: Uint8Array, title: string): Promise<void> {
  const ending = await fileEnding(bytes);
  const address = URL.createObjectURL(new Blob([bytes as Uint8Array<ArrayBuffer>], { type: TYPES[ending] }));
  const link = document.createElement("a");
  link.href = address;
  link.download = `${fileName(title)}.${ending}`;
  link.click();
  // The browser has begun by then.
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}

function fileName(title: string): string {
  const name = title.replace(UNFIT, " ").replace(/\s+/g, " ").replace(/^[. ]+|[. ]+$/g, "").slice(0, LONGEST_NAME);
  return name === "" ? host.workbook : name;
}
