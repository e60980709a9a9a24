import { errorOf, rows } from "../call";

/** Columns of a budget row. */
const [FROM, TO, FEED, OTHER_IN, HARVEST, CHANGE, OTHER_OUT, STORE, LEFT, U, VERDICT] = Array.from({ length: 11 }, (_, place) => place) as [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10];

const SET_UP: unknown[][] = [["Volume (L)", 200], ["NO3 kit steps", "0 5 10 20 40"], ["PO4 kit steps", 0.02], ["Retained", 0]];

/** 42 days: 3.11 g of untreated shrimp a day is 0.1 g N, a harvest each fortnight, tests each week. */
function log(): unknown[][] {
  const lines: unknown[][] = [["Date", "Food", "Feed (g)", "NO3 (mg/L)", "PO4 (mg/L)", "Harvest (g)", "Fed back (g)", "Water change (L)", "Notes"]];
  for (let day = 0; day <= 42; day += 1) {
    const week = day % 7 === 0;
    lines.push([46000 + day, "Shrimp, untreated", 3.11, week ? 10 : "", week ? 0.08 : "", day > 0 && day % 14 === 0 ? 200 : "", "", "", ""]);
  }
  return lines;
}
const edit = (change: (lines: unknown[][]) => void): unknown[][] => {
  const lines = log();
  change(lines);
  return lines;
};
const budgetN = (lines: unknown[][], setUp: unknown[][] = SET_UP, period?: string): any[][] => rows("BUDGET_N", lines, setUp, period, null, false) as any[][];
const budgetP = (lines: unknown[][], setUp: unknown[][] = SET_UP, period?: string): any[][] => rows("BUDGET_P", lines, setUp, period, null, false) as any[][];

describe("a plain log", () => {
  test("has a row of headings, then one row a period from harvest to harvest", () => {
    const all = rows("BUDGET_N", log(), SET_UP);
    expect(all[0]?.slice(0, 3)).toEqual(["From", "To", "Feed in (g N)"]);
    expect(all.slice(1).map((row) => [row[FROM], row[TO]])).toEqual([[46000, 46014], [46014, 46028], [46028, 46042]]);
  });
  test("counts feed, harvest and store by the definitions", () => {
    const [first, second] = budgetN(log());
    // 15 days in the first period (its first day belongs to it), 14 in the next.
    expect(first?.[FEED]).toBeCloseTo(15 * 3.11 * 0.03216, 9);
    expect(second?.[FEED]).toBeCloseTo(14 * 3.11 * 0.03216, 9);
    expect(second?.[HARVEST]).toBeCloseTo(200 * 0.08 * 0.035, 12);
    expect(second?.[STORE]).toBeCloseTo(0, 12);
    expect(second?.[LEFT]).toBeCloseTo(second?.[FEED] - second?.[HARVEST], 12);
  });
  test("the first harvest is named as a start-up, later ones are not", () => {
    const verdicts = budgetN(log()).map((row) => row[VERDICT] as string);
    expect(verdicts[0]).toContain("First harvest: start-up");
    expect(verdicts[1]).not.toContain("start-up");
  });
  test("what the animals keep is taken off, 5 % unless the set-up says otherwise", () => {
    const setUp = SET_UP.filter(([key]) => key !== "Retained");
    expect(budgetN(log(), setUp)[1]?.[FEED]).toBeCloseTo(0.95 * 14 * 3.11 * 0.03216, 9);
  });
});

