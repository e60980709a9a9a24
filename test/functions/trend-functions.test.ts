import { CellError } from "../../src/functions/cell-error";
import { errorOf, number, rows, value } from "../call";

const column = (cells: readonly unknown[]): unknown[][] => cells.map((cell) => [cell]);
const DAYS = [0, 3, 7, 10, 14, 17, 21, 24, 28];
const DATES = column(DAYS.map((day) => 46000 + day));
const FALLING = column([20, 20, 15, 15, 15, 10, 10, 5, 7.5]);
const slope = (readings: unknown[][], kit?: unknown): unknown[] => rows("TREND_SLOPE", DATES, readings, kit ?? null, false)[0] ?? [];

describe("TREND_SLOPE", () => {
  test("gives slope, limits, p and a sentence, under headings", () => {
    const [headings, row] = rows("TREND_SLOPE", DATES, FALLING) as [unknown[], unknown[]];
    expect(headings).toEqual(["Slope a day", "Low", "High", "Chance without a trend (p)", "In words"]);
    expect(row[0]).toBeCloseTo(-0.5, 9);
    expect(row[1]).toBeCloseTo(-0.714286, 6);
    expect(row[2]).toBeCloseTo(-0.357143, 6);
    expect(row[3]).toBeCloseTo(0.0025827, 7);
    expect(row[4]).toBe("Falling by 2.5 to 5 a week.");
    expect(rows("TREND_SLOPE", DATES, FALLING, null, 0)).toEqual([row]);
  });
  test("rows in another order and rows without a reading change nothing", () => {
    const dates = [...DATES.slice(5), [""], [46100], ...DATES.slice(0, 5)];
    const readings = [...FALLING.slice(5), [null], [" "], ...FALLING.slice(0, 5)];
    expect(rows("TREND_SLOPE", dates, readings)).toEqual(rows("TREND_SLOPE", DATES, FALLING));
  });
  test("a row of cells serves as well as a column", () => {
    expect(rows("TREND_SLOPE", [DATES.flat()], [FALLING.flat()])).toEqual(rows("TREND_SLOPE", DATES, FALLING));
  });
  test("says when there is no trend to tell", () => {
    expect(slope(column([10, 12, 9, 11, 10, 12, 9, 11, 10]))[4]).toBe("No trend can be told from these readings.");
  });
  test("below detection is a tie whatever the text says, and never a zero", () => {
    const [dot, kit, nd] = [["<2", "<2", "<2"], [0, 0, 0], ["nd", "nd", "nd"]].map((end) => slope(column([20, 20, 15, 15, 10, 10, ...end]), "0 4 10 15 20"));
    expect(kit).toEqual(dot);
    expect(nd).toEqual(dot);
    expect(dot?.[4]).toContain("3 of 9 readings are below detection and count as ties.");
    const asZero = slope(column([20, 20, 15, 15, 10, 10, 1e-9, 1e-9, 1e-9]));
    expect(dot?.[0]).toBeGreaterThan(asZero[0] as number);
  });
  test("three readings below three limits are no trend of the limits", () => {
    expect(slope(column([3, "<2", "<4", "<8", 3, "<16", 3, "<2", 3]))[4]).toContain("No trend can be told");
  });
  test("a reading above the scale is only that: the upper limit of the rise stays open", () => {
    const [, low, high, , words] = slope(column([10, 12, 15, 18, 20, 22, ">25", ">25", ">25"]));
    expect(low).toBeGreaterThan(0.4);
    expect(high).toBe("no limit");
    expect(words).toBe(`Rising by ${Number((7 * (low as number)).toPrecision(2))} a week or more. 3 of 9 readings are above the kit's scale, and no more than that is taken from them.`);
  });
  test("all blank is blank", () => expect(rows("TREND_SLOPE", [[null], [null]], [[null], [""]])).toEqual([[""]]));
  test("more than 80 % below detection leaves the share", () => {
    const error = errorOf("TREND_SLOPE", DATES, column(["<2", "<2", "<2", "<2", "<2", "<2", "<2", "<2", 5]));
    expect(error).toMatchObject({ code: "#N/A", message: "8 of 9 readings are below detection: no more than that share can be told. Use a test with a lower range." });
  });
  test("what cannot be used is named with its row", () => {
    const spoilt = (place: number, cell: unknown): unknown[][] => FALLING.map((row, at) => (at === place ? [cell] : row));
    expect(errorOf("TREND_SLOPE", DATES, spoilt(3, "a lot"))).toMatchObject({ code: "#VALUE!", message: expect.stringContaining('Row 4 of the range: "a lot" is not understood as a reading') });
    expect(errorOf("TREND_SLOPE", DATES, spoilt(3, 0)).message).toContain("Row 4 of the range: A test that shows 0 means: below what the kit can show.");
    expect(errorOf("TREND_SLOPE", DATES, spoilt(2, true)).message).toContain("Row 3 of the range: true is not understood");
    expect(errorOf("TREND_SLOPE", DATES, spoilt(2, -1)).message).toContain("Row 3 of the range: A reading cannot be below zero");
    expect(errorOf("TREND_SLOPE", DATES, spoilt(2, new CellError("#DIV/0!", "beside"))).code).toBe("#DIV/0!");
    expect(errorOf("TREND_SLOPE", [[""], ...DATES.slice(1)], FALLING).message).toBe("Row 1 of the range: there is a reading without a date.");
    expect(errorOf("TREND_SLOPE", [["3/4/2026"], ...DATES.slice(1)], FALLING).message).toContain("Row 1 of the range: dates should be a date");
  });
  test("ranges that do not match, a range left out, too few days", () => {
    expect(errorOf("TREND_SLOPE", DATES.slice(1), FALLING).message).toContain("dates and readings are ranges of different size");
    expect(errorOf("TREND_SLOPE", DATES, null)).toMatchObject({ code: "#N/A", message: "readings is needed and is empty." });
    expect(errorOf("TREND_SLOPE", DATES.slice(0, 3), FALLING.slice(0, 3)).message).toContain("at least four different days");
  });
});

