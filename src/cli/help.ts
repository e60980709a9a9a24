import { cli } from "../words/cli";
import { done, type Outcome, refused, UsageError } from "./command";
import { findFunction, metadata, signature } from "./functions";

/** Lists the worksheet functions, or explains one. */
export function helpCommand(positionals: readonly string[]): Outcome {
  const [name, ...rest] = positionals;
  if (rest.length > 0) throw new UsageError(cli.atMostOneName);
  if (name === undefined) {
    return done(cli.functionList, ...metadata.functions.map((entry) => `${signature(entry)}\n    ${entry.description ?? ""}`));
  }
  const entry = findFunction(name);
  if (!entry) return refused(cli.noFunction(name));
  const longest = Math.max(0, ...entry.parameters.map((parameter) => parameter.name.length));
  return done(signature(entry), entry.description ?? "", ...entry.parameters.map((parameter) => `    ${parameter.name.padEnd(longest)}  ${parameter.description ?? ""}`));
}
