import { handOver as words } from "../../words/hand-over";
import { WorkbookProblem } from "../workbook-problem";

/** The largest that every edition of Office takes. */
const SLICE_BYTES = 4 * 1024 * 1024;

/**
 * The open workbook as the file that would be saved now.
 * @throws WorkbookProblem when Office does not give it, or it is stopped
 */
export async function workbookFile(signal?: AbortSignal): Promise<Uint8Array> {
  const file = await asked<Office.File>((done) => Office.context.document.getFileAsync(Office.FileType.Compressed, { sliceSize: SLICE_BYTES }, done));
  try {
    const whole = new Uint8Array(file.size);
    let at = 0;
    for (let place = 0; place < file.sliceCount; place += 1) {
      if (signal?.aborted) throw new WorkbookProblem(words.stopped);
      const slice = await asked<Office.Slice>((done) => file.getSliceAsync(place, done));
      const data = slice.data as ArrayLike<number>;
      if (at + data.length > whole.length) throw new WorkbookProblem(words.refused);
      whole.set(data, at);
      at += data.length;
    }
    if (at !== whole.length) throw new WorkbookProblem(words.refused);
    return whole;
  } finally {
    // Office holds two such files at most; the next one waits for nobody.
    file.closeAsync(() => undefined);
  }
}

/** Name of the open workbook, "" for one that was never saved. */
export function workbookName(): string {
  const path = (Office.context.document.url as string | null) ?? "";
  const name = path.slice(Math.max(path.lastIndexOf("/"), path.lastIndexOf("\\")) + 1);
  try {
    return decodeURIComponent(name);
  } catch {
    return name;
  }
}

/** Opens a file as a new workbook beside this one; on the local page the browser saves it. @throws WorkbookProblem when Excel refuses */
export async function openCopy(file: Uint8Array): Promise<void> {
  try {
    await Excel.createWorkbook(base64(file));
  } catch {
    throw new WorkbookProblem(words.refused);
  }
}

/** Office answers by calling back. */
function asked<Answer>(ask: (done: (result: Office.AsyncResult<Answer>) => void) => void): Promise<Answer> {
  return new Promise((resolve, reject) => {
    ask((result) => (result.status === Office.AsyncResultStatus.Succeeded ? resolve(result.value) : reject(new WorkbookProblem(words.refused))));
  });
}

/** Three bytes at a time make four letters, so that pieces of a multiple of three can be put together. */
const PIECE = 3 * 8192;

function base64(bytes: Uint8Array): string {
  const pieces: string[] = [];
  for (let at = 0; at < bytes.length; at += PIECE) pieces.push(btoa(String.fromCharCode(...bytes.subarray(at, at + PIECE))));
  return pieces.join("");
}
