import type { HarvestEntry, Log, ReadingEntry, RowEntry, SetUp } from "../../src/science/budget/log";
import { exact, rectangular } from "../../src/science/uncertain";
import { accountWarnings } from "../../src/science/warnings/account";
import type { Warning } from "../../src/science/warnings/warning";
import { forPhosphorus, grams, harvest, logOf, reading, screen, series, setUpOf } from "./hand-log";

/**
 * 100 L, exactly, with doses weighed exactly: what is unsure is the store, and what a test says. Each reading is known to plus or minus `half`
 * mg N/L, so to half / root 3; a store between two such has u = 0.1 x half x root (2 / 3). Nitrate and nitrite share it, half / root 2 each,
 * where no single reading is to make more than half of the variance.
 */
const ROOT3 = Math.sqrt(3);
const SURE: SetUp = setUpOf({ volumeL: exact(100), retainedShare: exact(0), harvestShare: 0, units: [screen({ litAreaM2: null, dryFraction: { drained: exact(0.05), pressed: exact(0.1) }, tissue: exact(0.04) })] });
const rowsTo = (last: number): RowEntry[] => Array.from({ length: last + 1 }, (_, day) => ({ day, row: day + 2, sameAs: null }));
const untested = { log: logOf({ nutrient: "P" as const }), setUp: forPhosphorus(SURE), substances: [] };
const warned = (log: Partial<Log>, setUp = SURE): Warning[] => accountWarnings({ N: { log: logOf({ rows: rowsTo(200), ...log }), setUp, substances: [] }, P: untested });
const tests = (...entries: ReadingEntry[]): Partial<Log> => ({ series: [series("NO3", entries)] });
const shared = (half: number, values: readonly (readonly [day: number, value: number])[]): Partial<Log> => ({
  series: [series("NO3", values.map(([day, value]) => reading(day, value, half / Math.SQRT2))), series("NO2", values.map(([day]) => reading(day, 5, half / Math.SQRT2)), { isMain: false })],
});
const near = (value: number): number => expect.closeTo(value, 9) as unknown as number;
const within = (value: number, off: number, found: unknown): void => expect(Math.abs((found as number) - value)).toBeLessThan(off);

