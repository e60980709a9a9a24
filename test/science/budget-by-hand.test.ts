import { budget, type BudgetPeriod, type Note } from "../../src/science/budget/budget";
import { compareScreens } from "../../src/science/budget/compare";
import { lightSum } from "../../src/science/budget/light-sum";
import type { LightEntry, Log, SetUp } from "../../src/science/budget/log";
import { harvestCycles, mainReadings } from "../../src/science/budget/series";
import { exact, triangular } from "../../src/science/uncertain";
import { feed, forPhosphorus, grams, harvest, logOf, reading, screen, series, setUpOf, volume } from "./hand-log";

/** 100 L and 4 % N exactly, doses exactly weighed; a store between two tests of nitrate and nitrite within half / root 2 each has u = 0.1 half root (2/3). */
const SURE: SetUp = setUpOf({ volumeL: exact(100), retainedShare: exact(0), feedShare: 0, harvestShare: 0, changeShare: 0, units: [screen({ litAreaM2: null, dryFraction: { drained: exact(0.05), pressed: exact(0.1) }, tissue: exact(0.04) })] });
const shared = (half: number, start = 10, end = 24) => ({
  series: [series("NO3", [reading(0, start, half / Math.SQRT2), reading(20, end, half / Math.SQRT2)]), series("NO2", [reading(0, 5, half / Math.SQRT2), reading(20, 5, half / Math.SQRT2)], { isMain: false })],
});
const of = (log: Partial<Log>, setUp = SURE): BudgetPeriod => {
  const [first, more] = budget(logOf(log), setUp, "whole");
  if (!first || more) throw new Error("not one period");
  return first;
};
const near = (value: number): number => expect.closeTo(value, 9) as unknown as number;
const kinds = ({ notes }: BudgetPeriod): string[] => notes.map(({ kind }) => kind);
const shareIn = ({ notes }: BudgetPeriod) => notes.find((note): note is Extract<Note, { kind: "harvestShare" }> => note.kind === "harvestShare");

describe("what is left over, with limits at two standard uncertainties, and the verdict", () => {
  const u = (half: number): number => 0.1 * half * Math.sqrt(2 / 3);
  test("2 g in, 1.4 g more in the water: 0.6 g are a sink while 2 u is less", () => {
    const found = of({ otherIn: [grams(5, 2)], ...shared(3.6) });
    expect(found).toMatchObject({ from: 0, to: 20, unexplained: near(0.6), u: near(u(3.6)), range: { low: near(0.6 - 2 * u(3.6)), high: near(0.6 + 2 * u(3.6)) }, verdict: "sink", doubt: "readings" });
    expect(found.parts).toEqual({ feedIn: 0, otherIn: near(2), harvestOut: 0, changeOut: 0, otherOut: 0, storeChange: near(1.4) });
    // 2 u(3.7) is 0.6042.
    expect(of({ otherIn: [grams(5, 2)], ...shared(3.7) }).verdict).toBe("closed");
  });
  test("0.8 g in are a source likewise", () => {
    expect(of({ otherIn: [grams(5, 0.8)], ...shared(3.6) })).toMatchObject({ unexplained: near(-0.6), verdict: "source" });
    expect(of({ otherIn: [grams(5, 0.8)], ...shared(3.7) }).verdict).toBe("closed");
  });
  test("where 2 u is more than all that came in, by feed or otherwise, nothing can be told", () => {
    // 20 g of pellets bring 1.6 g, a dose 0.4: 2 u is 2 g at half = 12.247; the food's own doubt, 0.02 x 16 / root 6, counts too.
    const feeds = [feed(4, 20)];
    const food = 20 * 0.016 / Math.sqrt(6);
    const half = (twoU: number): number => Math.sqrt((twoU / 2) ** 2 - food * food) / (0.1 * Math.sqrt(2 / 3));
    expect(of({ feeds, otherIn: [grams(5, 0.4)], ...shared(half(1.99)) }).verdict).toBe("closed");
    expect(of({ feeds, otherIn: [grams(5, 0.4)], ...shared(half(2.01)) }).verdict).toBe("cannotTell");
  });
  test("a single flat reading that makes more than half of the variance is drawn: 95 % of its width", () => {
    const one = of({ otherIn: [grams(5, 2)], series: [series("NO3", [reading(0, 10, 0.001), reading(20, 24, 3)])] });
    // u stays that of a flat spread; 2,000 draws are good to some per cent.
    expect(Math.abs((one.u ?? NaN) / (0.3 / Math.sqrt(3)) - 1)).toBeLessThan(0.05);
    expect(Math.abs((one.range?.low ?? NaN) - (0.6 - 0.95 * 0.3))).toBeLessThan(0.009);
    expect(Math.abs((one.range?.high ?? NaN) - (0.6 + 0.95 * 0.3))).toBeLessThan(0.009);
    expect(one.unexplained).toBeCloseTo(0.6, 9);
  });
  test("so is a period with a reading below detection, though none makes more than half", () => {
    const plain = of({ otherIn: [grams(5, 2)], ...shared(2) });
    const [nitrate, nitrite] = shared(2).series;
    const below = { ...nitrite!, entries: nitrite!.entries.map((one) => ({ ...one, reading: { ...one.reading, censored: "below" as const } })) };
    const drawn = of({ otherIn: [grams(5, 2)], series: [nitrate!, below] });
    expect(plain.u).toBeCloseTo(u(2), 12);
    expect(drawn.u).not.toBeCloseTo(u(2), 6);
    expect(Math.abs((drawn.u ?? NaN) / u(2) - 1)).toBeLessThan(0.08);
    // Four flat errors of a = 0.2 / root 2: 2.5 % of their sum lie above (4 - 9.6^(1/4)) a.
    expect(Math.abs((drawn.range?.high ?? NaN) - (0.6 + (4 - 9.6 ** 0.25) * (0.2 / Math.SQRT2)))).toBeLessThan(0.025);
    expect(kinds(drawn)).toContain("belowDetection");
  });
});