describe("verdicts", () => {
  test("a sink gives its range and what to look for", () => {
    const [, second] = budgetN(log(), [...SET_UP, ["Dry fraction", 0.03], ["NO3 kit error", 0]]);
    expect(second?.[VERDICT]).toMatch(/^Unexplained sink of [\d.]+ to [\d.]+ g: more came in/);
    expect(second?.[LEFT]).toBeGreaterThan(2 * second?.[U]);
  });
  test("a source when more leaves than was fed", () => {
    const heavy = edit((lines) => { for (const line of lines.slice(1)) if (line[5]) line[5] = 2500; });
    const [, second] = budgetN(heavy, [...SET_UP, ["Dry fraction", 0.08], ["Tissue N", 0.035]]);
    expect(second?.[VERDICT]).toMatch(/^Unexplained source of [\d.]+ to [\d.]+ g/);
  });
  test("closed says how wide that is", () => {
    const closed = edit((lines) => { for (const line of lines.slice(1)) if (line[5]) line[5] = 480; });
    expect(budgetN(closed)[1]?.[VERDICT]).toMatch(/^Closed to within [\d.]+ g of 1.4 g that came in/);
  });
  test("cannot tell when the uncertainty is larger than the input", () => {
    const [, second] = budgetN(log(), [["Volume (L)", 3000], ["NO3 kit steps", "0 5 10 20 40"]]);
    expect(second?.[VERDICT]).toMatch(/^Cannot tell: the uncertainty \([\d.]+ g\) is larger than what came in/);
  });
});

describe("readings", () => {
  test("a rise is a change in store: 10 to 20 mg/L NO3 on the chart is 11.25 to 30 in the middle of its patches", () => {
    const lines = edit((all) => { for (const line of all.slice(29)) if (line[3] !== "") line[3] = 20; });
    const [, second] = budgetN(lines);
    expect(second?.[STORE]).toBeCloseTo((200 * (22.5 - 11.25) * 0.22590478) / 1000 - 0, 4);
    const rise = rows("BUDGET_N", lines, SET_UP, "whole", null, false)[0] as number[];
    expect(rise[STORE]).toBeCloseTo((200 * (30 - 15) * 0.75 * 0.22590478) / 1000, 4);
  });
  test("a test of zero is a range, never a zero: the store is unsure by its half step", () => {
    const lines = edit((all) => { for (const line of all.slice(1)) if (line[3] !== "") line[3] = 0; });
    const [, second] = budgetN(lines);
    expect(second?.[VERDICT]).toContain("A test showed less than it can detect: that is a range, not zero.");
    expect(second?.[STORE]).toBeCloseTo(0, 12);
    const zeroWidth = budgetN(edit((all) => { for (const line of all.slice(1)) line[3] = ""; }), SET_UP)[1];
    expect(zeroWidth?.[STORE]).toBe("");
    expect(second?.[U]).toBeGreaterThan((200 * 2.5 * 0.2259) / 1000 / Math.sqrt(12));
  });
  test("a period end without a reading is taken from between its neighbours, less surely", () => {
    const missing = edit((all) => { (all[29] as unknown[])[3] = ""; });
    expect(budgetN(missing)[1]?.[VERDICT]).toContain("No reading at an end of the period, the nearest is 7 days away.");
    expect(budgetN(missing)[1]?.[STORE]).toBeCloseTo(0, 12);
    expect(budgetN(missing)[1]?.[U]).toBeGreaterThan(budgetN(log())[1]?.[U]);
  });
  test("a reading above the scale leaves the figures blank rather than wrong", () => {
    const [first, second, third] = budgetN(edit((all) => { (all[43] as unknown[])[3] = ">40"; }));
    expect(third?.slice(STORE, VERDICT)).toEqual(["", "", ""]);
    expect(third?.[VERDICT]).toContain("Cannot tell. A reading was above the kit's scale");
    expect(typeof second?.[LEFT]).toBe("number");
    expect(typeof first?.[LEFT]).toBe("number");
  });
  test("no reading at all: the exports still stand, the balance does not", () => {
    const [first] = budgetN(edit((all) => { for (const line of all.slice(1)) line[3] = ""; }));
    expect(first?.[HARVEST]).toBeCloseTo(0.56, 12);
    expect(first?.[LEFT]).toBe("");
    expect(first?.[VERDICT]).toContain("No nitrate reading is logged.");
  });
  test("nitrate and ammonium add up in the store", () => {
    const lines = log().map((line, place) => [...line, place === 0 ? "NH4-N (mg/L)" : place === 1 ? 0.1 : place === 43 ? 0.3 : ""]);
    const [whole] = budgetN(lines, [...SET_UP, ["NH4-N kit steps", 0.1]], "whole");
    const [plain] = budgetN(log(), SET_UP, "whole");
    expect(whole?.[STORE] - plain?.[STORE]).toBeCloseTo((200 * 0.2) / 1000, 9);
  });
});

