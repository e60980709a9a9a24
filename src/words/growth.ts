/** Sentences of regrowth curves, the interval between harvests, flow, floats and lamps. */
const days = (count: number): string => (count === 1 ? "1 day" : `${count} days`);
const one = (value: number): string => String(Number(value.toFixed(1)));

export const growth = {
  /** Why a unit's own curve cannot be told from its harvests. */
  cannotFit: {
    fewIntervals: (got: number, needed: number) =>
      `A curve cannot be fitted: it needs harvests after at least ${needed} different intervals (half a day apart or more), and there ${got === 1 ? "is" : "are"} ${got}. Vary the days between harvests.`,
    noGrowth: "A curve cannot be fitted: the harvests do not get heavier with the days between them. Check that each weight stands beside its own interval.",
    scatter: "A curve cannot be fitted: the harvests scatter more than they follow the days between them. Drain each one in the same way, and add a few more.",
    noTop: "A curve cannot be fitted: growth shows no sign of slowing yet. Leave the algae longer once or twice, and add those harvests.",
    levelled: "A curve cannot be fitted: the harvests have nearly levelled off by the shortest interval. Harvest sooner once or twice, and add those harvests.",
    notSettled: "A curve cannot be fitted: several curves describe these harvests equally well. Add some after short and some after long intervals.",
  },
  negativeMass: (got: number) => `A harvest cannot weigh less than nothing, and one of these is ${got} g dry m-2.`,
  notAfter: (got: number) => `The days since the harvest before should be more than 0, and one of these is ${got}.`,
  tooManyPairs: (most: number) => `A curve takes ${most} harvests at most: give the latest.`,

  unknownCurve: (written: string) => `The curve should be logistic, gompertz or best, and is "${written}".`,
  rowWrong: (row: number, reason: string) => `Row ${row} of the range: ${reason}`,
  dateWanted: (name: string, written: unknown) =>
    `${name} should be a date, and ${typeof written === "string" ? `"${written}"` : String(written)} is not one. Type the date so that Excel turns it into one, or use DATE(year,month,day).`,
  wholeSlots: (got: number) => `slots should be a whole number, and is ${got}.`,
  harvestAfterToday: "last_harvest_date lies after today: check both dates.",
  aboveLightCeiling: (got: number, most: number) =>
    `This would be ${Number(got.toPrecision(3))} g dry per mol of light, and no alga reaches ${most}. Check the weight (drained in place of dry, or not drained), the lit area (both sides) and the light.`,

  units: { pricePerKwh: "per kWh", slots: "slots" },
  curve: { logistic: "logistic", gompertz: "Gompertz" },
  fitHeadings: ["What", "Value", "Standard error", "Unit"],
  fitRows: {
    most: "Most that the screen can hold",
    stubble: "Stubble left by a harvest",
    rate: "Growth rate",
    residual: "Residual standard deviation",
    best: "Best interval",
    growth: "Growth at the best interval",
    words: "In words",
  },
  fitUnits: { mass: "g dry m-2", rate: "1/d", days: "d", growth: "g dry m-2 d-1" },

  fitted: (curve: string, pairs: number, intervals: number) => `Fitted to ${pairs} harvests after ${intervals} different intervals (${curve} curve).`,
  bestRange: (best: number, low: number, high: number) => `Best after ${one(best)} days; from ${one(low)} to ${one(high)} days growth is at most 5 % less.`,
  stubbleWeak: "The stubble is hardly known from harvests alone; the interval is known better.",
  beyondLongest: (longest: number) => `That is longer than any interval tried (${one(longest)} days): try one as long before you rely on it.`,
  beforeShortest: (shortest: number) => `That is shorter than any interval tried (${one(shortest)} days): try one as short before you rely on it.`,
  usualCurve: (low: number, high: number) =>
    `This is the usual curve, by judgement and not from your unit: yours may be best anywhere from ${one(low)} to ${one(high)} days.`,

  next: {
    wait: (toBest: number, toEarliest: number) => `Wait: the best day is in ${days(toBest)}, and from ${toEarliest === 1 ? "tomorrow" : `${days(toEarliest)} on`} it is nearly as good.`,
    before: (toBest: number) => `Harvest any day now: the best day is in ${days(toBest)}.`,
    today: "Harvest today: it is the best day.",
    after: (since: number, left: number) => `Harvest now: the best day was ${days(since)} ago${left > 0 ? `, and the next ${days(left)} ${left === 1 ? "is" : "are"} nearly as good` : ""}.`,
    overdue: (since: number, sinceBest: number) => `Overdue by ${days(since)}: the best day was ${days(sinceBest)} ago.`,
  },
} as const;
