/** Sentences of the worksheet functions: what is wrong with what was handed over. */
export const functions = {
  /** Units that are words; the symbols of the SI stand where they are used. */
  units: { celsius: "degrees C", changes: "changes", days: "days", draws: "draws", gramsADay: "g a day", gramsOrPortions: "g or portions", hours: "hours" },

  sizesDiffer: (first: string, second: string) => `${first} and ${second} are ranges of different size: give ranges of the same shape, or one cell for both.`,
  oneColumn: (name: string) => `${name} should be one cell or one column here, because the answer takes several columns.`,
  needed: (name: string) => `${name} is needed and is empty.`,
  oneValue: (name: string) => `${name} should be one cell, not a range.`,
  textWanted: (name: string) => `${name} should be a text.`,
  headingMissing: (table: string, wanted: string) => `${table} needs a heading "${wanted}" in its first row.`,
  foodsUnitUnknown: (heading: string, unit: string, known: string) => `The unit "${unit}" of the heading "${heading}" on the Foods sheet is not known here. Known: ${known}.`,
  foodTwice: (name: string) => `"${name}" stands there twice.`,
  foodsRowWrong: (row: number, reason: string) => `Foods, row ${row}: ${reason}`,
  emptyRange: (table: string) => `${table} is empty: give the range with its heading row and at least one row below it.`,
  noAnswer: "The numbers are so large or so small that there is no answer.",
  factorTooLow: (got: number) => `Factor should be between 4 and 10 g protein per g N, and is ${got}.`,
} as const;
