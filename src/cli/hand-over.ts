import path from "node:path";
import { ARCHIVE_LIMITS, MEGABYTE } from "../files/archive-limits";
import { coverOf } from "../files/hand-over/cover-lines";
import { frozenCopy } from "../files/hand-over/frozen-copy";
import { patchBook } from "../files/patch-book";
import { readBook } from "../files/read-book";
import { Problem } from "../science/problem";
import { cli } from "../words/cli";
import { files } from "../words/files";
import { type Outcome, refused, UsageError } from "./command";
import { functionNames, newEngine } from "./functions";
import { readInput, refuseOtherEnding, refuseSameFile, writeWhole } from "./output-file";
import { recalculate } from "./recalculate";

/** Calculates a workbook and writes a copy in which the ALGAL formulas are values, with a cover sheet in front. @param day "2026-01-31" */
export async function handOverCommand(positionals: readonly string[], output: string | undefined, values: boolean, day: string): Promise<Outcome> {
  const [input, ...rest] = positionals;
  if (input === undefined || rest.length > 0) throw new UsageError(cli.oneBookToHandOver);
  if (output === undefined || output === "") throw new UsageError(cli.handOverOutput);
  if (!values) throw new UsageError(cli.handOverHow);
  const engine = newEngine();
  let about = input;
  try {
    const original = await readInput(input, ARCHIVE_LIMITS.fileBytes, files.tooLarge(ARCHIVE_LIMITS.fileBytes / MEGABYTE));
    await refuseSameFile(input, output);
    refuseOtherEnding(input, output);
    const { results, errors, kept } = await recalculate(await readBook(original), engine, functionNames);
    const { file, frozen } = await frozenCopy(await patchBook(original, results), coverOf(path.basename(input), day));
    about = output;
    await writeWhole(output, file);
    return {
      output: [cli.handedOver(frozen.reduce((sum, { cells }) => sum + cells.length, 0), frozen.length)],
      messages: [...errors.map(({ address, code, sentence }) => cli.cellError(address, code, sentence)), ...kept.map(({ address, sentence }) => cli.kept(address, sentence))],
      exitCode: 0,
    };
  } catch (error) {
    if (error instanceof Problem) return refused(cli.file(about, error.message));
    throw error;
  } finally {
    engine.dispose();
  }
}
