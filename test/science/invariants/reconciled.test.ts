import fc from "fast-check";
import { budgetBoth, type Account } from "../../../src/science/budget/both";
import { bothTerms, figureOf } from "../../../src/science/budget/effects";
import { periodsOf, type PeriodChoice } from "../../../src/science/budget/period";
import { budgetTerms, PARTS } from "../../../src/science/budget/terms";
import type { Uncertain } from "../../../src/science/uncertain";
import { simulatedAccounts, type Simulated } from "../simulated-accounts";
import { CHOICES, RUNS } from "./random-log";

/** Invariants of the accounts of nitrogen and phosphorus closed together, over invented tanks. */
type Accounts = Simulated["accounts"];
const NUTRIENTS = ["N", "P"] as const;
const seeds = fc.integer({ min: 1, max: 1_000_000 });
const aChoice = fc.constantFrom(...CHOICES);

test("after the adjustment every balance closes, and the misfit test has a chance between 0 and 1", () =>
  fc.assert(fc.property(seeds, aChoice, (seed, choice) => {
    for (const { parts, test: misfit, state } of budgetBoth(simulatedAccounts(seed, 2).accounts, choice)) {
      expect(state).not.toBe("open");
      for (const nutrient of NUTRIENTS) {
        const found = parts[nutrient];
        if (!found) throw new Error("not closed");
        const { feedIn, otherIn, harvestOut, changeOut, otherOut, storeChange } = found;
        const all = PARTS.reduce((sum, part) => sum + Math.abs(found[part].adjusted), 0);
        const left = feedIn.adjusted + otherIn.adjusted - harvestOut.adjusted - changeOut.adjusted - otherOut.adjusted - storeChange.adjusted;
        expect(Math.abs(left)).toBeLessThanOrEqual(1e-9 * Math.max(1, all));
      }
      expect(misfit?.chiSquare).toBeGreaterThanOrEqual(0);
      expect(misfit?.degreesOfFreedom).toBe(2);
      expect(misfit?.p).toBeGreaterThanOrEqual(0);
      expect(misfit?.p).toBeLessThanOrEqual(1);
    }
  }), { numRuns: RUNS }));

/** Standard uncertainty of each figure before: the root of the sum of squares of what each quantity does to it. */
function before(accounts: Accounts, choice: PeriodChoice): ((place: number, nutrient: number, part: (typeof PARTS)[number]) => number) {
  const { N, P } = accounts;
  const periods = periodsOf({ ...N.log, series: [...N.log.series, ...P.log.series] }, N.setUp, choice);
  const terms = NUTRIENTS.map((nutrient) => budgetTerms(accounts[nutrient].log, accounts[nutrient].setUp, periods));
  const all = periods.map((_, place) => bothTerms(terms, place));
  return (place, nutrient, part) => Math.hypot(...[...(all[place]?.effects.values() ?? [])].map(({ byU }) => byU[figureOf(nutrient, part)] ?? 0));
}

test("no figure is less sure after the adjustment than before, and an exact one stays as it is", () =>
  fc.assert(fc.property(seeds, aChoice, (seed, choice) => {
    const { accounts } = simulatedAccounts(seed, 2);
    const uBefore = before(accounts, choice);
    budgetBoth(accounts, choice).forEach(({ parts }, place) => {
      NUTRIENTS.forEach((nutrient, at) => {
        for (const part of PARTS) {
          const figure = parts[nutrient]?.[part];
          if (!figure) throw new Error("not closed");
          const u = uBefore(place, at, part);
          expect(figure.u).toBeGreaterThanOrEqual(0);
          expect(figure.u).toBeLessThanOrEqual(u * (1 + 1e-9) + 1e-12);
          if (u === 0) expect([figure.adjusted, figure.score]).toEqual([figure.logged, 0]);
          else expect(Math.abs(figure.score - (figure.logged - figure.adjusted) / u)).toBeLessThanOrEqual(1e-6 * Math.max(1, Math.abs(figure.score)));
        }
      });
    });
  }), { numRuns: RUNS }));

const times = ({ value, low, high, u, shape }: Uncertain, by: number): Uncertain => ({ value: value * by, low: low * by, high: high * by, u: u * by, shape });

/** The same tank with `by` times the nitrogen in everything: food, doses, media, tissue, water. */
function withNitrogen({ log, setUp }: Account, by: number): Account {
  return {
    log: {
      ...log,
      feeds: log.feeds.map((feed) => {
        const { value, low, high } = feed.food.proteinPercent;
        return { ...feed, food: { ...feed.food, proteinPercent: { value: value * by, low: low * by, high: high * by } } };
      }),
      otherIn: log.otherIn.map((entry) => ({ ...entry, grams: entry.grams * by })),
      otherOut: log.otherOut.map((entry) => ({ ...entry, grams: entry.grams * by })),
      series: log.series.map((series) => ({
        ...series,
        entries: series.entries.map((entry) => {
          const { value, low, high, u, censored } = entry.reading;
          return { ...entry, reading: { value: value * by, low: low * by, high: high * by, u: u * by, censored } };
        }),
      })),
    },
    setUp: { ...setUp, units: setUp.units.map((unit) => ({ ...unit, tissue: times(unit.tissue, by) })) },
  };
}

test("the scale of nitrogen's masses changes no score, no chi-square and nothing of phosphorus", () =>
  fc.assert(fc.property(seeds, aChoice, fc.double({ min: -3, max: 3, noNaN: true }), (seed, choice, exponent) => {
    const { accounts } = simulatedAccounts(seed, 2);
    const by = 10 ** exponent;
    const scaled = budgetBoth({ N: withNitrogen(accounts.N, by), P: accounts.P }, choice);
    budgetBoth(accounts, choice).forEach((one, place) => {
      const other = scaled[place];
      const near = (found: number | undefined, wanted: number | undefined): void => expect(Math.abs((found ?? NaN) - (wanted ?? NaN))).toBeLessThanOrEqual(1e-6 * Math.max(1, Math.abs(wanted ?? NaN)));
      near(other?.test?.chiSquare, one.test?.chiSquare);
      for (const part of PARTS) {
        for (const nutrient of NUTRIENTS) near(other?.parts[nutrient]?.[part].score, one.parts[nutrient]?.[part].score);
        near((other?.parts.N?.[part].adjusted ?? NaN) / by, one.parts.N?.[part].adjusted);
        near(other?.parts.P?.[part].adjusted, one.parts.P?.[part].adjusted);
      }
    });
  }), { numRuns: RUNS }));
