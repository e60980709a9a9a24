import { randomBytes } from "node:crypto";
import fs from "node:fs/promises";
import path from "node:path";
import { Problem } from "../science/problem";
import { cli } from "../words/cli";

/** Reads a whole file; throws a Problem for one that is not there, is a folder or may not be read. */
export async function readInput(file: string, mostBytes: number, tooLarge: string): Promise<Uint8Array> {
  try {
    const { size } = await fs.stat(file);
    if (size > mostBytes) throw new Problem("value", tooLarge);
    return await fs.readFile(file);
  } catch (error) {
    throw error instanceof Problem ? error : new Problem("value", inputSentence(codeOf(error)));
  }
}

function inputSentence(code: string): string {
  if (code === "ENOENT" || code === "ENOTDIR") return cli.noFile;
  return code === "EISDIR" ? cli.aFolder : cli.notReadable;
}

/** Throws a Problem when the two names lead to the same file, by whatever way. */
export async function refuseSameFile(input: string, output: string): Promise<void> {
  const [one, other] = await Promise.all([input, output].map((file) => fs.stat(file).catch(() => undefined)));
  const alike = one && other ? one.dev === other.dev && one.ino === other.ino : path.resolve(input) === path.resolve(output);
  if (alike) throw new Problem("value", cli.sameFile);
}

/** Throws a Problem when the copy's name promises another kind of file than the workbook is. */
export function refuseOtherEnding(input: string, output: string): void {
  const ending = path.extname(input).toLowerCase() || ".xlsx";
  if (path.extname(output).toLowerCase() !== ending) throw new Problem("value", cli.otherEnding(ending));
}

/**
 * Writes a file so that under its name there is either the whole new content or what was there before: into a file beside it, which
 * then takes the name. Throws a Problem when that cannot be done.
 */
export async function writeWhole(named: string, content: Uint8Array): Promise<void> {
  // A link stays a link: what it leads to gets the new content.
  const file = await fs.realpath(named).catch(() => named);
  // Short, for a long name with more added to it would be too long for the disk.
  const beside = path.join(path.dirname(file), `.${randomBytes(9).toString("hex")}.tmp`);
  try {
    const handle = await fs.open(beside, "wx");
    try {
      await handle.writeFile(content);
      await handle.sync();
    } finally {
      await handle.close();
    }
    await fs.rename(beside, file);
  } catch (error) {
    await fs.rm(beside, { force: true }).catch(() => undefined);
    const code = codeOf(error);
    throw new Problem("value", code === "ENOENT" || code === "ENOTDIR" ? cli.noFolder : code === "EISDIR" ? cli.aFolder : cli.notWritable);
  }
}

/** Makes the folder for copies where it is missing. Throws a Problem when that cannot be. */
export async function makeFolder(folder: string): Promise<void> {
  try {
    await fs.mkdir(folder, { recursive: true });
  } catch (error) {
    throw new Problem("value", cli.file(folder, codeOf(error) === "EEXIST" ? cli.notAFolder : cli.notWritable));
  }
}

function codeOf(error: unknown): string {
  return typeof error === "object" && error !== null && "code" in error ? String(error.code) : "";
}
