import { parseArgs, type ParseArgsConfig } from "node:util";
import { localDay } from "../functions/dates";
import { cli } from "../words/cli";
import { calcCommand } from "./calc";
import { done, type Outcome, UsageError } from "./command";
import { formulaCommand } from "./formula";
import { handOverCommand } from "./hand-over";
import { helpCommand } from "./help";

const NAME = "ledger";

async function run(args: string[]): Promise<Outcome> {
  const [command, ...rest] = args;
  if (command === undefined) throw new UsageError(cli.noCommand);
  if (command === "--help" || command === "-h") return done(cli.help(NAME));
  switch (command) {
    case "formula":
      // A formula may begin with a minus sign, so nothing after the command is an option but the call for help.
      if (rest.length === 1 && (rest[0] === "--help" || rest[0] === "-h")) return done(cli.help(NAME));
      return formulaCommand(rest[0] === "--" ? rest.slice(1) : rest);
    case "calc": {
      const { values, positionals } = parsed(rest, { output: { type: "string", short: "o" }, help: { type: "boolean", short: "h" } });
      return values.help ? done(cli.help(NAME)) : calcCommand(positionals, values.output);
    }
    case "hand-over": {
      const { values, positionals } = parsed(rest, { output: { type: "string", short: "o" }, values: { type: "boolean" }, native: { type: "boolean" }, help: { type: "boolean", short: "h" } });
      return values.help ? done(cli.help(NAME)) : handOverCommand(positionals, values.output, { values: values.values === true, native: values.native === true }, localDay(new Date()));
    }
    case "help":
      return helpCommand(parsed(rest, {}).positionals);
    default:
      throw new UsageError(cli.unknownCommand(command));
  }
}

function parsed<T extends NonNullable<ParseArgsConfig["options"]>>(args: string[], options: T) {
  try {
    return parseArgs({ args, options, allowPositionals: true });
  } catch (error) {
    throw new UsageError(cli.unknownOption(error instanceof Error ? error.message : String(error)));
  }
}

// Whoever reads the output may stop early, as `head` does; that is no fault.
process.stdout.on("error", () => process.exit());

// The engine calculates on after it has given the word back; what breaks there is a fault of ours as well, told in one sentence.
process.on("uncaughtException", (error) => {
  process.stderr.write(`${cli.fault(error instanceof Error ? error.message : String(error))}\n`, () => process.exit(1));
});

run(process.argv.slice(2))
  .catch((error: unknown): Outcome => {
    const message = error instanceof Error ? error.message : String(error);
    return error instanceof UsageError ? { output: [], messages: [message], exitCode: 2 } : { output: [], messages: [cli.fault(message)], exitCode: 1 };
  })
  .then(({ output, messages, exitCode }) => {
    for (const message of messages) process.stderr.write(`${message}\n`);
    for (const line of output) process.stdout.write(`${line}\n`);
    process.exitCode = exitCode;
  })
  .catch(() => {
    process.exitCode = 1;
  });
