/** The headings, verdicts and notes of a budget. */
const figure = (value: number): string => String(Number(value.toPrecision(2)));
const grams = (value: number): string => `${figure(value)} g`;
/** Two figures at most; below 1 % one. */
const perCents = (low: number, high: number): string => `${figure(100 * low)} to ${figure(100 * high)} %`;
const range = (low: number, high: number): string => `${figure(low)} to ${figure(high)} g`;

export const words = {
  noTestYet: "Enter a nitrate or a phosphate reading: without one it is not known what stayed in the water.",
  needsTwoDays: "A budget needs at least two dated rows: the log covers no time yet.",
  headings: (nutrient: string) => [
    "From",
    "To",
    `Feed in (g ${nutrient})`,
    `Other in (g ${nutrient})`,
    `Harvest out (g ${nutrient})`,
    `Water change out (g ${nutrient})`,
    `Other out (g ${nutrient})`,
    `Change in store (g ${nutrient})`,
    `Unexplained (g ${nutrient})`,
    `Standard uncertainty (g ${nutrient})`,
    "Verdict",
  ],
  /** `low` and `high`: about 95 % limits of the unexplained part; `input`: what came in, all in g. */
  verdict: {
    closed: (low: number, high: number, input: number) =>
      `Closed to within ${grams((high - low) / 2)} of ${grams(input)} that came in: what came in and what went out can be equal.`,
    sink: (low: number, high: number) =>
      `Unexplained sink of ${range(low, high)}: more came in than went out or stayed in the water. Look for growth elsewhere, sand and rock, a filter, a weight or a feed entered wrong.`,
    source: (low: number, high: number) =>
      `Unexplained source of ${range(-high, -low)}: more went out or stayed than came in. Look for feed not logged, dying algae or animals, waste in the sand, a weight or a test entered wrong.`,
    cannotTell: (low: number, high: number, input: number) =>
      `Cannot tell: the uncertainty (${grams((high - low) / 2)}) is larger than what came in (${grams(input)}).`,
  },
  incomplete: "Cannot tell.",
  largestDoubt: (what: string) => `The largest doubt is ${what}.`,
  doubt: {
    volume: "the water volume",
    retained: "the share that the animals keep",
    incoming: "what the new water carries",
    topUp: "what the top-up water carries",
    dryFraction: "the dry fraction: dry one weighed sample",
    tissue: "the tissue content of the algae",
    standingCrop: "what stood on the screen",
    food: "the food's content",
    readings: "the test readings: a finer test or a longer period would settle it",
    feedWeight: "the weighing of the feed",
    harvestWeight: "the weighing of the harvest",
    changeVolume: "the volume of the water changes",
  },
  note: {
    badCell: (sentence: string) => sentence,
    moreBadCells: (count: number) => `${count} more cell${count === 1 ? "" : "s"} of this period cannot be used.`,
    noReading: (nutrient: string) => (nutrient === "N" ? "No nitrate reading is logged." : "No phosphate reading is logged."),
    noFeed: "No feed is logged in this period.",
    aboveScale: "A reading was above the kit's scale: dilute the sample and test again.",
    belowDetection: "A test showed less than it can detect: that is a range, not zero.",
    interpolated: (days: number) => `No reading at an end of the period, the nearest is ${days} day${days === 1 ? "" : "s"} away.`,
    estimatedCrop: "Algae standing on a screen were estimated.",
    firstHarvest: (unit: string) => `First harvest${unit ? ` of ${unit}` : ""}: start-up, do not judge the screen yet.`,
    noHarvest: "No harvest is logged yet.",
    neverWeighed: (units: readonly string[]) =>
      `${units.map((unit) => unit || "One screen").join(", ")} ${units.length === 1 ? "was" : "were"} never weighed: weigh the next harvest of ${units.length === 1 ? "it" : "each"}, for what grew there is a guess.`,
    harvestShare: (low: number, high: number, nutrient: string) => `The harvests carried ${perCents(low, high)} of the ${nutrient} that came in.`,
    fedBack: (value: number) => `${grams(value)} of the harvest were fed back and are not counted as export.`,
  },
} as const;
