import { ARCHIVE_LIMITS, MEGABYTE } from "../files/archive-limits";
import { patchBook } from "../files/patch-book";
import { readBook } from "../files/read-book";
import { Problem } from "../science/problem";
import { cli } from "../words/cli";
import { files } from "../words/files";
import { type Outcome, refused } from "./command";
import { type EngineLater, engineLater } from "./engine-later";
import { functionNames } from "./functions";
import { readInput, refuseOtherEnding, refuseSameFile, writeWhole } from "./output-file";
import { type Recalculation, recalculate } from "./recalculate";

/** What becomes of the calculated copy, and the line that says so. */
export type Finish = (copy: Uint8Array, calculation: Recalculation, engine: EngineLater) => Promise<{ readonly file: Uint8Array; readonly line: string }>;

/** Calculates a workbook, finishes the copy and writes it whole; what was wrong in cells is told on the way. Nothing is written when it is refused. */
export async function writeCalculatedCopy(input: string, output: string, finish: Finish): Promise<Outcome> {
  const engine = engineLater();
  try {
    return await calculatedFile(input, output, engine, finish);
  } finally {
    engine.dispose();
  }
}

/** The same with an engine that is the caller's. */
export async function calculatedFile(input: string, output: string, engine: EngineLater, finish: Finish): Promise<Outcome> {
  let about = input;
  try {
    const original = await readInput(input, ARCHIVE_LIMITS.fileBytes, files.tooLarge(ARCHIVE_LIMITS.fileBytes / MEGABYTE));
    await refuseSameFile(input, output);
    refuseOtherEnding(input, output);
    const calculation = await recalculate(await readBook(original), engine, functionNames);
    const { file, line } = await finish(await patchBook(original, calculation.results), calculation, engine);
    about = output;
    await writeWhole(output, file);
    return {
      output: [line],
      messages: [
        ...calculation.errors.map(({ address, code, sentence }) => cli.cellError(address, code, sentence)),
        ...calculation.kept.map(({ address, sentence }) => cli.kept(address, sentence)),
      ],
      exitCode: 0,
    };
  } catch (error) {
    if (error instanceof Problem) return refused(cli.file(about, error.message));
    throw error;
  }
}
