import type { ConditionEntry, Log, ReadingEntry, RowEntry, VolumeEntry } from "../../src/science/budget/log";
import { unionisedShare } from "../../src/science/gases";
import type { Substance } from "../../src/science/nutrient-forms";
import { basisWarnings } from "../../src/science/warnings/basis-step";
import { logWarnings } from "../../src/science/warnings/log-order";
import { bySeverityAndRow, latestOf, warning, type Account, type Warning } from "../../src/science/warnings/warning";
import { waterWarnings } from "../../src/science/warnings/water";
import { exact } from "../../src/science/uncertain";
import { feed, grams, logOf, reading, series, setUpOf, volume } from "./hand-log";

const setUp = setUpOf({ volumeL: exact(100) });
const facts = (found: readonly Warning[]): unknown[] => found.map(({ row, severity, facts: one }) => [row, severity, one]);
/** Water is looked at in the account of nitrogen. */
const waterOf = (account: Account): Warning[] => waterWarnings({ N: account, P: account });
const near = (value: number): number => expect.closeTo(value, 9) as unknown as number;

describe("a reading that is off by the factor of a mixed-up basis", () => {
  /** Weekly readings unless days are given, each within 1 % of itself. */
  const readings = (values: readonly (number | ReadingEntry)[], days?: readonly number[]): ReadingEntry[] => values.map((one, place) => (typeof one === "number" ? reading(days?.[place] ?? 7 * place, one, one / 100) : one));
  const of = (entries: readonly ReadingEntry[], more: Partial<Log> = {}, substance: Substance = "nitrate") => basisWarnings({ log: logOf({ lastDay: 200, series: [series("NO3", entries)], ...more }), setUp, substances: [substance] });
  const found = (values: readonly (number | ReadingEntry)[], days?: readonly number[], more: Partial<Log> = {}): unknown[] => facts(of(readings(values, days), more)).map((one) => (one as unknown[]).slice(0, 2));
  const SERIOUS = [[16, "serious"]];

  test("one among readings that agree, with its factor and its direction", () => {
    expect(of(readings([10, 10, 44, 10, 10]))).toEqual([{ code: "BASIS_STEP", severity: "serious", row: 16, day: 14, alike: 0, facts: { test: "NO3", factor: near(4.4), higher: true, nutrient: "N" } }]);
    expect(facts(of(readings([44, 44, 10, 44])))).toEqual([[16, "serious", { test: "NO3", factor: near(4.4), higher: false, nutrient: "N" }]]);
    // The way back is no second slip, and the next step stands on no level before it.
    expect(found([10, 44, 10, 44, 44])).toEqual([[9, "serious"]]);
    expect(found([10, 10, 44])).toEqual([[16, "caution"]]);
  });
  test("only of nitrate and phosphate", () => {
    for (const substance of ["nitrite", "ammonia"] as const) expect(of(readings([10, 10, 44, 10, 10]), {}, substance)).toEqual([]);
    expect(of(readings([10, 10, 31, 10, 10]), { nutrient: "P" }, "phosphate")).toMatchObject([{ facts: { factor: near(3.1), nutrient: "P" } }]);
  });
  test("the factor is 3.8 to 5.1 for nitrate and 2.7 to 3.5 for phosphate", () => {
    for (const [value, count] of [[37.9, 0], [38, 1], [51, 1], [51.1, 0]] as const) expect(found([10, 10, value, 10, 10])).toHaveLength(count);
    for (const [value, count] of [[26.9, 0], [27, 1], [35, 1], [35.1, 0]] as const) expect(of(readings([10, 10, value, 10, 10]), { nutrient: "P" }, "phosphate")).toHaveLength(count);
    // 3.85 times up, but back by 3.67 only.
    expect(found([10, 10, 38.5, 10.5, 10.5])).toEqual([]);
  });
  test("and a step of two even at the limits of both readings", () => {
    const low = reading(7, 10, 5);
    expect(found([10, low, reading(14, 44, 14)])).toEqual([]);
    expect(found([10, low, reading(14, 44, 13.9)])).toEqual([[16, "caution"]]);
  });
  test("readings agree within a factor of 1.4", () => {
    expect(found([14, 10, 44])).toEqual([[16, "caution"]]);
    expect(found([14.1, 10, 44])).toEqual([]);
    expect(found([10, 10, 44, 44])).toEqual(SERIOUS);
    expect(found([10, 10, 44, 61])).toEqual(SERIOUS);
    expect(found([10, 10, 44, 62])).toEqual([]);
    expect(found([10, 10, 44, 44, 61])).toEqual(SERIOUS);
    expect(found([10, 10, 44, 44, 80])).toEqual([]);
    expect(found([10, 10, 44, 80, 80])).toEqual([]);
    expect(found([20, 10, 44, 44, 44])).toEqual([]);
    expect(found([10, 44])).toEqual([]);
    expect(found([10, 44, 44])).toEqual([]);
  });
  test("beside it means within 35 days on either side", () => {
    expect(found([10, 10, 44], [0, 7, 42])).toHaveLength(1);
    expect(found([10, 10, 44], [0, 7, 43])).toEqual([]);
    expect(found([10, 10, 44, 10, 10], [0, 7, 14, 49, 56])).toHaveLength(1);
    expect(found([10, 10, 44, 10, 10], [0, 7, 14, 50, 57])).toEqual([]);
  });
  test("what the kit could not show is no step and no level", () => {
    const above = (day: number, value: number) => reading(day, value, 0, "above");
    expect(found([10, 10, above(14, 44), 10, 10])).toEqual([]);
    expect(found([10, above(7, 10), 44, 44, 44])).toEqual([]);
    expect(found([above(0, 10), 10, 44])).toEqual([]);
    expect(found([10, 10, 44, above(21, 44)])).toEqual([]);
    expect(found([10, 10, 44, 44, above(28, 44)])).toEqual([]);
    expect(found([10, 10, 44, above(21, 10), 10])).toEqual([]);
  });
  test("a change of more than three tenths of the water between the two explains it, at either's own moment too", () => {
    const down = [44, 44, 10, 10];
    const with_ = (...changes: VolumeEntry[]) => found(down, undefined, { changes });
    expect(with_(volume(10, 29))).toEqual(SERIOUS);
    expect(with_(volume(10, 31))).toEqual([]);
    expect(with_(volume(7, 40))).toEqual([]);
    expect(with_(volume(14, 40))).toEqual([]);
    expect(with_(volume(6, 40), volume(15, 40))).toEqual(SERIOUS);
    // Two of 16 L leave 0.84 x 0.84 = 0.706; two of 17 L leave 0.689. More than all of the water leaves nothing.
    expect(with_(volume(8, 16), volume(9, 16))).toEqual(SERIOUS);
    expect(with_(volume(8, 17), volume(9, 17))).toEqual([]);
    expect(with_(volume(8, 200))).toEqual([]);
    expect(with_(volume(8, 180), volume(9, 200))).toEqual([]);
  });
  test("feed and doses explain a step up if they would make more than eight tenths of it, and never a step down", () => {
    // 34 mg/L of 100 L are 3.4 g, eight tenths 2.72 g; the pellets carry 0.08 of it: 34 g.
    const up = [10, 10, 44, 44];
    expect(found(up, undefined, { feeds: [feed(10, 33.9)] })).toEqual(SERIOUS);
    expect(found(up, undefined, { feeds: [feed(10, 34.1)] })).toEqual([]);
    expect(found(up, undefined, { otherIn: [grams(10, 2.7)] })).toEqual(SERIOUS);
    expect(found(up, undefined, { otherIn: [grams(10, 1.4), grams(11, 1.4)] })).toEqual([]);
    expect(found(up, undefined, { feeds: [feed(10, 20)], otherIn: [grams(10, 1.2)] })).toEqual([]);
    expect(found([44, 44, 10, 10], undefined, { feeds: [feed(10, 500)] })).toEqual(SERIOUS);
  });
});

