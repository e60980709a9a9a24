import { cleanLog, FEED, NH4, NO3, only, PH, PO4, put, putAll, raised, setUpWith, TEMPERATURE, CHANGE } from "./warning-log";

test("a log without fault has no warning, and says so in one row", () => {
  expect(raised(cleanLog())).toEqual([expect.objectContaining({ row: "", day: "", severity: "", code: "NONE" })]);
});

describe("below detection", () => {
  test("is one note a test, for the latest such reading, and calls it a range", () => {
    const found = only("BELOW_DETECTION", cleanLog((lines) => put(lines, NO3, { 9: 0, 16: "nd", 23: "<0.5" })));
    expect(found).toEqual([expect.objectContaining({ row: 23, day: 46021, severity: "Note" })]);
    expect(found[0]?.sentence).toContain("not as zero");
  });
  test("is not raised by the lowest step that the kit can show", () => {
    expect(only("BELOW_DETECTION", cleanLog((lines) => put(lines, NO3, { 16: 0.5 })))).toEqual([]);
  });
});

describe("a reading that rises", () => {
  test("is raised by a trend that is larger than the readings are unsure by, at the last reading", () => {
    // 10 mg/L and 0.8 more each week: 18 after ten weeks.
    const found = only("READING_RISING", cleanLog((lines) => putAll(lines, NO3, (_, day) => 10 + (0.8 * day) / 7)));
    expect(found).toEqual([expect.objectContaining({ row: 72, severity: "Caution" })]);
    expect(found[0]?.sentence).toMatch(/NO3 \(mg\/L\) has risen by about \d+ % in 70 days/);
  });
  test("is not raised where first and last are both within ten per cent of what they show", () => {
    expect(only("READING_RISING", cleanLog((lines) => putAll(lines, NO3, (_, day) => 10 + (0.2 * day) / 7)))).toEqual([]);
  });
  test("is raised by two readings whose limits lie apart, and by two that touch it is not", () => {
    const two = (last: number): unknown[][] => cleanLog((lines) => putAll(lines, NO3, (_, day) => (day === 0 ? 10 : day === 70 ? last : "")));
    expect(only("READING_RISING", two(12.5))).toHaveLength(1);
    expect(only("READING_RISING", two(12))).toEqual([]);
  });
  test("is not raised by one high test among others", () => {
    expect(only("READING_RISING", cleanLog((lines) => put(lines, NO3, { 72: 13 })))).toEqual([]);
  });
});

describe("the ratio of nitrogen to phosphorus", () => {
  // By mass 3 x 14 = 42 and 7 / 3 = 2.33 are the limits, beyond the limits of both readings. N of NO3: 0.2259; P of PO4: 0.3261.
  test.each([
    [60, 0.6, true],
    [30, 0.6, false],
    [2, 0.98, true],
    [4, 0.98, false],
  ])("NO3 %p with PO4 %p mg/L: %p", (no3, po4, isRaised) => {
    const found = only("NP_RATIO", cleanLog((lines) => { putAll(lines, NO3, () => no3); putAll(lines, PO4, () => po4); }));
    expect(found.map((one) => one.severity)).toEqual(isRaised ? ["Note"] : []);
  });
  test("says nothing of readings taken at different times", () => {
    expect(only("NP_RATIO", cleanLog((lines) => { putAll(lines, NO3, () => 60); putAll(lines, PO4, (now, day) => (day < 50 ? now : "")); }))).toEqual([]);
  });
});

describe("one nutrient near zero", () => {
  test("while the other is plentiful: growth will stall, in place of the ratio", () => {
    const found = raised(cleanLog((lines) => put(lines, PO4, { 72: 0 }))).filter((one) => one.code === "NUTRIENT_SHORT" || one.code === "NP_RATIO");
    expect(found).toEqual([expect.objectContaining({ code: "NUTRIENT_SHORT", row: 72, severity: "Caution" })]);
    expect(found[0]?.sentence).toMatch(/^PO4 \(mg\/L\) is near zero and NO3/);
  });
  test("nitrogen too", () => expect(only("NUTRIENT_SHORT", cleanLog((lines) => put(lines, NO3, { 72: 0 })))[0]?.sentence).toMatch(/^NO3/));
  test("is not raised where both are near zero", () => {
    expect(only("NUTRIENT_SHORT", cleanLog((lines) => { put(lines, PO4, { 72: 0 }); put(lines, NO3, { 72: 0 }); }))).toEqual([]);
  });
  test("is not raised by a low reading that algae can live on", () => expect(only("NUTRIENT_SHORT", cleanLog((lines) => put(lines, PO4, { 72: 0.08 })))).toEqual([]));
});

