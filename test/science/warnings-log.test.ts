import { foodsFrom } from "../../src/functions/foods-range";
import { logFrom } from "../../src/functions/log-range";
import { accountWarnings } from "../../src/science/warnings/account";
import { CHANGE, cleanLog, DATE, FEED, HARVEST, LEVEL, NO3, only, put, putAll, raised, SET_UP } from "./warning-log";

describe("dates", () => {
  test("a row with a wrong year is named, be it too late or too early", () => {
    expect(only("DATE_ORDER", cleanLog((lines) => put(lines, DATE, { 30: 46028 + 365 })))).toEqual([expect.objectContaining({ row: 30, severity: "Caution" })]);
    expect(only("DATE_ORDER", cleanLog((lines) => put(lines, DATE, { 30: 46028 - 365 })))).toEqual([expect.objectContaining({ row: 30 })]);
  });
  test("a sheet from new to old is in order, and so are several rows of one day", () => {
    const [head, ...body] = cleanLog();
    expect(raised([head as unknown[], ...body.reverse()])).toEqual([expect.objectContaining({ code: "NONE" })]);
    expect(only("DATE_ORDER", cleanLog((lines) => put(lines, DATE, { 30: 46027 })))).toEqual([]);
  });
  test("a gap is more than 14 days and more than three usual steps", () => {
    const without = (days: number): unknown[][] => cleanLog((lines) => lines.splice(20, days - 1));
    expect(only("LOG_GAP", without(15))).toEqual([expect.objectContaining({ row: 21, severity: "Caution" })]);
    expect(only("LOG_GAP", without(14))).toEqual([]);
    // A keeper who writes a row a week is not late after 15 days.
    const weekly = (gap: number): unknown[][] => cleanLog().filter((_, place) => place === 0 || (place - 1) % 7 === 0 && !(place > 22 && place <= 15 + gap));
    expect(only("LOG_GAP", weekly(21))).toEqual([]);
    expect(only("LOG_GAP", weekly(28))).toHaveLength(1);
  });
});

describe("rows and cells", () => {
  test("a row pasted twice is named with its first", () => {
    const twice = cleanLog((lines) => lines.splice(31, 0, [...(lines[29] as unknown[])]));
    const found = only("DUPLICATE_ROW", twice);
    expect(found).toEqual([expect.objectContaining({ row: 32, severity: "Caution" })]);
    expect(found[0]?.sentence).toContain("repeats row 30");
  });
  test("two feeds of one day that differ are none", () => {
    const other = cleanLog((lines) => lines.splice(31, 0, [46028, "Shrimp, untreated", 1, ...new Array(9).fill("")]));
    expect(only("DUPLICATE_ROW", other)).toEqual([]);
  });
  test("a cell that blanks its period is serious and stands once, though both budgets read it", () => {
    const found = only("BAD_CELL", cleanLog((lines) => put(lines, FEED, { 30: "a pinch" })));
    expect(found).toEqual([expect.objectContaining({ row: 30, severity: "Serious", sentence: 'Row 30, Feed (g): Feed (g) should be a number, and "a pinch" is not one.' })]);
  });
  test("a lamp's cell that cannot be used is a caution, for the budget does not need it", () => {
    expect(only("BAD_CELL", cleanLog((lines) => put(lines, LEVEL, { 30: "half" })))).toEqual([expect.objectContaining({ row: 30, severity: "Caution" })]);
  });
  test("every bad cell is listed", () => expect(only("BAD_CELL", cleanLog((lines) => put(lines, FEED, Object.fromEntries(Array.from({ length: 20 }, (_, place) => [place + 20, "?"])))))).toHaveLength(20));
});