describe("a period that cannot be reckoned", () => {
  test("for its bad cells, three of which are named, has no figures at all", () => {
    const bad = [1, 2, 3, 4, 5].map((day) => ({ day, row: day + 2, about: "feed" as const, sentence: `Row ${day + 2}.` }));
    const found = of({ otherIn: [grams(5, 2)], harvests: [harvest(20, 10)], ...shared(2), bad });
    expect(found).toMatchObject({ unexplained: null, u: null, range: null, doubt: null, verdict: "cannotTell" });
    expect(Object.values(found.parts)).toEqual([null, null, null, null, null, null]);
    expect(found.notes.slice(0, 4)).toEqual([{ kind: "badCell", sentence: "Row 3." }, { kind: "badCell", sentence: "Row 4." }, { kind: "badCell", sentence: "Row 5." }, { kind: "moreBadCells", count: 2 }]);
    expect(kinds(found)).not.toContain("harvestShare");
    expect(kinds(of({ ...shared(2), bad: bad.slice(0, 3) })).filter((kind) => kind.includes("ad"))).toEqual(["badCell", "badCell", "badCell"]);
  });
  test("for want of a test, or for one above the scale, keeps what does not need the water", () => {
    const log = { otherIn: [grams(5, 2)], otherOut: [grams(6, 0.5)], harvests: [harvest(20, 10)] };
    const untested = of(log);
    expect(untested).toMatchObject({ unexplained: null, u: null, range: null, verdict: "cannotTell", doubt: null });
    expect(untested.parts).toEqual({ feedIn: 0, otherIn: near(2), harvestOut: near(0.02), changeOut: 0, otherOut: near(0.5), storeChange: null });
    expect(kinds(untested)).toEqual(["noReading", "noFeed", "firstHarvest", "harvestShare"]);
    const above = of({ ...log, changes: [volume(8, 10)], series: [series("NO3", [reading(0, 10), reading(20, 50, 0, "above")])] });
    expect(above.parts).toMatchObject({ otherIn: near(2), changeOut: null, storeChange: null });
    expect(kinds(above)).toContain("aboveScale");
    // Without a change of water nothing was carried out by one, whatever the water held.
    expect(of({ ...log, series: [series("NO3", [reading(0, 10), reading(20, 50, 0, "above")])] }).parts.changeOut).toBe(0);
  });
  test("a lesser test is no account; a main test without readings among others is none either", () => {
    expect(kinds(of({ series: [series("NO2", [reading(0, 1), reading(20, 1)], { isMain: false })] }))).toContain("noReading");
    expect(kinds(of({ series: [series("NO3", []), series("NO3-N", [reading(0, 1), reading(20, 1)])] }))).not.toContain("noReading");
  });
});