describe("water changes", () => {
  test("take out what the water held at that moment, and bring what the new water carries", () => {
    const lines = edit((all) => { (all[22] as unknown[])[7] = 50; });
    const setUp = [...SET_UP, ["New water NO3 (mg/L)", 4]];
    const [, second] = budgetN(lines, setUp);
    // On a reading day the reading comes first: 11.25 mg/L NO3, the middle of the patch.
    expect(second?.[CHANGE]).toBeCloseTo((50 * 11.25 * 0.22590478) / 1000, 6);
    expect(second?.[OTHER_IN]).toBeCloseTo((50 * 4 * 0.22590478) / 1000, 9);
  });
  test("between readings the concentration is the one that the steady rise gives on that day", () => {
    const lines = edit((all) => {
      for (const line of all.slice(1)) line[3] = "";
      (all[1] as unknown[])[3] = "10-10";
      (all[43] as unknown[])[3] = "31-31";
      (all[15] as unknown[])[7] = 100;
    });
    const [whole] = budgetN(lines, [["Volume (L)", 200], ["NO3 kit steps", 0.001], ["Retained", 0]], "whole");
    // 10 rising r a day for 14 days, halved, then r a day for 28 days to 31: (10 + 14 r)/2 + 28 r = 31, r = 26/35.
    const before = 10 + (14 * 26) / 35;
    expect(whole?.[CHANGE]).toBeCloseTo((100 * before * 0.22590478) / 1000, 6);
  });
  test("a per cent heading takes 25 and 25% alike, and refuses a lone 1", () => {
    const perCent = (cell: unknown): any[][] => budgetN(edit((all) => { (all[0] as unknown[])[7] = "Water change (%)"; (all[22] as unknown[])[7] = cell; }));
    expect(perCent(25)[1]?.[CHANGE]).toBe(perCent(0.25)[1]?.[CHANGE]);
    expect(perCent(1)[1]?.[VERDICT]).toContain("Row 22, Water change (%)".replace("22", "23"));
  });
});

describe("harvests", () => {
  test("algae fed back are not export", () => {
    const [, second] = budgetN(edit((all) => { (all[29] as unknown[])[6] = 50; }));
    expect(second?.[HARVEST]).toBeCloseTo(150 * 0.08 * 0.035, 12);
    expect(second?.[VERDICT]).toContain("50 g of the harvest were fed back and are not counted as export.");
  });
  test("more fed back than harvested is refused for that period only", () => {
    const [, second, third] = budgetN(edit((all) => { (all[29] as unknown[])[6] = 500; }));
    expect(second?.[LEFT]).toBe("");
    expect(second?.[VERDICT]).toContain("Row 30, Fed back (g): more was fed back than was harvested.");
    expect(typeof third?.[LEFT]).toBe("number");
  });
  test("several screens each count with their own dry fraction, and one never weighed is named", () => {
    const lines = log().map((line, place) => [...line, place === 0 ? "Harvest rear (g)" : place % 14 === 1 && place > 1 ? 100 : "", place === 0 ? "Harvest spare (g)" : ""]);
    const [, second] = budgetN(lines, [...SET_UP, ["Dry fraction rear", 0.1], ["Tissue N", 0.03]]);
    expect(second?.[HARVEST]).toBeCloseTo((200 * 0.08 + 100 * 0.1) * 0.03, 12);
    expect(second?.[VERDICT]).toContain("spare was never weighed");
  });
  test("in calendar periods the algae still standing count in the store, and nothing is lost or made", () => {
    const weekly = budgetN(log(), SET_UP, "week");
    const whole = budgetN(log(), SET_UP, "whole")[0];
    expect(weekly.length).toBe(6);
    expect(weekly[0]?.[STORE]).toBeGreaterThan(0);
    expect(weekly[2]?.[STORE]).toBeLessThan(0);
    expect(weekly[0]?.[VERDICT]).toContain("Algae standing on a screen were estimated.");
    for (const column of [FEED, HARVEST, STORE, LEFT]) {
      expect(weekly.reduce((sum, row) => sum + row[column], 0)).toBeCloseTo(whole?.[column], 9);
    }
  });
  test("a pressed harvest counts with the dry fraction of pressed algae", () => {
    const lines = edit((all) => { (all[0] as unknown[])[5] = "Harvest pressed (g)"; });
    expect(budgetN(lines)[1]?.[HARVEST]).toBeCloseTo(200 * 0.15 * 0.035, 12);
  });
});

