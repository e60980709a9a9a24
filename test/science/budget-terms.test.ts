import { budgetTerms, type PeriodTerms, type Terms } from "../../src/science/budget/terms";
import type { Log } from "../../src/science/budget/log";
import type { Period } from "../../src/science/budget/period";
import { usualRegrowthGPerM2 } from "../../src/science/growth";
import { exact, rectangular } from "../../src/science/uncertain";
import { feed, FLAKES, grams, harvest, logOf, reading, screen, series, setUpOf, volume } from "./hand-log";

const ROOT3 = Math.sqrt(3);
/**
 * Twenty days of 100 L. Nitrate 10, 11, 12 mg N/L on days 0, 10, 20 and nitrite 1 on days 0 and 20; 20 L of water with 2 mg/L nitrate on day 5.
 * Nitrate runs 10 + 5 r, x 0.8 + 0.2 x 2, + 5 r = 11, so that r = 2.6 / 9; nitrite 0.8 (1 + 5 q) + 15 q = 1, so that q = 0.2 / 19.
 */
const TANK: Log = logOf({
  feeds: [feed(3, 20), feed(4, 12, FLAKES), feed(8, 24)],
  otherIn: [grams(5, 2.4)],
  otherOut: [grams(6, 0.3)],
  topUps: [volume(7, 10)],
  changes: [volume(5, 20)],
  harvests: [harvest(10, 100, { fedBackShare: 0.25 }), harvest(10, 40, { row: 13, draining: "pressed" }), harvest(18, 80)],
  series: [
    series("NO3", [reading(0, 10), reading(10, 11), reading(20, 12)], { kitScale: rectangular(0.95, 1.05), incomingMgPerL: rectangular(1, 3) }),
    series("NO2", [reading(0, 1, 0.1), reading(20, 1, 0.1)], { isMain: false }),
    series("NH4", [], { isMain: false }),
  ],
});
const SET_UP = setUpOf({ topUpMgPerL: rectangular(0.4, 0.6) });
const PERIODS: Period[] = [
  { from: 0, to: 10, withFrom: true, withTo: true },
  { from: 10, to: 14, withFrom: false, withTo: true },
  { from: 14, to: 20, withFrom: false, withTo: true },
];
const tankTerms = (): Terms => budgetTerms(TANK, SET_UP, PERIODS);

/** Each product as "part: names multiplied", with its coefficients added up. */
function written({ names }: Terms, period: PeriodTerms | undefined): Record<string, unknown> {
  const sums = new Map<string, number>();
  for (const { part, coefficient, factors } of period?.monomials ?? []) {
    const product = `${part}: ${factors.map((factor) => names[factor]).join(" x ")}`;
    sums.set(product, (sums.get(product) ?? 0) + coefficient);
  }
  return Object.fromEntries(sums);
}
const near = (values: Record<string, number>): Record<string, unknown> => Object.fromEntries(Object.entries(values).map(([name, value]) => [name, expect.closeTo(value, 9)]));
const errors = (period: PeriodTerms | undefined): unknown[][] => (period?.ownErrors ?? []).map(({ part, cause, whole, u }) => [part, cause, whole, u]);
const nearErrors = (rows: readonly (readonly [string, string, number, number])[]): unknown[][] => rows.map(([part, cause, whole, u]) => [part, cause, expect.closeTo(whole, 9), expect.closeTo(u, 9)]);

test("each uncertain quantity stands once, with its doubt, under a name that N and P share or do not", () => {
  const terms = tankTerms();
  expect(terms.names.map((name, place) => [name, terms.doubts[place]])).toEqual([
    ["volume", "volume"], ["retained", "retained"], ["topUp N", "topUp"],
    ["drained 0", "dryFraction"], ["pressed 0", "dryFraction"], ["tissue N 0", "tissue"], ["crop 0", "standingCrop"],
    ["food N Invented pellets", "food"], ["food N Invented flakes", "food"],
    ["scale NO3", "readings"], ["incoming NO3", "incoming"], ["reading NO3 2", "readings"], ["reading NO3 12", "readings"], ["reading NO3 22", "readings"],
    ["scale NO2", "readings"], ["incoming NO2", "incoming"], ["reading NO2 2", "readings"], ["reading NO2 22", "readings"],
  ]);
  expect(terms.quantities[terms.names.indexOf("reading NO3 12")]).toEqual(rectangular(10.5, 11.5));
  expect(terms.quantities[terms.names.indexOf("crop 0")]).toEqual(rectangular(0, 2));
});

