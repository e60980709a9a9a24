import { cli } from "../words/cli";
import { calcMany } from "./calc-many";
import { writeCalculatedCopy } from "./calculated-copy";
import { type Outcome, UsageError } from "./command";

const WORKBOOK = /\.xls[xm]?$/i;

/** Calculates a workbook and writes the results into a copy that is otherwise the same, part by part; several workbooks into a folder. */
export async function calcCommand(positionals: readonly string[], output: string | undefined): Promise<Outcome> {
  const [input, ...rest] = positionals;
  if (input === undefined) throw new UsageError(cli.oneBook);
  if (output === undefined || output === "") throw new UsageError(rest.length > 0 ? cli.folderWanted : cli.outputWanted);
  // "calc A.xlsx B.xlsx -o C.xlsx" is a slip, not a wish for a folder named like a workbook.
  if (rest.length > 0 && WORKBOOK.test(output)) throw new UsageError(cli.folderWanted);
  if (rest.length > 0) return calcMany(positionals, output);
  return writeCalculatedCopy(input, output, async (file, { changed, errors, formulaCells, kept }) => ({ file, line: cli.calculated(formulaCells, changed, errors.length, kept.length) }));
}
