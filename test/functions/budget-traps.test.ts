import { errorOf, rows } from "../call";

/** Ways in which a log of good faith could be counted wrong. Columns of a budget row: */
const [FROM, TO, FEED, HARVEST, CHANGE, STORE, LEFT, U, VERDICT] = [0, 1, 2, 4, 5, 7, 8, 9, 10] as const;
const N_IN_NO3 = 0.22590478;
const COD_N = 0.1781 / 6.25;

const SET_UP: unknown[][] = [["Volume (L)", 200], ["NO3 kit steps", 0.1], ["Retained", 0], ["Dry fraction", 0.08], ["Tissue N", 0.035]];
type Cells = Record<string, unknown>;
/** A log of `days` days with a gram of cod on each, and what `at` says on a day of its own. */
function log(headings: string[], days: number, at: Record<number, Cells>): unknown[][] {
  const lines: unknown[][] = [["Date", "Food", "Feed (g)", ...headings]];
  for (let day = 0; day < days; day += 1) lines.push([46000 + day, "Cod", 1, ...headings.map((heading) => at[day]?.[heading] ?? "")]);
  return lines;
}
const budget = (lines: unknown[][], setUp: unknown[][] = SET_UP, period?: string): any[][] => rows("BUDGET_N", lines, setUp, period, null, false) as any[][];
const refusal = (lines: unknown[][], setUp: unknown[][] = SET_UP): string => errorOf("BUDGET_N", lines, setUp).message;

const NO3 = "NO3 (mg/L)", GRAMS = "Harvest (g)", CHANGED = "Water change (L)";

describe("periods", () => {
  test("what is logged on the first of a month belongs to that month", () => {
    // 46000 is 9 December 2025: 23 days are left of December, and January has all of its 31.
    const months = budget(log([NO3], 60, { 0: { [NO3]: 10 }, 59: { [NO3]: 10 } }), SET_UP, "month");
    expect(months.map((row) => row[FROM])).toEqual([46000, 46023, 46054]);
    expect(months.map((row) => Math.round(row[FEED] / COD_N))).toEqual([23, 31, 6]);
  });
  test("a week has seven days of feed, and a last day that begins no other", () => {
    const weeks = budget(log([NO3], 22, { 0: { [NO3]: 10 }, 21: { [NO3]: 10 } }), SET_UP, "week");
    expect(weeks.map((row) => Math.round(row[FEED] / COD_N))).toEqual([7, 7, 8]);
  });
  test("a water change on the first of a month is counted there, with the reading before it", () => {
    const months = budget(log([NO3, CHANGED], 60, { 0: { [NO3]: 10 }, 23: { [NO3]: 10, [CHANGED]: 100 }, 59: { [NO3]: 5 } }), SET_UP, "month");
    expect(months.map((row) => row[CHANGE])).toEqual([0, expect.closeTo((100 * 10 * N_IN_NO3) / 1000, 6), 0]);
    expect(months[0]?.[STORE]).toBeCloseTo(0, 12);
  });
  test("a harvest on the log's first day grew before the log: it leaves, and the screen holds so much less", () => {
    const without = budget(log([NO3, GRAMS], 15, { 0: { [NO3]: 10 }, 14: { [NO3]: 10, [GRAMS]: 200 } }))[0];
    const started = budget(log([NO3, GRAMS], 15, { 0: { [NO3]: 10, [GRAMS]: 200 }, 14: { [NO3]: 10, [GRAMS]: 200 } }))[0];
    expect(started?.[HARVEST]).toBeCloseTo(2 * without?.[HARVEST], 12);
    expect(started?.[STORE]).toBeCloseTo(-without?.[HARVEST], 12);
    expect(started?.[LEFT]).toBeCloseTo(without?.[LEFT], 12);
  });
  test("drained and pressed algae of one day both stood on the screen", () => {
    const at = { 0: { [NO3]: 10 }, 14: { [NO3]: 10, [GRAMS]: 200, "Harvest pressed (g)": 100 } };
    const setUp = [...SET_UP, ["Dry fraction pressed", 0.16]];
    const [both] = budget(log([NO3, GRAMS, "Harvest pressed (g)"], 15, at), setUp, "week");
    const [drained] = budget(log([NO3, GRAMS], 15, at), setUp, "week");
    // 100 g pressed at 0.16 are as much as 200 g drained at 0.08.
    expect(both?.[STORE]).toBeCloseTo(2 * drained?.[STORE], 12);
  });
  test("dates filled in ahead do not make the log longer", () => {
    const lines = [...log([NO3], 8, { 0: { [NO3]: 10 }, 7: { [NO3]: 10 } }), ...[1, 2, 300].map((ahead) => [46007 + ahead, "", "", ""])];
    expect(budget(lines)[0]?.[TO]).toBe(46007);
  });
  test("a date centuries away is a slip, not a long log", () => {
    const lines = log([NO3], 3, {});
    (lines[2] as unknown[])[0] = 460010;
    expect(refusal(lines)).toContain("rows 2 and 3 are more than 200 years apart");
  });
  test("a year of four zeros and a minute above 59 are no dates", () => {
    for (const date of ["0026-03-31", "1850-01-01", "2026-03-31 10:75"]) expect(refusal([...log([NO3], 3, {}), [date, "Cod", 1, ""]])).toContain("is not understood as a date");
  });
});

