import { FIGURES, figureOf, type Effect } from "../../src/science/budget/effects";
import type { Account } from "../../src/science/budget/both";
import type { Log, SetUp } from "../../src/science/budget/log";
import type { Period } from "../../src/science/budget/period";
import { suspects, type Suspect } from "../../src/science/budget/suspect";
import type { Part } from "../../src/science/budget/terms";
import type { Nutrient } from "../../src/science/nutrient-forms";
import { feed, FLAKES, forPhosphorus, harvest, logOf, reading, screen, series, setUpOf, volume } from "./hand-log";

/**
 * The figure that is least believable, on balances that are given outright, so that each gain is a sum done by hand.
 * One balance with misfit m and variance v; a figure that puts w on it: size = w^2 / v, pull = w m / v. Multiplied by f it saves
 * 2 (1 - f) pull - (1 - f)^2 size, most at f = 1 - m / w, where that is all of m^2 / v.
 */
type Amounts = Readonly<Record<string, Partial<Record<`${"N" | "P"}.${Part}`, number>>>>;
interface Given {
  /** Grams that are wrongly too much on a balance: they stand as feed. */
  readonly misfit: { readonly N: number; readonly P?: number };
  /** By cause: what the figure moves, all of it and by its standard uncertainty. */
  readonly whole: Amounts;
  readonly byU: Amounts;
  readonly closes?: readonly boolean[];
}
const vectorOf = (amounts: Amounts[string] = {}): number[] => {
  const vector = new Array<number>(FIGURES).fill(0);
  for (const [key, amount] of Object.entries(amounts)) {
    const [nutrient, part] = key.split(".") as ["N" | "P", Part];
    vector[figureOf(nutrient === "N" ? 0 : 1, part)] = amount;
  }
  return vector;
};
const closing = ({ misfit, whole, byU, closes = [true, false] }: Given) => ({
  figures: vectorOf({ "N.feedIn": misfit.N, "P.feedIn": misfit.P ?? 0 }),
  effects: new Map<string, Effect>([...new Set([...Object.keys(whole), ...Object.keys(byU)])].map((key) => [key, { byU: vectorOf(byU[key]), byWhole: vectorOf(whole[key]) }])),
  closes,
});
const PERIODS: Period[] = [[0, 10], [10, 20], [20, 30]].map(([from, to], place) => ({ from: from ?? 0, to: to ?? 0, withFrom: place === 0, withTo: true }));
const ofLog = (more: Partial<Log>, setUp: SetUp = setUpOf()): Record<Nutrient, Account> => {
  const log = logOf({ lastDay: 30, ...more });
  return { N: { log, setUp }, P: { log: { ...log, nutrient: "P" as const, series: [] }, setUp: forPhosphorus(setUp) } };
};
/** The suspect of the middle one of three periods. */
const middle = (accounts: ReturnType<typeof ofLog>, given: readonly (Given | null)[]): Suspect | null => {
  const both = given.map((one) => closing(one ?? { misfit: { N: 0 }, whole: {}, byU: {}, closes: [false, false] }));
  return suspects(accounts, both, PERIODS)(1);
};
const NOISE = { noise: { "N.storeChange": 2 } } as const;