describe("water changes", () => {
  test.each([[100, 0], [101, 1]])("%p of 200 litres in one day: %p", (litres, count) => {
    expect(only("LARGE_CHANGE", cleanLog((lines) => put(lines, CHANGE, { 30: litres })))).toHaveLength(count);
  });
  test("two changes of one day add up", () => {
    const two = cleanLog((lines) => { put(lines, CHANGE, { 30: 60, 31: 60 }); put(lines, DATE, { 30: 46028.2, 31: 46028.8 }); });
    expect(only("LARGE_CHANGE", two)).toEqual([expect.objectContaining({ row: 31, severity: "Caution" })]);
  });
});

describe("the unexplained part", () => {
  test("a heavy feed that nobody harvested is a sink of both nutrients, with the row that closes the period", () => {
    const found = only("UNEXPLAINED_SINK", cleanLog((lines) => put(lines, FEED, { 34: 300 })));
    expect(found.map((one) => [one.row, one.severity])).toEqual([[44, "Caution"], [44, "Caution"]]);
    expect(found[0]?.sentence).toMatch(/^In the 14 days to this row [\d.]+ to [\d.]+ g more nitrogen came in than left or stayed/);
    expect(only("UNEXPLAINED_SINK", cleanLog((lines) => put(lines, FEED, { 34: 6 })))).toEqual([]);
  });
  test("a harvest ten times too heavy is a source", () => {
    expect(only("UNEXPLAINED_SOURCE", cleanLog((lines) => put(lines, HARVEST, { 44: 5000 }))).map((one) => one.row)).toEqual([44, 44]);
    expect(only("UNEXPLAINED_SOURCE", cleanLog((lines) => put(lines, HARVEST, { 44: 550 })))).toEqual([]);
  });
  test("what no single period shows, the whole log may: then no row is named", () => {
    // Each harvest takes a quarter less than was fed: within the doubt of one fortnight, not within that of ten weeks.
    const found = only("UNEXPLAINED_SINK", cleanLog((lines) => putAll(lines, HARVEST, () => 370)));
    expect(found[0]).toMatchObject({ row: "", day: "" });
    expect(found[0]?.sentence).toMatch(/^Over the whole log \(70 days\)/);
    expect(only("UNEXPLAINED_SINK", cleanLog((lines) => putAll(lines, HARVEST, () => 420)))).toEqual([]);
  });
  test("without a reading there is no account to warn of", () => {
    expect(only("UNEXPLAINED_SINK", cleanLog((lines) => { putAll(lines, NO3, () => ""); putAll(lines, 4, () => ""); put(lines, FEED, { 34: 300 }); }))).toEqual([]);
  });
});

describe("tissue content", () => {
  test("that the harvest would need to close the budget is compared with what algae hold", () => {
    // 1.4 g N came in 14 days and 5 g of algae were harvested, dry 0.4 g: that would be 350 % N.
    const found = only("TISSUE_IMPLIED", cleanLog((lines) => put(lines, HARVEST, { 44: 5 })));
    expect(found.map((one) => one.row)).toEqual([44, 44]);
    expect(only("TISSUE_IMPLIED", cleanLog((lines) => put(lines, HARVEST, { 44: 300 })))).toEqual([]);
  });
  test("that the set-up states above what algae hold is serious", () => {
    const stating = (nutrient: "N" | "P", value: number) => {
      const { log, setUp } = logFrom(cleanLog(), SET_UP, nutrient, foodsFrom(null));
      return { log, setUp: { ...setUp, units: setUp.units.map((unit) => ({ ...unit, tissue: { ...unit.tissue, value } })) }, substances: [] };
    };
    const of = (n: number, p: number) => accountWarnings({ N: stating("N", n), P: stating("P", p) }).filter((one) => one.code === "TISSUE_IMPLIED" && one.severity === "serious");
    expect(of(0.09, 0.026).map((one) => one.facts)).toEqual([expect.objectContaining({ nutrient: "N", share: 0.09, most: 0.08 }), expect.objectContaining({ nutrient: "P", share: 0.026, most: 0.025 })]);
    expect(of(0.08, 0.025)).toEqual([]);
  });
});

