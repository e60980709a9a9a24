import { number, rows } from "../call";

/** Mean of 20 floating cages, one production cycle, kg (Table 2 of the article PMC8459621): what was lost to the water. */
describe("the cage budget: feed + juveniles - dead - harvest = lost", () => {
  const cage = (nutrient: "N" | "P", [feed, juvenile, dead, harvest]: number[]): unknown[] => {
    const test_ = nutrient === "N" ? "NO3-N (mg/L)" : "PO4-P (mg/L)";
    const log = [
      ["Date", `Other in ${nutrient} (kg)`, `Dosed ${nutrient} (kg)`, `Removed ${nutrient} (kg)`, `Other out ${nutrient} (g)`, test_],
      [46000, "", "", "", "", 1],
      [46100, feed, juvenile, dead, (harvest ?? 0) * 1000, 1],
    ];
    // A cage floats in open water: what it loses stays nowhere in the account, so it is the unexplained part.
    return rows(`BUDGET_${nutrient}`, log, [["Volume (L)", 1000]], "whole", null, false)[0] ?? [];
  };
  test.each([
    ["N", [121.93, 8.39, 4.73, 41.06], 84.52],
    ["P", [14.38, 1.11, 0.53, 6.25], 8.7],
  ] as const)("%s", (nutrient, flows, lostKg) => {
    const row = cage(nutrient, [...flows]);
    // Four figures of two decimals each: half of the last digit for each of them and for the result.
    expect(Math.abs((row[8] as number) / 1000 - lostKg)).toBeLessThanOrEqual(0.0125 + 1e-9);
  });
});

/** Boyd & Queiroz, load of 1,000 kg feed: FCR 1.9 gives 526 kg fish of 25 % dry matter with 9 % N and 2.7 % P; feed 4.8 % N, 0.9 % P. */
describe("the load of 1,000 kg feed", () => {
  const fish = 1000 / 1.9;
  const [keptN, keptP] = [fish * 0.25 * 0.09, fish * 0.25 * 0.027];
  test("the feed brings 48 kg N and 9 kg P", () => {
    expect(number("FEEDLOAD_N", 1_000_000, "Pond pellets, 30 % protein", "g", null, 0) / 1000).toBeCloseTo(48, 9);
    expect(number("FEEDLOAD_P", 1_000_000, "Pond pellets, 30 % protein", "g", null, 0) / 1000).toBeCloseTo(9, 9);
  });
  test("36.2 kg N and 5.45 kg P reach the water", () => {
    const n = number("FEEDLOAD_N", 1_000_000, "Pond pellets, 30 % protein", "g", null, keptN / 48) / 1000;
    const p = number("FEEDLOAD_P", 1_000_000, "Pond pellets, 30 % protein", "g", null, keptP / 9) / 1000;
    expect(Math.abs(n - 36.2)).toBeLessThanOrEqual(0.05);
    expect(Math.abs(p - 5.45)).toBeLessThanOrEqual(0.005);
  });
});

/**
 * Published turf systems whose productivity x tissue content agrees with their stated removal, g m-2 d-1.
 * Tolerance: half of the last digit of the printed removal, or the printed span.
 */
describe("turf rows: productivity x tissue = removal", () => {
  const removal = (nutrient: "N" | "P", dry: number, tissue: number): number => number(`HARVEST_${nutrient}_EXPORT`, dry / 0.08, 0.08, tissue);
  test.each([
    ["laboratory turf, swine effluent, lowest load (Kebede-Westhead et al. 2006): more than 0.27 N at 3.8 %", "N", 7.1, 0.038, 0.265, 0.275],
    ["the same, P at 0.77 %: 0.054", "P", 7.1, 0.0077, 0.0535, 0.0555],
    ["the same, P at 0.86 %: 0.061", "P", 7.1, 0.0086, 0.0605, 0.0615],
    ["outdoor raceway, highest load (Mulbry et al. 2008): 70 % of 2.5 g", "N", 25, 0.07, 1.745, 1.755],
    ["the same, P: 60 % of 0.42 g", "P", 25, 0.01, 0.245, 0.255],
    ["laboratory turf, dairy manure (Mulbry & Wilkie 2001), N low", "N", 5, 0.05, 0.245, 0.255],
    ["the same, N high", "N", 5, 0.07, 0.345, 0.355],
    ["the same, P low", "P", 5, 0.015, 0.0745, 0.0755],
    ["the same, P high", "P", 5, 0.02, 0.095, 0.105],
    ["canal turf, Florida (D'Aiuto et al. 2015), P: 0.02", "P", 5.5, 0.0038, 0.015, 0.025],
    ["canal turf, Everglades (Adey et al. 1993), P within 0.104 to 0.139", "P", 33, 0.0034, 0.104, 0.139],
  ] as const)("%s", (_, nutrient, dry, tissue, low, high) => {
    const grams = removal(nutrient, dry, tissue);
    expect(grams).toBeGreaterThanOrEqual(low);
    expect(grams).toBeLessThanOrEqual(high);
  });
  test("the growth of the rows comes back from a drained weight: 7 days on 1 m2 at 9.4 g", () => {
    expect(number("HARVEST_GROWTH", (9.4 * 7) / 0.08, 1, 7, 0.08)).toBeCloseTo(9.4, 12);
  });
});

/** Common practice, no source: the habit of 100 cm2 two-sided for 3 g a day, and what it exports at 8 g m-2 d-1 and 4 % N. */
test("common practice, no source: 3 g a day is 150 to 200 cm2 lit, which exports 6.4 mg N a day", () => {
  const [low, high] = rows("SCRUBAREA_HABIT", 3)[0] as number[];
  expect([low, high]).toEqual([0.015, 0.02]);
  expect(1000 * number("HARVEST_N_EXPORT", (8 * (high ?? 0)) / 0.08, 0.08, 0.04)).toBeCloseTo(6.4, 9);
});

/** Definition of the daily light sum; 390 umol m-2 s-1 over 16 h is the 22.5 mol of the laboratory turf, 9.4 g dry over it 0.42 g/mol. */
test("390 umol m-2 s-1 over 16 h is 22.5 mol m-2 d-1", () => {
  const sum = number("LIGHT_DAILY", 390, 16);
  expect(Math.abs(sum - 22.5)).toBeLessThanOrEqual(0.05);
  expect(Math.abs(9.4 / sum - 0.42)).toBeLessThanOrEqual(0.005);
});