describe("notes", () => {
  const tests = { series: [series("NO3", [reading(0, 10), reading(20, 10)])] };
  test("of what is missing: feed, a harvest, a screen that was never weighed", () => {
    expect(kinds(of(tests))).toEqual(["noFeed", "noHarvest"]);
    expect(kinds(of({ ...tests, feeds: [feed(4, 1)] }))).toEqual(["noHarvest"]);
    const two = { ...SURE, units: [screen({ litAreaM2: null, name: "left" }), screen({ litAreaM2: null, name: "right" })] };
    expect(of({ ...tests, feeds: [feed(4, 1)], harvests: [harvest(20, 10)] }, two).notes.slice(0, 2)).toEqual([{ kind: "firstHarvest", unit: "left" }, { kind: "neverWeighed", units: ["right"] }]);
  });
  test("of days between a period's end and the nearest test, from one whole day on", () => {
    const gap = (day: number): unknown => of({ series: [series("NO3", [reading(0, 10), reading(day, 10)])] }).notes.find(({ kind }) => kind === "interpolated");
    expect(gap(19.1)).toBeUndefined();
    expect(gap(19)).toEqual({ kind: "interpolated", days: 1 });
    expect(gap(17.5)).toEqual({ kind: "interpolated", days: 3 });
  });
  test("of grams fed back: 100 x 0.25 + 40 x 0.5", () => {
    const found = of({ ...tests, harvests: [harvest(10, 100, { fedBackShare: 0.25 }), harvest(20, 40, { fedBackShare: 0.5 })] });
    expect(found.notes.find(({ kind }) => kind === "fedBack")).toEqual({ kind: "fedBack", grams: near(45) });
    expect(kinds(of({ ...tests, harvests: [harvest(20, 40)] }))).not.toContain("fedBack");
  });
});

describe("the share of the input that the harvests took out", () => {
  const tests = { series: [series("NO3", [reading(0, 10), reading(20, 10)])] };
  test("has limits by a factor, from the relative uncertainties of both", () => {
    // In: 20 g x 0.08 (u 0.016 / root 6) x 0.9 (kept 0 to 0.2, u 0.2 / root 24) and 0.36 g: 1.8 g. Out: 500 g x 0.05 (0.04 to 0.06) x 0.04 = 1 g.
    const setUp = { ...SURE, retainedShare: triangular({ low: 0, value: 0.1, high: 0.2 }), feedShare: 0.1, harvestShare: 0.05, units: [screen({ litAreaM2: null, tissue: exact(0.04) })] };
    const found = shareIn(of({ ...tests, feeds: [feed(4, 20)], otherIn: [grams(5, 0.36)], harvests: [harvest(20, 500)] }, setUp));
    const input = Math.hypot((1.44 * 0.2) / Math.sqrt(6), (1.6 * 0.1) / Math.sqrt(6), (1.44 * 0.1) / Math.sqrt(3)) / 1.8;
    const out = Math.hypot(0.01 / Math.sqrt(3) / 0.05, 0.05 / Math.sqrt(3));
    const factor = Math.exp(2 * Math.hypot(input, out));
    expect(found).toEqual({ kind: "harvestShare", low: near(1 / 1.8 / factor), high: near((1 / 1.8) * factor) });
  });
  test("is exact where both are, and none without an input or a harvest", () => {
    expect(shareIn(of({ ...tests, otherIn: [grams(5, 4)], harvests: [harvest(20, 500)] }))).toEqual({ kind: "harvestShare", low: near(0.25), high: near(0.25) });
    expect(shareIn(of({ ...tests, otherIn: [grams(5, 4)] }))).toBeUndefined();
    expect(shareIn(of({ ...tests, harvests: [harvest(20, 500)] }))).toBeUndefined();
    expect(shareIn(of({ ...tests, otherIn: [grams(5, 4)], harvests: [harvest(20, 500, { fedBackShare: 1 })] }))).toBeUndefined();
  });
});

