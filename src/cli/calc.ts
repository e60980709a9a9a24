import { cli } from "../words/cli";
import { writeCalculatedCopy } from "./calculated-copy";
import { type Outcome, UsageError } from "./command";

/** Calculates a workbook and writes the results into a copy that is otherwise the same, part by part. */
export async function calcCommand(positionals: readonly string[], output: string | undefined): Promise<Outcome> {
  const [input, ...rest] = positionals;
  if (input === undefined || rest.length > 0) throw new UsageError(cli.oneBook);
  if (output === undefined || output === "") throw new UsageError(cli.outputWanted);
  return writeCalculatedCopy(input, output, async (file, { changed, errors, formulaCells, kept }) => ({ file, line: cli.calculated(formulaCells, changed, errors.length, kept.length) }));
}