describe("TREND_RANGE", () => {
  const range = (...given: unknown[]): [number, number, number, string] => rows("TREND_RANGE", DATES, ...given)[0] as [number, number, number, string];
  test("gives level, limits and a sentence; the limits hold the level, and the level lies among the readings", () => {
    const [level, low, high, words] = range(FALLING);
    expect(low).toBeLessThan(level);
    expect(level).toBeLessThan(high);
    expect(level).toBeGreaterThan(5);
    expect(level).toBeLessThan(10);
    expect(words).toBe(`The water is between ${Number(low.toPrecision(3))} and ${Number(high.toPrecision(3))} (95 %).`);
  });
  test("a later day is the reading of a test then: wider the later", () => {
    const [now, soon, later] = [range(FALLING), range(FALLING, 46029), range(FALLING, 46058)];
    expect(soon[2] - soon[1]).toBeGreaterThan(now[2] - now[1]);
    expect(later[2] - later[1]).toBeGreaterThan(soon[2] - soon[1]);
    expect(soon[3]).toContain("A test 1 day after the last one will read ");
    expect(later[3]).toContain("A test 30 days after the last one will read ");
    expect(range(FALLING, 46028)).toEqual(now);
  });
  test("a day in the past is smoothed with the readings after it", () => {
    const [level] = range(FALLING, 46000);
    expect(level).toBeGreaterThan(16);
    expect(level).toBeLessThan(22);
  });
  test("readings that never move are one level, with less doubt than a single test", () => {
    const [level, low, high, words] = range(column(DAYS.map(() => 10)), null, "0 5 10 20 40");
    expect(level).toBeCloseTo(11.25, 9);
    expect(low).toBeGreaterThan(7.5);
    expect(high).toBeLessThan(15);
    expect(words).toContain("The readings differ by no more than their own uncertainty.");
  });
  test("readings below detection pull the level down, and never to zero", () => {
    const ending = (last: string): [number, number, number, string] => range(column([6, 5, 5, 4, 4, 3, last, last, last]));
    const [two, one] = [ending("<2"), ending("<1")];
    expect(two[0]).toBeLessThan(2.5);
    expect(two[0]).toBeGreaterThan(0.2);
    expect(one[0]).toBeLessThan(two[0]);
    expect(one[0]).toBeGreaterThan(0.1);
    expect(two[1]).toBeGreaterThan(0);
  });
  test("readings above the scale push it above the scale", () => expect(range(column([10, 12, 15, 18, 20, 22, ">25", ">25", ">25"]))[0]).toBeGreaterThan(25));
  test("all blank is blank; all censored has no answer", () => {
    expect(value("TREND_RANGE", [[null], [null]], [[null], [""]])).toBe("");
    expect(errorOf("TREND_RANGE", DATES, column(DAYS.map(() => "<2"))).message).toContain("9 of 9 readings are below detection");
    expect(errorOf("TREND_RANGE", DATES, column(DAYS.map(() => ">50"))).message).toContain("None of the readings shows a value");
  });
  test("the day is one date", () => {
    expect(errorOf("TREND_RANGE", DATES, FALLING, "next week").message).toContain("day should be a date");
    expect(errorOf("TREND_RANGE", DATES, FALLING, [[46030], [46031]]).message).toBe("day should be one cell, not a range.");
  });
  test("the unit does not matter", () => {
    expect(number("TREND_RANGE", DATES, column(FALLING.flat().map((one) => 100 * (one as number))))).toBeCloseTo(100 * number("TREND_RANGE", DATES, FALLING), 1);
  });
});
