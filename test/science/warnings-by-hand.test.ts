import type { ReadingEntry, ReadingSeries } from "../../src/science/budget/log";
import { trendOf } from "../../src/science/trend";
import { readingWarnings } from "../../src/science/warnings/readings";
import type { Warning } from "../../src/science/warnings/warning";
import { logOf, reading, series, setUpOf } from "./hand-log";

/** Warnings of readings whose limits are stated outright: mg of the element per litre, 100 L. */
const given = (n: readonly ReadingSeries[], p: readonly ReadingSeries[] = []): Warning[] => {
  const setUp = setUpOf();
  return readingWarnings({ N: { log: logOf({ lastDay: 400, series: n }), setUp, substances: [] }, P: { log: logOf({ nutrient: "P", lastDay: 400, series: p }), setUp, substances: [] } });
};
const only = (code: Warning["code"], found: readonly Warning[]): Warning[] => found.filter((one) => one.code === code);
const raised = (code: Warning["code"], severity: Warning["severity"], entry: ReadingEntry, facts: object): unknown => ({ code, severity, row: entry.row, day: entry.day, alike: 0, facts });
const near = (value: number): number => expect.closeTo(value, 9) as unknown as number;

describe("below detection", () => {
  const of = (...entries: ReadingEntry[]): Warning[] => only("BELOW_DETECTION", given([series("NH4", entries, { isMain: false })]));
  test("names the latest such reading of a test, be it the first or the last of its readings", () => {
    const [first, last] = [reading(0, 0.1, 0.1, "below"), reading(9, 0.1, 0.1, "below")];
    expect(of(first, reading(4, 2), reading(9, 3))).toEqual([raised("BELOW_DETECTION", "note", first, { test: "NH4" })]);
    expect(of(first, reading(4, 2), last)).toEqual([raised("BELOW_DETECTION", "note", last, { test: "NH4" })]);
    expect(of(reading(0, 2), reading(4, 50, 0, "above"))).toEqual([]);
    expect(of()).toEqual([]);
  });
});

describe("two or three readings rise where their limits lie apart; a test repeats to a tenth of itself at best", () => {
  const of = (...entries: ReadingEntry[]): Warning[] => only("READING_RISING", given([series("NO3", entries)]));
  test("from 10 to 13 in 20 days, by 30 %: 13 - 1.3 is more than 10 + 1", () => {
    const last = reading(20, 13);
    expect(of(reading(0, 10), last)).toEqual([raised("READING_RISING", "caution", last, { test: "NO3", risePercent: near(30), days: 20 })]);
    expect(of(reading(0, 10), reading(8, 9), last)).toEqual([raised("READING_RISING", "caution", last, { test: "NO3", risePercent: near(30), days: 20 })]);
  });
  test("not where they touch: 10 + 2 and 15 - 3", () => {
    expect(of(reading(0, 10, 2), reading(20, 15, 3))).toEqual([]);
    expect(of(reading(0, 10, 2), reading(20, 15.1, 3))).toHaveLength(1);
  });
  test("not for a lesser test, for a fall, or for a single reading", () => {
    expect(only("READING_RISING", given([series("NO2", [reading(0, 10), reading(20, 13)], { isMain: false })]))).toEqual([]);
    expect(of(reading(0, 13), reading(20, 10))).toEqual([]);
    expect(of(reading(0, 13))).toEqual([]);
    expect(of()).toEqual([]);
  });
  test("readings above the scale do not count: not as the first, and nothing is said at such a last", () => {
    const last = reading(20, 13);
    expect(of(reading(0, 5, 0, "above"), reading(5, 10), last)).toEqual([raised("READING_RISING", "caution", last, { test: "NO3", risePercent: near(30), days: 15 })]);
    expect(of(reading(0, 10), reading(20, 50, 0, "above"))).toEqual([]);
    expect(of(reading(0, 10), reading(5, 10), reading(20, 50, 0, "above"))).toEqual([]);
  });
  test("nor do those of more than 120 days ago", () => {
    expect(of(reading(100, 10), reading(221, 13))).toEqual([]);
    expect(of(reading(101, 10), reading(221, 13))).toMatchObject([{ facts: { days: 120 } }]);
    const last = reading(221, 13);
    expect(of(reading(100, 2), reading(105, 10), last)).toEqual([raised("READING_RISING", "caution", last, { test: "NO3", risePercent: near(30), days: 116 })]);
  });
  test("nor those before the last twelve", () => {
    // The first of thirteen is 5 and would make it a rise; of the last twelve the first is 10 and the last 11.
    expect(of(...Array.from({ length: 13 }, (_, place) => reading(place, place === 0 ? 5 : place === 12 ? 11 : 10)))).toEqual([]);
  });
});

