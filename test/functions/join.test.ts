import { isCellError } from "../../src/functions/cell-error";
import { simulatedLog } from "../simulated-logs";
import { errorOf, rows } from "../call";

const read = (log: unknown[][], columns: unknown[], first?: number, order?: string, system?: number): unknown[][] => rows("LOG_READ", log, [columns], first, order, system);
const refusal = (log: unknown[][], columns: unknown[], first?: unknown, order?: unknown): string => errorOf("LOG_READ", log, [columns], first, order).message;

const SET_UP: unknown[][] = [["Volume (L)", 200], ["NO3 kit steps", 0.1], ["PO4 kit steps", 0.01], ["Dry fraction", 0.08], ["Tissue N", 0.035], ["Tissue P", 0.003]];

describe("a log under our headings", () => {
  test("has the columns with a meaning, in their order, and the rows as they stand", () => {
    const log = [["Datum", "Notiz", "Futter"], [46000, "ok", "3,5"], ["", "", ""], [46002, "", 4]];
    expect(read(log, ["Date", "", "Feed (g)"])).toEqual([["Date", "Feed (g)"], [46000, 3.5], ["", ""], [46002, 4]]);
  });
  test("takes the meanings from a column of cells, and a blank that arrives as 0", () => {
    expect(rows("LOG_READ", [["a", "b", "c"], [46000, "x", 2]], [["Date"], [0], ["Feed (g)"]])).toEqual([["Date", "Feed (g)"], [46000, 2]]);
  });
  test("blanks titles, headings and the row of units above the first data row, so that row n stays row n", () => {
    const log = [["Logbuch", ""], ["Datum", "Ernte"], ["", "g"], [46000, 200]];
    expect(read(log, ["Date", "Harvest (g)"], 4)).toEqual([["Date", "Harvest (g)"], ["", ""], ["", ""], [46000, 200]]);
    expect(read([[46000, 200]], ["Date", "Harvest (g)"], 1)).toEqual([["Date", "Harvest (g)"], [46000, 200]]);
  });
  test("keeps readings that say more than a number, and the places to which they were read", () => {
    const column = ["<0,2", "5-10", "nd", "~10", ">50", "n.n.", "0,50", "0,08", "12", 7, "-", "10 mg/l"];
    const log = [["Datum", "NO3"], ...column.map((cell, day) => [46000 + day, cell])];
    expect(read(log, ["Date", "NO3 (mg/L)"]).slice(1).map((row) => row[1])).toEqual(["<0,2", "5-10", "nd", "~10", ">50", "nd", "0,50", 0.08, 12, 7, "", 10]);
  });
  test("reads numbers in text, also with the heading's own unit behind them; other units are passed on", () => {
    const column = ["3,5", "1.234,5", "12 g", "0,2 kg", "a pinch", "1.5", "1,234", "–"];
    const log = [["Datum", "Ernte"], ...column.map((cell, day) => [46000 + day, cell])];
    expect(read(log, ["Date", "Harvest (g)"]).slice(1).map((row) => row[1])).toEqual([3.5, 1234.5, 12, "0,2 kg", "a pinch", 1.5, "1,234", ""]);
  });
  test("1,234 and 1.234 have one meaning where every other text of the log has a decimal comma, and none where nothing says so", () => {
    const feed = (...column: string[]): unknown[] => read([["Datum", "Futter"], ...column.map((cell, day) => [46000 + day, cell])], ["Date", "Feed (g)"]).slice(1).map((row) => row[1]);
    expect(feed("1,234", "3,5", "1.234")).toEqual([1.234, 3.5, 1234]);
    expect(feed("1,234", "2")).toEqual(["1,234", 2]);
    expect(feed("1,234", "3.5")).toEqual(["1,234", 3.5]);
  });
  test("20 % in text is the same as a cell formatted 20%", () => {
    const log = [["d", "c"], [46000, "20 %"], [46001, "1%"], [46002, 0.2], [46003, 20]];
    expect(read(log, ["Date", "Water change (%)"]).slice(1).map((row) => row[1])).toEqual([0.2, 0.01, 0.2, 20]);
  });
  test("totals, titles and a repeated heading below are blanked, so that rows can still be counted", () => {
    const log = [["Datum", "Ernte", "Notiz"], [46000, 200, ""], ["Januar", "", "neu"], ["Datum", "Ernte", "Notiz"], [46030, 210, ""], ["Summe", 410, ""]];
    expect(read(log, ["Date", "Harvest (g)", ""])).toEqual([["Date", "Harvest (g)"], [46000, 200], ["", ""], ["", ""], [46030, 210], ["", ""]]);
  });
  test("errors of cells are passed on", () => {
    const error = { code: "#REF!", message: "" };
    expect(isCellError(read([["d", "f"], [46000, error]], ["Date", "Feed (g)"])[1]?.[1])).toBe(true);
  });
});

