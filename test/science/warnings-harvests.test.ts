import { cleanLog, FED_BACK, FEED, HARVEST, LEVEL, only, put, putAll, raised, setUpWith } from "./warning-log";

const light = setUpWith({ Started: 46000 });

describe("a harvest against its light", () => {
  // 250 umol m-2 s-1 for 12 h is 10.8 mol a day: 14 days on 0.4 m2 are 60.48 mol. Above 0.8 g per mol are 48.4 g dry (605 g drained);
  // above 1.8 at the lowest dry fraction of 0.068, and 5 % light, are 108.9 g dry (1,685 g drained).
  test.each([
    [600, []],
    [610, ["Caution"]],
    [1680, ["Caution"]],
    [1690, ["Serious"]],
  ])("%p g drained: %p", (grams, severities) => {
    expect(only("HARVEST_ABOVE_LIGHT", cleanLog((lines) => put(lines, HARVEST, { 44: grams })), light).map((one) => one.severity)).toEqual(severities);
  });
  test("dimmed lamps count with what they give", () => {
    // A quarter of the light leaves 15.1 mol, in which 40 g dry would be 2.6 g per mol.
    const dimmed = only("HARVEST_ABOVE_LIGHT", cleanLog((lines) => put(lines, LEVEL, { 30: 25, 44: 100 })), light);
    expect(dimmed).toEqual([expect.objectContaining({ row: 44, severity: "Serious" })]);
  });
  test("nothing is said where the light is not known", () => {
    expect(only("HARVEST_ABOVE_LIGHT", cleanLog((lines) => put(lines, HARVEST, { 44: 1690 })), setUpWith({ "Light hours": null }))).toEqual([]);
  });
  test("a first harvest counts only where the start of the screen is stated", () => {
    const heavy = cleanLog((lines) => put(lines, HARVEST, { 16: 1690 }));
    expect(only("HARVEST_ABOVE_LIGHT", heavy, light)).toHaveLength(1);
    expect(only("HARVEST_ABOVE_LIGHT", heavy)).toEqual([]);
  });
  test("two sides harvested on two days are one harvest", () => {
    expect(only("HARVEST_ABOVE_LIGHT", cleanLog((lines) => put(lines, HARVEST, { 44: 290, 45: 290 })), light)).toEqual([]);
  });
  test("many of one kind are listed for the latest five, and the others are counted", () => {
    const all = only("HARVEST_ABOVE_LIGHT", cleanLog((lines) => putAll(lines, HARVEST, () => 1700), 140), light);
    expect(all.map((one) => one.row)).toEqual([86, 100, 114, 128, 142]);
    expect(all[4]?.sentence).toContain("(5 earlier ones like this are not listed.)");
  });
});

describe("growth", () => {
  // 40 g m-2 d-1 on 0.4 m2 in 14 days are 224 g dry: 2,800 g drained at 0.08, 3,468 g at 0.068 and 5 % light.
  test.each([
    [2790, []],
    [2810, ["Caution"]],
    [3460, ["Caution"]],
    [3475, ["Serious"]],
  ])("%p g drained: %p", (grams, severities) => {
    expect(only("GROWTH_TOO_HIGH", cleanLog((lines) => put(lines, HARVEST, { 44: grams }))).map((one) => one.severity)).toEqual(severities);
  });
  const falling = (shares: number[]): unknown[][] => cleanLog((lines) => putAll(lines, HARVEST, (now, day) => now * (shares[day / 14 - 1] ?? 1)), 84);
  test("that falls five times in a row, to less than 70 %, is a caution at the last harvest", () => {
    expect(only("GROWTH_FALLING", falling([1, 1, 0.95, 0.85, 0.75, 0.6]))).toEqual([expect.objectContaining({ row: 86, severity: "Caution" })]);
  });
  test("that falls less, or rises once, is none", () => {
    expect(only("GROWTH_FALLING", falling([1, 1, 0.95, 0.9, 0.85, 0.75]))).toEqual([]);
    expect(only("GROWTH_FALLING", falling([1, 1, 0.85, 0.9, 0.75, 0.6]))).toEqual([]);
  });
});

