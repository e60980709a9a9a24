/** The row-by-row account beside a log. */
export const rows = {
  date: "Date",
  headings: ["Feed in (g N)", "Feed in (g P)", "Harvest out (g N)", "Harvest out (g P)", "What to look at"],
  /** One warning of a row: how serious it is, what it is, and what to check. */
  look: (severity: string, sentence: string, check: string) => `${severity}: ${sentence} ${check}`,
  firstRow: (got: number) => `first_row should be a whole number of 2 or more, the row of the log in which the data begin, and is ${got}.`,
};
