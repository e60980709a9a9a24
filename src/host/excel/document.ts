import { onlyWhatStands } from "./only-what-stands";

/** What the host knows of the workbook as a file. */
export interface HostFile {
  /** The open workbook as the file that would be saved now. */
  bytes(): Promise<Uint8Array>;
  /** Its name, "" where it has none. */
  name(): string;
  /** Takes a finished workbook: the browser saves it. */
  give(file: Uint8Array): void;
}

/** The type declaration numbers these names, the real library gives them as text. */
const SUCCEEDED = "succeeded" as unknown as Office.AsyncResultStatus;
const FAILED = "failed" as unknown as Office.AsyncResultStatus;
export const FILE_TYPE = { Compressed: "compressed" } as unknown as typeof Office.FileType;
export const ASYNC_RESULT_STATUS = { Succeeded: SUCCEEDED, Failed: FAILED } as unknown as typeof Office.AsyncResultStatus;

type Done<T> = (result: Office.AsyncResult<T>) => void;

/** The part of Office's document that gives the workbook as a file, in slices, by calling back. */
export function documentOf(host: HostFile): Office.Document {
  const offered = {
    get url(): string {
      return host.name();
    },
    getFileAsync(type: unknown, options: { sliceSize?: number }, done: Done<Office.File>): void {
      if (type !== FILE_TYPE.Compressed) return answer(done, Promise.reject(new Error("Only the whole workbook can be had.")));
      answer(done, host.bytes().then((bytes) => fileOf(bytes, options.sliceSize ?? 4_194_304)));
    },
  };
  return onlyWhatStands(offered, "Document") as unknown as Office.Document;
}

function fileOf(bytes: Uint8Array, sliceSize: number): Office.File {
  let open = true;
  const file = {
    size: bytes.length,
    sliceCount: Math.ceil(bytes.length / sliceSize),
    getSliceAsync(index: number, done: Done<Office.Slice>): void {
      const data = open ? bytes.subarray(index * sliceSize, (index + 1) * sliceSize) : new Uint8Array();
      answer(done, data.length > 0 ? Promise.resolve({ data: [...data], index, size: data.length }) : Promise.reject(new Error("There is no such slice.")));
    },
    closeAsync(done?: Done<void>): void {
      open = false;
      if (done) answer(done, Promise.resolve());
    },
  };
  return onlyWhatStands(file, "File") as unknown as Office.File;
}

function answer<T>(done: Done<T>, value: Promise<T>): void {
  value.then(
    (found) => done({ status: SUCCEEDED, value: found } as Office.AsyncResult<T>),
    (error: unknown) => done({ status: FAILED, error: { message: error instanceof Error ? error.message : String(error) } } as Office.AsyncResult<T>),
  );
}

/** `Excel.createWorkbook`: a new workbook that does not stand in the place of the open one. */
export const createWorkbookOn =
  (host: HostFile) =>
  async (base64 = ""): Promise<void> => {
    host.give(Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0)));
  };
