import path from "node:path";
import { coverOf } from "../files/hand-over/cover-lines";
import { frozenCopy } from "../files/hand-over/frozen-copy";
import { cli } from "../words/cli";
import { writeCalculatedCopy } from "./calculated-copy";
import { type Outcome, UsageError } from "./command";

/** Calculates a workbook and writes a copy in which the ALGAL formulas are values, with a cover sheet in front. @param day "2026-01-31" */
export async function handOverCommand(positionals: readonly string[], output: string | undefined, values: boolean, day: string): Promise<Outcome> {
  const [input, ...rest] = positionals;
  if (input === undefined || rest.length > 0) throw new UsageError(cli.oneBookToHandOver);
  if (output === undefined || output === "") throw new UsageError(cli.handOverOutput);
  if (!values) throw new UsageError(cli.handOverHow);
  return writeCalculatedCopy(input, output, async (copy) => {
    const { file, frozen } = await frozenCopy(copy, coverOf(path.basename(input), day));
    return { file, line: cli.handedOver(frozen.reduce((sum, { cells }) => sum + cells.length, 0), frozen.length) };
  });
}