describe("ammonia", () => {
  const condition = (day: number, more: Partial<ConditionEntry>): ConditionEntry => ({ day, row: day + 2, ph: null, temperatureC: null, salinity: null, ...more });
  const of = (entries: readonly ReadingEntry[], conditions: readonly ConditionEntry[], usual = {}) =>
    waterOf({ log: logOf({ series: [series("NO3", entries), series("NH4", entries, { isMain: false })], conditions }), setUp: { ...setUp, usual: { ...setUp.usual, ...usual } }, substances: ["nitrate", "ammonia"] });
  test("by the row's own water: harmful from 0.02 in the long run, from 0.05 soon", () => {
    const share = unionisedShare(8.2, 25, 35);
    for (const [mgPerL, severity, limit] of [[0.0201, "caution", 0.02], [0.0499, "caution", 0.02], [0.0501, "serious", 0.05]] as const) {
      expect(of([reading(5, mgPerL / share)], [condition(5, { ph: 8.2, temperatureC: 25, salinity: 35 })])).toEqual([
        { code: "AMMONIA_HARMFUL", severity, row: 7, day: 5, alike: 0, facts: { test: "NH4", mgPerL: near(mgPerL), limit } },
      ]);
    }
    expect(of([reading(5, 0.0199 / share)], [condition(5, { ph: 8.2, temperatureC: 25, salinity: 35 })])).toEqual([]);
  });
  test("each figure that the row does not say is the set-up's; without salinity the water is fresh", () => {
    const salt = { ph: 7, temperatureC: 10, salinity: 20 };
    const mg = (ph: number, temperature: number, salinity: number): unknown => near(100 * unionisedShare(ph, temperature, salinity));
    expect(of([reading(5, 100)], [], salt)).toMatchObject([{ facts: { mgPerL: mg(7, 10, 20) } }]);
    expect(of([reading(5, 100)], [condition(5, { ph: 8 })], salt)).toMatchObject([{ facts: { mgPerL: mg(8, 10, 20) } }]);
    expect(of([reading(5, 100)], [condition(5, { temperatureC: 20 })], salt)).toMatchObject([{ facts: { mgPerL: mg(7, 20, 20) } }]);
    expect(of([reading(5, 100)], [condition(5, { salinity: 30 })], salt)).toMatchObject([{ facts: { mgPerL: mg(7, 10, 30) } }]);
    expect(of([reading(5, 100)], [], { ph: 7, temperatureC: 10 })).toMatchObject([{ facts: { mgPerL: mg(7, 10, 0) } }]);
  });
  test("without pH or temperature it says which is missing, if the worst usual water would be harmful", () => {
    const open = (missing: string): unknown => [{ code: "AMMONIA_OPEN", severity: "caution", row: 7, day: 5, alike: 0, facts: { test: "NH4", missing } }];
    expect(of([reading(5, 1)], [], { temperatureC: 25 })).toEqual(open("pH"));
    expect(of([reading(5, 1)], [])).toEqual(open("pH"));
    expect(of([reading(5, 1)], [], { ph: 8.2 })).toEqual(open("temperature"));
    // pH 8.5 at the stated 10 degrees; at 30 degrees the same reading would be harmful. And 30 degrees at the stated pH 7, not 8.5.
    const cold = 0.019 / unionisedShare(8.5, 10, 0);
    expect(cold * unionisedShare(8.5, 30, 0)).toBeGreaterThan(0.02);
    expect(of([reading(5, cold)], [], { temperatureC: 10 })).toEqual([]);
    expect(of([reading(5, 0.019 / unionisedShare(7, 30, 0))], [], { ph: 7 })).toEqual([]);
    expect(of([reading(5, 0.021 / unionisedShare(8.5, 30, 0))], [])).toHaveLength(1);
    expect(of([reading(5, 0.019 / unionisedShare(8.5, 30, 0))], [])).toEqual([]);
  });
  test("a reading below detection is passed over, and of the open ones the latest is named with the count of the others", () => {
    expect(of([reading(5, 1, 1, "below")], [condition(5, { ph: 9, temperatureC: 30 })])).toEqual([]);
    expect(of([reading(5, 1), reading(6, 1), reading(7, 1)], [])).toMatchObject([{ row: 9, alike: 2 }]);
  });
});

