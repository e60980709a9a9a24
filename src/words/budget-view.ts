/** Words of the pane's screen Budget: where the nutrients went, what is next, and what a change would do. */
const MONTHS = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];
const figure = (value: number, digits = 2): string => {
  const rounded = Number(value.toPrecision(digits));
  // What arithmetic leaves behind of nothing.
  return Math.abs(rounded) < 1e-6 ? "0" : String(rounded);
};
/** Parts that are read beside their sum need a digit more than a figure that stands alone. */
const part = (value: number): string => figure(value, 3);
const grams = (value: number): string => `${part(value)} g`;
const perCent = (share: number): string => (share > 0 && share < 0.005 ? "under 1 %" : `${Math.round(100 * share)} %`);
const signed = (value: number): string => (value > 0 ? `+${value}` : String(value));
const list = (items: readonly string[]): string => (items.length < 2 ? items.join("") : `${items.slice(0, -1).join(", ")} and ${items[items.length - 1] ?? ""}`);
const element = { N: "Nitrogen", P: "Phosphorus" } as const;
type Nutrient = keyof typeof element;
interface Day {
  readonly year: number;
  /** January is 1. */
  readonly month: number;
  readonly day: number;
}
const month = ({ month: place }: Day): string => MONTHS[place - 1] ?? "";
const date = (of: Day): string => `${of.day} ${month(of)} ${of.year}`;

