import { spawn } from "node:child_process";
import { cli } from "../words/cli";

/** Of the JavaScript heap, megabytes. With the program itself and the file's bytes the process stays below 1 GB. */
const HEAP = 704;
/** Set for the process that is watched. */
const MARK = "ALGAL_LEDGER_WATCHED";
const SECOND = 1000;
const SIGNALS = ["SIGINT", "SIGTERM", "SIGHUP"] as const;

/** What the watched process says before it calculates, and with 0 when it is done. */
interface TimeAllowed {
  allowedMs: number;
}

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

function tell(message: TimeAllowed): Promise<void> {
  return new Promise((resolve) => {
    if (!isWatched() || !process.send || !process.connected) resolve();
    // Work that follows keeps this process busy, so the message has to be out before.
    else process.send(message, () => resolve());
  });
}

/**
 * Runs the command line in a process of its own and stops it when it takes more time than it asked for, or more memory than it is given.
 * What it writes to standard error is shown when it has ended, so that a break-down shows one sentence and no trace.
 * @returns its exit code, 1 when it was stopped
 */
export function runWatched(program: string, args: readonly string[]): Promise<number> {
  const child = spawn(process.execPath, [...process.execArgv, `--max-old-space-size=${HEAP}`, program, ...args], { stdio: ["inherit", "inherit", "pipe", "ipc"], env: { ...process.env, [MARK]: "1" } });
  const written: Buffer[] = [];
  let timer: NodeJS.Timeout | undefined;
  let tookLongerThan: number | undefined;
  let signalled = false;
  child.stderr?.on("data", (piece: Buffer) => written.push(piece));
  child.on("message", ({ allowedMs }: TimeAllowed) => {
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
      resolve(1);
    });
    child.on("close", (code) => {
      clearTimeout(timer);
      const ended = code === 0 || code === 1 || code === 2;
      if (ended) process.stderr.write(Buffer.concat(written));
      else if (tookLongerThan !== undefined) process.stderr.write(`${cli.tookTooLong(Math.round(tookLongerThan / SECOND))}\n`);
      else if (!signalled) process.stderr.write(`${/heap|memory/i.test(Buffer.concat(written).toString()) ? cli.tooMuchMemory : cli.fault(String(code ?? child.signalCode))}\n`);
      resolve(ended ? code : 1);
    });
  });
}
