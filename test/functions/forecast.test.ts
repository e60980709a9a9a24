import { elementMgPerL } from "../../src/science/nutrient-forms";
import { errorOf, number, rows, value } from "../call";

const NO3 = elementMgPerL({ unit: "mg/L", form: "NO3" });
/** 265 L, 50 mg N and 5 mg P a day, 0.2 m2 lit with 13.7 mol a day. */
const TANK = [265, 0.05, 0.005, 0.2, 13.7] as const;
const DAY = 0, NO3_LOW = 1, NO3_MIDDLE = 2, NO3_HIGH = 3, PO4_MIDDLE = 5, EVENTS = 7;

describe("STEADY_READING", () => {
  test("without changes: K L / (U - L), in the form that is asked for", () => {
    // 50 of 60 mg a day at the half-saturation of 0.196 mg/L N.
    expect(number("STEADY_READING", 0.05, 0.06, 265)).toBeCloseTo((0.196 * 50) / 10 / NO3, 9);
    expect(number("STEADY_READING", 0.05, 0.06, 265, "NO3-N")).toBeCloseTo(0.98, 9);
    expect(number("STEADY_READING", 0.005, 0.006, 265, "PO4-P")).toBeCloseTo((0.031 * 5) / 1, 9);
  });
  test("more load than uptake and no change of water: the answer is a sentence, not a number", () => {
    expect(value("STEADY_READING", 0.06, 0.05, 265)).toBe("rises without limit");
    expect(rows("STEADY_READING", [[0.06], [0.02], [""]], 0.05, 265).flat().map((one) => typeof one)).toEqual(["string", "number", "string"]);
  });
  test("weekly changes alone settle at the mean of the swing", () => {
    // 25 % a week, rise of 5 mg/L NO3 a week: between 15 and 20.
    expect(number("STEADY_READING", (5 * 100 * NO3) / 1000 / 7, 0, 100, "NO3", 0.25)).toBeCloseTo(17.5, 9);
  });
  test("nothing in and nothing out stays as it is", () => expect(value("STEADY_READING", 0, 0, 265)).toBe("stays as it is"));
  test("refuses a form that it does not know and a volume of zero", () => {
    expect(errorOf("STEADY_READING", 0.05, 0.06, 265, "nitrate").message).toContain("NO3, NO3-N, PO4 or PO4-P");
    expect(errorOf("STEADY_READING", 0.05, 0.06, 0).code).toBe("#DIV/0!");
  });
});

describe("FORECAST_READING", () => {
  test("a row a step from day 0, ranges in order, with what happens", () => {
    const [head, ...body] = rows("FORECAST_READING", 10, 0.3, ...TANK, 28, 7, 10, 7, 0.1) as (number | string)[][];
    expect(head?.[NO3_MIDDLE]).toBe("NO3 (mg/L)");
    expect(body.map((row) => row[DAY])).toEqual([0, 7, 14, 21, 28]);
    expect(body[0]?.slice(NO3_LOW, NO3_HIGH + 1).map((one) => (one as number).toFixed(9))).toEqual(["10.000000000", "10.000000000", "10.000000000"]);
    for (const row of body) {
      expect(row[NO3_LOW] as number).toBeLessThanOrEqual(row[NO3_MIDDLE] as number);
      expect(row[NO3_MIDDLE] as number).toBeLessThanOrEqual(row[NO3_HIGH] as number);
    }
    expect(body.map((row) => row[EVENTS])).toEqual(["start", "water change", "harvest, water change", "harvest, water change", "water change"]);
  });

  test("without a screen the load stays: 50 mg a day in 265 L, the error of the load aside", () => {
    const body = rows("FORECAST_READING", 10, 0.3, 265, 0.05, 0.005, 0, 13.7, 28, 28) as number[][];
    const rise = (28 * 50) / 265 / NO3;
    expect(Math.abs((body[2]?.[NO3_MIDDLE] ?? NaN) / (10 + rise) - 1)).toBeLessThan(0.03);
    expect((body[2]?.[NO3_LOW] ?? NaN) - 10).toBeGreaterThan(0.8 * rise);
    expect((body[2]?.[NO3_HIGH] ?? NaN) - 10).toBeLessThan(1.2 * rise);
  });

  test("a reading below detection starts as a range, never as zero", () => {
    const [, start] = rows("FORECAST_READING", "<2", "<0.02", ...TANK, 7, 7) as number[][];
    expect(start?.[NO3_LOW]).toBeGreaterThan(0.1);
    expect(start?.[NO3_HIGH]).toBeLessThan(2);
    expect(start?.[PO4_MIDDLE]).toBeCloseTo(0.01, 2);
    expect(errorOf("FORECAST_READING", 0, 0.3, ...TANK).message).toContain("no3_mg_l is 0: a test that shows nothing means less than it can show");
    expect(errorOf("FORECAST_READING", ">50", 0.3, ...TANK).message).toContain("above the kit's scale");
  });

  test("dated events: a water change of half, then twice the food", () => {
    const events = [["Day", "What", "How much"], [3, "water change", 0.5], [10, "feed", 2], ["", "", ""]];
    const body = rows("FORECAST_READING", 10, 0.3, 265, 0.05, 0.005, 0, 13.7, 20, 1, 0, null, null, events) as (number | string)[][];
    const at = (day: number): number => body[day + 1]?.[NO3_MIDDLE] as number;
    expect(at(3) / (at(2) + at(1) - at(0))).toBeCloseTo(0.5, 1);
    expect((at(20) - at(15)) / (at(9) - at(4))).toBeCloseTo(2, 1);
    expect(body[4]?.[EVENTS]).toBe("water change");
    expect(body[11]?.[EVENTS]).toBe("feed changed");
  });

  test.each([
    [[[1, "rain", 2]], "Events, row 1"],
    [[[1, "water change", ""]], "needs a figure in the third column"],
    [[[-1, "harvest", ""]], "day should be between 0"],
    [[[1, "water change", 20]], "should be a share between 0 and 1"],
    [[["soon"]], "three columns"],
  ])("refuses events that cannot be read: %j", (events, sentence) => {
    expect(errorOf("FORECAST_READING", 10, 0.3, ...TANK, 28, 7, null, null, null, events).message).toContain(sentence);
  });

  test("the day that is asked for is the last row, and an event of the first day is named", () => {
    const days = (until: number, step: number): unknown[] => (rows("FORECAST_READING", 10, 0.3, ...TANK, until, step) as unknown[][]).slice(1).map((row) => row[DAY]);
    expect(days(5, 7)).toEqual([0, 5]);
    expect(days(60, 28)).toEqual([0, 28, 56, 60]);
    const [, start] = rows("FORECAST_READING", 10, 0.3, ...TANK, 7, 7, 0, null, null, [[0, "water change", 0.5]]) as unknown[][];
    expect(start?.[EVENTS]).toBe("start, water change");
  });

  test("a slip of units is named instead of reckoned: cm2 for m2, an event every quarter of an hour", () => {
    expect(errorOf("FORECAST_READING", 10, 0.3, 265, 0.05, 0.005, 2000, 13.7).message).toBe("lit_area_m2 is 2000 for 265 L of water: is it in cm2, or is the volume in m3?");
    expect(errorOf("FORECAST_WHATIF", 10, 0.3, ...TANK, 56, 0.01).message).toContain("harvest_every_days should be 0 (never) or 1 day or more");
  });

  test("a needed cell that is blank gives a blank, too many rows a sentence", () => {
    expect(rows("FORECAST_READING", "", 0.3, ...TANK)).toEqual([[""]]);
    expect(errorOf("FORECAST_READING", 10, 0.3, ...TANK, 3650, 1).message).toContain("at most 400 rows");
  });
});