describe("readings", () => {
  const WEEKLY = { 0: { [NO3]: 10 }, 7: { [NO3]: 10, [GRAMS]: 50 }, 14: { [NO3]: 10, [GRAMS]: 50 }, 21: { [NO3]: ">80", [GRAMS]: 50 } };
  test("one above the scale blanks the periods that use it and no other", () => {
    const periods = budget(log([NO3, GRAMS], 22, WEEKLY));
    expect(periods.map((row) => typeof row[LEFT])).toEqual(["number", "number", "string"]);
    const first = budget(log([NO3, GRAMS, CHANGED], 22, { ...WEEKLY, 0: { [NO3]: ">80" }, 7: { [NO3]: 10, [GRAMS]: 50 }, 14: { [NO3]: 10, [CHANGED]: 20, [GRAMS]: 50 }, 21: { [NO3]: 10, [GRAMS]: 50 } }));
    expect(first.map((row) => typeof row[LEFT])).toEqual(["string", "number", "number"]);
  });
  test("one below detection is named only where it is used", () => {
    const periods = budget(log([NO3, GRAMS], 22, { ...WEEKLY, 21: { [NO3]: 0, [GRAMS]: 50 } }));
    expect(periods.map((row) => (row[VERDICT] as string).includes("less than it can detect"))).toEqual([false, false, true]);
  });
  test("three on one day count alike, in any order, and disagreement widens them", () => {
    const day = (readings: unknown[]): any[] => {
      const lines = log([NO3], 8, { 7: { [NO3]: 20 } });
      for (const reading of readings) lines.push([46000, "", "", reading]);
      return budget(lines, SET_UP, "whole")[0] ?? [];
    };
    const store = (start: number): number => (200 * (20 - start) * N_IN_NO3) / 1000;
    expect(day([6, 9, 15])[STORE]).toBeCloseTo(store(10), 6);
    expect(day([15, 6, 9])[STORE]).toBeCloseTo(store(10), 6);
    expect(day([6, 9, 15])[U]).toBeGreaterThan(2 * day([10, 10, 10])[U]);
  });
  test("ammonium alone says nothing of the store: no figure is guessed", () => {
    const [whole] = budget(log([NO3, "NH4 (mg/L)"], 8, { 0: { "NH4 (mg/L)": "0.1-0.2" }, 7: { "NH4 (mg/L)": "0.1-0.2" } }), SET_UP, "whole");
    expect(whole?.[LEFT]).toBe("");
    expect(whole?.[VERDICT]).toContain("No nitrate reading is logged.");
  });
  test("a small 3 in NO₃ is a 3", () => {
    const [whole] = budget(log(["NO₃⁻ (mg/L)"], 8, { 0: { "NO₃⁻ (mg/L)": 10 }, 7: { "NO₃⁻ (mg/L)": 20 } }), SET_UP, "whole");
    expect(whole?.[STORE]).toBeCloseTo((200 * 10 * N_IN_NO3) / 1000, 6);
  });
});

