import { live } from "../../scripts/samples/invented-tank";
import { oneTank } from "../../scripts/samples/one-tank";
import type { Sketch } from "../../scripts/samples/sketch";
import { twoPonds } from "../../scripts/samples/two-ponds";
import { warnings as words } from "../../src/words/warnings";
import { errorOf, rows } from "../call";
import { simulatedLog } from "../simulated-logs";

/** A sheet of a sample as a range of values, its formulas replaced by what is given. */
function range(sheets: Sketch[], name: string, [firstRow, lastRow, columns]: [number, number, number], calculated: Record<string, unknown> = {}): unknown[][] {
  const sheet = sheets.find((one) => one.name === name);
  if (!sheet) throw new Error(`no sheet ${name}`);
  return Array.from({ length: lastRow - firstRow + 1 }, (_, down) =>
    Array.from({ length: columns }, (_, across) => {
      const address = `${String.fromCharCode(65 + across)}${firstRow + down}`;
      return calculated[address] ?? sheet.cells.get(address)?.value ?? "";
    }),
  );
}

const [CODE, CHECK, SEVERITY] = [5, 4, 2] as const;
const tank = oneTank();
// 300 L less 70 kg of rock and 27 kg of sand.
const tankSetUp = range(tank, "Set-up", [2, 8, 2], { B2: 265 });
const tankFoods = range(tank, "Foods", [1, 6, 5]);

describe("the samples", () => {
  const log = range(tank, "Log", [1, 114, 8]);
  test("the tank has one note, of the harvest that was fed back in part", () => {
    expect(rows("BUDGET_WARNINGS", log, tankSetUp, tankFoods, false).map((row) => [row[0], row[SEVERITY], row[CODE]])).toEqual([[73, "Note", "FED_BACK"]]);
  });
  test("without that cell it has no warning at all, and says so", () => {
    const clean = log.map((row, place) => row.map((cell, column) => (place > 0 && column === 6 ? "" : cell)));
    expect(rows("BUDGET_WARNINGS", clean, tankSetUp, tankFoods)).toEqual([[...words.headings], ["", "", "", words.none, words.noneCheck, "NONE"]]);
  });
  test("the larger pond has none, the smaller one its rising phosphate", () => {
    const ponds = twoPonds();
    const foods = range(ponds, "Foods", [1, 3, 5]);
    const codes = (pond: string, columns: number, last: number): unknown[] => rows("BUDGET_WARNINGS", range(ponds, `${pond} log`, [1, 79, columns]), range(ponds, `${pond} set-up`, [2, last, 2]), foods, false).map((row) => row[CODE]);
    expect(codes("Mill", 8, 12)).toEqual(["NONE"]);
    expect(codes("Heron", 7, 9)).toEqual(["READING_RISING"]);
  });
  test("phosphate of the smaller pond truly rises", () => {
    const heron = { seed: 6, days: 77, firstSerial: 46147, volumeL: 5_100, foods: [{ name: "Pond pellets, 30 % protein", nPerG: 0.048, pPerG: 0.009, gPerDay: 15, step: 1 }], screens: [{ name: "weir", litAreaM2: 0.9, growth: 14, startDay: 0, everyDays: 10, halfLitDays: 0 }], dryFraction: 0.075, tissueN: 0.038, tissueP: 0.005, startNo3MgPerL: 12, startPo4MgPerL: 0.5, otherSinkShare: 0.1, changeEveryDays: 42, changeL: 400, testEveryDays: 7 };
    const readings = live(heron).flatMap((day) => (day.po4 === null ? [] : [day.po4]));
    expect(readings[readings.length - 1]).toBeGreaterThan(1.5 * (readings[0] ?? Infinity));
  });
});

describe("simulated logs without a mistake", () => {
  const simulated = Array.from({ length: 1000 }, (_, seed) => simulatedLog(seed + 1));
  test("truth closes: what came in went out or stayed, in every period and both nutrients", () => {
    for (const { truth } of simulated) {
      for (const period of [...truth.N, ...truth.P]) {
        const { feedIn, otherIn, harvestOut, changeOut, storeChange } = period;
        expect(Math.abs(feedIn + otherIn - harvestOut - changeOut - storeChange)).toBeLessThan(1e-9 * Math.max(1, feedIn));
      }
    }
  });
  test("the periods of the truth are those of the budget", () => {
    for (const { log, setUp, truth } of simulated.slice(0, 20)) {
      const periods = rows("BUDGET_N", log, setUp, "harvest", null, false);
      expect(periods.map(([from, to]) => [from, to])).toEqual(truth.N.map(({ from, to }) => [from, to]));
    }
  });
  test("at most 2 % carry a serious warning", () => {
    const serious = simulated.filter(({ log, setUp }) => rows("BUDGET_WARNINGS", log, setUp, null, false).some((row) => row[SEVERITY] === "Serious"));
    expect(serious.length).toBeLessThanOrEqual(20);
  });
});

describe("the answer", () => {
  test("every warning has its sentence and what to check first", () => {
    expect(Object.keys(words.check).sort()).toEqual(Object.keys(words.sentence).sort());
    for (const check of Object.values(words.check)) expect(check).toMatch(/^[A-Z].{6,}\.$/);
    for (const seed of [4, 17, 80]) {
      const { log, setUp } = simulatedLog(seed);
      for (const row of rows("BUDGET_WARNINGS", log, setUp, null, false)) expect(String(row[CHECK]).length).toBeGreaterThan(5);
    }
  });
  test("keeper's own foods count", () => {
    const { log, setUp } = simulatedLog(1);
    const own = log.map((row, place) => (place === 0 ? row : row.map((cell, column) => (column === 1 ? "pond mix" : cell))));
    expect(rows("BUDGET_WARNINGS", own, setUp, null, false).filter((row) => row[CODE] === "BAD_CELL")).toHaveLength(own.length - 1);
    const foods = [["Food", "Protein (g/100 g)", "P (mg/100 g)"], ["Pond mix", 12, 200]];
    expect(rows("BUDGET_WARNINGS", own, setUp, foods, false).filter((row) => row[CODE] === "BAD_CELL")).toEqual([]);
  });
  test("a log of one row has no account yet, and no warning", () => {
    expect(rows("BUDGET_WARNINGS", [["Date", "NO3 (mg/L)"], [46000, 10]], [["Volume (L)", 200]], null, false)).toEqual([["", "", "", words.none, words.noneCheck, "NONE"]]);
  });
  test("a log or a set-up that cannot be read at all is refused in a sentence, as by the budget", () => {
    expect(errorOf("BUDGET_WARNINGS", [["When", "NO3 (mg/L)"], [46000, 10]], [["Volume (L)", 200]]).message).toContain("needs a column with the heading Date");
    expect(errorOf("BUDGET_WARNINGS", [["Date", "NO3 (mg/L)"], [46000, 10]], [["Retained", 0]]).message).toContain('does not give "Volume (L)"');
  });
});