describe("one period: 2 g came in and the water holds 1.4 g more", () => {
  const of = (half: number, dose = 2, more: Partial<Log> = {}): Warning[] => warned({ otherIn: [grams(5, dose)], ...shared(half, [[0, 10], [20, 24]]), ...more });
  const u = (half: number): number => 0.1 * half * Math.sqrt(2 / 3);
  test("the 0.6 g left over are a sink where they are more than three standard uncertainties, with limits at two", () => {
    expect(of(2.4)).toEqual([{ code: "UNEXPLAINED_SINK", severity: "caution", row: 22, day: 20, alike: 0, facts: { nutrient: "N", low: near(0.6 - 2 * u(2.4)), high: near(0.6 + 2 * u(2.4)), days: 20, whole: false } }]);
    // 3 u(2.45) is 0.60012; two would do only for a whole log of several periods.
    expect(of(2.45)).toEqual([]);
  });
  test("0.6 g too little are a source, with limits above zero", () => {
    expect(of(2.4, 0.8)).toEqual([{ code: "UNEXPLAINED_SOURCE", severity: "caution", row: 22, day: 20, alike: 0, facts: { nutrient: "N", low: near(0.6 - 2 * u(2.4)), high: near(0.6 + 2 * u(2.4)), days: 20, whole: false } }]);
    expect(of(2.45, 0.8)).toEqual([]);
  });
  test("no row is named where none has the day", () => {
    expect(of(2.4, 2, { rows: rowsTo(19) })).toMatchObject([{ code: "UNEXPLAINED_SINK", row: null, day: null, facts: { whole: false } }]);
  });
  test("of several rows of the day the last is named", () => {
    expect(of(2.4, 2, { rows: [...rowsTo(20), { day: 20, row: 30, sameAs: null }] })).toMatchObject([{ row: 30 }]);
  });
  test("a cell that cannot be used, or a reading above the scale, silences the period; so does an untested main series", () => {
    expect(of(2.4, 2, { bad: [{ day: 5, row: 7, about: "feed", sentence: "Row 7." }] })).toEqual([]);
    expect(warned({ otherIn: [grams(5, 20)], ...tests(reading(0, 10), reading(20, 24, 0, "above")) })).toEqual([]);
    expect(warned({ otherIn: [grams(5, 20)], series: [series("NO2", [reading(0, 1), reading(20, 1)], { isMain: false })] })).toEqual([]);
    expect(warned({ otherIn: [grams(5, 20)], lastDay: 0, ...tests(reading(0, 1)) })).toEqual([]);
  });
  test("where one flat reading makes most of it the limits are drawn: 95 % of its width, not two standard uncertainties", () => {
    // The second reading within 3 mg/L, 0.3 g: u is 0.1732, the limits of the middle 95 % are 0.285 g away. 2,000 draws: four times 0.7 % of 0.3.
    const [found] = warned({ otherIn: [grams(5, 2)], ...tests(reading(0, 10, 0.001), reading(20, 24, 3)) });
    const { low, high } = found?.facts as { low: number; high: number };
    within(0.6 - 0.95 * 0.3, 4 * 0.0021, low);
    within(0.6 + 0.95 * 0.3, 4 * 0.0021, high);
    expect(high).toBeLessThan(0.9);
  });
  test("and where a reading is below detection, though none of four makes more than a quarter", () => {
    // Four flat errors of a = 0.2 / root 2 g: a share (4 - x)^4 / 384 of their sum lies above x a, which is 2.5 % at x = 4 - 9.6^(1/4).
    const { series: [nitrate, nitrite] = [] } = shared(2, [[0, 10], [20, 24]]);
    if (!nitrate || !nitrite) throw new Error("no series");
    const below = { ...nitrite, entries: nitrite.entries.map((one) => ({ ...one, reading: { ...one.reading, censored: "below" as const } })) };
    const [found] = warned({ otherIn: [grams(5, 2)], series: [nitrate, below] });
    const { low, high } = found?.facts as { low: number; high: number };
    const reach = (4 - 9.6 ** 0.25) * (0.2 / Math.SQRT2);
    within(0.6 - reach, 0.025, low);
    within(0.6 + reach, 0.025, high);
    expect(Math.abs(high - (0.6 + 2 * u(2)))).toBeGreaterThan(1e-6);
  });
});