describe("the same thing twice", () => {
  test.each([
    [NO3, "NO3-N (mg/L)"],
    ["N (mg/L)", NO3],
    ["NH3 (mg/L)", "NH4-N (mg/L)"],
    ["Harvest rear (g)", "Harvest Rear (g)"],
  ])("%s beside %s is refused, for both would be counted", (first, second) => {
    expect(refusal(log([first, second], 8, {}))).toMatch(/state the same thing|two columns/);
  });
  test.each([
    [CHANGED, 20, "Water change (%)", 10],
    [GRAMS, 200, "Harvest (kg)", 0.2],
    ["Feed (mg)", 500, "Feed (portions)", 1],
  ])("%s %d beside %s %d in one row blanks the period and names both", (first, one, second, other) => {
    const headings = [NO3, first, second];
    const at = { 0: { [NO3]: 10 }, 3: { [first]: one, [second]: other }, 7: { [NO3]: 10 } };
    const lines = log(headings, 8, at).map((line) => (first.startsWith("Feed") ? line.filter((_, place) => place !== 2) : line));
    const [whole] = budget(lines, SET_UP, "whole");
    expect(whole?.[LEFT]).toBe("");
    expect(whole?.[VERDICT]).toContain(`the same is given under "${first}" in this row`);
  });
  test("Day beside Date is the day of the week", () => {
    const lines = log([NO3, "Day"], 8, { 0: { [NO3]: 10, Day: "Tue" }, 7: { [NO3]: 10, Day: "Tue" } });
    expect(typeof budget(lines)[0]?.[LEFT]).toBe("number");
  });
});

describe("water changes", () => {
  test("more than all the water is a slip of the unit", () => {
    const [whole] = budget(log([NO3, CHANGED], 8, { 0: { [NO3]: 10 }, 3: { [CHANGED]: 2000 }, 7: { [NO3]: 10 } }));
    expect(whole?.[LEFT]).toBe("");
    expect(whole?.[VERDICT]).toContain("2000 L is more than all the water (200 L)");
  });
  test("an error of the volume acts on what leaves less what comes: none when the new water is the same", () => {
    const sure = [["Volume (L)", 200], ["NO3 kit steps", 0.001], ["NO3 kit error", 0], ["Feed error", 0], ["Volume error", 0], ["Retained", 0], ["New water NO3 (mg/L)", 10]];
    const u = (error: number): number => budget(log([NO3, CHANGED], 2, { 0: { [NO3]: 10, [CHANGED]: 100 }, 1: { [NO3]: 10 } }), [...sure, ["Water change error", error]])[0]?.[U];
    expect(u(0.5)).toBeCloseTo(u(0), 9);
  });
  test("new water stated as NO3 counts for a log in NO3-N", () => {
    const lines = log(["NO3-N (mg/L)", CHANGED], 8, { 0: { "NO3-N (mg/L)": 3, [CHANGED]: 100 }, 7: { "NO3-N (mg/L)": 3 } });
    const otherIn = (key: string, carried: number): number => budget(lines, [["Volume (L)", 200], [key, carried]])[0]?.[3];
    expect(otherIn("New water NO3 (mg/L)", 10)).toBeCloseTo((100 * 10 * N_IN_NO3) / 1000, 8);
    expect(otherIn("New water NO3-N (mg/L)", 10)).toBeCloseTo(1, 12);
    expect(refusal(lines, [["Volume (L)", 200], ["New water NO3", 1], ["New water NO3-N", 1]])).toContain("state the same thing");
  });
});

