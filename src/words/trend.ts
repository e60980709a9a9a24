/** Words of trends, of levels by the local-level filter, and of sets with readings below detection. */
const two = (value: number): string => String(Number(value.toPrecision(2)));
const three = (value: number): string => String(Number(value.toPrecision(3)));
const after = (days: number): string => (Math.round(days) === 1 ? "1 day" : `${Math.round(days)} days`);

export const trend = {
  onlyProportion: (below: number, all: number) =>
    `${below} of ${all} readings are below detection: no more than that share can be told. Use a test with a lower range.`,
  tooFewShown: (needed: number) => `At least ${needed} different readings above detection are needed: add more, or use a test with a lower range.`,
  notSettled: "These readings tell neither a mean nor a spread: check them for a slip, and add more.",
  notAboveZero: (got: number) => `Every reading and limit should be above zero here, and one is ${got}: write a reading of nothing as below the limit, such as <0.2.`,
  levelNeedsFour: "A level needs readings on at least four different days.",
  levelTooLong: (most: number) => `A level takes ${most} readings at most: choose a shorter time.`,
  allTheSame: "All readings are the same and nothing is known of their uncertainty: give the steps of the kit.",
  noneShown: "None of the readings shows a value: all lie below detection or above the kit's scale. Use a test with another range.",

  rowWrong: (row: number, reason: string) => `Row ${row} of the range: ${reason}`,
  dateMissing: "there is a reading without a date.",

  headings: ["Slope a day", "Low", "High", "Chance without a trend (p)", "In words"],
  noLimit: "no limit",
  rising: (low: number, high: number) => `Rising by ${two(low)} to ${two(high)} a week.`,
  falling: (low: number, high: number) => `Falling by ${two(low)} to ${two(high)} a week.`,
  risingAtLeast: (low: number) => `Rising by ${two(low)} a week or more.`,
  fallingAtLeast: (low: number) => `Falling by ${two(low)} a week or more.`,
  noTrend: "No trend can be told from these readings.",
  below: (below: number, all: number) => `${below} of ${all} readings are below detection and count as ties.`,
  above: (above: number, all: number) => `${above} of ${all} readings are above the kit's scale, and no more than that is taken from them.`,

  level: (low: number, high: number) => `The water is between ${three(low)} and ${three(high)} (95 %).`,
  levelBelow: (high: number) => `The water is below ${three(high)} (95 %).`,
  ahead: (days: number, low: number, high: number) => `A test ${after(days)} after the last one will read between ${three(low)} and ${three(high)} (95 %), if the water goes on as it did.`,
  aheadBelow: (days: number, high: number) => `A test ${after(days)} after the last one will read below ${three(high)} (95 %), if the water goes on as it did.`,
  dayTooFar: (most: number) => `The day should lie between the first reading and ${most} days after the last one: beyond that these readings say nothing.`,
  unmoved: "The readings differ by no more than their own uncertainty.",
} as const;