test("FORECAST_WHATIF: less food, more screen and more changes lower the reading, no harvest raises it", () => {
  const [head, ...body] = rows("FORECAST_WHATIF", 10, 0.3, ...TANK, 56, 10, 7, 0.1) as (number | string)[][];
  const of = (name: string): number => body.find((row) => row[0] === name)?.[2] as number;
  expect(head?.[0]).toBe("What if");
  for (const name of ["a quarter less food", "half the food", "half as much screen again", "twice the screen", "a quarter more light", "a tenth of the water a week more"]) expect(of(name)).toBeLessThan(of("as it is"));
  expect(of("no harvest")).toBeGreaterThan(1.5 * of("as it is"));
  expect(of("half the food")).toBeLessThan(of("a quarter less food"));
  const alone = rows("FORECAST_WHATIF", 10, 0.3, ...TANK, 56, 0) as (number | string)[][];
  expect(alone[1]?.slice(7)).toEqual(["rises without limit", "rises without limit"]);
});

describe("DAYS_TO_TARGET", () => {
  test("a big screen and little food: a range of days, lowest first", () => {
    const [[low, middle, high, sentence] = []] = rows("DAYS_TO_TARGET", 5, "NO3", 20, 0.6, 265, 0.01, 0.001, 0.4, 13.7) as [number, number, number, string][];
    expect(low).toBeGreaterThan(5);
    expect(middle).toBeGreaterThan(low as number);
    expect(high).toBeGreaterThan(middle as number);
    expect(sentence).toMatch(/gets there in \d+ to \d+ days\./);
  });
  test("never: it says where it goes instead", () => {
    const [[low, , , sentence] = []] = rows("DAYS_TO_TARGET", 5, "NO3", 20, 0.6, 265, 0.2, 0.02, 0.05, 13.7);
    expect(low).toBe("");
    expect(sentence).toContain("It does not get there within 365 days: rises without limit.");
  });
  test("a target above the water is no aim but where it rises to, or is not reached", () => {
    expect(String(rows("DAYS_TO_TARGET", 50, "NO3", 20, 0.6, 265, 0.1, 0.01, 0.05, 13.7)[0]?.[3])).toMatch(/^It is below that now and rises to it/);
    expect(String(rows("DAYS_TO_TARGET", 25, "NO3", 20, 2, 265, 0.001, 0.0005, 0.4, 13.7)[0]?.[3])).toMatch(/^It is below that now and stays below for 365 days: it settles near/);
  });
  test("there already, and a form that is none", () => {
    expect(rows("DAYS_TO_TARGET", 20, "NO3", "15-25", 0.6, ...TANK)[0]).toEqual([0, 0, 0, "It is there already."]);
    expect(errorOf("DAYS_TO_TARGET", 20, "KH", 10, 0.6, ...TANK).message).toContain("NO3 or PO4");
  });
});
