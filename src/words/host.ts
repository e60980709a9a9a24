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

  /** The workbook as a file, and kept in the browser. */
  open: "Open .xlsx",
  download: "Download .xlsx",
  afresh: "Start afresh",
  noSample: "Choose a sample",
  dropHere: "Drop the workbook to open it.",
  close: "Close",
  workbook: "Workbook",
  copyOf: (title: string) => (title === "" ? "Copy" : `${title} - copy`),
  kept: (time: string) => `Kept in this browser, saved ${time}.`,
  notKept: "This browser does not keep your workbook: download it before you close the page.",
  keptElsewhere: "Another tab has changed what this browser keeps. This workbook is not kept: download it, or reload the page.",
  keptBlocked: "Not kept: another workbook is in its place. Download this one, or choose Start afresh.",
  keptUnreadable: "The workbook kept in this browser cannot be shown. It stays there until you choose Start afresh.",
  oneFile: "Drop one workbook at a time.",
  unreadable: "Its content cannot be shown here. The file itself is unchanged.",
  notDownloaded: (reason: string) => `The workbook could not be written: ${reason}`,
  unwritable: "it holds something that a file cannot hold. Nothing here was changed.",
  calculationStopped: "The formulas of this workbook take longer to calculate than this page can wait, so it stopped. Those that were not reached show the answers of before. Your file is kept as it is, and Excel calculates it when it opens the download.",
  heldAsTexts: (cells: readonly string[]) =>
    cells.length === 1
      ? `Excel could not read the formula in ${cells[0]}, so the file holds it as text: correct it, and download again.`
      : `Excel could not read ${cells.length} formulas, so the file holds them as texts: correct them, and download again (${cells.slice(0, 12).join(", ")}${cells.length > 12 ? " and others" : ""}).`,
  leftOut: (count: number) => `Downloaded, without ${count === 1 ? "one chart or rule" : `${count} charts or rules`} of a kind that Algal Ledger does not write.`,
  replace: {
    title: (title: string) => (title === "" ? "Keep your changes?" : `Keep your changes to "${title}"?`),
    text: "The page holds one workbook. Opening another takes this one, with your changes, out of this browser.",
    download: "Download first",
    goOn: "Discard changes",
    stay: "Stay",
  },
  forget: {
    title: "Start afresh?",
    text: "This takes the workbook out of this browser and opens the first sample. It cannot be undone.",
    all: "This takes this workbook, and the other one that is kept, out of this browser and opens the first sample. It cannot be undone.",
    goOn: "Start afresh",
  },
  unshown: (kinds: readonly string[]) => `Not shown here, and kept in the file when you download it: ${kinds.join(", ")}.`,
  /** A file that cannot be made out of the one that was opened. */
  anew: {
    title: "Write a new file?",
    text: (kinds: readonly string[]) =>
      `After this change your own file cannot be carried on without a guess. The download would be a new file, without ${[...kinds, "the theme and the named styles of yours"].join(", ").replace(/, ([^,]*)$/, " and $1")}. Your file itself is unchanged.`,
    goOn: "Download without them",
    stay: "Cancel",
    lost: (kinds: readonly string[]) => `This file was written anew, without ${[...kinds, "the theme and the named styles of the one that you opened"].join(", ").replace(/, ([^,]*)$/, " and $1")}.`,
  },
  unshownKinds: {
    chartSheet: ["chart sheet", "chart sheets"],
    comment: ["comment", "comments"],
    conditionalFormat: ["conditional format of another kind", "conditional formats of other kinds"],
    control: ["control", "controls"],
    externalLink: ["link to another workbook", "links to other workbooks"],
    filter: ["filter", "filters"],
    group: ["sheet with groups of rows or columns", "sheets with groups of rows or columns"],
    headerFooter: ["page header or footer", "page headers and footers"],
    hyperlink: ["hyperlink", "hyperlinks"],
    macro: ["macro project", "macro projects"],
    name: ["name that the grid does not know", "names that the grid does not know"],
    object: ["embedded object", "embedded objects"],
    otherChart: ["chart of another kind", "charts of other kinds"],
    picture: ["picture", "pictures"],
    pivotTable: ["pivot table", "pivot tables"],
    protection: ["sheet protection", "sheet protections"],
    query: ["data query", "data queries"],
    richText: ["text with several looks", "texts with several looks"],
    shape: ["shape", "shapes"],
    slicer: ["slicer", "slicers"],
    sparkline: ["sparkline", "sparklines"],
    whatIf: ["what-if table", "what-if tables"],
    validation: ["rule for entries of another kind", "rules for entries of other kinds"],
  },
  paneMissing: "The pane could not be loaded. Reload the page.",

  /** Charts over the grid, and what a screen reader says of them. */
  charts: {
    kinds: { scatter: "Lines with marks", line: "Lines", columns: "Columns", stack: "Stacked columns" },
    label: (title: string, kind: string, unit: string, series: readonly string[]) => [title, unit === "" ? kind : `${kind}, ${unit}`, ...series].filter(Boolean).map((part) => part.replace(/\.$/, "")).join(". ") + ".",
    series: (name: string, count: number, last: string, where: string) => `${name === "" ? "" : `${name}: `}${count === 1 ? "one value" : `${count} values`}, the last ${last}${where === "" ? "" : ` (${where})`}`,
    emptySeries: (name: string) => `${name === "" ? "" : `${name}: `}no value yet`,
    /** The name of a chart that the keyboard can go into. */
    keys: (title: string) => `${title === "" ? "Chart" : `Chart, ${title}`}. Left and right read its values, up and down change the series, Escape goes back to the cells.`,
    untitled: "Chart",
    point: (series: string, where: string, value: string, unit: string) => `${[series, where].filter(Boolean).join(", ")}${series === "" && where === "" ? "" : ": "}${value}${unit === "" ? "" : ` ${unit}`}`,
    empty: (cells: string) => `Fills when there are numbers in ${cells}.`,
    noCells: "The cells of this chart are gone. Delete it, or take the deletion back with Ctrl+Z.",
    tooSmall: "Too small to draw: make the columns under it wider.",
    otherType: (type: string) => `This page draws lines and columns, not a chart of the type "${type}". Excel draws it.`,
  },

  /** Lists that cells offer. */
  choices: {
    open: "Choose from the list (Alt+Down)",
    list: (cell: string) => `Values for ${cell}`,
  },

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
