import path from "node:path";
import { coverOf } from "../files/hand-over/cover-lines";
import { frozenCopy } from "../files/hand-over/frozen-copy";
import { nativeCopy } from "../native/native-copy";
import type { Calculate } from "../native/scratch";
import { cli } from "../words/cli";
import { writeCalculatedCopy } from "./calculated-copy";
import { type Outcome, UsageError } from "./command";

/** What becomes of the ALGAL formulas: their values, or plain formulas. */
export interface HandOverOptions {
  readonly values: boolean;
  readonly native: boolean;
}

/** Calculates a workbook and writes a copy without ALGAL formulas, with a cover sheet in front. @param day "2026-01-31" */
export async function handOverCommand(positionals: readonly string[], output: string | undefined, { values, native }: HandOverOptions, day: string): Promise<Outcome> {
  const [input, ...rest] = positionals;
  if (input === undefined || rest.length > 0) throw new UsageError(cli.oneBookToHandOver);
  if (output === undefined || output === "") throw new UsageError(cli.handOverOutput);
  if (values === native) throw new UsageError(cli.handOverHow);
  const title = path.basename(input);
  return writeCalculatedCopy(input, output, async (copy, _calculation, later) => {
    if (native) {
      const engine = await later.get();
      const calculate: Calculate = (book) => {
        engine.open(book);
        return engine.calculate();
      };
      const { file, translated, frozen } = await nativeCopy(copy, calculate, { title, day });
      return { file, line: cli.handedOverNative(translated, frozen.length) };
    }
    const { file, frozen } = await frozenCopy(copy, coverOf(title, day));
    return { file, line: cli.handedOver(frozen.reduce((sum, { cells }) => sum + cells.length, 0), frozen.length) };
  });
}
