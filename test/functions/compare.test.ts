import { errorOf, rows } from "../call";

const [SCREEN, CYCLE, HARVESTS, DAYS, DRAINED, DRY, GROWTH, LOW, HIGH, N_OUT, P_OUT, LIGHT_YIELD, PER_KWH, REMARK] = Array.from({ length: 14 }, (_, place) => place) as [number, number, number, number, number, number, number, number, number, number, number, number, number, number];
const HEAD = ["Date", "Harvest left (g)", "Harvest right pressed (g)", "Fed back left (%)", "Light level left (%)"];
const LOG = [
  HEAD,
  [46000, "", "", "", 50],
  [46007, "", "", "", 100],
  [46017, 90, 40, "", ""],
  [46027, 160, 60, 25, ""],
  [46037, 140, "", "", ""],
];
const SET_UP = [
  ["Volume (L)", 300], ["Started", 46000], ["Lit area left (m2)", 0.1], ["Lit area right (cm2)", 500], ["Dry fraction", 0.08], ["Dry fraction pressed", 0.16],
  ["Light (umol m-2 s-1)", 250], ["Light hours (h)", 16], ["Watts left (W)", 30], ["Tissue N", 0.035], ["Tissue P", 0.004],
];
const compared = (log: unknown[][] = LOG, setUp: unknown[][] = SET_UP): unknown[][] => rows("HARVEST_COMPARE", log, setUp, null, false);

test("a first harvest stands apart from the later ones, screen by screen", () => {
  expect(compared().map((row) => row.slice(SCREEN, DRAINED + 1))).toEqual([
    ["left", "first harvest", 1, 17, 90],
    ["left", "later harvests", 2, 20, 300],
    ["right", "first harvest", 1, 17, 40],
    ["right", "later harvests", 1, 10, 60],
  ]);
  expect(compared()[0]?.[REMARK]).toContain("Start-up: do not judge the screen by it.");
  expect(compared()[3]?.[REMARK]).toContain("One harvest only");
});

test("growth per area and day, with the limits of the dry fraction", () => {
  const [, later, rightFirst] = compared();
  // 300 g x 0.08 / (0.1 m2 x 20 d) = 12; the keeper's own dry fraction may be 15 % off.
  expect(later?.[DRY]).toBeCloseTo(24, 9);
  expect(later?.[GROWTH]).toBeCloseTo(12, 9);
  expect(later?.[LOW]).toBeCloseTo(12 * 0.85, 9);
  expect(later?.[HIGH]).toBeCloseTo(12 * 1.15, 9);
  // Pressed: 40 x 0.16 / (0.05 x 17).
  expect(rightFirst?.[GROWTH]).toBeCloseTo(6.4 / 0.85, 9);
});

test("what is fed back is not counted as going out", () => {
  const [, later] = compared();
  const goneG = (160 * 0.75 + 140) * 0.08;
  expect(later?.[N_OUT]).toBeCloseTo((goneG * 0.035) / 20, 9);
  expect(later?.[P_OUT]).toBeCloseTo((goneG * 0.004) / 20, 9);
});

test("per mol of light and per kWh, with the days at half light counted by half", () => {
  const [first, later, right] = compared();
  expect(first?.[LIGHT_YIELD]).toBeCloseTo((90 * 0.08) / (0.1 * (7 * 7.2 + 10 * 14.4)), 9);
  expect(first?.[PER_KWH]).toBeCloseTo((90 * 0.08) / (0.03 * 16 * (3.5 + 10)), 9);
  expect(later?.[LIGHT_YIELD]).toBeCloseTo(24 / (0.1 * 20 * 14.4), 9);
  expect(later?.[PER_KWH]).toBeCloseTo(24 / (0.03 * 16 * 20), 9);
  expect(right?.[PER_KWH]).toBe("");
  expect(right?.[REMARK]).toContain("For the missing figures the set-up needs Watts (W).");
});

test("a screen that was never weighed is named, and one whose growth began unseen has no growth", () => {
  const names = compared([HEAD, [46000, 80, "", "", ""], [46010, 90, "", "", ""]], [...SET_UP, ["Lit area spare (m2)", 0.02]]).map((row) => [row[SCREEN], row[CYCLE], row[HARVESTS], row[DAYS]]);
  expect(names).toEqual([["left", "first harvest", 1, ""], ["left", "later harvests", 1, 10], ["right", "never weighed", 0, ""], ["spare", "never weighed", 0, ""]]);
});

test("a harvest or a lamp that cannot be read is said on every row, never passed over", () => {
  const broken = LOG.map((row, place) => (place === 4 ? [row[0], "a lot", ...row.slice(2)] : row));
  for (const row of compared(broken)) expect(row[REMARK]).toContain('Row 5, Harvest left (g): Harvest left (g) should be a number, and "a lot" is not one.');
  const dark = LOG.map((row, place) => (place === 1 ? [...row.slice(0, 4), "half"] : row));
  expect(compared(dark)[0]?.[REMARK]).toContain("Row 2, Light level left (%)");
});

test("more growth than light can make is said", () => {
  const heavy = LOG.map((row, place) => (place === 4 ? [46027, 9000, "", "", ""] : row));
  expect(compared(heavy)[1]?.[REMARK]).toContain("More than light can make");
});

test("headings first, unless they are not wanted", () => {
  expect(rows("HARVEST_COMPARE", LOG, SET_UP)[0]?.[GROWTH]).toBe("Growth (g dry m-2 d-1)");
});

describe("lamps and conditions in the log", () => {
  const withHead = (heading: string, cell: unknown): unknown[][] => [["Date", "Harvest (g)", heading], [46000, "", cell], [46010, 90, ""]];
  test("a dimming that could mean either way, a missing unit and an unknown screen are refused with a sentence", () => {
    expect(errorOf("HARVEST_COMPARE", withHead("Dimming (%)", 40), SET_UP).message).toContain("Light level (%)");
    expect(errorOf("HARVEST_COMPARE", withHead("Light hours", 12), SET_UP).message).toContain("Light hours (h)");
    const [row] = rows("HARVEST_COMPARE", withHead("Light level north (%)", 40), [["Volume (L)", 100]], null, false);
    expect(row?.[REMARK]).toContain('"Light level north (%)" names no screen of the log.');
  });
  test("a bad lamp or pH cell leaves the budget as it is", () => {
    const log = [["Date", "Food", "Feed (g)", "NO3 (mg/L)", "pH", "Light level (%)", "Temperature (F)"], [46000, "Cod", 5, 10, "acid", "dim", 77], [46010, "Cod", 5, 12, 8.1, 100, ""]];
    const [row] = rows("BUDGET_N", log, [["Volume (L)", 100]], "whole", null, false);
    expect(typeof row?.[8]).toBe("number");
  });
});
