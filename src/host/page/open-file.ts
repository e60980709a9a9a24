import { ARCHIVE_LIMITS, MEGABYTE } from "../../files/archive-limits";
import { type ReadWorkbook, readWorkbook } from "../../files/read-workbook";
import { Problem } from "../../science/problem";
import { files } from "../../words/files";
import { host } from "../../words/host";

export interface OpenedFile extends ReadWorkbook {
  readonly bytes: Uint8Array;
}

/** Reads a workbook file of the user's; it never leaves the machine. Throws a Problem that says why it cannot. */
export async function readFile(file: File): Promise<OpenedFile> {
  // Before it is taken into memory.
  if (file.size > ARCHIVE_LIMITS.fileBytes) throw new Problem("value", files.tooLarge(ARCHIVE_LIMITS.fileBytes / MEGABYTE));
  try {
    const bytes = new Uint8Array(await file.arrayBuffer());
    const read = await readWorkbook(bytes);
    if (read.book.date1904) throw new Problem("value", host.datesFrom1904);
    if (read.book.sheets.length === 0) throw new Problem("value", files.noSheets);
    return { ...read, bytes };
  } catch (error) {
    if (error instanceof Problem) throw error;
    throw new Problem("value", host.unreadable);
  }
}

/** "My tank.xlsx" is shown as "My tank". */
export function titleOf({ name }: File): string {
  return name.replace(/\.(xlsx|xlsm|xltx|xltm)$/i, "");
}

/** What of the file the grid cannot show, in one sentence; "" for nothing. */
export function unshownSentence(unshown: ReadWorkbook["unshown"]): string {
  return unshown.length === 0 ? "" : host.unshown(unshownKinds(unshown));
}

/** "2 comments", "1 picture". */
export function unshownKinds(unshown: ReadWorkbook["unshown"]): string[] {
  return unshown.map(([kind, count]) => `${count} ${host.unshownKinds[kind][count === 1 ? 0 : 1]}`);
}

/** Calls back with each file that is dropped on the page, and shows while one is held over it that it may be. */
export function onFileDrop(take: (file: File) => void, complain: (sentence: string) => void): void {
  const holdsFiles = (event: DragEvent) => event.dataTransfer?.types.includes("Files") === true;
  const show = (held: boolean) => document.body.classList.toggle("dropping", held);
  // Before the grid; and without this the browser would leave the page and show the file.
  const catching = { capture: true };
  window.addEventListener(
    "dragover",
    (event) => {
      if (!holdsFiles(event)) return;
      event.preventDefault();
      event.stopPropagation();
      show(true);
    },
    catching,
  );
  window.addEventListener("dragleave", (event) => {
    if (event.relatedTarget === null) show(false);
  }, catching);
  window.addEventListener(
    "drop",
    (event) => {
      if (!holdsFiles(event)) return;
      event.preventDefault();
      event.stopPropagation();
      show(false);
      const [file, ...others] = event.dataTransfer?.files ?? [];
      if (file && others.length === 0) take(file);
      else complain(host.oneFile);
    },
    catching,
  );
}