export const budgetView = {
  title: "Budget",
  element,
  grams,
  part,
  perCent,
  figure,
  date,
  /** As short as it can be said: "7 to 18 May 2026". */
  dates: (from: Day, to: Day) => {
    const start = from.year !== to.year ? date(from) : from.month !== to.month ? `${from.day} ${month(from)}` : String(from.day);
    return `${start} to ${date(to)}`;
  },

  /** When there is no account, and what to do. */
  none: {
    answer: "This workbook has no budget yet.",
    steps: [
      "Keep a log: one row a day with date, food, feed, readings and harvests, and a set-up with the volume of the water.",
      "In a free cell type =ALGAL.BUDGET_N(log, set-up). The tab Start has the formula and says what to select.",
      "Come back here: the budget shows as soon as the formula stands in one of the first rows and columns of a sheet.",
    ],
  },
  looking: "Looking for a budget in this workbook ...",
  notLookedAt: "The workbook could not be read just now. Finish the cell that is being edited; the pane looks again at the next change.",
  notReckoned: "No budget can be shown:",
  correctIt: "Correct this in the workbook; the pane looks again by itself.",
  from: (formulaAt: string) => `As the formula in ${formulaAt} reads it.`,
  whichLog: "Log",

  /** Why the arguments of a formula cannot be read. */
  notRead: (text: string) => `The pane cannot follow "${text}" in the budget's formula. Give it a range such as Log!A1:H114, a table such as Log[#All], or a name.`,
  referenceGone: (text: string) => `"${text}" in the budget's formula leads to no cells. Select the log and the set-up in the formula again.`,
  leadsNowhere: (at: string) => `The formula in ${at} reads cells that are not there. Select the log and the set-up in it again.`,
  argumentsMissing: (at: string) => `The formula in ${at} needs two ranges: the log with its heading row, and the set-up.`,
  inCall: (name: string, sentence: string) => `${name}: ${sentence}`,
  cellShows: (code: string) => `The cell shows ${code}.`,

  reckoning: "Reckoning ...",
  reckoningAgain: "Reckoning the changed log ... What stands below is from before the change.",
  cancel: "Cancel",
  stopped: "Reckoning was stopped, so nothing is shown.",
  again: "Reckon",

  period: {
    label: "Period",
    upToHarvest: "last harvest",
    latest: "latest",
    running: "since the last harvest",
    whole: "whole log",
    option: (dates: string, name: string) => `${dates}, ${name}`,
    none: (nutrient: Nutrient) => `${element[nutrient]} has no period that ends in this time.`,
  },

  moreOf: (nutrient: Nutrient) => `More on ${element[nutrient].toLowerCase()}`,

  where: {
    title: "Where it went",
    heading: (nutrient: Nutrient) => `${element[nutrient]}: where it went`,
    cameIn: "Came in",
    went: "Went",
    total: (name: string, value: number) => `${name} ${grams(value)}`,
    flow: {
      feed: "Feed",
      otherIn: "Other ways in",
      fromStore: "Out of the water and off the screen",
      unexplainedIn: "Unexplained source",
      harvest: "Harvest",
      change: "Water change",
      otherOut: "Other ways out",
      intoStore: "Stayed in the water and on the screen",
      unexplainedOut: "Unexplained",
    },
    columns: (nutrient: Nutrient) => ["What", `g ${nutrient}`, "Share"],
    range: (low: number, high: number) => `The unexplained part lies between ${figure(low)} and ${figure(high)} g (about 95 %): the whisker shows it.${low < 0 && high > 0 ? " It can be nothing at all." : ""}`,
    describe: (cameIn: readonly string[], went: readonly string[]) => `Two bars of the same length. Came in: ${list(cameIn)}. Went: ${list(went)}.`,
    inWords: (name: string, value: number, share: number) => `${name} ${grams(value)}, ${perCent(share)}`,
    notDrawn: "No picture: what is not known here would have to be guessed.",
    cannotReckon: "No picture: this period is reckoned as soon as the cells named above are put right.",
    notKnown: "not known",
    nothing: "Nothing came in and nothing went in this time.",
    partTitle: { feedIn: "Feed", otherIn: "Other ways in", harvestOut: "Harvest", changeOut: "Water change", otherOut: "Other ways out", storeChange: "Change in the water and on the screen" },
  },

  leastTitle: "The least believable figure",

  harvest: {
    title: "The next harvest",
    between: (days: string, best: string) => `Good from ${days}, best on ${best}.`,
    only: (best: string) => `Best on ${best}.`,
    ofScreen: (screen: string) => `Screen ${screen}`,
    counted: (lastDay: string) => `Counted from the log's last day, ${lastDay}.`,
    why: "How it is reckoned",
    none: "No harvest is logged yet, so there is nothing to count from.",
  },

  ahead: {
    title: "Ahead: what if",
    missing: (rows: readonly string[]) => `The forecast needs to know the screen and its lamps. Add to the set-up, and to the range that the formula reads: ${list(rows)}.`,
    noReading: (form: string) => `The forecast needs a reading of ${form}: log one in a column ${form} (mg/L).`,
    cannot: (sentence: string) => `No forecast: ${sentence}`,
    row: { area: (screen: string) => `"Lit area${screen ? ` ${screen}` : ""} (m2)"`, light: (screen: string) => `"Light${screen ? ` ${screen}` : ""} (umol m-2 s-1)"`, hours: (screen: string) => `"Light hours${screen ? ` ${screen}` : ""}"` },
    basis: (loadN: number, loadP: number, days: number) => `It starts from the last readings and the mean feed of the last ${Math.round(days)} days (${figure(loadN)} g N and ${figure(loadP)} g P a day).`,
    harvests: (every: number) => `A harvest every ${figure(every)} days is assumed.`,
    slider: { food: "Food", area: "Lit area", hours: "Light a day", change: "Water changed a week" },
    value: {
      food: (value: number) => (value === 0 ? "as now" : `${signed(value)} %`),
      area: (times: number, m2: number) => `x ${figure(times)}, ${figure(m2)} m2`,
      hours: (value: number) => `${figure(value, 3)} h`,
      change: (value: number) => `${value} %`,
    },
    reset: "As in the log",
    columns: ["mg/L", "Now", "In 4 weeks", "In 8 weeks", "Settles"],
    spread: (low: number, high: number) => (figure(low) === figure(high) ? figure(low) : `${figure(low)} to ${figure(high)}`),
    settlesAt: (value: number) => `about ${figure(value)}`,
    withoutLimit: "rises without limit",
    pictureTitle: (form: string) => `${form}, mg/L`,
    pictureDescription: (form: string, now: string, four: string, eight: string) => `${form} in mg/L: now ${now}, in 4 weeks ${four}, in 8 weeks ${eight}. The band holds 8 of 10 draws, the line is their middle.`,
    weeks: ["now", "4 weeks", "8 weeks"],
    band: "The band holds 8 of 10 draws, the line is their middle. A forecast is no promise: test again.",
    spoken: (no3: string, po4: string) => `In 8 weeks NO3 ${no3} and PO4 ${po4} mg/L.`,
  },

  warnings: {
    title: "Warnings",
    go: (address: string) => `Go to ${address}`,
    checkFirst: "Check first:",
    more: (shown: number, all: number) => `Show more (${shown} of ${all} shown)`,
    rows: (count: number, first: number, last: number, rest: string) => `${count} rows, from row ${first} to row ${last}: ${rest}`,
    others: (count: number) => `The other ${count} rows`,
  },
} as const;