const lamp = (day: number, more: Partial<LightEntry>): LightEntry => ({ day, row: day + 2, unit: null, umolPerM2S: null, hoursPerDay: null, level: null, ...more });

describe("light sums", () => {
  // 100 umol m-2 s-1 for 10 h are 3.6 mol m-2 d-1.
  const units = [screen({ umolPerM2S: 100, hoursPerDay: 10 }), screen()];
  const sum = (light: readonly LightEntry[], from = 0, to = 10, unit = 0): unknown => lightSum({ light }, { units }, unit, from, to);
  test("hold the set-up's lamps until a change, and each change until the next", () => {
    expect(sum([])).toEqual({ molPerM2: near(36), hours: near(100) });
    expect(sum([lamp(4, { umolPerM2S: 200 }), lamp(7, { hoursPerDay: 5, level: 0.5 })])).toEqual({ molPerM2: near(3.6 * (4 + 3 * 2 + 3 * 0.5)), hours: near(10 * 7 + 3 * 2.5) });
    // At the start's own moment a change counts from there, at the end's no more.
    expect(sum([lamp(0, { umolPerM2S: 200 }), lamp(10, { umolPerM2S: 900 })])).toEqual({ molPerM2: near(72), hours: near(100) });
    expect(sum([lamp(-3, { umolPerM2S: 200 }), lamp(12, { umolPerM2S: 900 })])).toEqual({ molPerM2: near(72), hours: near(100) });
    expect(sum([lamp(4, { umolPerM2S: 200, unit: 1 })])).toEqual({ molPerM2: near(36), hours: near(100) });
  });
  test("are not known where light or hours are not, for any part of the time", () => {
    expect(sum([], 0, 10, 1)).toBeNull();
    expect(sum([lamp(0, { umolPerM2S: 100 })], 0, 10, 1)).toBeNull();
    expect(sum([lamp(0, { hoursPerDay: 10 })], 0, 10, 1)).toBeNull();
    expect(sum([lamp(3, { umolPerM2S: 100, hoursPerDay: 10 })], 0, 10, 1)).toBeNull();
    expect(sum([lamp(0, { umolPerM2S: 100, hoursPerDay: 10 })], 0, 10, 1)).toEqual({ molPerM2: near(36), hours: near(100) });
    expect(sum([], 0, 10, 2)).toBeNull();
  });
  test("of no time are nothing, whether the lamps are known or not", () => {
    expect(sum([], 5, 5)).toEqual({ molPerM2: 0, hours: 0 });
    expect(sum([], 5, 5, 1)).toEqual({ molPerM2: 0, hours: 0 });
  });
});

describe("harvests one by one", () => {
  const units = [screen({ name: "left", startedDay: 2 }), screen({ name: "right", litAreaM2: null })];
  const cycles = (log: Partial<Log>) => harvestCycles(logOf(log), { ...SURE, units });
  test("all of one moment are one, with growth since the one before or the start", () => {
    const found = cycles({ harvests: [harvest(10, 100), harvest(10, 20, { draining: "pressed" }), harvest(12, 40, { unit: 1 }), harvest(20, 50)] });
    // 5 + 2 g dry in 8 days on 0.1 m2: 8.75 g m-2 d-1.
    expect(found).toMatchObject([
      { day: 10, screen: "left", days: 8, isFirst: true, unread: null, drainedG: 120, dryG: { value: near(7), low: near(5.6) }, growth: { value: near(8.75) } },
      { day: 12, screen: "right", days: 12, isFirst: true, drainedG: 40, growth: null },
      { day: 20, screen: "left", days: 10, isFirst: false, drainedG: 50, growth: { value: near(2.5) } },
    ]);
  });
  test("a harvest cell that could not be used, after the one before and up to this one, leaves the growth unknown", () => {
    const bad = (day: number, about: "harvest" | "feed" = "harvest") => [{ day, row: day + 2, about, sentence: "Row: no number." }];
    const second = (log: Partial<Log>) => cycles({ harvests: [harvest(10, 100), harvest(20, 50)], ...log })[1];
    expect(second({ bad: bad(15) })).toMatchObject({ unread: "Row: no number.", days: null, growth: null });
    expect(second({ bad: bad(20) })).toMatchObject({ unread: "Row: no number.", days: null });
    for (const other of [bad(10), bad(20.5), bad(15, "feed")]) expect(second({ bad: other })).toMatchObject({ unread: null, days: 10 });
  });
  test("a harvest on the day of the start has no days", () => expect(cycles({ harvests: [harvest(2, 100)] })).toMatchObject([{ days: null, growth: null, drainedG: 100 }]));
  test("the readings are those of the main test", () => {
    const main = [reading(3, 5)];
    expect(mainReadings(logOf({ series: [series("NO2", [reading(1, 1)], { isMain: false }), series("NO3", main)] }))).toEqual(main);
    expect(mainReadings(logOf({ series: [series("NO2", [reading(1, 1)], { isMain: false })] }))).toEqual([]);
  });
});

