import { errorOf, rows } from "../call";

const LOG = [
  ["Date", "NO3 (mg/L)", "PO4 (mg/L)", "Harvest left (g)", "Harvest right (g)"],
  [46000, 10, "0.08-0.1", "", ""],
  [46010, "", "", 90, ""],
  [46014, 0, ">1", "", 60],
  [46021, 20, 0.2, 110, ""],
];
const SET_UP = [["Volume (L)", 200], ["NO3 kit steps", "0 5 10 20 40"], ["PO4 kit steps", 0.1], ["Lit area left (m2)", 0.1], ["Dry fraction", 0.08]];

test("readings with their limits, a zero as a range, one above the scale without a highest", () => {
  expect(rows("READING_SERIES", LOG, SET_UP)).toEqual([
    ["Date", "NO3, lowest (mg/L)", "NO3 (mg/L)", "NO3, highest (mg/L)"],
    [46000, expect.closeTo(7.5, 9), expect.closeTo(11.25, 9), expect.closeTo(15, 9)],
    [46014, 0, expect.closeTo(1.25, 9), expect.closeTo(2.5, 9)],
    [46021, expect.closeTo(15, 9), expect.closeTo(22.5, 9), expect.closeTo(30, 9)],
  ]);
  expect(rows("READING_SERIES", LOG, SET_UP, "PO4", false).map((row) => row.slice(1))).toEqual([
    [expect.closeTo(0.08, 9), expect.closeTo(0.09, 9), expect.closeTo(0.1, 9)],
    [expect.closeTo(1, 9), "", ""],
    [expect.closeTo(0.15, 9), expect.closeTo(0.2, 9), expect.closeTo(0.25, 9)],
  ]);
});

test("a series can be counted as N or P", () => {
  const [[, , value] = []] = rows("READING_SERIES", LOG, SET_UP, "NO3-N", false);
  expect(value).toBeCloseTo(11.25 * (14.007 / 62.004), 4);
});

test("harvests with the growth that each ended, screen by screen in order of day", () => {
  expect(rows("HARVEST_SERIES", LOG, SET_UP, false)).toEqual([
    [46010, "left", 10, 90, expect.closeTo(7.2, 9), expect.closeTo(7.2, 9), expect.closeTo(7.2 * 0.85, 9), expect.closeTo(7.2 * 1.15, 9), "First harvest: start-up."],
    [46014, "right", 14, 60, expect.closeTo(4.8, 9), "", "", "", "First harvest: start-up."],
    [46021, "left", 11, 110, expect.closeTo(8.8, 9), expect.closeTo(8, 9), expect.closeTo(8 * 0.85, 9), expect.closeTo(8 * 1.15, 9), ""],
  ]);
});

test("nothing logged yet leaves the headings alone, so that a chart's table is there before its first row", () => {
  const dated = [LOG[0], [46000, "", "", "", ""], [46001, 5, "", "", ""]] as unknown[][];
  expect(rows("HARVEST_SERIES", dated, SET_UP)).toHaveLength(1);
  expect(rows("READING_SERIES", dated, SET_UP, "PO4")).toHaveLength(1);
  expect(rows("READING_SERIES", dated, SET_UP, "PO4", false)).toEqual([[""]]);
  expect(errorOf("READING_SERIES", dated, SET_UP, "nitrate").message).toContain("NO3, NO3-N, PO4 or PO4-P");
});

test("a harvest that cannot be read leaves the next growth open, and says why", () => {
  const log = [["Date", "Harvest (g)"], [46000, ""], [46010, 200], [46020, "ca. 200"], [46030, 210]];
  const [, second] = rows("HARVEST_SERIES", [["Date", "NO3 (mg/L)", "Harvest (g)"], [46000, 5, ""], ...log.slice(2).map(([day, harvest]) => [day, "", harvest])], SET_UP.filter(([what]) => what !== "Lit area left (m2)").concat([["Lit area (m2)", 0.1]]), false);
  expect(second?.slice(0, 6)).toEqual([46030, "", "", 210, expect.closeTo(16.8, 9), ""]);
  expect(second?.[8]).toContain("Row 4, Harvest (g)");
});

test("a reading that cannot be used stands in the series as an error, and total nitrogen is not passed off as nitrate", () => {
  const [, bad] = rows("READING_SERIES", [["Date", "NO3 (mg/L)"], [46000, 5], [46005, "ten"], [46010, 10]], SET_UP, null, false);
  expect(bad?.[0]).toBe(46005);
  expect(bad?.[2]).toMatchObject({ code: "#VALUE!", message: expect.stringContaining("Row 3") as string });
  expect(errorOf("READING_SERIES", [["Date", "N (mg/L)"], [46000, 3], [46010, 3]], SET_UP).message).toContain("is total nitrogen");
});
