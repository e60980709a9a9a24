import { concentrationPath, lowerBound, type Mixture } from "../../src/science/budget/concentration";
import type { ReadingEntry, VolumeEntry } from "../../src/science/budget/log";

/** The water of 100 L between its readings, worked by hand. */
const readings = (...days: number[]): ReadingEntry[] => days.map((day, place) => ({ day, row: place + 2, reading: { value: 0, low: 0, high: 0, u: 0, censored: "no" } }));
const changes = (...given: [day: number, litres: number][]): VolumeEntry[] => given.map(([day, litres], place) => ({ day, litres, row: place + 2 }));
const valueOf = ({ weights, incoming }: Mixture, values: readonly number[], newWater = 0): number => weights.reduce((sum, [place, weight]) => sum + weight * (values[place] ?? NaN), 0) + incoming * newWater;
const at = (entries: ReadingEntry[], changed: VolumeEntry[], day: number, side: "before" | "after", values: readonly number[], newWater = 0): number =>
  valueOf(concentrationPath(entries, changed, 100).at(day, side), values, newWater);

describe("without changes the water goes straight from reading to reading", () => {
  const path = concentrationPath(readings(0, 10, 20), [], 100);
  test.each([
    [0, [10]], [5, [15]], [10, [20]], [12, [18]], [20, [10]],
  ])("day %d", (day, [expected]) => {
    for (const side of ["before", "after"] as const) expect(valueOf(path.at(day, side), [10, 20, 10])).toBeCloseTo(expected ?? NaN, 12);
  });
  test("outside the readings it stays as it was there", () => {
    expect(valueOf(path.at(-4, "before"), [10, 20, 30])).toBe(10);
    expect(valueOf(path.at(27, "after"), [10, 20, 30])).toBe(30);
  });
  test("how far it may have drifted: a b / (a + b) between readings, the whole way outside", () => {
    expect(path.at(4, "before")).toMatchObject({ driftDays: 2.4, nearestDays: 4 });
    expect(path.at(17, "after")).toMatchObject({ driftDays: 2.1, nearestDays: 3 });
    expect(path.at(10, "before")).toMatchObject({ driftDays: 0, nearestDays: 0 });
    expect(path.at(10, "after")).toMatchObject({ driftDays: 0, nearestDays: 0 });
    expect(path.at(-4, "after")).toMatchObject({ driftDays: 4, nearestDays: 4 });
    expect(path.at(23, "before")).toMatchObject({ driftDays: 3, nearestDays: 3 });
  });
});

describe("a change of half the water on day 4, between readings of 10 and of 11 on days 0 and 10", () => {
  // 10 + 4 r, halved, then 6 r up to 11: 5 + 2 r + 6 r = 11, r = 0.75.
  const [entries, half] = [readings(0, 10), changes([4, 50])];
  test.each([
    [2, "before", 11.5], [4, "before", 13], [4, "after", 6.5], [6, "after", 8], [10, "before", 11],
  ] as const)("day %d, %s it: %d", (day, side, expected) => expect(at(entries, half, day, side, [10, 11])).toBeCloseTo(expected, 12));
  test("new water at 4 brings 2 of it: 5 + 2 r + 2 + 6 r = 11, r = 0.5", () => {
    expect(at(entries, half, 4, "before", [10, 11], 4)).toBeCloseTo(12, 12);
    expect(at(entries, half, 4, "after", [10, 11], 4)).toBeCloseTo(8, 12);
    expect(at(entries, half, 7, "before", [10, 11], 4)).toBeCloseTo(9.5, 12);
  });
  test("two changes: of half on day 4 and of a fifth on day 8", () => {
    // 10 + 4 r -> 5 + 2 r -> 5 + 6 r -> 4 + 4.8 r -> 4 + 6.8 r = 10.8, r = 1.
    const two = changes([4, 50], [8, 20]);
    expect(at(entries, two, 8, "before", [10, 10.8])).toBeCloseTo(11, 12);
    expect(at(entries, two, 8, "after", [10, 10.8])).toBeCloseTo(8.8, 12);
    expect(at(entries, two, 9, "before", [10, 10.8])).toBeCloseTo(9.8, 12);
  });
});

describe("a change at the moment of a reading comes after it", () => {
  const path = concentrationPath(readings(0, 10), changes([0, 50], [10, 25]), 100);
  test("at the first reading", () => {
    expect(valueOf(path.at(0, "after"), [10, 20])).toBeCloseTo(5, 12);
    // From 5 to 20 in ten days.
    expect(valueOf(path.at(4, "before"), [10, 20])).toBeCloseTo(11, 12);
  });
  test("at the last reading, and it stays so", () => {
    expect(valueOf(path.at(10, "before"), [10, 20])).toBeCloseTo(20, 12);
    expect(valueOf(path.at(10, "after"), [10, 20])).toBeCloseTo(15, 12);
    expect(valueOf(path.at(12, "before"), [10, 20], 8)).toBeCloseTo(17, 12);
  });
});

describe("before the first reading each change is taken out again", () => {
  const path = concentrationPath(readings(10), changes([4, 50], [8, 20]), 100);
  test.each([
    // 12 is what a fifth less of 15 leaves, and 15 what half of 30 leaves.
    [9, "before", 12], [8, "after", 12], [8, "before", 15], [6, "before", 15], [4, "after", 15], [4, "before", 30], [0, "after", 30],
  ] as const)("day %d, %s it: %d", (day, side, expected) => expect(valueOf(path.at(day, side), [12])).toBeCloseTo(expected, 12));
  test("with what the new water brought: (12 - 0.2 x 2) / 0.8 = 14.5", () => expect(valueOf(path.at(8, "before"), [12], 2)).toBeCloseTo(14.5, 12));
  test("a change at the reading's own moment comes after it and is not taken out", () => {
    const own = concentrationPath(readings(10), changes([10, 50]), 100);
    expect(valueOf(own.at(10, "before"), [12])).toBe(12);
    expect(valueOf(own.at(9, "after"), [12])).toBe(12);
    expect(valueOf(own.at(10, "after"), [12])).toBe(6);
  });
  test("a change of more than two thirds of the water is not taken out: what was there before is not known", () => {
    expect(at(readings(10), changes([4, 100]), 2, "before", [12])).toBeCloseTo(12, 9);
    expect(at(readings(10), changes([4, 60], [6, 60]), 2, "before", [12])).toBeCloseTo(30, 9);
    expect(at(readings(0, 10), changes([4, 100]), 4, "after", [12, 6])).toBeCloseTo(0, 12);
    expect(at(readings(0, 10), changes([4, 250]), 7, "after", [12, 6])).toBeCloseTo(3, 12);
  });
});

test("the first place from which a condition holds", () => {
  expect([0, 1, 3, 4, 9].map((least) => lowerBound([1, 3, 3, 5], (one) => one >= least))).toEqual([0, 0, 1, 3, 4]);
  expect(lowerBound([], () => true)).toBe(0);
});