describe("one figure on one balance: 6 g too much with a standard uncertainty of 2 g, chi-square 9", () => {
  const change = ofLog({ changes: [volume(15, 20)] });
  test("a water change of 3 g would have had to be three times as large", () => {
    expect(middle(change, [null, { misfit: { N: 6 }, whole: { "change 17 ": { "N.changeOut": 3 } }, byU: NOISE }, null])).toEqual({
      what: "change", row: 17, nutrient: "N", name: "", logged: 20, factor: expect.closeTo(3, 12), gain: expect.closeTo(9, 12), misfit: expect.closeTo(9, 12),
    });
  });
  test("the factor stays between a fiftieth and twenty, and saves less there", () => {
    // Of 0.1 g it would take 61 times as much; at twenty times 1.9 of the 6 g are explained: 9 - 4.1^2 / 4.
    expect(middle(change, [null, { misfit: { N: 6 }, whole: { "change 17 ": { "N.changeOut": 0.1 } }, byU: NOISE }, null])).toMatchObject({ factor: 20, gain: expect.closeTo(9 - 4.1 ** 2 / 4, 10) });
    // 5 g too little: with a fiftieth of 5 g 4.9 are explained.
    expect(middle(change, [null, { misfit: { N: -6 }, whole: { "change 17 ": { "N.changeOut": 5 } }, byU: NOISE }, null])).toMatchObject({ factor: 0.02, gain: expect.closeTo(9 - 1.1 ** 2 / 4, 10) });
  });
  test("of two changes the one that explains more; of two that explain the same the first", () => {
    const two = ofLog({ changes: [volume(15, 20), volume(16, 30)] });
    const given = (first: number, second: number): Given => ({ misfit: { N: 6 }, whole: { "change 17 ": { "N.changeOut": first }, "change 18 ": { "N.changeOut": second } }, byU: NOISE });
    expect(middle(two, [null, given(0.1, 3), null])).toMatchObject({ row: 18, logged: 30 });
    expect(middle(two, [null, given(3, 0.1), null])).toMatchObject({ row: 17, logged: 20 });
    expect(middle(two, [null, given(3, 3), null])).toMatchObject({ row: 17 });
  });
  test("what moves no balance is no suspect, and where nothing moves one there is none", () => {
    const two = ofLog({ changes: [volume(15, 20), volume(16, 30)] });
    expect(middle(two, [null, { misfit: { N: 6 }, whole: { "change 18 ": { "N.changeOut": 3 } }, byU: NOISE }, null])).toMatchObject({ row: 18, factor: expect.closeTo(3, 12) });
    expect(middle(two, [null, { misfit: { N: 6 }, whole: {}, byU: NOISE }, null])).toBeNull();
    expect(middle(ofLog({}), [null, { misfit: { N: 6 }, whole: {}, byU: NOISE }, null])).toBeNull();
  });
  test("a balance on which nothing is uncertain cannot be weighed", () => {
    expect(middle(change, [null, { misfit: { N: 6 }, whole: { "change 17 ": { "N.changeOut": 3 } }, byU: {} }, null])).toBeNull();
  });
  test("there is none for a period that is not there", () => {
    expect(suspects(change, [closing({ misfit: { N: 6 }, whole: {}, byU: NOISE })], PERIODS.slice(0, 1))(3)).toBeNull();
  });
});

describe("a reading shows in both periods that it bounds", () => {
  // 8 g of 10 too much before it and too little after it: misfits 4 and -4, each with u = 2 of its own.
  const accounts = ofLog({ series: [series("NO3", [reading(10, 5), reading(20, 10)])], changes: [volume(15, 20)] });
  const noise = (name: string): Amounts => ({ [name]: { "N.storeChange": 2 } });
  const one = (misfit: number, effect: number, change: number, name: string): Given => ({
    misfit: { N: misfit }, whole: { "reading NO3 22": { "N.storeChange": effect }, ...(change ? { "change 17 ": { "N.changeOut": change } } : {}) }, byU: noise(name),
  });
  test("so that it explains both misfits, and a change only one", () => {
    // The reading: w = (-8, 8), m = (4, -4), v = 4: size 32, pull -16, factor 1 + 16 / 32, gain 8 = all. The change alone saves 4.
    expect(middle(accounts, [null, one(4, 8, 8, "a"), one(-4, -8, 0, "b")])).toMatchObject({
      what: "reading", row: 22, nutrient: "N", name: "NO3", logged: 10, factor: expect.closeTo(1.5, 12), gain: expect.closeTo(8, 12), misfit: expect.closeTo(8, 12),
    });
  });
  test("and a misfit on one side only speaks for the change", () => {
    // The reading's best: pull = -8, size 32: 64 / 32 = 2 of the 4.
    expect(middle(accounts, [null, one(4, 8, 8, "a"), one(0, -8, 0, "b")])).toMatchObject({ what: "change", row: 17, factor: expect.closeTo(1.5, 12), gain: expect.closeTo(4, 12), misfit: expect.closeTo(4, 12) });
  });
  test("an error that two periods share makes their misfits go together", () => {
    // Variances 4 + 4, covariance -4 (the same reading's u = 2 in both): inverse of [[8, -4], [-4, 8]] is [[8, 4], [4, 8]] / 48.
    const shared = (misfit: number, sign: number, name: string): Given => ({ misfit: { N: misfit }, whole: { "change 17 ": { "N.changeOut": name === "b" ? 6 : 0 } }, byU: { [name]: { "N.storeChange": 2 }, "reading NO3 22": { "N.storeChange": 2 * sign } } });
    // m = (3, 6): chi-square (8 x 9 + 2 x 4 x 18 + 8 x 36) / 48 = 10.5. w = (0, -6): size 6, pull = -6 (4 x 3 + 8 x 6) / 48 = -7.5: gain 9.375 at 2.25.
    expect(middle(accounts, [shared(3, 1, "a"), shared(6, -1, "b"), null])).toMatchObject({ what: "change", factor: expect.closeTo(2.25, 12), gain: expect.closeTo(9.375, 12), misfit: expect.closeTo(10.5, 12) });
    // The same with the neighbour after it.
    expect(middle(accounts, [null, shared(6, -1, "b"), shared(3, 1, "a")])).toMatchObject({ what: "change", factor: expect.closeTo(2.25, 12), gain: expect.closeTo(9.375, 12), misfit: expect.closeTo(10.5, 12) });
  });
});

