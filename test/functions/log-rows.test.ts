import { errorOf, rows } from "../call";
import { simulatedLog } from "../simulated-logs";

const SET_UP = [["Volume (L)", 200], ["Dry fraction", 0.1], ["Tissue N", 0.04], ["Tissue P", 0.004], ["Retained", 0]];
const LOG = [
  ["Date", "Food", "Feed (g)", "NO3 (mg/L)", "Harvest (g)", "Fed back (g)"],
  [46000, "Dry pellets or flakes", 2, 10, "", ""],
  [46001, "", "", "", "", ""],
  [46002, "Dry pellets or flakes", 1, 11, 50, 10],
];

describe("LOG_ROWS", () => {
  test("gives feed and harvest of each row in grams of N and P, worked by hand", () => {
    const [headings, first, second, third, ...more] = rows("LOG_ROWS", LOG, SET_UP) as [string[], ...number[][]];
    expect(headings).toEqual(["Feed in (g N)", "Feed in (g P)", "Harvest out (g N)", "Harvest out (g P)", "What to look at"]);
    expect(more).toEqual([]);
    // 2 g of 45 % protein at 6.25 g protein a g N and 1,200 mg P in 100 g; 40 g of the harvest left, 10 % dry, 4 % N, 0.4 % P of it.
    expect(first?.[0]).toBeCloseTo(0.144, 9);
    expect(first?.[1]).toBeCloseTo(0.024, 9);
    expect(first?.slice(2, 4)).toEqual(["", ""]);
    expect(second?.slice(0, 4)).toEqual(["", "", "", ""]);
    expect(third?.[0]).toBeCloseTo(0.072, 9);
    expect(third?.[2]).toBeCloseTo(0.16, 9);
    expect(third?.[3]).toBeCloseTo(0.016, 9);
  });

  test.each([1, 2, 3])("sums over simulated log %d to the whole budget's feed and harvest", (seed) => {
    const { log, setUp } = simulatedLog(seed);
    const answer = rows("LOG_ROWS", log, setUp, null, 2, false) as (number | string)[][];
    const total = (column: number): number => answer.reduce((sum, row) => sum + (Number(row[column]) || 0), 0);
    const [whole] = rows("BUDGET_N", log, setUp, "whole", null, false) as number[][];
    const [ofP] = rows("BUDGET_P", log, setUp, "whole", null, false) as number[][];
    expect(total(0) / Number(whole?.[2])).toBeCloseTo(1, 9);
    expect(total(1) / Number(ofP?.[2])).toBeCloseTo(1, 9);
    expect(total(2) / Number(whole?.[4])).toBeCloseTo(1, 9);
    expect(total(3) / Number(ofP?.[4])).toBeCloseTo(1, 9);
  });

  test("names in its row what cannot be read, with what to check", () => {
    const log = LOG.map((row, place) => (place === 1 ? [...row.slice(0, 2), "a pinch", ...row.slice(3)] : row));
    const [, first] = rows("LOG_ROWS", log, SET_UP) as string[][];
    expect(first?.[0]).toBe("");
    expect(first?.[4]).toMatch(/^(Serious|Caution|Note): .*"a pinch" is not one\./);
    const listed = (rows("BUDGET_WARNINGS", log, SET_UP) as string[][]).find((row) => row[3]?.includes("a pinch"));
    expect(first?.[4]).toContain(`${listed?.[2]}: ${listed?.[3]} ${listed?.[4]}`);
  });

  test("begins where the data begin, with or without its headings and the dates, and ends with the last row", () => {
    const moved = [LOG[0] ?? [], ["", "", "", "", "", ""], ...LOG.slice(1), ["", "", "", "", "", ""]];
    const all = rows("LOG_ROWS", LOG, SET_UP, null, 2, false);
    expect(rows("LOG_ROWS", moved, SET_UP, null, 3, false)).toEqual(all);
    expect(rows("LOG_ROWS", moved, SET_UP, null, 3, false, true).map((row) => row[0])).toEqual([46000, "", 46002]);
    expect(rows("LOG_ROWS", moved, SET_UP, null, 3, true, true)[0]?.[0]).toBe("Date");
  });

  test("says what is wrong with first_row, the set-up and the log", () => {
    expect(errorOf("LOG_ROWS", LOG, SET_UP, null, 1).message).toContain("first_row should be a whole number of 2 or more");
    expect(errorOf("LOG_ROWS", LOG, [["Lit area (m2)", 1]]).message).toContain("Volume (L)");
    expect(errorOf("LOG_ROWS", [["Date"]], SET_UP).message).not.toBe("");
  });
});