describe("when to harvest", () => {
  // The usual curve is good to 13.7 days, and a keeper's habit of 14 days to 17.5.
  const waiting = (days: number): unknown[][] => cleanLog((lines) => lines.splice(1 + 70 + days + 1), 100).map((line, place) => (place > 71 && place > 0 ? line.map((cell, column) => (column === HARVEST ? "" : cell)) : line));
  test("18 days after the last harvest is overdue, 17 is not", () => {
    expect(only("HARVEST_OVERDUE", waiting(18))).toEqual([expect.objectContaining({ row: 72, severity: "Caution" })]);
    expect(only("HARVEST_OVERDUE", waiting(17))).toEqual([]);
  });
  test("a screen with a curve of its own is held to that", () => {
    // Logistic with K 100, B0 10, r 0.5 on 0.4 m2 (best after 6.4 days, good to 8.2), harvested after 4, 5, 6, 8, 10, 12 days in turn.
    const steps = [4, 5, 6, 8, 10, 12, 7, 9, 4, 5];
    const ends = steps.reduce<number[]>((list, step) => [...list, (list[list.length - 1] ?? 0) + step], []);
    const grams = (days: number): number => ((100 / (1 + 9 * Math.exp(-0.5 * days)) - 10) * 0.4) / 0.08;
    const log = (after: number): unknown[][] => cleanLog((lines) => {
      putAll(lines, HARVEST, () => "");
      lines.splice(1 + 70 + after + 1);
      ends.forEach((day, place) => put(lines, HARVEST, { [day + 2]: grams(steps[place] ?? 1) }));
    }, 100);
    const found = only("HARVEST_OVERDUE", log(9));
    expect(found).toHaveLength(1);
    expect(found[0]?.sentence).toContain("own curve");
    expect(only("HARVEST_OVERDUE", log(6))).toEqual([]);
  });
  test("the first harvest is start-up until a second has come", () => {
    const [first] = only("FIRST_HARVEST", cleanLog(undefined, 20));
    expect(first).toMatchObject({ row: 16, severity: "Note" });
    expect(only("FIRST_HARVEST", cleanLog(undefined, 28))).toEqual([]);
  });
});

test("what was fed back is a note once, with all its grams", () => {
  const found = only("FED_BACK", cleanLog((lines) => put(lines, FED_BACK, { 30: 50, 44: 100 })));
  expect(found).toEqual([expect.objectContaining({ row: 44, severity: "Note" })]);
  expect(found[0]?.sentence).toContain("150 g drained of 2 harvests were fed back and are not counted as export");
  expect(only("FED_BACK", cleanLog((lines) => put(lines, FED_BACK, { 30: 0 })))).toEqual([]);
});

describe("feed above the screen's capacity", () => {
  // At best 0.8 g per mol x 10.8 mol = 8.64 g m-2 d-1 on 0.4 m2 with 4.025 % N: 0.139 g N a day, which 4.33 g of shrimp (3.216 % N) carry.
  test.each([[4.3, 0], [4.35, 1]])("%p g of shrimp a day: %p", (grams, count) => {
    expect(only("FEED_ABOVE_CAPACITY", cleanLog((lines) => putAll(lines, FEED, () => grams)))).toHaveLength(count);
  });
  test("only the last four weeks count", () => {
    expect(only("FEED_ABOVE_CAPACITY", cleanLog((lines) => putAll(lines, FEED, (_, day) => (day > 42 ? 3.11 : 9))))).toEqual([]);
  });
  test("nothing is said before the screen has begun, nor without a lit area", () => {
    expect(only("FEED_ABOVE_CAPACITY", cleanLog((lines) => { putAll(lines, FEED, () => 9); putAll(lines, HARVEST, () => ""); }), setUpWith({ Started: 46100 }))).toEqual([]);
    expect(only("FEED_ABOVE_CAPACITY", cleanLog((lines) => putAll(lines, FEED, () => 9)), setUpWith({ "Lit area (m2)": null }))).toEqual([]);
  });
});

test("serious warnings stand before cautions, and each kind in the order of the sheet", () => {
  const found = raised(cleanLog((lines) => { put(lines, HARVEST, { 30: 1700, 58: 1700, 44: 610 }); put(lines, FED_BACK, { 16: 10 }); }), light);
  const severities = found.map((one) => one.severity);
  const rank = ["Serious", "Caution", "Note"];
  expect(severities).toEqual([...severities].sort((a, b) => rank.indexOf(String(a)) - rank.indexOf(String(b))));
  expect(found.filter((one) => one.code === "HARVEST_ABOVE_LIGHT").map((one) => one.row)).toEqual([30, 58, 44]);
});