describe("several screens", () => {
  const TWO = ["Harvest front (g)", "Harvest rear (g)", "Fed back (g)"];
  test("algae fed back without the name of a screen come off all harvests of that row", () => {
    const at = { 0: { [NO3]: 10 }, 14: { [NO3]: 10, [TWO[0] as string]: 300, [TWO[1] as string]: 100, [TWO[2] as string]: 200 } };
    const [whole] = budget(log([NO3, ...TWO], 15, at));
    expect(whole?.[HARVEST]).toBeCloseTo(200 * 0.08 * 0.035, 12);
    expect(whole?.[VERDICT]).toContain("200 g of the harvest were fed back");
  });
  test("a screen is the same whether written Rear or rear", () => {
    const at = { 0: { [NO3]: 10 }, 14: { [NO3]: 10, "Harvest rear (g)": 100 } };
    const [first] = budget(log([NO3, "Harvest rear (g)"], 15, at), [...SET_UP, ["Lit area Rear (m2)", 0.1]]);
    expect(first?.[VERDICT]).not.toContain("never weighed");
  });
  test("the tissue P of one screen is no slip of its tissue N", () => {
    const lines = log([NO3, "Harvest rear (g)"], 15, { 0: { [NO3]: 10 }, 14: { [NO3]: 10, "Harvest rear (g)": 100 } });
    expect(budget(lines, [...SET_UP, ["Tissue N rear", 0.04], ["Tissue P rear", 0.004], ["Tissue P rear low", 0.003]])[0]?.[HARVEST]).toBeCloseTo(100 * 0.08 * 0.04, 12);
  });
});

describe("set-up", () => {
  const plain = log([NO3], 8, { 0: { [NO3]: 10 }, 7: { [NO3]: 10 } });
  test("under a per cent sign 20 and a cell formatted 20% are the same, and 1 is asked for", () => {
    const feed = (value: number): number => budget(plain, [["Volume (L)", 200], ["Retained (%)", value]])[0]?.[FEED];
    expect(feed(20)).toBe(feed(0.2));
    expect(feed(20)).toBeCloseTo(0.8 * 8 * COD_N, 12);
    expect(refusal(plain, [["Volume (L)", 200], ["Retained (%)", 1]])).toContain("1 can mean 1 per cent or the whole");
  });
  test("kit steps of another form than the log's are refused, not dropped", () => {
    expect(refusal(plain, [["Volume (L)", 200], ["NO3-N kit steps", 0.1]])).toContain("the log's readings are NO3");
  });
  test("limits without their figure are refused, not dropped", () => {
    expect(refusal(plain, [["Volume (L)", 200], ["Dry fraction low", 0.05]])).toContain("The limits of dry fraction are given");
  });
});

describe("verdicts", () => {
  test("never call an uncertainty larger than the input when the two figures say otherwise", () => {
    for (let volume = 100; volume <= 4000; volume += 100) {
      const verdict = budget(log([NO3], 30, { 0: { [NO3]: 10 }, 29: { [NO3]: 10 } }), [["Volume (L)", volume], ["NO3 kit steps", "0 5 10 20"], ["Retained", 0]])[0]?.[VERDICT] as string;
      const told = /the uncertainty \(([\d.]+) g\) is larger than what came in \(([\d.]+) g\)/.exec(verdict);
      if (told) expect(Number(told[1])).toBeGreaterThanOrEqual(Number(told[2]));
      else expect(verdict).toMatch(/^(Closed|Unexplained)/);
    }
  });
  test("limits that are lop-sided give lop-sided ranges: tissue P of 0.15 to 1 % reaches farther up than down", () => {
    const lines = log(["PO4 (mg/L)", GRAMS], 30, { 0: { "PO4 (mg/L)": "0.1-0.11" }, 29: { "PO4 (mg/L)": "0.1-0.11", [GRAMS]: 2000 } });
    const [row] = rows("BUDGET_P", lines, [["Volume (L)", 100], ["Retained", 0]], "whole", null, false) as any[][];
    const [, low, high] = (/source of ([\d.]+) to ([\d.]+) g/.exec(row?.[VERDICT]) ?? []).map(Number);
    const source = -row?.[LEFT];
    expect((high ?? 0) - source).toBeGreaterThan(1.5 * (source - (low ?? 0)));
  });
  test("a period of many bad cells names three and counts the rest", () => {
    const many = log([NO3], 5000, {}).map((line, place) => (place === 0 ? line : [line[0], "Cod", "a pinch", 10]));
    const verdict = budget(many, SET_UP, "whole")[0]?.[VERDICT] as string;
    expect(verdict.match(/is not one/g)?.length).toBe(3);
    expect(verdict).toContain("4997 more cells of this period cannot be used.");
    expect(verdict.length).toBeLessThan(32_767);
  });
});
