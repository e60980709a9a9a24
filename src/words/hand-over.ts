/** Words of the copy for readers without the add-in: its cover sheet, and the pane's way to it. */
const cells = (count: number): string => (count === 1 ? "1 cell" : `${count} cells`);

/** Of the product; a test holds it against package.json. */
export const VERSION = "0.1.0";

export const handOver = {
  cover: {
    name: "Cover",
    title: "Copy for readers without Algal Ledger",
    made: "Made on",
    from: "Made from",
    by: "Made with",
    version: (version: string) => `Algal Ledger ${version}`,
    what: "What it is",
    whatText: "Each ALGAL formula was replaced by the value that it showed. All else is as in the original: entries, other formulas, formats, charts.",
    means: "What that means",
    meansText: "These values do not follow when an entry is changed. For later figures ask the keeper for a new copy. The original is unchanged.",

    frozenTitle: "What was frozen",
    frozenHeadings: ["Sheet", "Cells", "Where"],
    more: (count: number) => `and ${count} more`,
    blank: (places: string) => `Blank, because no value was stored there: ${places}.`,
    names: (names: string) => `Names that hold an ALGAL formula, and have no value here: ${names}.`,

    doubtTitle: "What is uncertain",
    doubts: [
      ["Test readings", "A reading stands for a range. Below the first step of a test it means no more than below that step, never zero."],
      ["Unexplained", "Each unexplained amount has a standard uncertainty; about 95 times in a hundred the truth lies within two of them."],
      ["Harvests", "The dry fraction and the N and P of the algae are assumed where the set-up gives none. They weigh most."],
      ["Forecasts and sizes", "Ranges over constants from few studies. They know no season and no sick animal."],
    ],

    assumedTitle: "What was assumed where the set-up gives nothing else",
    assumedHeadings: ["What", "Value (low to high)", "How it is known"],
    value: (value: string, low: string, high: string, unit: string) => `${value}${low === high ? "" : ` (${low} to ${high})`}${unit === "1" ? "" : ` ${unit}`}`,

    cautionsTitle: "Cautions",
    cautions: [
      "Mains electricity beside water can kill: a residual-current device, drip loops, the local code, a licensed electrician.",
      "Change nutrients slowly. A test kit is not a diagnosis; for sick animals ask a vet or a public aquarium.",
      "Harvested algae is not food for people, and only with care for animals.",
      "This is advice on a mass balance. It does not replace those who are licensed.",
    ],
  },

  open: "Make a copy to hand over",
  openTitle: "You share the workbook",
  openText: "A copy that works for somebody without Algal Ledger.",
  title: "Hand over a copy",
  back: "Back to Start",
  looking: "Looking at the workbook ...",
  nothing: "No cell of this workbook has an ALGAL formula. It can be shared as it is.",
  leavesTitle: "What leaves",
  how: "In place of the ALGAL formulas",
  howFormulas: "Plain formulas, which follow the entries",
  howValues: "Values alone",
  leaves: {
    formulas: (count: number) => `The ALGAL formulas of ${cells(count)}. The same calculation stays, in formulas of any spreadsheet program. What they cannot do, such as a fitted curve, becomes a value.`,
    values: (count: number) => `The ALGAL formulas of ${cells(count)}. Their values stay in the cells, and no longer follow the entries.`,
  },
  leavesSheet: (sheet: string, count: number) => `${sheet}: ${cells(count)}`,
  staysTitle: "What stays",
  stays: ["All entries, other formulas, formats, tables and charts", "This workbook itself, unchanged"],
  comesTitle: "What comes",
  comes: {
    formulas: "A cover sheet; sheets with the workings, and with every coefficient, its unit and its source; a list of what became a value, and why.",
    values: "A cover sheet: what was frozen and assumed, with sources; what is uncertain; when, and by which version.",
  },
  waiting: (count: number) => `${cells(count)} show an error or are still being calculated. The copy shows the same.`,
  make: "Make the copy",
  making: "Making the copy ...",
  done: "The copy is made, with a cover sheet in front. Save it under a name of its own.",
  doneFormulas: (translated: number, frozen: number) =>
    `The copy is made: ${cells(translated)} follow the entries${frozen > 0 ? `, ${cells(frozen)} became values` : ""}. Its cover says which. Save it under a name of its own.`,
  refused: "The copy could not be made. Is a cell being edited, or the workbook protected? Your workbook is unchanged.",
  stopped: "Stopped. No copy was made.",
} as const;
