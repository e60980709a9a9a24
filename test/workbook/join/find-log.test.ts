import { rows } from "../../call";
import { findLog } from "../../../src/workbook/join/recognise/find-log";
import { fiveRows } from "../../../src/workbook/join/recognise/five-rows";
import { proposeColumns } from "../../../src/workbook/join/recognise/propose";
import { foundIn } from "./confusion";
import { LOGS } from "./logs/all";
import { days } from "./logs/invented";

const LOG = [["Date", "Feed (g)", "NO3 (mg/L)"], ...days(6, (day) => [3, day % 3 === 0 ? 10 : ""])];
/** The grid with `up` blank rows above it and `left` blank columns before it. */
const moved = (grid: readonly (readonly unknown[])[], up: number, left: number): unknown[][] => [...Array.from({ length: up }, () => []), ...grid.map((row) => [...Array.from({ length: left }, () => ""), ...row])];
const reason = (grid: readonly (readonly unknown[])[]): string => {
  const found = findLog(grid, { row: 0, column: 0 });
  return "reason" in found ? found.reason : "found";
};

describe("a log is found", () => {
  test("from any cell of the sheet, wherever it lies", () => {
    const grid = moved(LOG, 4, 3);
    for (const selected of [{ row: 0, column: 0 }, { row: 6, column: 4 }, { row: 40, column: 20 }]) {
      expect(findLog(grid, selected)).toMatchObject({ top: 4, left: 3, bottom: 10, right: 5, headingRows: [4], firstDataRow: 5, dateColumn: 3 });
    }
  });
  test("the one at the cell, of two on a sheet", () => {
    const grid = LOG.map((row, at) => [...row, "", ...(["Date", "Feed (kg)", "PO4 (mg/L)"].map((heading, place) => (at === 0 ? heading : row[place])) as unknown[])]);
    expect(findLog(grid, { row: 2, column: 1 })).toMatchObject({ left: 0, right: 2 });
    expect(findLog(grid, { row: 2, column: 6 })).toMatchObject({ left: 4, right: 6 });
  });
  test("with its headings a blank row above the data", () => {
    expect(findLog([LOG[0] ?? [], [], ...LOG.slice(1)], { row: 4, column: 1 })).toMatchObject({ top: 0, headingRows: [0], firstDataRow: 2, bottom: 7 });
  });
  test("over months with blank rows between, and ends before totals and notes", () => {
    const grid = [...LOG, [], ...days(4, () => [3, ""]).map(([date, ...rest]) => [Number(date) + 10, ...rest]), ["Total", 30, ""], ["All weights drained for two minutes", "", ""]];
    expect(findLog(grid, { row: 1, column: 1 })).toMatchObject({ top: 0, bottom: 11 });
    expect(findLog(grid, { row: 9, column: 1 })).toMatchObject({ top: 0, bottom: 11 });
  });
  test("a last row of sums or means without the word is left out; a row whose date was forgotten is kept for the budget to name", () => {
    expect(findLog([...LOG, ["", 18, ""]], { row: 1, column: 1 })).toMatchObject({ bottom: 6 });
    expect(findLog([...LOG, ["", 3, ""]], { row: 1, column: 1 })).toMatchObject({ bottom: 6 });
    expect(findLog([...LOG, ["", 4.2, ""]], { row: 1, column: 1 })).toMatchObject({ bottom: 7 });
  });
  test("figures that lie among the serials are no dates", () => {
    const grid = [["Conductivity", "Feed (g)"], ...Array.from({ length: 8 }, (_, day) => [52600 + ((day * 7) % 5), 3])];
    expect(reason(grid)).toContain("No log was found here");
  });
});

describe("where there is no log, a sentence says what to do", () => {
  test("an empty sheet, a sheet without dates", () => {
    expect(reason([])).toContain("This sheet is empty");
    expect(reason([["Food", "Grams"], ["Cod", 3]])).toContain("no column of dates with a heading above it");
  });
  test("dates across the columns", () => expect(reason([["", 46000, 46001, 46002, 46003], ["Feed (g)", 3, 3, 3, 3], ["NO3 (mg/L)", 10, "", "", 11]])).toContain("paste it transposed"));
  test("dates without a year", () => expect(reason([["Datum", "Futter (g)"], ["3.4.", 2], ["4.4.", 3], ["5.4.", 2]])).toContain('such as "3.4.", have no year'));
});

describe("five rows as understood", () => {
  const german = [["Datum", "Futter (g)", "NO3 (mg/l)", "WW (%)", "Temp. (°C)", "Nitrat"], ["31.3.2026", "3,5", "<0,5", "20%", "25,5", 1], ["", "", "", "", "", ""], ["1.4.2026", "viel", "5-10", "", "", ""], ["2.4.2026", 4, "", 0.2, "", ""], ["3.4.2026", "2,25", "nd", "-", 25, ""], ["4.4.2026", "2", ">50", "", "", ""], ["5.4.2026", "2", "", "", "", ""]];
  const found = findLog(german, { row: 1, column: 1 });
  if ("reason" in found) throw new Error(found.reason);
  const { rows: shown, unread } = fiveRows(german, found, proposeColumns(german, found));
  test("have their units, and dates that every reader takes for the same day", () => {
    expect(shown.map(({ row }) => row)).toEqual([1, 3, 4, 5, 6]);
    expect(shown.map(({ cells }) => cells.map(({ understood }) => understood))).toEqual([
      ["31 March 2026", "3.5 g", "below 0.5 mg/L NO3", "20 %", "25.5 C", null],
      ["1 April 2026", "", "5 - 10 mg/L NO3", "", "", null],
      ["2 April 2026", "4 g", "", "20 %", "", null],
      ["3 April 2026", "2.25 g", "below what the kit can show", "", "25 C", null],
      ["4 April 2026", "2 g", "above 50 mg/L NO3", "", "", null],
    ]);
  });
  test("what cannot be read is named with the row of the sheet and the keeper's heading", () => {
    expect(unread).toEqual(['Row 4, Futter (g): Feed (g) should be a number, and "viel" is not one.']);
  });
});

describe("every invented log", () => {
  test.each(LOGS.map((log) => [log.name, log] as const))("%s: goes through LOG_READ once its questions are answered", (_, log) => {
    const found = foundIn(log);
    const taken = new Set<string>();
    // The keeper answers as the log's truth has it; what would be counted twice is left alone.
    const columns = log.columns.map(({ meaning }) => {
      const substance = meaning === null ? "" : /^(?:NO3|PO4|NH4|NO2)/.exec(meaning)?.[0] || meaning;
      if (meaning === null || taken.has(substance)) return "";
      taken.add(substance);
      return meaning;
    });
    const range = log.grid.slice(found.top, found.bottom + 1).map((row) => Array.from({ length: found.right - found.left + 1 }, (_unused, place) => row[found.left + place] ?? ""));
    const read = rows("LOG_READ", range, [columns], found.firstDataRow - found.top + 1, log.dateOrder ?? "dmy");
    // Row n of the answer is row n of the range; a log without headings gets a row for ours.
    const first = Math.max(1, found.firstDataRow - found.top);
    expect(read.length).toBe(first + found.bottom - found.firstDataRow + 1);
    expect(read[0]).toEqual(columns.filter((meaning) => meaning !== ""));
    const dateAt = read[0]?.indexOf("Date") ?? -1;
    expect(typeof read[first]?.[dateAt]).toBe("number");
    expect(read.slice(1).every((row) => row[dateAt] === "" || typeof row[dateAt] === "number")).toBe(true);
  });
});