describe("four readings or more rise by their trend", () => {
  const of = (...entries: ReadingEntry[]): Warning[] => only("READING_RISING", given([series("NO3", entries)]));
  const slopeOf = (entries: readonly ReadingEntry[]): number => trendOf(entries.map(({ day, reading: { value, low, high } }) => ({ day, low: Math.min(low, 0.9 * value), high: Math.max(high, 1.1 * value) }))).slopePerDay;
  test("10, 15, 22, 32 in 30 days: each pair apart, so the trend's lower limit is above zero; per cent of where the trend begins", () => {
    const entries = [reading(0, 10), reading(10, 15), reading(20, 22), reading(30, 32)];
    const rise = 30 * slopeOf(entries);
    expect(rise).toBeGreaterThan(15);
    expect(rise).toBeLessThan(25);
    expect(of(...entries)).toEqual([raised("READING_RISING", "caution", entries[3] as ReadingEntry, { test: "NO3", risePercent: near((100 * rise) / (32 - rise)), days: 30 })]);
  });
  test("a trend that begins under the first reading's own limits is told in per cent of that reading", () => {
    const entries = [reading(0, 1, 0.1), reading(10, 12), reading(20, 21), reading(30, 30)];
    const rise = 30 * slopeOf(entries);
    expect(30 - rise).toBeLessThan(0.9);
    expect(of(...entries)).toMatchObject([{ facts: { risePercent: near(100 * rise) } }]);
  });
  test("not where one pair overlaps, which four readings cannot spare", () => {
    expect(of(reading(0, 10), reading(10, 11), reading(20, 22), reading(30, 32))).toEqual([]);
  });
  test("not where the rise is less than the middle width of the limits", () => {
    // Three readings of 9 to 11 on days 100 to 102, five of 12 to 20 on days 110 to 114. 15 pairs rise, more than 1.96 sqrt 45. As many rise as fall
    // from a slope of (12 - 11) / 8 to one of (20 - 9) / 14: in the middle 0.4554, 6.4 in 14 days, and the middle width is 8.
    const low = [100, 101, 102].map((day) => reading(day, 10, 1));
    const high = [110, 111, 112, 113, 114].map((day) => reading(day, 16, 4));
    expect(14 * slopeOf([...low, ...high])).toBeCloseTo(7 * (1 / 8 + 11 / 14), 6);
    expect(of(...low, ...high)).toEqual([]);
  });
  test("one reading with wide limits among narrow ones does not hide a rise", () => {
    // Six of 9 to 11, one of 5 to 35, five of 14.4 to 17.6 ten days later: the middle slope is that between 3.4 / 15 and 8.6 / 24,
    // 7.02 in 24 days. It begins at 8.98, under the limits of the first reading, so that per cent are of 10.
    const entries = [...[0, 1, 2, 3, 4, 5].map((day) => reading(day, 10, 1)), reading(10, 20, 15), ...[20, 21, 22, 23, 24].map((day) => reading(day, 16, 1))];
    const rise = 12 * (3.4 / 15 + 8.6 / 24);
    expect(of(...entries)).toMatchObject([{ row: 26, facts: { risePercent: expect.closeTo(10 * rise, 4) as unknown as number, days: 24 } }]);
  });
});

