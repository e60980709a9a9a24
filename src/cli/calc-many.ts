import path from "node:path";
import { Problem } from "../science/problem";
import { cli } from "../words/cli";
import { calculatedFile } from "./calculated-copy";
import { type Outcome, refused as refusedWith, UsageError } from "./command";
import { engineLater } from "./engine-later";
import { makeFolder } from "./output-file";
import { sayBook, soFar } from "./watched";

/**
 * Calculates several workbooks, each into a copy of its own name in one folder. A line a workbook tells how far it is; one that is
 * refused, or that has to be stopped, does not stop the rest.
 */
export async function calcMany(inputs: readonly string[], folder: string): Promise<Outcome> {
  const names = inputs.map((input) => path.basename(input));
  const twice = names.find((name, place) => names.findIndex((other) => other.toLowerCase() === name.toLowerCase()) !== place);
  if (twice !== undefined) throw new UsageError(cli.sameNameTwice(twice));
  try {
    await makeFolder(folder);
  } catch (error) {
    if (error instanceof Problem) return refusedWith(error.message);
    throw error;
  }
  const { next, refused: before } = soFar();
  let refused = before;
  for (let place = next; place < inputs.length; place += 1) {
    const [input = "", name = ""] = [inputs[place], names[place]];
    const says = (line: string): string => cli.progress(place + 1, inputs.length, name, line);
    await sayBook({ place, refused, file: input, stopped: says(cli.notCalculated) });
    // An engine of its own: what a workbook leaves in memory goes with it.
    const engine = engineLater();
    const { output, messages, exitCode } = await calculatedFile(input, path.join(folder, name), engine, async (file, { changed, errors, formulaCells, kept }) => ({ file, line: cli.calculated(formulaCells, changed, errors.length, kept.length) })).finally(() => engine.dispose());
    if (exitCode !== 0) refused += 1;
    for (const message of messages) process.stderr.write(`${exitCode === 0 ? cli.file(input, message) : message}\n`);
    process.stdout.write(`${says(output[0] ?? cli.notCalculated)}\n`);
  }
  return { output: [cli.calculatedMany(inputs.length, refused)], messages: [], exitCode: refused > 0 ? 1 : 0 };
}