describe("several periods, from harvest to harvest", () => {
  const weighed = (count: number, every = 10, more: Partial<HarvestEntry> = {}): HarvestEntry[] => Array.from({ length: count }, (_, place) => harvest(every * (place + 1), 1e-6, more));
  const level = (count: number, half: number, every = 10): Partial<Log> => shared(half, Array.from({ length: count + 1 }, (_, place) => [every * place, 10] as const));
  const doses = (...amounts: readonly number[]) => amounts.flatMap((amount, place) => (amount === 0 ? [] : [grams(10 * place + 5, amount)]));
  /** A harvest of next to nothing bounds a period; that it would have to be all nutrient is another warning. */
  const leftOver = (found: readonly Warning[]): Warning[] => found.filter(({ code }) => code !== "TISSUE_IMPLIED");
  const list = (found: readonly Warning[]): unknown[] => leftOver(found).map(({ code, row, alike }) => [code, row, alike]);
  test("the three latest of a kind are listed in their order, the last with the count of the others", () => {
    // 0.6 g each, with u = 0.1 x 1 x 0.8165: more than seven of them.
    const found = warned({ lastDay: 50, harvests: weighed(5), otherIn: doses(0.6, 0.6, 0.6, 0.6, 0.6), ...level(5, 1) });
    expect(list(found)).toEqual([["UNEXPLAINED_SINK", 32, 0], ["UNEXPLAINED_SINK", 42, 0], ["UNEXPLAINED_SINK", 52, 2]]);
    const sources = warned({ lastDay: 50, harvests: weighed(5), otherOut: doses(0.6, 0.6, 0.6, 0.6, 0.6), ...level(5, 1) });
    expect(list(sources)).toEqual([["UNEXPLAINED_SOURCE", 32, 0], ["UNEXPLAINED_SOURCE", 42, 0], ["UNEXPLAINED_SOURCE", 52, 2]]);
  });
  test("sources stand before sinks", () => {
    const found = warned({ lastDay: 20, harvests: weighed(2), otherIn: doses(0.6, 0), otherOut: doses(0, 0.6), ...level(2, 1) });
    expect(list(found)).toEqual([["UNEXPLAINED_SOURCE", 22, 0], ["UNEXPLAINED_SINK", 12, 0]]);
  });
  test("the latest three of a kind are drawn, be there others of the other kind; older ones are counted by first order", () => {
    // One wide reading ends each of four periods with a narrow one after it: limits at 95 % of its width where drawn.
    const wide = Array.from({ length: 9 }, (_, place) => reading(5 * place, 10, place % 2 === 1 ? 1 : 0.001));
    const harvests = weighed(8, 5);
    const found = warned({ lastDay: 40, harvests, otherIn: [2, 12, 22, 32].map((day) => grams(day, 0.6)), otherOut: [7, 17, 27, 37].map((day) => grams(day, 0.6)), ...tests(...wide) });
    expect(list(found)).toEqual([["UNEXPLAINED_SOURCE", 22, 0], ["UNEXPLAINED_SOURCE", 32, 0], ["UNEXPLAINED_SOURCE", 42, 1], ["UNEXPLAINED_SINK", 17, 0], ["UNEXPLAINED_SINK", 27, 0], ["UNEXPLAINED_SINK", 37, 1]]);
    for (const { facts } of leftOver(found)) {
      const { low, high } = facts as { low: number; high: number };
      within(0.6 - 0.095, 0.003, low);
      within(0.6 + 0.095, 0.003, high);
    }
  });
  test("what no period shows may show over the whole log, at two standard uncertainties and without a row", () => {
    // 0.2 g in each of two periods, u = 0.0816 x 1: 2.4 u in each, 4.9 u in both together.
    const found = warned({ lastDay: 20, harvests: weighed(2), otherIn: doses(0.2, 0.2), ...level(2, 1) });
    const u = 0.1 * Math.sqrt(2 / 3);
    expect(found).toEqual([{ code: "UNEXPLAINED_SINK", severity: "caution", row: null, day: null, alike: 0, facts: { nutrient: "N", low: expect.closeTo(0.4 - 2 * u, 6) as unknown as number, high: expect.closeTo(0.4 + 2 * u, 6) as unknown as number, days: 20, whole: true } }]);
    // 0.08 g in all is less than 2 u.
    expect(warned({ lastDay: 20, harvests: weighed(2), otherIn: doses(0.04, 0.04), ...level(2, 1) })).toEqual([]);
    // And where one period has its own warning the whole log has none.
    expect(list(warned({ lastDay: 20, harvests: weighed(2), otherIn: doses(0.2, 0.6), ...level(2, 1) }))).toEqual([["UNEXPLAINED_SINK", 22, 0]]);
  });
  test("of more than a hundred periods the oldest count in the whole log only", () => {
    const found = warned({ lastDay: 101, harvests: weighed(101, 1), otherIn: [grams(0.5, 5)], ...level(101, 0.5, 1) });
    expect(list(found)).toEqual([["UNEXPLAINED_SINK", null, 0]]);
    expect(list(warned({ lastDay: 101, harvests: weighed(101, 1), otherIn: [grams(1.5, 5)], ...level(101, 0.5, 1) }))).toEqual([["UNEXPLAINED_SINK", 4, 0]]);
  });
});

