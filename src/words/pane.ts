/** Words of the task pane, screen by screen. */
const cells = (count: number): string => (count === 1 ? "1 cell" : `${count} cells`);

export const pane = {
  title: "Algal Ledger",
  screens: "Screens",
  stop: "Stop",
  stopping: "Stopping ...",
  loading: "Loading ...",
  tabs: { start: "Start", budget: "Budget", size: "Size", problems: "Problems", functions: "Functions" },

  start: {
    title: "What now?",
    answer: "Choose one. No cell of yours is ever written over.",
    begin: {
      ownLog: "You keep a log already",
      noLog: "You begin a log",
      noScreen: "You have no screen yet",
      noScreenText: "Foods, volume and light in; lit area, lamps, flow and harvest out, each as a range.",
      size: "Size a screen",
      looking: "You are just looking",
      lookingText: "An invented log on a sheet of its own, with its account. Nothing of yours is changed.",
    },
    byHand: "Or type the formula yourself",
    byHandText: "Log it, type one formula, read the verdict.",
    steps: {
      log: {
        title: "Log",
        lines: [
          "One row a day: what was fed, what the test showed, what was harvested.",
          "Weigh the algae after draining. Write a test that shows nothing as below its smallest step, such as <0.2, not as 0.",
        ],
      },
      formula: {
        title: "Type one formula",
        lines: ["In a free cell with room below it and to its right:"],
        nitrogen: "Nitrogen",
        phosphorus: "Phosphorus",
        generic: (nutrient: "N" | "P") => `=ALGAL.BUDGET_${nutrient}(log, set-up)`,
        asOnSheets: (sheets: readonly string[]) => `As in this workbook, on the ${sheets.length === 1 ? "sheet" : "sheets"} ${sheets.join(" and ")}.`,
        ofAnyWorkbook: "In place of log, select your log with its heading row; in place of set-up, the two columns that describe the tank. Where your Excel puts ; between arguments, write ; for the comma.",
      },
      verdict: {
        title: "Read the verdict",
        lines: ["The last column says it in words, one row for each harvest:"],
        dates: "From and To are dates. If they show as numbers such as 46056, give the two columns a date format.",
        meanings: [
          { verdict: "Closed", meaning: "what came in and what went out can be equal. Carry on." },
          { verdict: "Unexplained sink", meaning: "more came in than went out. Something else takes it up, or an entry is wrong." },
          { verdict: "Unexplained source", meaning: "more went out than came in. Something was not logged, or is dying." },
          { verdict: "Cannot tell", meaning: "the tests are too coarse for this feed. Log longer or test finer." },
        ],
      },
    },
    copy: "Copy",
    copyFormula: (nutrient: string) => `Copy the formula for ${nutrient.toLowerCase()}`,
    copied: "Copied",
    selectedInstead: "Selected: press Ctrl+C or Cmd+C",
    cautionsTitle: "Before you touch the unit",
    cautions: [
      {
        title: "Mains electricity beside water.",
        text: "Use a residual-current device and drip loops, keep to the local code, and have fixed wiring done by a licensed electrician. Unplug before your hands go in.",
      },
      { title: "Lamps over water.", text: "Fasten them so that they cannot fall in, and use ones that are made for wet places." },
      { title: "Gloves on, hands washed.", text: "Tank water can infect broken skin, and some animals are poisonous to touch." },
      {
        title: "Change nutrients slowly.",
        text: "A test kit is not a diagnosis. When animals are ill, ask a vet or a public aquarium.",
      },
      { title: "Harvested algae is not food for people.", text: "Feed it to animals only with care." },
    ],
    privacyTitle: "Privacy",
    privacy: "Everything is calculated on this machine. There is no account, and nothing is sent.",
  },

  problems: {
    title: "Problems",
    explained: "Cells whose ALGAL formula has no answer, and why. Choose one to go to its cell.",
    none: "Every ALGAL formula that was calculated has its answer.",
    noneHint: "When one has none, its cell and the reason stand here.",
    count: (count: number) => (count === 0 ? "No problems." : `${cells(count)} with a problem.`),
    more: (shown: number, all: number) => `Show more (${shown} of ${all} shown)`,
    notChecked: "The cells could not be read just now, so the list may hold some that are solved.",
  },

  functions: {
    title: "Functions",
    search: "Search functions",
    searchHint: "nitrate, harvest, light ...",
    found: (count: number) => (count === 1 ? "1 function." : `${count} functions.`),
    noneFound: (written: string) => `No function matches "${written}". Try one word, such as feed or volume.`,
    argumentsTitle: "Arguments",
    noArguments: "No arguments.",
    optional: "optional",
    example: "Example",
    help: "Help",
    helpFor: (name: string) => `Help for ${name} (opens a page)`,
    topics: {
      feed: "Feed",
      readings: "Readings",
      water: "Water",
      change: "Water change",
      harvest: "Harvest",
      light: "Light",
      sizing: "Sizing a screen",
      budget: "Budget",
      trend: "Trend and forecast",
      other: "Other",
    },
  },

  broken: "This part of the pane failed. Your workbook is not affected. Close the pane and open it again.",
  notExcel: "Open this page from Excel, as a task pane. Without Excel, use the local page instead.",
} as const;