describe("nitrogen and phosphorus", () => {
  const accounts = ofLog({ harvests: [harvest(15, 100, { unit: 0 })] }, setUpOf({ units: [screen({ name: "left" })] }));
  const byU = { n: { "N.storeChange": 2 }, p: { "P.storeChange": 0.5 } } as const;
  const whole = { "harvest 17 0 drained": { "N.harvestOut": 4, "P.harvestOut": 0.5 } } as const;
  test("weigh together where both close", () => {
    // m = (6, 1): 9 + 4 = 13. w = (-4, -0.5): size 4 + 1, pull -6 - 2 = -8: factor 1 + 8 / 5, gain 64 / 5. Its own kind: one harvest is its own median.
    const found = middle(accounts, [null, { misfit: { N: 6, P: 1 }, whole, byU, closes: [true, true] }, null]);
    expect(found).toMatchObject({ what: "harvest", row: 17, nutrient: "N", name: "left", logged: 100, misfit: expect.closeTo(13, 12) });
    // The full factor of 2.6 saves 12.8, of which 9 are lost for being more than three spreads of 0.25 off its kind: 3.8. At e^0.5 it saves
    // 16 x 0.6487 - 5 x 0.6487^2 = 8.275 and loses (0.5 / 0.25)^2 = 4: more is left, and more than at e^0.4 (4.11) or e^0.6 (4.01).
    expect(found?.factor).toBeCloseTo(Math.exp(0.5), 12);
    expect(found?.gain).toBeCloseTo(16 * (Math.exp(0.5) - 1) - 5 * (Math.exp(0.5) - 1) ** 2, 10);
  });
  test("only the one that closes counts", () => {
    expect(middle(accounts, [null, { misfit: { N: 6, P: 1 }, whole, byU, closes: [false, true] }, null])).toMatchObject({ misfit: expect.closeTo(4, 12) });
    expect(middle(accounts, [null, { misfit: { N: 6, P: 1 }, whole, byU, closes: [true, false] }, null])).toMatchObject({ misfit: expect.closeTo(9, 12) });
  });
});

/** The best of the straight factor and a fiftieth to twenty in steps of a tenth: what is saved on the balance, and how much nearer to its kind it comes. */
function best(misfit: number, whole: number, variance: number, { away, spread, most }: { away: number; spread: number; most: number }): { factor: number; gain: number } {
  const gain = (f: number): number => (misfit ** 2 - (misfit - (1 - f) * whole) ** 2) / variance;
  const off = (logFactor: number): number => Math.min(most, ((away + logFactor) / spread) ** 2);
  const factors = [1 - misfit / whole, ...Array.from({ length: 69 }, (_, step) => Math.exp(-3.9 + step / 10))].filter((f) => f >= 0.02);
  const factor = factors.reduce((kept, f) => (gain(f) - off(Math.log(f)) > gain(kept) - off(Math.log(kept)) ? f : kept));
  return { factor, gain: gain(factor) };
}
const near = (figures: { factor: number; gain: number }) => ({ factor: expect.closeTo(figures.factor, 10), gain: expect.closeTo(figures.gain, 8) });

