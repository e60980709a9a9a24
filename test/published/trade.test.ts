/**
 * Facts of the trade as check values: common practice, no source. Figures of a first cleaning as keepers report them; none of
 * them is a constant or demo data of the product.
 */
import { number, rows, value } from "../call";

const VERDICT = 10, FEED = 2, HARVEST = 4;

describe("common practice, no source", () => {
  test("a unit twice the size carries twice the daily portions", () => {
    const [[low, high] = []] = rows("SCRUBAREA_HABIT", 6);
    const [[lowOfHalf, highOfHalf] = []] = rows("SCRUBAREA_HABIT", 3);
    expect(low).toBeCloseTo(2 * (lowOfHalf as number), 12);
    expect(high).toBeCloseTo(2 * (highOfHalf as number), 12);
    expect(number("SCRUB_CAPACITY_N", 0.4, 13.7)).toBeCloseTo(2 * number("SCRUB_CAPACITY_N", 0.2, 13.7), 12);
    expect(number("SCRUB_CAPACITY_P", 0.4, 13.7)).toBeCloseTo(2 * number("SCRUB_CAPACITY_P", 0.2, 13.7), 12);
    const [[, middle] = []] = rows("SCRUBAREA_NEEDED", 0.1, 0.01, 13.7);
    const [[, middleOfHalf] = []] = rows("SCRUBAREA_NEEDED", 0.05, 0.005, 13.7);
    expect(middle).toBeCloseTo(2 * (middleOfHalf as number), 10);
  });

  test("75 to 100 cm2 of sheet lit on both sides for a portion of 3 g: 150 to 200 cm2 of lit area", () => {
    const [[low, high] = []] = rows("SCRUBAREA_HABIT", 3);
    expect(low).toBeCloseTo(0.015, 12);
    expect(high).toBeCloseTo(0.02, 12);
  });

  test("the first days at half light, then full: the light sum counts them by half", () => {
    const daily = rows("LIGHT_DAILY", [[250], [250]], [[16], [16]], [[0.5], [1]]).flat() as number[];
    expect(7 * (daily[0] ?? 0) + 10 * (daily[1] ?? 0)).toBeCloseTo(7 * 7.2 + 10 * 14.4, 9);
  });
});

/** Day 17: 41 g drained of one unit, two frozen portions of about 3 g fed a day, nitrate 0, phosphate 0.08 to 0.1 mg/L; three smaller units unweighed; part fed back. */
describe("a first cleaning on day 17 (common practice, no source)", () => {
  const log: unknown[][] = [["Date", "Food", "Feed (g)", "NO3 (mg/L)", "PO4 (mg/L)", "Harvest large (g)", "Fed back large (%)", "Light level (%)"]];
  for (let day = 0; day <= 17; day += 1) {
    const tested = day === 0 || day === 17;
    log.push([46100 + day, "Mysids, frozen", 2 * 3, tested ? 0 : "", tested ? "0.08-0.1" : "", day === 17 ? 41 : "", day === 17 ? 30 : "", day === 0 ? 50 : day === 5 ? 100 : ""]);
  }
  const setUp = [
    ["Volume (L)", 200], ["NO3 kit steps", "0 5 10 20 40 80"], ["Light (umol m-2 s-1)", 250], ["Light hours (h)", 16],
    ["Lit area large (m2)", 0.04], ["Lit area small 1 (m2)", 0.02], ["Lit area small 2 (m2)", 0.02], ["Lit area small 3 (m2)", 0.02],
  ];
  const verdictOf = (name: string): { row: unknown[]; verdict: string } => {
    const [row = []] = rows(name, log, setUp, "whole", null, false);
    return { row, verdict: String(row[VERDICT]) };
  };

  test.each(["BUDGET_N", "BUDGET_P"])("%s: this one harvest carries only a small part of what was fed", (name) => {
    const { row, verdict } = verdictOf(name);
    expect((row[HARVEST] as number) / (row[FEED] as number)).toBeLessThan(0.1);
    const said = /The harvests carried ([\d.]+) to ([\d.]+) % of the [NP] that came in/.exec(verdict);
    expect(Number(said?.[2])).toBeLessThan(15);
    expect(Number(said?.[1])).toBeGreaterThan(0);
  });

  test("it is a first harvest, and not to be judged yet", () => {
    expect(verdictOf("BUDGET_N").verdict).toContain("First harvest of large: start-up, do not judge the screen yet.");
    const [compared] = rows("HARVEST_COMPARE", log, setUp, null, false);
    expect(compared?.[1]).toBe("first harvest");
    expect(compared?.[3]).toBe(17);
  });

  test("a nitrate test at zero is a detection limit, a phosphate of 0.08 to 0.1 a range", () => {
    expect(verdictOf("BUDGET_N").verdict).toContain("A test showed less than it can detect: that is a range, not zero.");
    expect(value("READING_LOW", 0, [["0 5 10 20 40 80"]])).toBe(0);
    expect(value("READING_HIGH", 0, [["0 5 10 20 40 80"]])).toBe(2.5);
    expect([number("READING_LOW", "0.08-0.1"), number("READING_HIGH", "0.08-0.1")]).toEqual([0.08, 0.1]);
  });

  test("which missing weighings would settle it: the three smaller units", () => {
    expect(verdictOf("BUDGET_N").verdict).toContain("small 1, small 2, small 3 were never weighed: weigh the next harvest of each");
    const compared = rows("HARVEST_COMPARE", log, setUp, null, false);
    expect(compared.slice(1).map((row) => [row[0], row[1]])).toEqual([["small 1", "never weighed"], ["small 2", "never weighed"], ["small 3", "never weighed"]]);
  });

  test("what was fed back is not counted as export", () => {
    expect(verdictOf("BUDGET_N").verdict).toContain("12 g of the harvest were fed back and are not counted as export.");
    expect(verdictOf("BUDGET_N").row[HARVEST]).toBeCloseTo(41 * 0.08 * 0.035 * 0.7, 9);
  });

  test("the light sum of the start-up counts the five days at half light by half", () => {
    const [compared] = rows("HARVEST_COMPARE", log, setUp, null, false);
    expect(compared?.[11]).toBeCloseTo((41 * 0.08) / (0.04 * (5 * 7.2 + 12 * 14.4)), 9);
  });
});
