import { ARCHIVE_LIMITS, MEGABYTE } from "../files/archive-limits";
import { patchBook } from "../files/patch-book";
import { readBook } from "../files/read-book";
import { Problem } from "../science/problem";
import { cli } from "../words/cli";
import { files } from "../words/files";
import { type Outcome, refused, UsageError } from "./command";
import { functionNames, newEngine } from "./functions";
import { readInput, refuseOtherEnding, refuseSameFile, writeWhole } from "./output-file";
import { recalculate } from "./recalculate";

/** Calculates a workbook and writes the results into a copy that is otherwise the same, part by part. */
export async function calcCommand(positionals: readonly string[], output: string | undefined): Promise<Outcome> {
  const [input, ...rest] = positionals;
  if (input === undefined || rest.length > 0) throw new UsageError(cli.oneBook);
  if (output === undefined || output === "") throw new UsageError(cli.outputWanted);
  const engine = newEngine();
  let about = input;
  try {
    const original = await readInput(input, ARCHIVE_LIMITS.fileBytes, files.tooLarge(ARCHIVE_LIMITS.fileBytes / MEGABYTE));
    await refuseSameFile(input, output);
    refuseOtherEnding(input, output);
    const { results, formulaCells, changed, errors, kept } = await recalculate(await readBook(original), engine, functionNames);
    const copy = await patchBook(original, results);
    about = output;
    await writeWhole(output, copy);
    return {
      output: [cli.calculated(formulaCells, changed, errors.length, kept.length)],
      messages: [
        ...errors.map(({ address, code, sentence }) => cli.cellError(address, code, sentence)),
        ...kept.map(({ address, sentence }) => cli.kept(address, sentence)),
      ],
      exitCode: 0,
    };
  } catch (error) {
    if (error instanceof Problem) return refused(cli.file(about, error.message));
    throw error;
  } finally {
    engine.dispose();
  }
}
