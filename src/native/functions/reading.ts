import type { ReadingPart } from "../readings";
import { readingOf } from "../readings";
import type { Rule } from "../rule";

const reading = (part: ReadingPart): Rule => ({ kind: "cells", whole: [1], write: (writer) => readingOf(writer, 0, 1, part) });

/** What a test reading says, and between what limits. */
export const readingRules: Readonly<Record<string, Rule>> = {
  READING_VALUE: reading("value"),
  READING_LOW: reading("low"),
  READING_HIGH: reading("high"),
  READING_UNCERTAINTY: reading("u"),
};