describe("other ways in and out", () => {
  test("dosed and removed amounts are counted in their own form", () => {
    const lines = log().map((line, place) => [...line, ...(place === 0 ? ["Dosed NO3 (g)", "Skimmed N (mg)"] : place === 22 ? [1, 500] : ["", ""])]);
    const [, second] = budgetN(lines);
    expect(second?.[OTHER_IN]).toBeCloseTo(0.22590478, 8);
    expect(second?.[OTHER_OUT]).toBeCloseTo(0.5, 12);
  });
  test("phosphorus has its own budget from the same log", () => {
    const [, second] = budgetP(log());
    expect(second?.[FEED]).toBeCloseTo(14 * 3.11 * 0.00214, 9);
    expect(second?.[HARVEST]).toBeCloseTo(200 * 0.08 * 0.0035, 12);
  });
});

describe("messy logs", () => {
  test("rows in any order give the same budget", () => {
    const [head, ...body] = log();
    expect(budgetN([head as unknown[], ...body.reverse()])).toEqual(budgetN(log()));
  });
  test("empty rows and rows with a date only are no trouble", () => {
    const blank = new Array(9).fill("");
    expect(budgetN([...log().slice(0, 20), blank, ...log().slice(20), blank])).toEqual(budgetN(log()));
  });
  test("dates as text count when they can be read in one way", () => {
    const text = edit((all) => { (all[1] as unknown[])[0] = "2025-12-09"; (all[2] as unknown[])[0] = "10.12.2025"; });
    expect(budgetN(text)[0]?.[FROM]).toBe(46000);
  });
  test("the 1904 date system shifts nothing but the dates", () => {
    const shifted = edit((all) => { for (const line of all.slice(1)) line[0] = (line[0] as number) - 1462; });
    const months = budgetN(shifted, [...SET_UP, ["Date system", 1904]], "month");
    const usual = budgetN(log(), SET_UP, "month");
    expect(months.map((row) => row.slice(2))).toEqual(usual.map((row) => row.slice(2)));
    expect(months.map((row) => row[TO] + 1462)).toEqual(usual.map((row) => row[TO]));
  });
  test("months begin on their first day: 9 December 2025 to 20 January 2026 has one boundary, 1 January", () => {
    expect(budgetN(log(), SET_UP, "month").map((row) => [row[FROM], row[TO]])).toEqual([[46000, 46023], [46023, 46042]]);
  });
  test("one bad cell blanks its own period and says which cell", () => {
    const [first, second, third] = budgetN(edit((all) => { (all[20] as unknown[])[2] = "a pinch"; }));
    expect(second?.slice(FEED, VERDICT)).toEqual(["", "", "", "", "", "", "", ""]);
    expect(second?.[VERDICT]).toBe('Cannot tell. Row 21, Feed (g): Feed (g) should be a number, and "a pinch" is not one.');
    expect(typeof first?.[LEFT]).toBe("number");
    expect(typeof third?.[LEFT]).toBe("number");
  });
  test.each([
    ["a heading without its unit", (all: unknown[][]) => { (all[0] as unknown[])[5] = "Harvest"; }, 'The heading "Harvest" has no unit: write for example Harvest (g).'],
    ["nitrate without a basis", (all: unknown[][]) => { (all[0] as unknown[])[3] = "Nitrate (mg/L)"; }, "does not say on which basis"],
    ["ppm", (all: unknown[][]) => { (all[0] as unknown[])[3] = "NO3 (ppm)"; }, "ppm can mean"],
    ["a slip of the pen", (all: unknown[][]) => { (all[0] as unknown[])[5] = "Harvset (g)"; }, 'Was harvest meant?'],
    ["no date column", (all: unknown[][]) => { (all[0] as unknown[])[0] = "When"; }, "needs a column with the heading Date"],
    ["figures without a date", (all: unknown[][]) => { (all[5] as unknown[])[0] = ""; }, "Row 6 has figures but no date."],
    ["a date with two meanings", (all: unknown[][]) => { (all[5] as unknown[])[0] = "3/4/2026"; }, 'Row 6: "3/4/2026" is not understood as a date'],
    ["the same column twice", (all: unknown[][]) => { (all[0] as unknown[])[8] = "Harvest (g)"; }, 'two columns "Harvest (g)"'],
  ])("%s is refused in a sentence", (_, change, sentence) => {
    expect(errorOf("BUDGET_N", edit(change), SET_UP).message).toContain(sentence);
  });
  test.each([
    ["no volume", [["Retained", 0]], 'does not give "Volume (L)"'],
    ["volume zero", [["Volume (L)", 0]], "Volume is zero"],
    ["a volume without its unit", [["Volume", 200]], "has no unit"],
    ["a slip", [["Volume (L)", 200], ["Retaned", 0.1]], 'Was "retained" meant?'],
    ["a row twice", [["Volume (L)", 200], ["volume (L)", 100]], "has two rows"],
    ["tissue in per cent without its sign", [["Volume (L)", 200], ["Tissue N", 3.5]], "Write 5 per cent as 5% or 0.05"],
    ["steps that fall", [["Volume (L)", 200], ["NO3 kit steps", "20 10 5"]], "should rise"],
    ["a screen that is not in the log", [["Volume (L)", 200], ["Period screen", "north"]], 'belongs to the screen "north"'],
  ])("set-up: %s is refused in a sentence", (_, setUp, sentence) => {
    expect(errorOf("BUDGET_N", log(), setUp).message).toContain(sentence);
  });
  test("an unknown period is refused", () => expect(errorOf("BUDGET_N", log(), SET_UP, "quarter").message).toContain("harvest, reading, week, month or whole"));
  test("one dated row is no time", () => expect(errorOf("BUDGET_N", log().slice(0, 2), SET_UP).message).toContain("at least two dated rows"));
  test("a half-filled sheet, with no harvest yet, is one period and says so", () => {
    const young = edit((all) => { for (const line of all.slice(1)) line[5] = ""; });
    const answer = budgetN(young);
    expect(answer.length).toBe(1);
    expect(answer[0]?.[VERDICT]).toContain("No harvest is logged yet.");
  });
  test("one set-up serves nitrogen and phosphorus: rows of the other nutrient are no slips", () => {
    const setUp = [...SET_UP, ["New water PO4 (mg/L)", 0], ["Tissue P", 0.004], ["Tissue N", 0.03]];
    expect(budgetN(log(), setUp).length).toBe(3);
    expect(budgetP(log(), setUp).length).toBe(3);
  });
});
