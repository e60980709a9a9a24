import type { WhyFrozen } from "../words/native";

/** A calculation that cannot be written for these arguments; the cell keeps its value. */
export class NotWritable extends Error {
  constructor(readonly why: WhyFrozen = "argument") {
    super(why);
  }
}
