import type { Log, SetUp } from "../../src/science/budget/log";
import { entriesWithin, PERIOD_CHOICES, periodsOf, type PeriodChoice } from "../../src/science/budget/period";
import { words as sentences } from "../../src/words/budget";

/** Periods of an invented log; only what bounds them matters. */
const logOf = (firstDay: number, lastDay: number, harvests: [unit: number, day: number][] = [], tests: number[][] = [], calendarOffset = 0): Log =>
  ({ firstDay, lastDay, calendarOffset, harvests: harvests.map(([unit, day]) => ({ unit, day })), series: tests.map((days) => ({ entries: days.map((day) => ({ day })) })) }) as unknown as Log;
const setUp = (periodUnit = 0): SetUp => ({ periodUnit }) as SetUp;
const bounds = (log: Log, choice: PeriodChoice, unit = 0): number[] => {
  const periods = periodsOf(log, setUp(unit), choice);
  return [periods[0]?.from ?? NaN, ...periods.map((period) => period.to)];
};

test("there are five ways to cut a log", () => expect(PERIOD_CHOICES).toEqual(["harvest", "reading", "week", "month", "whole"]));

describe("from harvest to harvest", () => {
  const log = logOf(100, 130, [[0, 100], [1, 105], [0, 110], [0, 110], [0, 120], [1, 125], [0, 130]]);
  test("of the first screen, once a moment, and not at the log's own ends", () => expect(bounds(log, "harvest")).toEqual([100, 110, 120, 130]));
  test("of another screen", () => expect(bounds(log, "harvest", 1)).toEqual([100, 105, 125, 130]));
  test("without a harvest the whole log is one", () => expect(bounds(logOf(100, 130), "harvest")).toEqual([100, 130]));
  test("a harvest closes its period: what is logged with it belongs to the one that it ends", () => {
    expect(periodsOf(log, setUp(), "harvest")).toEqual([
      { from: 100, to: 110, withFrom: true, withTo: true }, { from: 110, to: 120, withFrom: false, withTo: true }, { from: 120, to: 130, withFrom: false, withTo: true },
    ]);
  });
});

test("from reading to reading, of every test, in order", () => expect(bounds(logOf(100, 130, [], [[103, 120], [110, 103]]), "reading")).toEqual([100, 103, 110, 120, 130]));
test("the whole log", () => expect(bounds(logOf(100, 130, [[0, 110]], [[105]]), "whole")).toEqual([100, 130]));

describe("weeks and months", () => {
  test("weeks count from the first day; the last is what is left", () => expect(bounds(logOf(100.5, 117), "week")).toEqual([100.5, 107.5, 114.5, 117]));
  test("a log of two whole weeks has two", () => expect(bounds(logOf(100, 114), "week")).toEqual([100, 107, 114]));
  test("a week opens with its first moment and ends before the next one's; the last takes all", () => {
    expect(periodsOf(logOf(100, 116), setUp(), "week")).toEqual([
      { from: 100, to: 107, withFrom: true, withTo: false }, { from: 107, to: 114, withFrom: true, withTo: false }, { from: 114, to: 116, withFrom: true, withTo: true },
    ]);
  });
  // Excel serials of the 1900 system: 45292 is 1 January 2024, 36526 is 1 January 2000, 73051 is 1 January 2100.
  test.each([
    ["over a leap day", 45290, 45400, [45290, 45292, 45323, 45352, 45383, 45400]],
    ["2000 was a leap year", 36520, 36590, [36520, 36526, 36557, 36586, 36590]],
    ["2100 is none", 73050, 73112, [73050, 73051, 73082, 73110, 73112]],
    ["to the end of a usual year", 45600, 45700, [45600, 45627, 45658, 45689, 45700]],
    ["all of 2025, from its first day", 45658, 46023, [45658, 45689, 45717, 45748, 45778, 45809, 45839, 45870, 45901, 45931, 45962, 45992, 46023]],
  ])("months %s", (_, from, to, expected) => expect(bounds(logOf(from, to), "month")).toEqual(expected));
  test("an hour of the first day does not shift the month", () => expect(bounds(logOf(45290.75, 45330), "month")).toEqual([45290.75, 45292, 45323, 45330]));
  test("a workbook of the 1904 system counts 1,462 days fewer", () => expect(bounds(logOf(45290 - 1462, 45330 - 1462, [], [], 1462), "month")).toEqual([45290 - 1462, 45292 - 1462, 45323 - 1462, 45330 - 1462]));
});

test("a log of one moment has no period", () => {
  for (const choice of PERIOD_CHOICES) expect(() => periodsOf(logOf(100, 100), setUp(), choice)).toThrow(sentences.needsTwoDays);
});

test("entries at the ends belong to a period as it says", () => {
  const entries = [1, 2, 2, 3, 4, 4, 5].map((day) => ({ day }));
  const within = (withFrom: boolean, withTo: boolean): number[] => entriesWithin(entries, { from: 2, to: 4, withFrom, withTo }).map(({ day }) => day);
  expect(within(true, true)).toEqual([2, 2, 3, 4, 4]);
  expect(within(false, true)).toEqual([3, 4, 4]);
  expect(within(true, false)).toEqual([2, 2, 3]);
  expect(within(false, false)).toEqual([3]);
});
