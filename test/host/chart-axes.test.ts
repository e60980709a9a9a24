import { dateTicks, isoDate, showsDate } from "../../src/host/grid/charts/date-axis";
import { niceStep, tickText, valueAxis } from "../../src/host/grid/charts/ticks";

/** 2026-01-01 as a serial: 25569 days to 1970, then 56 years with 14 leap days. */
const NEW_YEAR = 25_569 + 56 * 365 + 14;

describe("steps of an axis", () => {
  it.each([
    [10, 5, 2],
    [10, 10, 1],
    [11, 10, 2],
    [0.7, 4, 0.2],
    [30, 7, 5],
    [1000, 3, 500],
    [0.003, 6, 0.0005],
    [90, 1, 100],
  ])("a span of %p in at most %p steps goes by %p", (span, most, step) => {
    expect(niceStep(span, most)).toBeCloseTo(step, 12);
  });
});

describe("the axis of values", () => {
  it("begins at zero when the values fill most of the way up from it, and ends on a tick", () => {
    expect(valueAxis(2.5, 22.5, 5, false)).toEqual({ low: 0, high: 25, ticks: [0, 5, 10, 15, 20, 25], decimals: 0 });
  });

  it("begins near the values when they lie close together far from zero", () => {
    expect(valueAxis(8.1, 8.3, 4, false)).toEqual({ low: 8.1, high: 8.3, ticks: [8.1, 8.15, 8.2, 8.25, 8.3], decimals: 2 });
  });

  it("begins at zero when it must, as for columns", () => {
    expect(valueAxis(8.1, 8.3, 5, true)).toEqual({ low: 0, high: 10, ticks: [0, 2, 4, 6, 8, 10], decimals: 0 });
  });

  it("reaches below zero for negative values, with zero as a tick", () => {
    expect(valueAxis(-3, 5, 4, true)).toEqual({ low: -4, high: 6, ticks: [-4, -2, 0, 2, 4, 6], decimals: 0 });
    expect(valueAxis(-9, -1, 5, false)).toEqual({ low: -10, high: 0, ticks: [-10, -8, -6, -4, -2, 0], decimals: 0 });
  });

  it("has room around one value, and for zeros alone", () => {
    expect(valueAxis(5, 5, 4, true)).toEqual({ low: 0, high: 6, ticks: [0, 2, 4, 6], decimals: 0 });
    const alone = valueAxis(5, 5, 4, false);
    expect([alone.low < 5, alone.high > 5]).toEqual([true, true]);
    expect(valueAxis(0, 0, 4, true)).toEqual({ low: 0, high: 1, ticks: [0, 0.5, 1], decimals: 1 });
  });

  it("writes ticks with the places that tell them apart, and no dust of adding", () => {
    const axis = valueAxis(0, 0.3, 3, true);
    expect(axis.ticks.map((tick) => tickText(tick, axis))).toEqual(["0.0", "0.1", "0.2", "0.3"]);
    expect(tickText(2_500_000_000, { decimals: 0 })).toBe("2.5e+9");
  });
});

describe("dates", () => {
  it.each([
    ["yyyy-mm-dd", true],
    ["d mmm", true],
    ["mmm", true],
    ["[$-409]dd/mm/yyyy", true],
    ["General", false],
    ["0.00", false],
    ["h:mm", false],
    ['0.0 "days"', false],
    ["[Red]0", false],
    ["0\\d", false],
    ["@", false],
  ])("%p shows a date: %p", (format, dated) => {
    expect(showsDate(format)).toBe(dated);
  });

  it("are written as year, month and day, the time of day left out", () => {
    expect([NEW_YEAR, NEW_YEAR + 0.75, NEW_YEAR + 59, 61, 59, 1].map(isoDate)).toEqual(["2026-01-01", "2026-01-01", "2026-03-01", "1900-03-01", "1900-02-28", "1900-01-01"]);
  });

  it("leave a number that is no date a number", () => {
    expect([-4, 0.5, 3_000_000].map(isoDate)).toEqual(["-4", "0.5", "3000000"]);
  });

  it("have ticks on every day, or every week from the first day on", () => {
    expect(dateTicks(NEW_YEAR, NEW_YEAR + 3, 6)).toEqual([0, 1, 2, 3].map((day) => NEW_YEAR + day));
    expect(dateTicks(NEW_YEAR + 2, NEW_YEAR + 37, 6)).toEqual([2, 9, 16, 23, 30, 37].map((day) => NEW_YEAR + day));
  });

  it("have ticks on the firsts of months when there are many, and on quarters, and on New Year's Days", () => {
    expect(dateTicks(NEW_YEAR, NEW_YEAR + 110, 5).map(isoDate)).toEqual(["2026-01-01", "2026-02-01", "2026-03-01", "2026-04-01"]);
    expect(dateTicks(NEW_YEAR + 20, NEW_YEAR + 400, 5).map(isoDate)).toEqual(["2026-04-01", "2026-07-01", "2026-10-01", "2027-01-01"]);
    expect(dateTicks(NEW_YEAR - 900, NEW_YEAR + 900, 5).map(isoDate)).toEqual(["2024-01-01", "2025-01-01", "2026-01-01", "2027-01-01", "2028-01-01"]);
  });

  it("have no more ticks than asked for, over any time", () => {
    for (const days of [1, 9, 30, 75, 200, 365, 1000, 4000, 30_000]) {
      for (const most of [1, 2, 5, 9]) {
        const ticks = dateTicks(NEW_YEAR, NEW_YEAR + days, most);
        expect(ticks.length).toBeGreaterThan(0);
        expect(ticks.length).toBeLessThanOrEqual(most);
        expect(ticks.every((tick) => tick >= NEW_YEAR && tick <= NEW_YEAR + days)).toBe(true);
      }
    }
    expect(dateTicks(NEW_YEAR, NEW_YEAR, 5)).toEqual([NEW_YEAR]);
  });
});
