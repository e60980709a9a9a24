import { host } from "../../words/host";

const TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";
/** Characters that no system takes in the name of a file. */
const UNFIT = /[\\/:*?"<>|\u0000-\u001f]+/g;
const LONGEST_NAME = 120;

/** Gives a finished workbook to the browser to save. */
export function giveFile(bytes: Uint8Array, title: string): void {
  const address = URL.createObjectURL(new Blob([bytes as Uint8Array<ArrayBuffer>], { type: TYPE }));
  const link = document.createElement("a");
  link.href = address;
  link.download = fileName(title);
  link.click();
  // The browser has begun by then.
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}

function fileName(title: string): string {
  const name = title.replace(UNFIT, " ").replace(/\s+/g, " ").replace(/^[. ]+|[. ]+$/g, "").slice(0, LONGEST_NAME);
  return `${name === "" ? host.workbook : name}.xlsx`;
}
