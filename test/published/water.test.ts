import fixture from "./data/seawater.json";
import { seawaterDensityKgPerL } from "../../src/science/water";
import { number, rows } from "../call";

/** UNESCO Technical Papers in Marine Science 44 (Fofonoff & Millard 1983), page 19; printed to 0.00001 kg/m3, temperature on IPTS-68. */
test.each([
  [0, 5, 999.96675],
  [35, 5, 1027.67547],
  [0, 25, 997.04796],
  [35, 25, 1023.34306],
])("sea-water density at salinity %d and %d degrees C (1968 scale) is %d kg/m3", (salinity, t68, expected) => {
  expect(Math.abs(1000 * seawaterDensityKgPerL(salinity, t68 / 1.00024) - expected)).toBeLessThanOrEqual(0.0000051);
});

/** TEOS-10 (IOC 2010), exact density of gsw 3.6.16 over 121 points, salinity 0 to 40 and 15 to 32 degrees C. */
test("sea-water density is within 0.006 kg/m3 of TEOS-10 over the whole grid", () => {
  const worst = Math.max(...fixture.grid.map(({ SP, t, rho_teos10 }) => Math.abs(1000 * seawaterDensityKgPerL(SP, t) - rho_teos10)));
  expect(fixture.grid.length).toBeGreaterThanOrEqual(121);
  expect(worst).toBeLessThanOrEqual(0.006);
});

/** Exact dilution of a mixed tank, C = Cin + (C0 - Cin)(1 - f)^n: the decimals are exact powers. */
test.each([
  [1, 0.25, 0, 4, 0.31640625],
  [1, 0.5, 0, 2, 0.25],
  [1, 0.1, 0, 10, 0.3486784401],
  [22.5, 0.25, 0, 1, 16.875],
  [20, 0.25, 5, 1, 16.25],
])("%d after changes of %d with new water at %d, %d times, is %d", (start, share, incoming, times, expected) => {
  expect(number("CHANGE_RESULT", start, share, incoming, times)).toBeCloseTo(expected, 10);
});

test.each([
  [0.1, 14],
  [0.2, 7],
  [0.25, 5],
  [0.5, 2],
])("40 comes down to 10 mg/L by changes of %d in %d", (share, expected) => {
  expect(number("CHANGE_COUNT", 40, 10, share)).toBe(expected);
});

/** Steady cycle with a rise d between changes: d (1 - f)/f after, d/f before (geometric series): 15 and 20 at d 5, f 1/4. */
test("a rise of 5 between changes of a quarter settles between 15 and 20", () => {
  let reading = 0;
  for (let cycle = 0; cycle < 200; cycle += 1) reading = number("CHANGE_RESULT", reading + 5, 0.25, 0, 1);
  expect(reading).toBeCloseTo(15, 10);
  expect(reading + 5).toBeCloseTo(20, 10);
});

/** The same steady cycle through a whole log: what the changes export is the load, N 5 mg/L x 100 L each week. */
test("in a steady cycle the budget's water changes carry away the whole load", () => {
  const log: unknown[][] = [["Date", "Dosed N (g)", "NO3-N (mg/L)", "Water change (L)"]];
  for (let week = 0; week <= 8; week += 1) log.push([46000 + 7 * week, week === 0 ? "" : 0.5, 20, 25]);
  const budget = rows("BUDGET_N", log, [["Volume (L)", 100]], "reading", null, false);
  for (const row of budget.slice(1)) {
    expect(row[3]).toBeCloseTo(0.5, 12);
    expect(row[5]).toBeCloseTo(0.5, 12);
    expect(row[7]).toBeCloseTo(0, 12);
    expect(row[8]).toBeCloseTo(0, 12);
  }
});
