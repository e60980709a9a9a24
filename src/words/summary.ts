/** Mean and spread of a set of readings. */
export const summary = {
  headings: ["Mean", "Standard deviation", "Readings", "Below detection", "In words"],
  aboveScale: (written: string) => `"${written}" is above the kit's scale and has no upper limit, so there is no mean: dilute the sample and test again.`,
  sentence: (below: number, all: number) =>
    below === 0
      ? "Every reading is above detection: this is their plain mean."
      : `${below} of ${all} readings are below detection. They are taken from the line of the others (robust regression on order statistics), not as zero.`,
} as const;