test("the first period, product by product", () => {
  const terms = tankTerms();
  const [r, q] = [2.6 / 9, 0.2 / 19];
  // Along the way to the second reading at the change: 5 / (0.8 x 5 + 5) of what 11 has beyond 0.8 x 10 + 0.2 x 2. Nitrite: 5 / 19.
  expect(written(terms, terms.periods[0])).toEqual(near({
    "feedIn: food N Invented pellets": 44, "feedIn: food N Invented pellets x retained": -44,
    "feedIn: food N Invented flakes": 12, "feedIn: food N Invented flakes x retained": -12,
    "otherIn: ": 2.4, "otherOut: ": 0.3, "otherIn: topUp N": 0.01,
    "harvestOut: drained 0 x tissue N 0": 75, "harvestOut: pressed 0 x tissue N 0": 40,
    "otherIn: incoming NO3": 0.02, "otherIn: incoming NO2": 0.02,
    "changeOut: scale NO3 x reading NO3 2": 0.02 * (1 - (5 / 9) * 0.8), "changeOut: scale NO3 x reading NO3 12": 0.02 * (5 / 9), "changeOut: incoming NO3": -0.02 * (5 / 9) * 0.2,
    "storeChange: volume x scale NO3 x reading NO3 12": 0.001, "storeChange: volume x scale NO3 x reading NO3 2": -0.001,
    "changeOut: scale NO2 x reading NO2 2": 0.02 * (1 - (5 / 19) * 0.8), "changeOut: scale NO2 x reading NO2 22": 0.02 * (5 / 19), "changeOut: incoming NO2": -0.02 * (5 / 19) * 0.2,
    // Nitrite on day 10: 9 of the 19 days' worth of slope are done, and 0.8 of the first reading and 0.2 of new water were there.
    "storeChange: volume x scale NO2 x reading NO2 2": 0.001 * (0.8 - (9 / 19) * 0.8 - 1), "storeChange: volume x scale NO2 x reading NO2 22": 0.001 * (9 / 19), "storeChange: volume x incoming NO2": 0.001 * (0.2 - (9 / 19) * 0.2),
  }));
  expect(10 + 5 * r).toBeCloseTo(10 * (1 - (5 / 9) * 0.8) + 11 * (5 / 9) - 2 * (5 / 9) * 0.2, 12);
  expect(1 + 5 * q).toBeCloseTo(1 - (5 / 19) * 0.8 + 5 / 19, 12);
});

test("the first period's own errors: half-width over root 3, each by its cause", () => {
  // Arrived: 0.9 of 20 x 0.08, 12 x 0.04, 24 x 0.08. Weighed out: 75 x 0.05 x 0.04 and 40 x 0.1 x 0.04.
  // Drift: (44 x 0.08 + 12 x 0.04) x 0.9 + 2.4 = 6 g in 20 days of 100 L are 3 mg/L a day, a half in each tested series: 1.5.
  // The change: beyond what it brought, (11.4444 - 2) and 1.0526 mg/L in 20 L.
  const netOut = 0.02 * (10 + 13 / 9 - 2) + 0.02 * (1 + 1 / 19);
  const period = tankTerms().periods[0];
  expect(errors(period)).toEqual(nearErrors([
    ["feedIn", "feed 5 Invented pellets", 1.44, 0.144 / ROOT3], ["feedIn", "feed 6 Invented flakes", 0.432, 0.0432 / ROOT3], ["feedIn", "feed 10 Invented pellets", 1.728, 0.1728 / ROOT3],
    ["harvestOut", "harvest 12 0 drained", 0.15, 0.0075 / ROOT3], ["harvestOut", "harvest 13 0 pressed", 0.16, 0.008 / ROOT3],
    ["changeOut", "drift NO3 7", 0, (0.02 * 1.5 * 2.5) / ROOT3],
    ["changeOut", "drift NO2 7", 0, (0.02 * 1.5 * 3.75) / ROOT3], ["storeChange", "drift NO2 end 1", 0, (0.1 * 1.5 * 5) / ROOT3],
    ["changeOut", "change 7 ", netOut, (0.05 * netOut) / ROOT3],
  ]));
  expect(period?.ownVariance).toEqual({
    feedIn: expect.closeTo((0.144 ** 2 + 0.0432 ** 2 + 0.1728 ** 2) / 3, 12), otherIn: 0, otherOut: 0,
    harvestOut: expect.closeTo((0.0075 ** 2 + 0.008 ** 2) / 3, 12),
    changeOut: expect.closeTo((0.075 ** 2 + 0.1125 ** 2 + (0.05 * netOut) ** 2) / 3, 12), storeChange: expect.closeTo(0.75 ** 2 / 3, 12),
  });
  expect(period).toMatchObject({ readingGapDays: 10, estimatedCrop: false, censored: false, aboveScale: false });
});

test("from day 6 to day 10 the new water of day 5 is in the store at both ends: its share falls by 4 of 19 days' slope", () => {
  const terms = budgetTerms(TANK, SET_UP, [{ from: 6, to: 10, withFrom: false, withTo: true }]);
  expect(written(terms, terms.periods[0])).toMatchObject(near({ "storeChange: volume x incoming NO2": -0.001 * (4 / 19) * 0.2 }));
});

test("a keeper who weighs exactly leaves the figures without an error, and still names them for the search of a wrong one", () => {
  const exactly = budgetTerms(TANK, { ...SET_UP, feedShare: 0, harvestShare: 0, changeShare: 0 }, PERIODS).periods[0];
  expect(errors(exactly).filter(([, cause]) => !String(cause).startsWith("drift")).map(([, cause, , u]) => [cause, u])).toEqual([
    ["feed 5 Invented pellets", 0], ["feed 6 Invented flakes", 0], ["feed 10 Invented pellets", 0], ["harvest 12 0 drained", 0], ["harvest 13 0 pressed", 0], ["change 7 ", 0],
  ]);
});

