import { spawnSync } from "node:child_process";
import fs from "node:fs";
import os from "node:os";
import path from "node:path";

const LAUNCHER = path.join(__dirname, "../../scripts/ledger.mjs");
const BUNDLE = path.join(__dirname, "../../dist/node/ledger.cjs");

export interface Ran {
  out: string;
  err: string;
  code: number | null;
}

/** Runs the bundle of the command line. */
export function ledger(...args: string[]): Ran {
  return run(BUNDLE, args);
}

/** Runs it through the launcher, which builds the bundle when a source has changed. */
export function launched(...args: string[]): Ran {
  return run(LAUNCHER, args);
}

function run(program: string, args: string[]): Ran {
  const { stdout, stderr, status } = spawnSync(process.execPath, [program, ...args], { encoding: "utf8", timeout: 280_000 });
  return { out: stdout, err: stderr, code: status };
}

/** Builds it, so that no test's time goes into that. */
export function buildOnce(): void {
  const { code, err } = launched("--help");
  if (code !== 0) throw new Error(err);
}

export function temporaryFolder(): { folder: string; at(name: string): string; remove(): void } {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), "algal-ledger-cli-"));
  return { folder, at: (name) => path.join(folder, name), remove: () => fs.rmSync(folder, { recursive: true, force: true }) };
}