describe("a figure out of line with its kind", () => {
  /** Growth of 10 g a day, but for one harvest; feeds of another time only. */
  const withinLog = (drained: number): ReturnType<typeof ofLog> =>
    ofLog({ harvests: [harvest(5, 50), harvest(10, 50), harvest(15, drained), harvest(20, 50), harvest(30, 100)], changes: [volume(12, 20)], feeds: [feed(9, 10), feed(25, 10)] });
  const given: Given = { misfit: { N: -6 }, whole: { "harvest 17 0 drained": { "N.harvestOut": 8 }, "change 14 ": { "N.changeOut": 8 } }, byU: NOISE };
  test("is believed less than one that explains the misfit as well", () => {
    expect(middle(withinLog(250), [null, given, null])).toMatchObject({ what: "harvest", row: 17, logged: 250 });
    expect(middle(withinLog(50), [null, given, null])).toMatchObject({ what: "change", row: 14 });
  });
  test("and its factor weighs the balance against its kind: 5 times the usual growth, more than three spreads of a quarter", () => {
    const expected = best(-6, -8, 4, { away: Math.log(5), spread: 0.25, most: 9 });
    expect(expected.factor).toBeLessThan(0.25);
    expect(middle(withinLog(250), [null, given, null])).toMatchObject(near(expected));
  });
  test("growth counts from the screen's own start, by screen, and scatters as it does", () => {
    // Front: 120 in 10 days from its start on day -5, 30 in 5, 400 in 5, 100 in 5, 60 in 10: 12, 6, 80, 20, 6 g a day. The median is 12; logarithms
    // off it are 0, ln 2, ln 6.67, ln 1.67, ln 2, their median ln 2. The rear screen grows 1 g a day and says nothing of it.
    const setUp = setUpOf({ units: [screen({ name: "front", startedDay: -5 }), screen({ name: "rear" })] });
    const rear = [4, 8, 12, 16, 28].map((day) => harvest(day, day === 28 ? 12 : 4, { unit: 1, row: 100 + day }));
    const harvests = [harvest(5, 120), harvest(10, 30), harvest(15, 400), harvest(20, 100), harvest(30, 60), ...rear].sort((a, b) => a.day - b.day);
    expect(middle(ofLog({ harvests }, setUp), [null, { misfit: { N: -6 }, whole: { "harvest 17 0 drained": { "N.harvestOut": 8 } }, byU: NOISE }, null])).toMatchObject({
      what: "harvest", name: "front", logged: 400, ...near(best(-6, -8, 4, { away: Math.log(400 / 60), spread: 1.4826 * Math.LN2, most: 9 })),
    });
    // The rear one of day 12, too heavy for its balance but usual for its kind: ln f / 0.25 speaks against every factor.
    expect(middle(ofLog({ harvests }, setUp), [null, { misfit: { N: -6 }, whole: { "harvest 112 1 drained": { "N.harvestOut": 8 } }, byU: NOISE }, null])).toMatchObject({
      row: 112, name: "rear", ...near(best(-6, -8, 4, { away: 0, spread: 0.25, most: 9 })),
    });
  });
  test("without a stated start it grew from the first day of the log", () => {
    // 60 g in 12 days from day 3 are 5 g a day; 100 g in 5 days are 20: of two the larger is taken as the middle, and ln 4 off.
    const accounts = ofLog({ firstDay: 3, harvests: [harvest(15, 60), harvest(20, 100)] });
    expect(middle(accounts, [null, { misfit: { N: 6 }, whole: { "harvest 17 0 drained": { "N.harvestOut": 3 } }, byU: NOISE }, null])).toMatchObject({
      row: 17, ...near(best(6, -3, 4, { away: Math.log(5 / 20), spread: 1.4826 * Math.log(4), most: 9 })),
    });
  });
  test("where the days of growth are not known, nothing is usual", () => {
    const twice = ofLog({ harvests: [harvest(5, 50), harvest(15, 100), harvest(15, 250, { row: 40 })] });
    expect(middle(twice, [null, { misfit: { N: -6 }, whole: { "harvest 40 0 drained": { "N.harvestOut": 8 } }, byU: NOISE }, null])).toMatchObject({ row: 40, factor: expect.closeTo(0.25, 12) });
    // Nor does it say anything of the others: 150 g in 15 days are 10 g a day, and nothing else is known of growth.
    const alone = ofLog({ harvests: [harvest(15, 150), harvest(15, 20, { row: 40 })] });
    expect(middle(alone, [null, { misfit: { N: -6 }, whole: { "harvest 17 0 drained": { "N.harvestOut": 8 } }, byU: NOISE }, null])).toMatchObject({ row: 17, ...near(best(-6, -8, 4, { away: 0, spread: 0.25, most: 9 })) });
  });
});

