/** What a command has to say: its answer on standard output, everything else on standard error, and how it ended. */
export interface Outcome {
  output: string[];
  messages: string[];
  /** 0 done, 1 refused or an error value, 2 the command itself was not understood. */
  exitCode: 0 | 1 | 2;
}

/** A command line that cannot be understood, with a sentence that says how it should be. */
export class UsageError extends Error {}

export function done(...output: string[]): Outcome {
  return { output, messages: [], exitCode: 0 };
}

export function refused(...messages: string[]): Outcome {
  return { output: [], messages, exitCode: 1 };
}