describe("dates in text", () => {
  const date = (written: unknown, order?: string, system?: number): unknown => read([["d", "f"], [written, 1]], ["Date", "Feed (g)"], 2, order, system)[1]?.[0];
  // 31 March 2026 is serial 46112: 46000 is 9 December 2025, and 112 days later it is 31 March 2026.
  test.each([
    ["2026-03-31", undefined], ["31.3.2026", undefined], ["31. März 2026", undefined], ["31 mars 2026", undefined], ["31 de marzo de 2026", undefined], ["March 31, 2026", undefined], ["31-Mar-26", undefined],
    ["20260331", undefined], [20260331, undefined], ["31/3/2026", "dmy"], ["31/03/26", "dmy"], ["31-3-2026", "dmy"], ["Di 31.03.26", "dmy"], ["3/31/2026", "mdy"], ["3/31/26", "mdy"], ["26/3/31", "ymd"], ["2026/03/31", undefined],
  ])("%s is 31 March 2026 (%s)", (written, order) => expect(date(written, order)).toBe(46112));
  test("a time of day is kept", () => {
    expect(date("31.3.2026 18:00")).toBeCloseTo(46112.75, 9);
    expect(date("3/31/2026 6:00 PM", "mdy")).toBeCloseTo(46112.75, 9);
  });
  test("a date that can be two days is passed on without an order, and read with one", () => {
    expect(date("3/4/2026")).toBe("3/4/2026");
    expect(date("3/4/2026", "dmy")).toBe(46115);
    expect(date("3/4/2026", "mdy")).toBe(46085);
    expect(errorOf("BUDGET_N", read([["d", "f"], ["3/4/2026", 1]], ["Date", "Feed (g)"]), SET_UP).message).toContain('Row 2: "3/4/2026" is not understood as a date');
  });
  test("a day that does not exist in the order is passed on", () => {
    expect(date("31/3/2026", "mdy")).toBe("31/3/2026");
    expect(date("31/2/2026", "dmy")).toBe("31/2/2026");
    expect(date("31 Febuary 2026")).toBe("31 Febuary 2026");
  });
  test("in a workbook that counts from 1904 the serial is that of the workbook", () => expect(date("31.3.2026", undefined, 1904)).toBe(46112 - 1462));
});

describe("refusals", () => {
  const log = [["a", "b"], [46000, 1]];
  test.each([
    [["Date", "Nitrate (mg/L)"], "does not say on which basis: write NO3 or NO3-N"],
    [["Date", "NO3 (ppm)"], "ppm can mean mg per litre or mg per kg"],
    [["Date", "Feed"], 'The heading "Feed" has no unit'],
    [["Date", "Harvest (lb)"], 'The unit "lb" of the heading'],
    [["Feed (g)", "Feed (g)"], 'two columns "Feed (g)"'],
    [["Date", "Notes"], '"Notes" in columns is not a heading that the budget knows'],
    [["Date"], "columns has 1 cells and the log has 2 columns"],
    [["", ""], "columns is empty"],
  ])("%j", (columns, sentence) => expect(refusal(log, columns)).toContain(sentence));
  test("NO3 and NO3-N side by side in the words of the strict reader", () => {
    expect(refusal([["a", "b", "c"], [46000, 1, 2]], ["Date", "NO3 (mg/L)", "NO3-N (mg/L)"])).toContain("state the same thing");
  });
  test("a first row outside of the log, an unknown order, a block of columns", () => {
    expect(refusal(log, ["Date", "Feed (g)"], 3)).toContain("first_row should be a whole number from 1 to 2");
    expect(refusal(log, ["Date", "Feed (g)"], 1.5)).toContain("and is 1.5");
    expect(refusal(log, ["Date", "Feed (g)"], 2, "day first")).toContain("date_order should be dmy, mdy or ymd");
    expect(errorOf("LOG_READ", log, [["Date", "Feed (g)"], ["", ""]]).message).toContain("one row or one column");
    expect(errorOf("LOG_READ", log, [["Date", "Feed (g)"]], 2, null, 1900.5).message).toContain("1900 or 1904");
  });
});

