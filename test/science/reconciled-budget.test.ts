import { budgetBoth, type Account, type BothPeriod } from "../../src/science/budget/both";
import type { Log } from "../../src/science/budget/log";
import type { Suspect } from "../../src/science/budget/suspect";
import type { Nutrient } from "../../src/science/nutrient-forms";
import { simulatedAccounts } from "./simulated-accounts";

type Accounts = Readonly<Record<Nutrient, Account>>;
const NUTRIENTS = ["N", "P"] as const;
const PARTS = ["feedIn", "harvestOut", "changeOut", "storeChange"] as const;

it("covers the truth with its 95 % intervals 93 to 97 times in a hundred, over 10,000 invented logs", () => {
  let [covered, counted, misfits, periods] = [0, 0, 0, 0];
  for (let seed = 1; seed <= 10_000; seed += 1) {
    const { accounts, truth } = simulatedAccounts(seed, 3);
    budgetBoth(accounts, "harvest").forEach((one, place) => {
      periods += 1;
      if (one.state === "misfit") misfits += 1;
      for (const nutrient of NUTRIENTS) {
        for (const part of PARTS) {
          const figure = one.parts[nutrient]?.[part];
          if (!figure || figure.u === 0) continue;
          counted += 1;
          if (Math.abs(figure.adjusted - (truth[place]?.[part][nutrient] ?? NaN)) <= 1.96 * figure.u) covered += 1;
        }
      }
    });
  }
  expect(counted).toBeGreaterThan(150_000);
  expect(covered / counted).toBeGreaterThan(0.93);
  expect(covered / counted).toBeLessThan(0.97);
  // One in twenty by chance, fewer because limits have no tails.
  expect(misfits / periods).toBeGreaterThan(0.01);
  expect(misfits / periods).toBeLessThan(0.06);
}, 120_000);

interface Planted {
  readonly accounts: Accounts;
  readonly row: number;
  readonly period: number;
}

const PLANT: Readonly<Record<string, { readonly what: Suspect["what"]; readonly plant: (accounts: Accounts, seed: number) => Planted }>> = {
  "a harvest weighed undrained, two to four times too heavy": {
    what: "harvest",
    plant: (accounts, seed) => {
      const place = 1 + (seed % 4);
      const harvests = accounts.N.log.harvests.map((one, at) => (at === place ? { ...one, drainedG: one.drainedG * (2 + (seed % 3)) } : one));
      return { accounts: inBoth(accounts, { harvests }), row: harvests[place]?.row ?? 0, period: place };
    },
  },
  "NO3-N logged as NO3, 4.43 times too low": {
    what: "reading",
    plant: (accounts, seed) => {
      const place = 1 + (seed % 4);
      const [series] = accounts.N.log.series;
      if (!series) throw new Error("no series");
      const entries = series.entries.map((one, at) => {
        const { value, low, high, u, censored } = one.reading;
        return at === place ? { ...one, reading: { value: value / 4.4267, low: low / 4.4267, high: high / 4.4267, u: u / 4.4267, censored } } : one;
      });
      const log = { ...accounts.N.log, series: [{ ...series, entries }] };
      return { accounts: { ...accounts, N: { ...accounts.N, log } }, row: entries[place]?.row ?? 0, period: place };
    },
  },
  "a feed with its decimal point lost": {
    what: "feed",
    plant: (accounts, seed) => {
      const place = seed % accounts.N.log.feeds.length;
      const feeds = accounts.N.log.feeds.map((one, at) => (at === place ? { ...one, massG: 10 * one.massG } : one));
      const day = feeds[place]?.day ?? 0;
      return { accounts: inBoth(accounts, { feeds }), row: feeds[place]?.row ?? 0, period: accounts.N.log.harvests.findIndex((one) => one.day >= day) };
    },
  },
};

const inBoth = ({ N, P }: Accounts, change: Partial<Log>): Accounts => ({ N: { ...N, log: { ...N.log, ...change } }, P: { ...P, log: { ...P.log, ...change } } });

/** By how many standard uncertainties of the balance the planted error shifts it. */
function shift(before: BothPeriod | undefined, after: BothPeriod | undefined): number {
  return Math.max(...NUTRIENTS.map((nutrient) => Math.abs((after?.unexplained[nutrient] ?? 0) - (before?.unexplained[nutrient] ?? 0)) / (before?.balanceU[nutrient] ?? Infinity)));
}

it.each(Object.entries(PLANT))("names %s first in nine of ten, where it shifts the balance by more than five standard uncertainties", (_, { what, plant }) => {
  let [named, counted] = [0, 0];
  for (let seed = 1; seed <= 600; seed += 1) {
    const { accounts } = simulatedAccounts(seed);
    const planted = plant(accounts, seed);
    const after = budgetBoth(planted.accounts, "harvest")[planted.period];
    if (shift(budgetBoth(accounts, "harvest")[planted.period], after) <= 5) continue;
    counted += 1;
    if (after?.suspect?.what === what && after.suspect.row === planted.row) named += 1;
  }
  expect(counted).toBeGreaterThan(200);
  expect(named / counted).toBeGreaterThanOrEqual(0.9);
}, 60_000);

it("is silent where there is nothing to close: no test of either nutrient", () => {
  const { accounts } = simulatedAccounts(1);
  const untested = inBoth(accounts, { series: [] });
  expect(budgetBoth(untested, "harvest").every((one) => one.state === "open" && one.test === null && one.parts.N === null)).toBe(true);
});

it("closes nitrogen alone where phosphorus was not tested", () => {
  const { accounts } = simulatedAccounts(2);
  const [first] = budgetBoth({ N: accounts.N, P: { ...accounts.P, log: { ...accounts.P.log, series: [] } } }, "harvest");
  expect(first?.test?.degreesOfFreedom).toBe(1);
  expect(first?.parts.P).toBeNull();
  const parts = first?.parts.N;
  if (!parts) throw new Error("nitrogen is not closed");
  const { feedIn, otherIn, harvestOut, changeOut, otherOut, storeChange } = parts;
  expect(feedIn.adjusted + otherIn.adjusted - harvestOut.adjusted - changeOut.adjusted - otherOut.adjusted - storeChange.adjusted).toBeCloseTo(0, 9);
});