describe("what stands on the screen", () => {
  const grown = usualRegrowthGPerM2;
  test("on day 14 it is the share of the next harvest that four of its eight days grow, with the curve's own error", () => {
    const terms = tankTerms();
    const share = grown(4) / grown(8);
    const period = terms.periods[1];
    expect(written(terms, period)).toMatchObject(near({ "storeChange: drained 0 x tissue N 0": 80 * share }));
    expect(errors(period)).toContainEqual(["storeChange", "stand 0 1", 0, expect.closeTo((80 * 0.05 * 0.04 * share * (1 - share)) / ROOT3, 9)]);
    expect(period?.estimatedCrop).toBe(true);
  });
  test("two days after the last harvest it is scaled from that one, by a guess between none and twice of it", () => {
    const terms = tankTerms();
    const [before, after] = [grown(4) / grown(8), grown(2) / grown(8)];
    const period = terms.periods[2];
    expect(written(terms, period)).toMatchObject(near({ "storeChange: drained 0 x tissue N 0": -80 * before, "storeChange: drained 0 x tissue N 0 x crop 0": 80 * after }));
    expect(errors(period)).toContainEqual(["storeChange", "stand 0 -1", 0, expect.closeTo((-80 * 0.05 * 0.04 * before * (1 - before)) / ROOT3, 9)]);
    expect(errors(period).map(([, cause]) => cause)).not.toContain("stand 0 1");
    expect(period?.estimatedCrop).toBe(true);
  });
  test("of a screen that was never weighed it is the usual curve over the lit area", () => {
    const bare = budgetTerms(logOf({ feeds: [feed(3, 1)] }), setUpOf({ units: [screen({ startedDay: -6, litAreaM2: 0.1 })] }), [{ from: 0, to: 10, withFrom: true, withTo: true }]);
    expect(written(bare, bare.periods[0])).toMatchObject(near({ "storeChange: tissue N 0 x crop 0": 0.1 * (grown(16) - grown(6)) }));
    expect(bare.periods[0]?.ownErrors.map(({ part }) => part)).toEqual(["feedIn"]);
    expect(bare.periods[0]?.estimatedCrop).toBe(true);
  });
  test("weighed at that very moment it is no estimate", () => {
    const whole = budgetTerms(logOf({ harvests: [harvest(0, 100), harvest(20, 50)] }), SET_UP, [{ from: 0, to: 20, withFrom: true, withTo: true }]);
    expect(written(whole, whole.periods[0])).toMatchObject(near({ "harvestOut: drained 0 x tissue N 0": 150, "storeChange: drained 0 x tissue N 0": -100 }));
    expect(whole.periods[0]?.estimatedCrop).toBe(false);
    expect(errors(whole.periods[0]).map(([, cause]) => cause)).toEqual(["harvest 2 0 drained", "harvest 22 0 drained"]);
  });
});

describe("what a reading that is no figure does to a period", () => {
  const of = (...entries: ReturnType<typeof reading>[]) => budgetTerms(logOf({ series: [series("NO3", entries)] }), SET_UP, PERIODS);
  test("below detection: the two periods that use it, and no other", () => {
    expect(of(reading(0, 1), reading(10, 1), reading(14, 0.5, 0.5, "below"), reading(20, 1)).periods.map((one) => one.censored)).toEqual([false, true, true]);
    expect(of(reading(0, 0.5, 0.5, "below"), reading(10, 1), reading(14, 1), reading(20, 1)).periods.map((one) => one.censored)).toEqual([true, false, false]);
  });
  test("above the scale: the same, and its lowest figure holds the place", () => {
    const { periods, quantities, names } = of(reading(0, 1), reading(10, 1), reading(14, 50, 0, "above"), reading(20, 1));
    expect(periods.map((one) => [one.aboveScale, one.censored])).toEqual([[false, false], [true, false], [true, false]]);
    expect(quantities[names.indexOf("reading NO3 16")]).toEqual(exact(50));
  });
  test("a single reading cancels out of a store that it measures twice", () => {
    const [period] = of(reading(10, 50, 0, "above")).periods;
    expect(period).toMatchObject({ aboveScale: false, censored: false, readingGapDays: 10 });
  });
});

test("without a series nothing drifts and nothing is in the water", () => {
  const bare = budgetTerms({ ...TANK, series: [] }, SET_UP, PERIODS);
  expect(bare.periods.flatMap((one) => one.ownErrors).filter(({ cause }) => cause.startsWith("drift"))).toEqual([]);
  expect(bare.periods[0]?.ownErrors.map(({ cause }) => cause)).toEqual(["feed 5 Invented pellets", "feed 6 Invented flakes", "feed 10 Invented pellets", "harvest 12 0 drained", "harvest 13 0 pressed"]);
});
