/** What kind of trouble it is; the worksheet turns each kind into one Excel error value. */
export type ProblemKind =
  /** The argument cannot be used as it stands (#VALUE!). */
  | "value"
  /** The answer needs something that is not there (#N/A). */
  | "missing"
  /** The arithmetic has no answer for these numbers (#NUM!). */
  | "number"
  /** A zero that the keeper entered would be divided by (#DIV/0!). */
  | "divide";

/** A reason, in a sentence for the keeper, why there is no answer. The only error that science throws on purpose. */
export class Problem extends Error {
  constructor(readonly kind: ProblemKind, sentence: string) {
    super(sentence);
    this.name = "Problem";
  }
}
