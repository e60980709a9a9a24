import { spawn } from "node:child_process";
import { cli } from "../words/cli";

/** Of the JavaScript heap, megabytes. With the program itself and the file's bytes the process stays below 1 GB. */
const HEAP = 704;
/** Set for the process that is watched. */
const MARK = "ALGAL_LEDGER_WATCHED";
const SECOND = 1000;
const SIGNALS = ["SIGINT", "SIGTERM", "SIGHUP"] as const;

/** Of several workbooks: which is the next, and how many were refused so far. */
const PLACE = "ALGAL_LEDGER_PLACE";

/** What the watched process says before it calculates, and with 0 when it is done; and which of several workbooks it is at. */
interface Said {
  allowedMs?: number;
  book?: Book;
}

/** One of several workbooks: its place, how many before it were refused, and what is said of it when it has to be stopped. */
interface Book {
  place: number;
  refused: number;
  file: string;
  stopped: string;
}

/** Where a process goes on that takes the place of one that had to be stopped. */
export function soFar(): { readonly next: number; readonly refused: number } {
  const [next = 0, refused = 0] = (process.env[PLACE] ?? "").split(",").map(Number);
  return { next, refused };
}

/** Says which of several workbooks comes now. */
export const sayBook = (book: Book): Promise<void> => tell({ book });

/** Whether this process is the watched one. */
export const isWatched = (): boolean => process.env[MARK] === "1";

/** Gives the other process a time for some work, after which it would be stopped; alone, it does the work only. */
export async function inTime<T>(allowedMs: number, work: () => Promise<T>): Promise<T> {
  await tell({ allowedMs });
  try {
    return await work();
  } finally {
    await tell({ allowedMs: 0 });
  }
}

function tell(message: Said): Promise<void> {
  return new Promise((resolve) => {
    if (!isWatched() || !process.send || !process.connected) resolve();
    // Work that follows keeps this process busy, so the message has to be out before.
    else process.send(message, () => resolve());
  });
}

/**
 * Runs the command line in a process of its own and stops it when it takes more time than it asked for, or more memory than it is given.
 * What it writes to standard error is shown when it has ended, so that a break-down shows one sentence and no trace. Of several
 * workbooks the others go on in a new process.
 * @returns its exit code, 1 when it was stopped
 */
export async function runWatched(program: string, args: readonly string[]): Promise<number> {
  let from = soFar();
  let stopped = false;
  for (;;) {
    const { code, book } = await runOnce(program, args, `${from.next},${from.refused}`);
    if (code !== null) return stopped ? Math.max(code, 1) : code;
    if (!book) return 1;
    stopped = true;
    process.stdout.write(`${book.stopped}\n`);
    from = { next: book.place + 1, refused: book.refused + 1 };
  }
}

/** One such process. `code`: null when it was stopped; `book`: the one of several at which it was. */
function runOnce(program: string, args: readonly string[], place: string): Promise<{ readonly code: number | null; readonly book?: Book }> {
  const child = spawn(process.execPath, [...process.execArgv, `--max-old-space-size=${HEAP}`, program, ...args], { stdio: ["inherit", "inherit", "pipe", "ipc"], env: { ...process.env, [MARK]: "1", [PLACE]: place } });
  let written: Buffer[] = [];
  let timer: NodeJS.Timeout | undefined;
  let tookLongerThan: number | undefined;
  let book: Book | undefined;
  let signalled = false;
  child.stderr?.on("data", (piece: Buffer) => written.push(piece));
  child.on("message", (said: Said) => {
    if (said.book) {
      book = said.book;
      // What was said of the workbooks before it stands, whatever becomes of this one.
      process.stderr.write(Buffer.concat(written));
      written = [];
    }
    if (said.allowedMs === undefined) return;
    const { allowedMs } = said;
    clearTimeout(timer);
    if (allowedMs <= 0) return;
    timer = setTimeout(() => {
      tookLongerThan = allowedMs;
      child.kill("SIGKILL");
    }, allowedMs);
  });
  for (const signal of SIGNALS) {
    process.once(signal, () => {
      signalled = true;
      child.kill(signal);
    });
  }
  return new Promise((resolve) => {
    child.on("error", (error) => {
      process.stderr.write(`${cli.fault(error.message)}\n`);
      resolve({ code: 1 });
    });
    child.on("close", (code) => {
      clearTimeout(timer);
      if (code === 0 || code === 1 || code === 2) {
        process.stderr.write(Buffer.concat(written));
        resolve({ code });
        return;
      }
      const broke = Buffer.concat(written).toString();
      const sentence = tookLongerThan !== undefined ? cli.tookTooLong(Math.round(tookLongerThan / SECOND)) : signalled ? null : /heap|memory/i.test(broke) ? cli.tooMuchMemory : cli.fault(String(code ?? child.signalCode));
      if (sentence !== null) process.stderr.write(`${book ? cli.file(book.file, sentence) : sentence}\n`);
      resolve(signalled ? { code: 1 } : { code: null, ...(book ? { book } : {}) });
    });
  });
}
