/** Words of the local page and of its calculation engine. */
export const host = {
  title: "Algal Ledger",
  privacy: "Calculated on this machine; nothing is sent.",
  /** In the order of the picker; the first is open at the start. */
  samples: [
    { file: "one-tank-16-weeks.xlsx", title: "An invented rock-pool tank, 16 weeks" },
    { file: "two-ponds.xlsx", title: "Two invented garden ponds with three screens" },
    { file: "messy-diary.xlsx", title: "An invented keeper's own diary" },
  ],
  nextArea: "F6: next area.",
  samplePicker: "Sample workbook",
  gridLabel: "Workbook",
  paneLabel: "Algal Ledger pane",
  opening: (title: string) => `Opening ${title}.`,
  notOpened: (title: string, reason: string) => `${title} could not be opened: ${reason}`,
  fileMissing: "the page's server does not have it.",
  emptySheet: "Sheet1",
  paneMissing: "The pane could not be loaded. Reload the page.",

  withExample: (description: string, formula: string) => `${description} Example: ${formula}`,

  /** Errors that the engine itself makes, not a function. */
  cellHoldsError: (code: string) => `A cell that this formula reads shows ${code}.`,
  cellShows: (code: string) => `This cell shows ${code}.`,
  noFunction: (name: string) => `There is no worksheet function ${name}. The pane lists them all under Functions.`,
  spillBlocked: "The answer needs more cells than are free: clear the cells below and to the right, or move the formula.",
  tooFewArguments: (name: string, needed: number, given: number) =>
    `${name} needs ${needed === 1 ? "one argument" : `${needed} arguments`}, and got ${given === 0 ? "none" : given}.`,
  tooManyArguments: (name: string, most: number, given: number) =>
    `${name} takes at most ${most === 1 ? "one argument" : `${most} arguments`}, and got ${given}.`,
  notAValue: (name: string) => `${name} is given something that is not a value, such as a LAMBDA without its arguments.`,
  sizesDiffer: "The ranges are of different size: give ranges of the same shape, or one cell.",
  oneValueAnswer: (name: string) => `${name} answers with a range here, so its single-value arguments take one cell, not a range.`,
  notFinite: (name: string) => `${name} has no finite answer for these numbers.`,
  emptyAnswer: (name: string) => `${name} has no rows to show.`,
  calendarFrom1904: (sheet: string, address: string) =>
    `This workbook counts days from 1904, and the formula in ${sheet}, cell ${address}, asks for a calendar date, which would come out four years off. In Excel: File, Options, Advanced, untick "Use 1904 date system", correct the dates, save, and try again.`,
  datesFrom1904:
    'This workbook counts days from 1904, and dates would show four years off here. In Excel: File, Options, Advanced, untick "Use 1904 date system", correct the dates, and save.',
  fault: (name: string, message: string) => `${name} could not calculate because of a fault in Algal Ledger: ${message}`,
} as const;