describe("a basis mixed up", () => {
  test("one reading in NO3-N among those in NO3 is serious, at its own row", () => {
    const found = only("BASIS_STEP", cleanLog((lines) => put(lines, NO3, { 30: 2.26 })));
    expect(found).toEqual([expect.objectContaining({ row: 30, severity: "Serious" })]);
    expect(found[0]?.sentence).toBe("NO3 (mg/L) is 4.4 times lower here than in the readings beside it, about as NO3 and NO3-N differ.");
  });
  test("a step up that stays is serious at its first reading", () => {
    expect(only("BASIS_STEP", cleanLog((lines) => putAll(lines, NO3, (now, day) => (day >= 28 ? now * 4.43 : now))))).toEqual([expect.objectContaining({ row: 30, severity: "Serious" })]);
  });
  test("a step at the last reading, which nothing confirms yet, is a caution", () => {
    expect(only("BASIS_STEP", cleanLog((lines) => put(lines, NO3, { 72: 44.3 })))).toEqual([expect.objectContaining({ row: 72, severity: "Caution" })]);
  });
  test.each([[3.5], [5.5]])("a factor of %p is no such step", (factor) => {
    expect(only("BASIS_STEP", cleanLog((lines) => put(lines, NO3, { 30: 10 * factor })))).toEqual([]);
  });
  test("phosphate has its own factor, 3.07", () => {
    const found = only("BASIS_STEP", cleanLog((lines) => put(lines, PO4, { 30: 0.2 })));
    expect(found[0]?.sentence).toContain("PO4 and PO4-P");
    expect(only("BASIS_STEP", cleanLog((lines) => put(lines, PO4, { 30: 0.14 })))).toEqual([]);
  });
  test("a chart so coarse that its patches nearly touch raises none", () => {
    // 10 on this chart is 7.5 to 15 and 2 is 1 to 3.5: the limits are only 2.1 apart; with 5 beside it they touch.
    expect(only("BASIS_STEP", cleanLog((lines) => put(lines, NO3, { 30: 5 })), setUpWith({ "NO3 kit steps": "0 5 20 50" }))).toEqual([]);
  });
  test("a large water change explains a step down, and a large feed a step up", () => {
    expect(only("BASIS_STEP", cleanLog((lines) => { putAll(lines, NO3, (now, day) => (day >= 28 ? 2.26 : now)); put(lines, CHANGE, { 26: 150 }); }))).toEqual([]);
    expect(only("BASIS_STEP", cleanLog((lines) => { putAll(lines, NO3, (now, day) => (day >= 28 ? 44.3 : now)); put(lines, FEED, { 26: 60 }); }))).toEqual([]);
  });
});

describe("ammonia", () => {
  // Sea water of salinity 35, 25 degrees C, pH 8.2: 6.99 % un-ionised (EPA 440/5-88-004 in references: 6.989 %); N of NH4: 0.7765.
  const at = (nh4: number, ph: unknown = 8.2, temperature: unknown = 25): unknown[][] => cleanLog((lines) => { put(lines, NH4, { 30: nh4 }); put(lines, PH, { 30: ph }); put(lines, TEMPERATURE, { 30: temperature }); });
  test.each([
    [0.35, []],
    [0.4, ["Caution"]],
    [0.9, ["Caution"]],
    [0.95, ["Serious"]],
  ])("%p mg/L NH4 at pH 8.2: %p", (nh4, severities) => expect(only("AMMONIA_HARMFUL", at(nh4)).map((one) => one.severity)).toEqual(severities));
  test("the row's own pH counts before the set-up's", () => {
    expect(only("AMMONIA_HARMFUL", at(0.95, 7.5), setUpWith({ pH: 8.2 }))).toEqual([]);
    expect(only("AMMONIA_HARMFUL", at(0.95, ""), setUpWith({ pH: 8.2 }))).toHaveLength(1);
  });
  test("without pH it says that it cannot be told, if it could be harmful at all", () => {
    expect(only("AMMONIA_OPEN", at(0.95, ""))).toEqual([expect.objectContaining({ row: 30, severity: "Caution" })]);
    expect(only("AMMONIA_OPEN", at(0.05, ""))).toEqual([]);
  });
  test("nothing detected is no harm", () => expect(only("AMMONIA_HARMFUL", at(0))).toEqual([]));
});

