import { errorOf, rows } from "../call";

const [FROM, , NUTRIENT, FEED, OTHER_IN, HARVEST, CHANGE, OTHER_OUT, STORE, LEFT] = Array.from({ length: 10 }, (_, place) => place) as [number, number, number, number, number, number, number, number, number, number];
const HEAD = ["Date", "Food", "Feed (g)", "NO3 (mg/L)", "PO4 (mg/L)", "Harvest (g)", "Water change (L)", "Removed P (g)"];
const SET_UP = [
  ["Volume (L)", 300], ["NO3 kit steps", 0.5], ["PO4 kit steps", 0.02], ["Dry fraction", 0.08], ["Tissue N", 0.03], ["Tissue P", 0.003],
];
/** Ten-day periods in which 60 g of cod leave with 600 g of algae, and the phosphorus that is over goes into media. */
function tank(change: (line: unknown[], day: number) => unknown[] = (line) => line): unknown[][] {
  const lines = Array.from({ length: 61 }, (_, day): unknown[] => {
    const end = day % 10 === 0;
    return change([46000 + day, "Cod", day === 0 ? "" : 6, end ? 10 : "", end ? 0.4 : "", end && day > 0 ? 680 : "", "", ""], day);
  });
  return [HEAD, ...lines];
}
const both = (log: unknown[][], setUp: unknown[][] = SET_UP, period: unknown = null): unknown[][] => rows("BUDGET_BOTH", log, setUp, period, null, false);
const verdict = (row: unknown[] | undefined): string => String(row?.[row.length - 1]);

test("two rows a period, headings first", () => {
  const [head, ...body] = rows("BUDGET_BOTH", tank(), SET_UP);
  expect(head?.length).toBe(18);
  expect(body.map((row) => row[NUTRIENT])).toEqual(["N", "P", "N", "P", "N", "P", "N", "P", "N", "P", "N", "P"]);
  expect(body.every((row) => row.length === 18)).toBe(true);
  expect(body[2]?.[FROM]).toBe(46010);
});

test("after the adjustment nothing is left over", () => {
  for (const row of both(tank())) {
    const n = row as number[];
    const left = (n[FEED] ?? NaN) + (n[OTHER_IN] ?? NaN) - (n[HARVEST] ?? NaN) - (n[CHANGE] ?? NaN) - (n[OTHER_OUT] ?? NaN) - (n[STORE] ?? NaN);
    expect(Math.abs(left)).toBeLessThan(1e-9);
    expect(typeof row[LEFT]).toBe("number");
  }
});

test("figures that fit say so and name the one that had to move most", () => {
  expect(verdict(both(tank())[0])).toMatch(/^The figures fit together: chance alone brings such a misfit in \d+ % of cases\. The one that had to move most is /);
});

test("a harvest weighed undrained is named by its row, with the weight that would fit", () => {
  const log = tank((line, day) => (day === 30 ? line.map((cell, place) => (place === 5 ? 2400 : cell)) : line));
  const row = both(log)[4];
  expect(verdict(row)).toContain("The figures do not fit together");
  const named = /Least believable: the harvest in row 32, 2400 g; about (\d+) g would fit/.exec(verdict(row));
  expect(Number(named?.[1])).toBeGreaterThan(450);
  expect(Number(named?.[1])).toBeLessThan(1000);
  expect(verdict(row)).toContain("Check that it was drained as usual");
});

test("a reading in NO3-N under the heading NO3 is named as such a step", () => {
  const log = tank((line, day) => line.map((cell, place) => (place === 3 && cell !== "" ? (day === 30 ? 9 : 40) : cell)));
  expect(verdict(both(log)[4])).toContain("Least believable: the reading NO3 (mg/L) in row 32");
  expect(verdict(both(log)[4])).toContain("the step between NO3 and NO3-N");
});

test("a feed with a lost decimal point is named by its row", () => {
  const log = tank((line, day) => (day === 25 ? line.map((cell, place) => (place === 2 ? 60 : cell)) : line));
  expect(verdict(both(log)[4])).toContain("Least believable: the feed of Cod in row 27, 60 g");
});

test("one nutrient alone is closed alone, and that is said", () => {
  const log = tank().map((row) => row.map((cell, place) => (place === 4 ? "" : cell)));
  const [n, p] = both(log);
  expect(verdict(n)).toContain("Only N was tested, so nothing checks it.");
  expect(p?.slice(FEED, LEFT + 1)).toEqual(["", "", "", "", "", "", ""]);
});

test("without any test there is no answer but a sentence", () => {
  const log = tank().map((row) => row.map((cell, place) => (place === 3 || place === 4 ? "" : cell)));
  expect(errorOf("BUDGET_BOTH", log, SET_UP)).toMatchObject({ code: "#N/A", message: expect.stringContaining("NO3 (mg/L) or PO4 (mg/L)") as string });
});

test("a cell that cannot be used leaves its period open, with the cell's address, and the others closed", () => {
  const log = tank((line, day) => (day === 25 ? line.map((cell, place) => (place === 2 ? "some" : cell)) : line));
  const body = both(log);
  expect(verdict(body[4])).toContain("Cannot be closed. Row 27, Feed (g)");
  expect(body[4]?.slice(FEED, LEFT + 1)).toEqual(["", "", "", "", "", "", ""]);
  expect(typeof body[2]?.[FEED]).toBe("number");
  expect(typeof body[6]?.[FEED]).toBe("number");
});

test("readings below detection stay ranges: zero with known steps closes with its width", () => {
  const log = tank((line) => line.map((cell, place) => (place === 4 && cell !== "" ? 0 : cell)));
  const row = both(log)[1] as number[];
  expect(Math.abs(row[STORE] ?? NaN)).toBeLessThan(0.01 / 3.066 * 300 / 1000 * 2);
});

test("period by period: by reading, week, month and whole", () => {
  expect(both(tank(), SET_UP, "whole")).toHaveLength(2);
  expect(both(tank(), SET_UP, "reading")).toHaveLength(12);
  expect(both(tank(), SET_UP, "week").length).toBeGreaterThan(16);
  expect(errorOf("BUDGET_BOTH", tank(), SET_UP, "fortnight").message).toContain("harvest, reading, week, month or whole");
});