describe("nitrogen to phosphorus", () => {
  const both = (n: ReadingEntry, p: ReadingEntry): Warning[] => given([series("NO3", [n])], [series("PO4", [p])]).filter(({ code }) => code === "NP_RATIO" || code === "NUTRIENT_SHORT");
  test("10 to 0.1 is 100 to 1, and algae take up 7 to 14", () => {
    const [n, p] = [reading(5, 10), reading(3, 0.1, 0.01)];
    expect(both(n, p)).toEqual([raised("NP_RATIO", "note", n, { ratio: near(100), low: 7, high: 14 })]);
  });
  test("stands at the later of the two readings; of one day, at that of phosphorus", () => {
    const [n, p] = [reading(5, 10), reading(9, 0.1, 0.01)];
    expect(both(n, p)).toMatchObject([{ row: p.row, day: 9 }]);
    expect(both({ ...n, row: 40 }, { ...p, day: 5, row: 41 })).toMatchObject([{ row: 41, day: 5 }]);
  });
  test("at the very limits nothing is said: 42 / 1 and 7 / 3", () => {
    expect(both(reading(5, 43, 1), reading(5, 0.9, 0.1))).toEqual([]);
    expect(both(reading(5, 43.1, 1), reading(5, 0.9, 0.1))).toHaveLength(1);
    expect(both(reading(5, 6, 1), reading(5, 4, 1))).toEqual([]);
    expect(both(reading(5, 5.9, 1), reading(5, 4, 1))).toMatchObject([{ code: "NP_RATIO", facts: { ratio: near(5.9 / 4) } }]);
  });
  test("readings two weeks apart are compared, and no further", () => {
    for (const [from, to] of [[0, 14], [14, 0]] as const) {
      expect(both(reading(from, 10), reading(to, 0.1, 0.01))).toHaveLength(1);
      expect(both(reading(from, 10), reading(to === 0 ? -1 : 15, 0.1, 0.01))).toEqual([]);
    }
  });
  test("a reading without an upper limit tells no ratio", () => {
    expect(both(reading(5, 10), reading(5, 5, 0, "above"))).toEqual([]);
    expect(both(reading(5, 50, 0, "above"), reading(5, 0.5, 0.1))).toEqual([]);
    // Nor does one below detection where the other is no plenty: 0.01 is less than 3 x 0.031.
    expect(both(reading(5, 0.05, 0.05, "below"), reading(5, 0.05, 0.001))).toEqual([]);
  });
  test("phosphorus at 0.006 or less holds growth back, nitrogen of 3 x 0.196 or more is plenty", () => {
    const [n, p] = [reading(5, 1, 1 - 3 * 0.196), reading(6, 0.006, 0.001)];
    expect(n.reading.low).toBe(3 * 0.196);
    expect(both(n, p)).toEqual([raised("NUTRIENT_SHORT", "caution", p, { short: "PO4", plentiful: "NO3" })]);
    expect(both(n, reading(6, 0.0061, 0.001)).map(({ code }) => code)).toEqual(["NP_RATIO"]);
    expect(both(reading(5, 0.9, 0.35), p).map(({ code }) => code)).toEqual(["NP_RATIO"]);
  });
  test("nitrogen at 0.05 or below detection holds it back while phosphorus is 3 x 0.031 or more", () => {
    const p = { ...reading(6, 0.2), reading: { value: 0.2, low: 3 * 0.031, high: 0.3, u: 0.05, censored: "no" as const } };
    expect(both(reading(5, 0.05, 0.01), p)).toEqual([raised("NUTRIENT_SHORT", "caution", p, { short: "NO3", plentiful: "PO4" })]);
    expect(both(reading(5, 0.25, 0.25, "below"), p)).toMatchObject([{ code: "NUTRIENT_SHORT", facts: { short: "NO3", plentiful: "PO4" } }]);
    // What the kit cannot show is no plenty, whatever its limits.
    expect(both(reading(5, 0.05, 0.01), { ...p, reading: { ...p.reading, censored: "below" as const } })).toEqual([]);
  });
  test("asks the main test that has readings", () => {
    const [empty, lesser, main] = [series("NO3", []), series("NH4", [reading(5, 0.01, 0.001)], { isMain: false }), series("NO3-N", [reading(5, 10)])];
    const p = [series("PO4", [reading(5, 0.001, 0.0005)])];
    expect(only("NUTRIENT_SHORT", given([empty, lesser, main], p))).toMatchObject([{ facts: { short: "PO4", plentiful: "NO3-N" } }]);
    expect(given([empty, lesser], p)).toEqual([]);
  });
});
