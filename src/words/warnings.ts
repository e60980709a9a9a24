/** The warnings of a log: what is wrong, in one sentence, and what to check first. */
const two = (value: number): string => String(Number(value.toPrecision(2)));
const one = (value: number): string => String(Number(value.toFixed(1)));
const days = (count: number): string => (one(count) === "1" ? "1 day" : `${one(count)} days`);
const perCent = (share: number): string => `${two(100 * share)} %`;
const screenOf = (screen: string): string => (screen ? ` of ${screen}` : "");
const element = { N: "nitrogen", P: "phosphorus" } as const;
const bases = { N: "NO3 and NO3-N", P: "PO4 and PO4-P" } as const;
type Nutrient = keyof typeof element;
interface Unexplained {
  readonly nutrient: Nutrient;
  readonly low: number;
  readonly high: number;
  readonly days: number;
  readonly whole: boolean;
}
const inTime = (count: number, whole: boolean): string => (whole ? `Over the whole log (${days(count)})` : `In the ${days(count)} to this row`);

export const warnings = {
  headings: ["Row", "Date", "Severity", "Warning", "Check first", "Code"],
  severity: { serious: "Serious", caution: "Caution", note: "Note" },
  none: "No warning from what this log and this set-up say.",
  noneCheck: "Go on logging. What is not logged (tests, harvests, lit area, light) cannot be warned of.",
  noneCode: "NONE",
  alike: (sentence: string, count: number) => `${sentence} (${count} earlier ${count === 1 ? "one" : "ones"} like this ${count === 1 ? "is" : "are"} not listed.)`,

  sentence: {
    BELOW_DETECTION: ({ test }: { test: string }) => `${test}: the latest reading below detection counts as a range from nothing to what the kit can show, not as zero.`,
    READING_RISING: ({ test, risePercent, days: span }: { test: string; risePercent: number; days: number }) =>
      `${test} has risen by about ${two(risePercent)} % in ${days(span)}, more than its readings are unsure by.`,
    NP_RATIO: ({ ratio, low, high }: { ratio: number; low: number; high: number }) =>
      `The water holds ${two(ratio)} g of N to 1 g of P, and algae take up about ${low} to ${high}: the scarcer one will run out first.`,
    NUTRIENT_SHORT: ({ short, plentiful }: { short: string; plentiful: string }) => `${short} is near zero and ${plentiful} is not: growth will stall, and ${plentiful} will stay.`,
    BASIS_STEP: ({ test, factor, higher, nutrient }: { test: string; factor: number; higher: boolean; nutrient: Nutrient }) =>
      `${test} is ${one(factor)} times ${higher ? "higher" : "lower"} here than in the readings beside it, about as ${bases[nutrient]} differ.`,
    FEED_ABOVE_CAPACITY: ({ loadG, capacityG, days: span }: { loadG: number; capacityG: number; days: number }) =>
      `The feed of the last ${days(span)} brings ${two(loadG)} g N a day, and with this light and lit area the algae take up ${two(capacityG)} g a day at best.`,
    HARVEST_OVERDUE: ({ screen, since, longest, ownCurve }: { screen: string; since: number; longest: number; ownCurve: boolean }) =>
      `By the log's last row the last harvest${screenOf(screen)} was ${days(since)} back: after ${days(longest)} growth slows by ${ownCurve ? "the screen's own curve" : "the usual curve and your habit"}.`,
    GROWTH_FALLING: ({ screen, from, to }: { screen: string; from: number; to: number }) => `Growth between harvests${screenOf(screen)} has fallen five times in a row, to ${perCent(to / from)} of what it was.`,
    FIRST_HARVEST: ({ screen }: { screen: string }) => `This is the first harvest${screenOf(screen)}: start-up growth, do not judge the screen by it yet.`,
    HARVEST_ABOVE_LIGHT: ({ screen, gPerMol, most }: { screen: string; gPerMol: number; most: number }) =>
      `The harvest${screenOf(screen)} is heavier than the light allows: ${two(gPerMol)} g dry per mol of light, where ${most} is the most${most > 1 ? " that any alga can do" : " that screens usually reach"}.`,
    GROWTH_TOO_HIGH: ({ screen, growth, most }: { screen: string; growth: number; most: number }) =>
      `This harvest${screenOf(screen)} means a growth of ${two(growth)} g dry m-2 d-1: more than ${most} is not believable.`,
    FED_BACK: ({ grams, harvests }: { grams: number; harvests: number }) =>
      `${two(grams)} g drained of ${harvests === 1 ? "1 harvest" : `${harvests} harvests`} were fed back and are not counted as export; harvests without an entry count in full.`,
    TISSUE_IMPLIED: ({ nutrient, share, most, stated }: { nutrient: Nutrient; share: number; most: number; stated: boolean }) =>
      stated
        ? `The set-up's tissue ${nutrient} of ${perCent(share)} is more than any alga holds (${perCent(most)}).`
        : `If the harvest alone had taken the ${element[nutrient]}, it would hold at least ${perCent(share)} ${nutrient}, and no alga holds more than ${perCent(most)}.`,
    DATE_ORDER: ({ rowBefore }: { rowBefore: number }) => `The date of this row is out of order beside row ${rowBefore}.`,
    DUPLICATE_ROW: ({ sameAs }: { sameAs: number }) => `This row repeats row ${sameAs}, figure by figure, and both are counted.`,
    LOG_GAP: ({ days: gap, usual }: { days: number; usual: number }) => `Nothing is logged for ${days(gap)} before this row; usually there is a row every ${days(usual)}.`,
    UNEXPLAINED_SOURCE: ({ nutrient, low, high, days: span, whole }: Unexplained) =>
      `${inTime(span, whole)} ${two(low)} to ${two(high)} g more ${element[nutrient]} left or stayed than came in: there is an unexplained source.`,
    UNEXPLAINED_SINK: ({ nutrient, low, high, days: span, whole }: Unexplained) =>
      `${inTime(span, whole)} ${two(low)} to ${two(high)} g more ${element[nutrient]} came in than left or stayed: there is an unexplained sink.`,
    LARGE_CHANGE: ({ share }: { share: number }) => `${perCent(share)} of the water was changed in one day, which is more than is usual.`,
    AMMONIA_HARMFUL: ({ test, mgPerL, limit }: { test: string; mgPerL: number; limit: number }) =>
      `${test} here means ${two(mgPerL)} mg/L of un-ionised ammonia (as N): from about ${limit} mg/L it harms animals${limit < 0.05 ? " in the long run" : " soon"}.`,
    AMMONIA_OPEN: ({ test, missing }: { test: string; missing: "pH" | "temperature" }) => `${test} could be harmful, which cannot be told without the ${missing}.`,
    BAD_CELL: ({ sentence }: { sentence: string }) => sentence,
  },

  check: {
    BELOW_DETECTION: "If it matters, test again with a finer kit; otherwise nothing.",
    READING_RISING: "Test once more, then look at the feed, at dead animals or algae, and at the light and flow of the screen.",
    NP_RATIO: "Test both again, and look whether each heading states the basis that the kit has (NO3 or NO3-N, PO4 or PO4-P).",
    NUTRIENT_SHORT: "Test the scarce one again with a finer kit. If it is so, feed a food that carries more of it, or take out less of it by other ways.",
    BASIS_STEP: "Look on the kit which basis its chart has, and correct this reading or those beside it. Otherwise test again.",
    FEED_ABOVE_CAPACITY: "Check the feed's weights and the lit area. If they are right, something else must take up the rest: more light, more area, less food, or water changes.",
    HARVEST_OVERDUE: "Harvest soon, or log the harvest that was made.",
    GROWTH_FALLING: "Look at the lamps, the flow over the screen, and whether one nutrient has run out; then the days between harvests.",
    FIRST_HARVEST: "Nothing: wait for two or three more harvests.",
    HARVEST_ABOVE_LIGHT: "Check the weight (drained, not dripping; g, not kg), then the lit area (both sides if both are lit) and the light and its hours.",
    GROWTH_TOO_HIGH: "Check the weight (drained, not dripping; g, not kg), then the lit area and the date of the harvest before.",
    FED_BACK: "Look whether all that was fed back has its entry.",
    TISSUE_IMPLIED: "Check the harvest's weight and the dry fraction, then the feed's weights; then look for growth elsewhere, sand and rock, or a filter.",
    DATE_ORDER: "Check the year and the month of this date.",
    DUPLICATE_ROW: "Delete one of the two if it is a copy; give both the time of day if it happened twice.",
    LOG_GAP: "Add what was fed, changed or harvested in that time. If nothing was, leave it.",
    UNEXPLAINED_SOURCE: "Look for feed that was not logged, dying algae or animals, waste in the sand, and a weight or a test entered wrong.",
    UNEXPLAINED_SINK: "Look for growth elsewhere, sand and rock, a filter, a harvest that was not logged, and a weight or a feed entered wrong.",
    LARGE_CHANGE: "Check the unit (L or %) and the volume. If it is right, change less at a time: animals bear slow changes better.",
    AMMONIA_HARMFUL: "Test again with fresh reagents, and check pH and temperature. If it is so, change water, stop feeding and look for a dead animal; a kit is no diagnosis.",
    AMMONIA_OPEN: "Measure pH and temperature, and write them in the row or in the set-up.",
    BAD_CELL: "Correct this cell.",
  },
} as const;
