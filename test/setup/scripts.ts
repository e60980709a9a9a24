import { type ChildProcess, spawn } from "node:child_process";
import fs from "node:fs";
import os from "node:os";
import path from "node:path";
import { pathToFileURL } from "node:url";

const SCRIPTS = path.join(__dirname, "../../scripts");

export interface Ended {
  code: number;
  out: string;
  err: string;
}

/** The address of one of our scripts, to import it in a program of a test. */
export const scriptUrl = (name: string): string => pathToFileURL(path.join(SCRIPTS, name)).href;

/** An environment like a user's: without what npm and jest add while they run these tests. */
export function plainEnvironment(more: Record<string, string> = {}): Record<string, string> {
  const kept = Object.entries(process.env).filter(([name, value]) => value !== undefined && !/^(npm_|jest_|NODE_OPTIONS|ALGAL_|CHROME_PATH|CHROMIUM_PATH|SOFFICE_PATH)/i.test(name));
  return { ...(Object.fromEntries(kept) as Record<string, string>), ...more };
}

/** Starts Node on one of our scripts. */
export function startScript(name: string, given: readonly string[], env: Record<string, string> = {}, nodeOptions: readonly string[] = []): ChildProcess {
  return spawn(process.execPath, [...nodeOptions, path.join(SCRIPTS, name), ...given], { env: plainEnvironment(env) });
}

/** Runs one of our scripts to its end. */
export function runScript(name: string, given: readonly string[], env: Record<string, string> = {}, nodeOptions: readonly string[] = []): Promise<Ended> {
  return ended(startScript(name, given, env, nodeOptions));
}

/**
 * Runs a small module program in a Node of its own, because jest cannot load the scripts' module format. What it gives to `show` comes
 * back as `shown`.
 */
export async function runModule(program: string, env: Record<string, string> = {}): Promise<Ended & { shown: unknown[] }> {
  const mark = "shown:";
  const whole = `const show = (value) => console.log(${JSON.stringify(mark)} + JSON.stringify(value ?? null));\n${program}`;
  const end = await ended(spawn(process.execPath, ["--input-type=module", "-e", whole], { env: plainEnvironment(env) }));
  const lines = end.out.split("\n");
  const shown = lines.filter((line) => line.startsWith(mark)).map((line) => JSON.parse(line.slice(mark.length)) as unknown);
  return { ...end, out: lines.filter((line) => !line.startsWith(mark)).join("\n"), shown };
}

export function ended(child: ChildProcess): Promise<Ended> {
  return new Promise((resolve) => {
    let out = "";
    let err = "";
    child.stdout?.on("data", (bytes) => (out += String(bytes)));
    child.stderr?.on("data", (bytes) => (err += String(bytes)));
    child.on("close", (code) => resolve({ code: code ?? -1, out, err }));
  });
}

/** Waits until a running script has written a line that fits. */
export function written(child: ChildProcess, form: RegExp): Promise<RegExpExecArray> {
  return new Promise((resolve, reject) => {
    let out = "";
    child.stdout?.on("data", (bytes) => {
      out += String(bytes);
      const found = form.exec(out);
      if (found) resolve(found);
    });
    child.on("close", () => reject(new Error(`The script ended without writing ${String(form)}: ${out}`)));
  });
}

/** A new empty folder, taken away after the tests of the file. */
export function temporaryFolder(): string {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), "algal-setup-"));
  afterAll(() => fs.rmSync(folder, { recursive: true, force: true }));
  return folder;
}