describe("the tissue content at which the harvests would have taken all", () => {
  const tissueOf = (found: readonly Warning[]): unknown[] => found.filter(({ code }) => code === "TISSUE_IMPLIED").map(({ severity, row, alike, facts }) => [severity, row, alike, facts]);
  const fact = (share: number): unknown => ({ nutrient: "N", share: near(share), most: 0.08, stated: false });
  test("5 g dry that hold 0.2 g, and 0.3 g left over: 10 % less three standard uncertainties of the store", () => {
    const log = { harvests: [harvest(20, 100)], otherIn: [grams(5, 1.9)], ...tests(reading(0, 10, 0.2), reading(20, 24, 0.2)) };
    const u = 0.02 * Math.sqrt(2 / 3);
    expect(tissueOf(warned(log))).toEqual([["caution", 22, 0, fact((0.2 + 0.3 - 3 * u) / 5)]]);
    // 0.25 g left over would be 9 %, less those 1 %: 8 % is what the richest algae hold.
    expect(tissueOf(warned({ ...log, otherIn: [grams(5, 1.84)] }))).toEqual([]);
  });
  test("the doubt about dry fraction, tissue and standing crop is no excuse, that about weighings and the store is", () => {
    // Two screens: the left one is harvested on day 20 (100 g), the right one on day 10 (40 g), and is taken to hold as much again on day 20.
    const unit = screen({ litAreaM2: null, dryFraction: { drained: rectangular(0.04, 0.06), pressed: rectangular(0.09, 0.11) }, tissue: rectangular(0.03, 0.05) });
    const setUp = { ...SURE, harvestShare: 0.05, units: [unit, unit] };
    const harvests = [harvest(10, 40, { unit: 1 }), harvest(20, 100)];
    const [dryG, weighing] = [5 + 2 + 2, [(0.2 * 0.05) / ROOT3, (0.08 * 0.05) / ROOT3]];
    const rest = Math.hypot(0.02 * Math.sqrt(2 / 3), ...weighing);
    const left = 2.5 - 1.4 - 0.04 * dryG;
    // At the highest dry fraction, 1.2 times the likely one of drained algae.
    const share = (0.04 * dryG + left - 3 * rest) / (1.2 * dryG);
    expect(share).toBeGreaterThan(0.08);
    expect(tissueOf(warned({ harvests, otherIn: [grams(5, 2.5)], ...tests(reading(0, 10, 0.2), reading(20, 24, 0.2)) }, setUp))).toEqual([["caution", 22, 0, fact(share)]]);
  });
  test("is not asked where nothing was harvested, or where as much was taken as stood there at the start", () => {
    expect(tissueOf(warned({ otherIn: [grams(5, 9)], ...tests(reading(0, 10), reading(20, 24)) }))).toEqual([]);
    expect(tissueOf(warned({ harvests: [harvest(0, 100)], otherIn: [grams(5, 9)], ...tests(reading(0, 10), reading(20, 24)) }))).toEqual([]);
  });
  test("is told for the latest such period, with the count of the others", () => {
    const harvests = [harvest(5, 1), harvest(10, 1), harvest(20, 1)];
    expect(tissueOf(warned({ harvests, otherIn: [grams(2, 1), grams(7, 1), grams(15, 1)], ...tests(reading(0, 10, 0.1), reading(5, 10, 0.1), reading(10, 10, 0.1), reading(20, 10, 0.1)) }))).toEqual([
      ["caution", 22, 2, fact((0.002 + 0.998 - 0.03 * Math.sqrt(2 / 3)) / 0.05)],
    ]);
  });
  test("that the set-up states is serious above 8 % N, and stands without a row", () => {
    const stating = (share: number) => ({ ...SURE, units: [screen(), screen({ tissue: exact(share) })] });
    expect(warned({}, stating(0.09))).toEqual([{ code: "TISSUE_IMPLIED", severity: "serious", row: null, day: null, alike: 0, facts: { nutrient: "N", share: 0.09, most: 0.08, stated: true } }]);
    expect(warned({}, stating(0.08))).toEqual([]);
  });
});