describe("screens side by side", () => {
  const lit = { umolPerM2S: 100, hoursPerDay: 10, watts: 20 };
  const of = (more: object, log: Partial<Log>) => {
    const setUp = { ...SURE, units: [screen({ name: "left", startedDay: 2, ...more })] };
    return compareScreens(logOf(log), setUp, forPhosphorus(setUp));
  };
  test("a row for the first harvest and one for the later ones: growth, export, light yield, energy", () => {
    const found = of(lit, { harvests: [harvest(10, 100), harvest(15, 40, { fedBackShare: 0.5 }), harvest(20, 60)] });
    // First: 5 g dry in 8 days on 0.1 m2; 3.6 x 8 mol m-2; 20 W x 80 h = 1.6 kWh. Later: 5 g in 10 days, 4 g of it gone.
    expect(found).toMatchObject([
      { screen: "left", cycle: "first", harvests: 1, days: 8, drainedG: 100, dryG: { value: near(5), high: near(6) }, growth: { value: near(6.25) }, nitrogenGPerDay: near(0.025), phosphorusGPerDay: near(0.0025), lightYield: near(5 / 2.88), dryGPerKWh: near(5 / 1.6) },
      { screen: "left", cycle: "later", harvests: 2, days: 10, drainedG: 100, dryG: { value: near(5) }, growth: { value: near(5) }, nitrogenGPerDay: near(0.016), phosphorusGPerDay: near(0.0016), lightYield: near(5 / 3.6), dryGPerKWh: near(5 / 2) },
    ]);
  });
  test("what is not stated is not told", () => {
    const log = { harvests: [harvest(10, 100)] };
    expect(of({ ...lit, watts: null }, log)).toMatchObject([{ lightYield: near(5 / 2.88), dryGPerKWh: null }]);
    expect(of({ ...lit, litAreaM2: null }, log)).toMatchObject([{ growth: null, lightYield: null, dryGPerKWh: near(5 / 1.6) }]);
    expect(of({ watts: 20 }, log)).toMatchObject([{ lightYield: null, dryGPerKWh: null, growth: { value: near(6.25) } }]);
    expect(of({ ...lit, umolPerM2S: 0 }, log)).toMatchObject([{ lightYield: null }]);
  });
  test("a harvest on the first day ends a growth of unknown length: its weight and nothing else", () => {
    const found = of({ ...lit, startedDay: null }, { harvests: [harvest(0, 100), harvest(0, 20, { draining: "pressed" }), harvest(10, 40)] });
    expect(found).toMatchObject([
      { cycle: "first", harvests: 1, days: 0, drainedG: 120, growth: null, nitrogenGPerDay: 0, phosphorusGPerDay: 0, lightYield: null, dryGPerKWh: null },
      { cycle: "later", harvests: 1, days: 10, drainedG: 40, growth: { value: near(2) } },
    ]);
  });
  test("one that was never weighed has its row", () => {
    expect(of(lit, {})).toEqual([{ screen: "left", cycle: "neverWeighed", harvests: 0, days: 0, drainedG: 0, dryG: exact(0), growth: null, nitrogenGPerDay: 0, phosphorusGPerDay: 0, lightYield: null, dryGPerKWh: null }]);
  });
});