describe("the budget of a joined log", () => {
  const german = (): { joined: unknown[][]; ours: unknown[][] } => {
    const joined: unknown[][] = [["Beckentagebuch", "", "", "", "", "", ""], ["Datum", "Sorte", "Menge", "Nitrat", "Phosphat", "Ernte", "Bemerkung"], ["", "", "g", "mg/l", "mg/l", "g", ""]];
    const blank = ["", "", "", "", "", ""];
    const ours: unknown[][] = [["Date", "Food", "Feed (g)", "NO3 (mg/L)", "PO4 (mg/L)", "Harvest (g)"], blank, blank];
    for (let day = 0; day <= 42; day += 1) {
      const [feed, no3, po4] = [3 + (day % 5) / 10, day % 7 === 0 ? 8 + (day % 3) : null, day % 7 === 0 ? 0.05 + (day % 4) / 100 : null];
      const harvest = day > 0 && day % 14 === 0 ? 200 + day : "";
      const date = new Date((46000 + day - 25569) * 86_400_000);
      const comma = (value: number | null): string => (value === null ? "" : String(value).replace(".", ","));
      joined.push([`${date.getUTCDate()}.${date.getUTCMonth() + 1}.${date.getUTCFullYear()}`, "Cod", comma(feed), comma(no3), comma(po4), harvest, "ok"]);
      ours.push([46000 + day, "Cod", feed, no3 ?? "", po4 ?? "", harvest]);
    }
    joined.push(["Summe", "", "140,6", "", "", 700, ""]);
    return { joined, ours };
  };
  const COLUMNS = ["Date", "Food", "Feed (g)", "NO3 (mg/L)", "PO4 (mg/L)", "Harvest (g)", ""];

  test.each(["BUDGET_N", "BUDGET_P", "BUDGET_BOTH", "BUDGET_WARNINGS"])("%s of a German log is exactly that of the same log under our headings", (name) => {
    const { joined, ours } = german();
    const answer = rows(name, read(joined, COLUMNS, 4, "dmy"), SET_UP);
    expect(answer.length).toBeGreaterThan(1);
    expect(answer).toEqual(rows(name, ours, SET_UP));
  });
  test("a cell that cannot be read blanks its period and is named with its row of the keeper's range", () => {
    const { joined } = german();
    (joined[5] as unknown[])[2] = "eine Prise";
    const [first, second] = rows("BUDGET_N", read(joined, COLUMNS, 4), SET_UP, "harvest", null, false) as any[][];
    expect(first?.[10]).toContain('Row 6, Feed (g): Feed (g) should be a number, and "eine Prise" is not one.');
    expect(first?.[8]).toBe("");
    expect(typeof second?.[8]).toBe("number");
  });
  test.each([1, 2, 3, 4, 5, 6])("simulated log %d with other headings and notes between gives the same budget", (seed) => {
    const { log, setUp } = simulatedLog(seed);
    const [head = [], ...lines] = log;
    const joined = [head.map((_, place) => `Spalte ${place}`), ...lines].map((line) => line.flatMap((cell) => [typeof cell === "number" && cell < 40000 ? String(cell).replace(".", ",") : cell, "a note"]));
    const answer = rows("BUDGET_N", read(joined, head.flatMap((heading) => [heading, ""])), setUp);
    expect(answer).toEqual(rows("BUDGET_N", log, setUp));
  });
});
