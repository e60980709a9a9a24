/** Readings ahead: headings, answers and what stands in the way of one. */
const days = (value: number): string => `${Math.round(value)} day${Math.round(value) === 1 ? "" : "s"}`;

export const forecast = {
  headings: ["Day", "NO3 low (mg/L)", "NO3 (mg/L)", "NO3 high (mg/L)", "PO4 low (mg/L)", "PO4 (mg/L)", "PO4 high (mg/L)", "What happens"],
  start: "start",
  event: { harvest: "harvest", change: "water change", feed: "feed changed", light: "light changed" },
  withoutLimit: "rises without limit",
  optionHeadings: ["What if", "NO3 low (mg/L)", "NO3 (mg/L)", "NO3 high (mg/L)", "PO4 low (mg/L)", "PO4 (mg/L)", "PO4 high (mg/L)", "NO3 settles at (mg/L)", "PO4 settles at (mg/L)"],
  option: {
    asItIs: "as it is",
    lessFood: "a quarter less food",
    halfFood: "half the food",
    moreArea: "half as much screen again",
    twiceArea: "twice the screen",
    moreLight: "a quarter more light",
    change: "a tenth of the water a week more",
    noHarvest: "no harvest",
  },
  readingOpen: (name: string) => `${name} is above the kit's scale: dilute the sample, test again and multiply.`,
  eventsShape: "The events should be three columns: day, what (harvest, water change, feed or light), and how much.",
  eventUnknown: (row: number, written: string) => `Events, row ${row}: "${written}" should be harvest, water change, feed or light.`,
  eventNeeds: (row: number, what: string) => `Events, row ${row}: a ${what} needs a figure in the third column: the share of the water changed, or how many times the feed or light of the start.`,
  inEvents: (row: number, sentence: string) => `Events, row ${row}: ${sentence}`,
  tooManySteps: (most: number) => `A forecast has at most ${most} rows: take fewer days or longer steps.`,
  unknownForm: (written: string) => `The target should be of NO3 or PO4, and is of "${written}".`,
  reaches: (low: number, high: number, share: number) =>
    `${share >= 0.995 ? "It gets there" : `In ${Math.round(100 * share)} of 100 draws it gets there`} in ${days(low)} to ${days(high)}.`,
  never: (most: number, restsAt: string) => `It does not get there within ${most} days: ${restsAt}.`,
  restsAt: (reading: number, form: string) => `it settles near ${Number(reading.toPrecision(2))} mg/L ${form}`,
  there: "It is there already.",
  change: "Feed less, light more screen, or change water.",
} as const;