test("changes of one day add up: 51 % of the water with its share, 50 % is usual", () => {
  const of = (...changes: VolumeEntry[]) => waterOf({ log: logOf({ changes }), setUp, substances: [] });
  expect(of(volume(5, 50))).toEqual([]);
  expect(of(volume(5.1, 30), { ...volume(5.9, 21), row: 8 })).toEqual([{ code: "LARGE_CHANGE", severity: "caution", row: 8, day: 5.9, alike: 0, facts: { share: near(0.51) } }]);
  expect(of(volume(5.9, 30), volume(6.1, 30))).toEqual([]);
});

describe("rows", () => {
  const of = (days: readonly number[], more: Partial<Log> = {}) => {
    const rows = days.map((day, place): RowEntry => ({ day, row: place + 2, sameAs: null }));
    const log = logOf({ rows, ...more });
    return logWarnings({ N: { log, setUp, substances: [] }, P: { log: { ...log, ...more }, setUp, substances: [] } });
  };
  const order = (days: readonly number[]): unknown[] => facts(of(days).filter(({ code }) => code === "DATE_ORDER"));
  test("the row that is wrong is the one whose neighbours are in order without it", () => {
    expect(order([1, 2, 3, 30, 4, 5])).toEqual([[5, "caution", { rowBefore: 4 }]]);
    expect(order([10, 11, 12, 3, 13, 14])).toEqual([[5, "caution", { rowBefore: 4 }]]);
    // Of the same day as the row two before: then too the one between is wrong.
    expect(order([1, 2, 3, 9, 3, 4])).toEqual([[5, "caution", { rowBefore: 4 }]]);
    expect(order([5, 1, 2, 3])).toEqual([[3, "caution", { rowBefore: 2 }]]);
    expect(order([9, 8, 7, 30, 6, 5])).toEqual([[5, "caution", { rowBefore: 4 }]]);
    expect(order([9, 8, 7, 1, 6, 5])).toEqual([[5, "caution", { rowBefore: 4 }]]);
  });
  test("as many rows up as down count as old to new, and equal days as neither", () => {
    expect(order([5, 4, 6])).toEqual([[3, "caution", { rowBefore: 2 }]]);
    expect(order([3, 3, 3, 2, 2, 2, 1])).toEqual([]);
    expect(order([1, 1, 1, 2, 2, 2, 3])).toEqual([]);
    expect(order([7])).toEqual([]);
  });
  test("a gap is told with the usual step, be the sheet in order or not", () => {
    // Steps 2, 2, 3, 15: the middle of four is taken as the lower one, 2.
    const gaps = (days: readonly number[]): unknown[] => facts(of(days).filter(({ code }) => code === "LOG_GAP"));
    expect(gaps([0, 2, 4, 7, 22])).toEqual([[6, "caution", { days: 15, usual: 2 }]]);
    expect(gaps([22, 7, 4, 2, 0])).toEqual([[2, "caution", { days: 15, usual: 2 }]]);
    expect(gaps([0, 15, 17, 19, 20])).toEqual([[3, "caution", { days: 15, usual: 2 }]]);
    // Several rows of a day are one step: without that the usual step would be nothing.
    expect(gaps([0, 0, 0, 0, 7, 14, 29])).toEqual([]);
    expect(gaps([0, 5, 10, 25])).toEqual([]);
    expect(gaps([0, 5, 10, 25.1])).toHaveLength(1);
    expect(gaps([])).toEqual([]);
  });
  test("a cell of both accounts is listed once", () => {
    const bad = [{ day: 1, row: 4, about: "feed" as const, sentence: "Row 4: no number." }];
    expect(facts(of([1], { bad, unusable: [{ day: 1, row: 5, about: "light", sentence: "Row 5: no hours." }] }))).toEqual([[4, "serious", { sentence: "Row 4: no number." }], [5, "caution", { sentence: "Row 5: no hours." }]]);
  });
});

test("the latest of each severity are kept, the last of them with the count of the others, and the whole log's stand at the end", () => {
  const at = (row: number | null, severity: "serious" | "caution") => warning("FIRST_HARVEST", severity, row === null ? null : { row, day: row }, { screen: "" });
  const kept = latestOf([at(2, "caution"), at(3, "serious"), at(4, "caution"), at(5, "caution")], 2);
  expect(kept.map(({ row, severity, alike }) => [row, severity, alike])).toEqual([[3, "serious", 0], [4, "caution", 0], [5, "caution", 1]]);
  const sorted = [at(null, "caution"), at(9, "caution"), at(null, "serious"), at(4, "caution"), at(12, "serious"), at(10, "caution")].sort(bySeverityAndRow);
  expect(sorted.map(({ row, severity }) => [row, severity])).toEqual([[12, "serious"], [null, "serious"], [4, "caution"], [9, "caution"], [10, "caution"], [null, "caution"]]);
});
