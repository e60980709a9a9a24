import fc from "fast-check";
import { entriesWithin } from "../../../src/science/budget/period";
import { PARTS } from "../../../src/science/budget/terms";
import { aLog, cellsOf, CHOICES, daysOf, expectNear, expectSame, figures, limits, read, RUNS, setUpOf, size, total, type Day } from "./random-log";

/** Invariants of the nutrient balance over invented random logs. */
const aChoice = fc.constantFrom(...CHOICES);
const aNutrient = fc.constantFrom("N" as const, "P" as const);
const sum = (log: readonly Day[], of: (day: Day) => number): number => log.reduce((all, day) => all + of(day), 0);
/** Share of the ion that is the element, IUPAC weights: NO3 to N, PO4 to P. */
const NO3 = 14.007 / (14.007 + 3 * 15.999), PO4 = 30.974 / (30.974 + 4 * 15.999);

test("mass in = mass out + change in store + unexplained, in every period", () =>
  fc.assert(fc.property(aLog, aChoice, aNutrient, (log, choice, nutrient) => {
    const { results } = figures(read(cellsOf(log), setUpOf(), nutrient), choice);
    for (const { parts, unexplained } of results) {
      const { feedIn, otherIn, harvestOut, changeOut, otherOut, storeChange } = parts;
      expectNear(feedIn + otherIn, harvestOut + changeOut + otherOut + storeChange + unexplained, size(results));
    }
  }), { numRuns: RUNS }));

test("the sum over periods is the sum over the log, part by part, whatever the periods", () =>
  fc.assert(fc.property(aLog, aNutrient, (log, nutrient) => {
    const known = read(cellsOf(log), setUpOf(), nutrient);
    const whole = figures(known, "whole").results;
    expect(whole).toHaveLength(1);
    for (const choice of CHOICES) {
      const { results } = figures(known, choice);
      for (const part of PARTS) expectNear(total(results, part), total(whole, part), size(results));
      expectNear(results.reduce((all, one) => all + one.expected, 0), whole[0]?.expected ?? NaN, size(results));
    }
  }), { numRuns: RUNS }));

test("every entry of a log lies in one period, and in one only", () =>
  fc.assert(fc.property(aLog, aChoice, (log, choice) => {
    const { log: known, setUp } = read(cellsOf(log), setUpOf());
    const { periods } = figures({ log: known, setUp }, choice);
    for (const list of [known.feeds, known.harvests, known.changes, known.topUps, known.otherIn, known.otherOut]) {
      expect(periods.flatMap((period) => entriesWithin<{ day: number }>(list, period))).toEqual(list);
    }
    expect([periods[0]?.from, periods[periods.length - 1]?.to]).toEqual([known.firstDay, known.lastDay]);
    periods.slice(1).forEach((period, place) => expect(period.from).toBe(periods[place]?.to));
  }), { numRuns: RUNS }));

/** Cod 17.81 %, untreated shrimp 20.10 % protein over 6.25 (USDA SR26); 5 % kept; dry 0.08 drained, 0.15 pressed; tissue 3.5 % N: set-up of the product. */
test("what came and went is what the rows say, none lost: nitrogen reckoned straight from the rows", () =>
  fc.assert(fc.property(aLog, aChoice, (log, choice) => {
    const { results } = figures(read(cellsOf(log), setUpOf()), choice);
    const scale = size(results);
    expectNear(total(results, "feedIn"), 0.95 * sum(log, (day) => (day.cod * 0.1781 + (day.shrimp ?? 0) * 0.201) / 6.25), scale);
    expectNear(total(results, "harvestOut"), 0.035 * sum(log, (day) => 0.08 * ((day.front ?? 0) * (1 - (day.fedBack ?? 0)) + (day.rear ?? 0)) + 0.15 * (day.pressed ?? 0)), scale);
    expectNear(total(results, "otherOut"), sum(log, (day) => day.removed ?? 0), scale);
    // Nitrate in new water 2 mg/L for each test that the water has, in top-up 0.5 to 1.5 mg/L.
    expectNear(total(results, "otherIn"), sum(log, (day) => (day.dosed ?? 0) + (NO3 * (2 * (day.change ?? 0) + (day.topUp ?? 0))) / 1000), scale);
  }), { numRuns: RUNS }));

test("a change beside its own reading takes out litres x that reading; the store is litres x what the last reading is over the first", () =>
  fc.assert(fc.property(fc.array(fc.tuple(limits(2_000), fc.double({ min: 0.01, max: 150, noNaN: true })), { minLength: 2, maxLength: 20 }), (days) => {
    const middles = days.map(([{ low, width }]) => (PO4 * (low + width / 2)) / 1000);
    const cells = [["Date", "PO4 (mg/L)", "Water change (L)"], ...days.map(([{ low, width }, litres], place) => [46_000 + place, `${low / 1000}-${(low + width) / 1000}`, place === days.length - 1 ? "" : litres])];
    const { results } = figures(read(cells, [["Volume (L)", 200]], "P"), "whole");
    const changed = days.slice(0, -1).reduce((all, [, litres], place) => all + (litres * (middles[place] ?? NaN)) / 1000, 0);
    expectNear(total(results, "changeOut"), changed, 1 + changed);
    // A log opens before what happens at its first moment, so the first change is inside it.
    expectNear(total(results, "storeChange"), (200 * ((middles[days.length - 1] ?? NaN) - (middles[0] ?? NaN))) / 1000, 1 + changed);
  }), { numRuns: RUNS }));

test("doubling every mass, the water and the screens doubles every figure and its uncertainty", () =>
  fc.assert(fc.property(aLog, aChoice, aNutrient, (log, choice, nutrient) => {
    const [once, twice] = [1, 2].map((scale) => figures(read(cellsOf(log, undefined, scale), setUpOf(scale), nutrient), choice).results);
    expectSame(twice ?? [], once ?? [], 2);
  }), { numRuns: RUNS }));

const shuffled = aLog.chain((log) => fc.tuple(fc.constant(log), fc.shuffledSubarray(log.map((_, place) => place), { minLength: log.length, maxLength: log.length })));
test("the order of the rows changes nothing", () =>
  fc.assert(fc.property(shuffled, aChoice, aNutrient, ([log, order], choice, nutrient) => {
    const [head, ...body] = cellsOf(log);
    const inOrder = figures(read([head as unknown[], ...body], setUpOf(), nutrient), choice).results;
    expectSame(figures(read([head as unknown[], ...order.map((place) => body[place] as unknown[])], setUpOf(), nutrient), choice).results, inOrder);
  }), { numRuns: RUNS }));

test("moving the whole log in time moves its periods and changes no figure", () =>
  fc.assert(fc.property(aLog, fc.integer({ min: -40_000, max: 40_000 }), fc.constantFrom("harvest" as const, "reading" as const, "week" as const), (log, days, choice) => {
    const [head, ...body] = cellsOf(log);
    const moved = body.map(([day, ...rest]) => [(day as number) + days, ...rest]);
    expectSame(figures(read([head as unknown[], ...moved], setUpOf()), choice).results, figures(read([head as unknown[], ...body], setUpOf()), choice).results);
    expect(daysOf(log)[0]).toBe(46_000);
  }), { numRuns: RUNS }));
