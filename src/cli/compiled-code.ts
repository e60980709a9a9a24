import fs from "node:fs";
import Module from "node:module";
import path from "node:path";
import { cachedDataVersionTag } from "node:v8";
import vm from "node:vm";

/** What Node calls for every file of code; no declared part of its module, but where all such caches take hold. */
interface Loader {
  _compile(this: NodeModule, content: string, file: string, ...rest: unknown[]): unknown;
}

/** Files below this are compiled faster than found. */
const WORTHWHILE = 500_000;

/**
 * Keeps the compiled form of the program's large files beside them, so that only the first run spends a fifth of a second on compiling
 * what never changes. A file's form is for one build of it, one version of Node and one set of its options, all told in the name;
 * where it cannot be read or written, the program is compiled as ever.
 */
export function keepCompiledCode(folder: string): void {
  const loader = Module.prototype as unknown as Loader;
  const compile = loader._compile;
  loader._compile = function (content, file, ...rest) {
    if (path.dirname(file) !== folder || content.length < WORTHWHILE) return compile.call(this, content, file, ...rest);
    const kept = placeOf(file);
    const cachedData = readKept(kept);
    const script = new vm.Script(Module.wrap(content), { filename: file, ...(cachedData ? { cachedData } : {}) });
    if (!cachedData || script.cachedDataRejected) process.once("exit", () => write(kept, script));
    const run = script.runInThisContext() as (...given: unknown[]) => unknown;
    return run.call(this.exports, this.exports, Module.createRequire(file), this, file, folder);
  };
}

function placeOf(file: string): string {
  const { size, mtimeMs } = fs.statSync(file);
  return `${file}.${cachedDataVersionTag()}-${size}-${Math.round(mtimeMs)}.code`;
}

function readKept(file: string): Buffer | undefined {
  try {
    return fs.readFileSync(file);
  } catch {
    return undefined;
  }
}

/** Whole or not at all: another run may be reading. */
function write(file: string, script: vm.Script): void {
  const beside = `${file}.${process.pid}`;
  try {
    fs.writeFileSync(beside, script.createCachedData());
    fs.renameSync(beside, file);
  } catch {
    fs.rmSync(beside, { force: true });
  }
}