describe("feeds", () => {
  test("are held against feeds of the same food", () => {
    // Pellets 40, 5, 10, 20 and now 100: median 20, logarithms off it ln 2, ln 4, ln 2, 0, ln 5, their median ln 2.
    const feeds = [feed(2, 40), feed(3, 5), feed(4, 1, FLAKES), feed(6, 10), feed(7, 2, FLAKES), feed(15, 100), feed(22, 20)];
    expect(middle(ofLog({ feeds }), [null, { misfit: { N: 6 }, whole: { "feed 17 Invented pellets": { "N.feedIn": 8 } }, byU: NOISE }, null])).toEqual({
      what: "feed", row: 17, nutrient: "N", name: "Invented pellets", logged: 100, misfit: expect.closeTo(9, 12), ...near(best(6, 8, 4, { away: Math.log(5), spread: 1.4826 * Math.LN2, most: 9 })),
    });
  });
  test("all of a period at once are held against the mean feed of a day, and at most by two spreads", () => {
    // 90 g in 30 days: 30 g in ten are usual, and 60 were fed. 4 g too much, u = 0.5; each of the two brought 3 g, so that one alone is too little.
    const feeds = [feed(2, 10), feed(5, 10), feed(12, 30), feed(18, 30), feed(25, 10)];
    const whole = { "feed 14 Invented pellets": { "N.feedIn": 3 }, "feed 20 Invented pellets": { "N.feedIn": 3 } } as const;
    const found = middle(ofLog({ feeds }), [null, { misfit: { N: 4 }, whole, byU: { noise: { "N.storeChange": 0.5 } } }, null]);
    expect(found).toEqual({ what: "allFeed", row: null, nutrient: "N", name: "", logged: 60, misfit: expect.closeTo(64, 10), ...near(best(4, 6, 0.25, { away: Math.LN2, spread: 0.25, most: 4 })) });
    // 120 g in 200 days: 6 g in ten are usual. A seventh would be near that, but misses the balance by 5.4 of chi-square; for a kind's 9 that
    // would be worth it, for 4 it is not.
    const rare = ofLog({ firstDay: 5, lastDay: 205, feeds: [feed(6, 30), feed(12, 30), feed(18, 30), feed(25, 30)] });
    const expected = best(4, 6, 0.25, { away: Math.log(10), spread: 0.25, most: 4 });
    expect(expected.factor).toBeCloseTo(1 / 3, 12);
    expect(best(4, 6, 0.25, { away: Math.log(10), spread: 0.25, most: 9 }).factor).toBeLessThan(0.2);
    expect(middle(rare, [null, { misfit: { N: 4 }, whole, byU: { noise: { "N.storeChange": 0.5 } } }, null])).toMatchObject({ what: "allFeed", logged: 60, ...near(expected) });
    // 120 g from day 5 to day 45 are 3 g a day, and 60 in ten days are twice that; from day 0 they would be less.
    const dense = ofLog({ firstDay: 5, lastDay: 45, feeds: [feed(6, 30), feed(12, 30), feed(18, 30), feed(25, 30)] });
    expect(middle(dense, [null, { misfit: { N: 4 }, whole, byU: { noise: { "N.storeChange": 0.5 } } }, null])).toMatchObject({ what: "allFeed", logged: 60, ...near(best(4, 6, 0.25, { away: Math.LN2, spread: 0.25, most: 4 })) });
  });
});

test("readings of phosphorus are named as such, and those at both ends of the period are asked", () => {
  const accounts = ofLog({ series: [series("NO3", [reading(10, 5)])] });
  const P = { ...accounts.P, log: { ...accounts.P.log, series: [series("PO4", [reading(10, 0.5, 0.1), reading(20, 0.4, 0.1)])] } };
  const of = (key: string) => middle({ ...accounts, P }, [null, { misfit: { N: 0, P: 6 }, whole: { [key]: { "P.storeChange": 3 } }, byU: { noise: { "P.storeChange": 2 } }, closes: [false, true] }, null]);
  expect(of("reading PO4 12")).toMatchObject({ what: "reading", row: 12, nutrient: "P", name: "PO4", logged: 0.5, factor: expect.closeTo(3, 12) });
  expect(of("reading PO4 22")).toMatchObject({ what: "reading", row: 22, nutrient: "P", name: "PO4", logged: 0.4, factor: expect.closeTo(3, 12) });
});

test("a small figure that explains more is not passed over for a larger one", () => {
  // 8 g with u = 2: chi-square 16. 0.2 g, twenty times at most, explain 3.8: 16 - 4.2^2 / 4 = 11.6. 0.5 g explain all of it at 17 times.
  const two = ofLog({ changes: [volume(15, 20), volume(16, 30)] });
  expect(middle(two, [null, { misfit: { N: 8 }, whole: { "change 17 ": { "N.changeOut": 0.2 }, "change 18 ": { "N.changeOut": 0.5 } }, byU: NOISE }, null])).toMatchObject({ row: 18, factor: expect.closeTo(17, 10), gain: expect.closeTo(16, 10) });
});
