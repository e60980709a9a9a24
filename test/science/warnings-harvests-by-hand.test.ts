import type { HarvestEntry, LightEntry, Log, ScreenUnit, SetUp } from "../../src/science/budget/log";
import { fitRegrowth } from "../../src/science/growth-fit";
import { harvestInterval, usualRegrowth } from "../../src/science/harvest-interval";
import { exact, triangular } from "../../src/science/uncertain";
import { harvestGroups } from "../../src/science/warnings/harvest-groups";
import { harvestWarnings } from "../../src/science/warnings/harvests";
import { loadWarnings } from "../../src/science/warnings/screen-load";
import type { Warning } from "../../src/science/warnings/warning";
import { capacityGPerDay } from "../../src/science/sizing";
import { feed, harvest, logOf, screen, series, setUpOf } from "./hand-log";

/** A screen of 0.1 m2 whose drained algae are dry to 0.04, 0.05 or 0.06; weighings within a twentieth. */
const SCREEN: Partial<ScreenUnit> = { name: "left", litAreaM2: 0.1, startedDay: 0 };
const accountsOf = (log: Partial<Log>, setUp: SetUp) => {
  const one = { log: logOf({ lastDay: 100, ...log }), setUp, substances: [] };
  return { N: one, P: one };
};
const found = (harvests: readonly HarvestEntry[], more: Partial<ScreenUnit> = {}, log: Partial<Log> = {}): Warning[] => harvestWarnings(accountsOf({ harvests, ...log }, setUpOf({ units: [screen({ ...SCREEN, ...more })] })));
const only = (code: Warning["code"], all: readonly Warning[]): unknown[] => all.filter((one) => one.code === code).map(({ row, severity, facts }) => [row, severity, facts]);
const near = (value: number): number => expect.closeTo(value, 9) as unknown as number;
const lamp = (day: number, more: Partial<LightEntry>): LightEntry => ({ day, row: day + 2, unit: null, umolPerM2S: null, hoursPerDay: null, level: null, ...more });

describe("harvest groups", () => {
  const setUp = setUpOf({ units: [screen({ ...SCREEN, startedDay: 1 }), screen({ name: "right" })] });
  test("what is weighed within two days of the last weighing is one harvest, at the row and day of its first", () => {
    const [left, right] = harvestGroups(logOf({ harvests: [harvest(10, 100), harvest(12, 40, { draining: "pressed" }), harvest(14, 20, { unit: 1 }), harvest(14.1, 60)] }), setUp);
    // 95 % of the weight at 0.04 or 0.08 dry, and all of it at 0.05 or 0.1: 5 + 4 g.
    expect(left).toEqual([
      { row: 12, day: 10, since: 1, dryLowG: near(0.95 * (100 * 0.04 + 40 * 0.08)), dryG: near(9) },
      { row: 16.1, day: 14.1, since: 10, dryLowG: near(0.95 * 2.4), dryG: near(3) },
    ]);
    expect(right).toEqual([{ row: 16, day: 14, since: null, dryLowG: near(0.95 * 0.8), dryG: near(1) }]);
  });
});

describe("dry mass over the light that fell on the screen", () => {
  // 100 umol m-2 s-1 for 10 h are 3.6 mol m-2 d-1: in 10 days on 0.1 m2 3.6 mol. Likely dry mass is 0.05 of the weight, lowest 0.95 x 0.04.
  const lit = { umolPerM2S: 100, hoursPerDay: 10 };
  const above = (drainedG: number, more: Partial<ScreenUnit> = lit, light: readonly LightEntry[] = []): unknown[] => only("HARVEST_ABOVE_LIGHT", found([harvest(10, drainedG)], more, { light }));
  test("is a caution from 0.8 g a mol at the likely dry fraction, serious from 1.8 at the lowest", () => {
    expect(above((0.79 * 3.6) / 0.05)).toEqual([]);
    expect(above((0.81 * 3.6) / 0.05)).toEqual([[12, "caution", { screen: "left", gPerMol: near(0.81), most: 0.8 }]]);
    expect(above((1.79 * 3.6) / 0.038)).toMatchObject([[12, "caution", { most: 0.8 }]]);
    expect(above((1.81 * 3.6) / 0.038)).toEqual([[12, "serious", { screen: "left", gPerMol: near(1.81), most: 1.8 }]]);
  });
  test("is not told without area, light, a start, or days", () => {
    expect(above(5000, { ...lit, litAreaM2: null })).toEqual([]);
    expect(above(5000, { umolPerM2S: 100 })).toEqual([]);
    expect(above(5000, { ...lit, startedDay: null })).toEqual([]);
    expect(above(5000, { ...lit, startedDay: 10 })).toEqual([]);
    expect(above(5000, { ...lit, startedDay: 11 })).toEqual([]);
  });
  test("follows the lamps: those of other screens, and what changes at the harvest or later, do not count", () => {
    const gPerMol = (light: readonly LightEntry[], more: Partial<ScreenUnit> = lit): unknown => above((2 * 3.6) / 0.05, more, light).map((one) => ((one as unknown[])[2] as { gPerMol: number }).gPerMol);
    // 7.2 g dry in all: 2 g a mol at full light all the time (serious would take 1.8 at the lowest dry fraction, which is 1.52).
    expect(gPerMol([])).toEqual([near(2)]);
    expect(gPerMol([lamp(5, { umolPerM2S: 200, unit: 1 })])).toEqual([near(2)]);
    expect(gPerMol([lamp(10, { umolPerM2S: 200 }), lamp(12, { umolPerM2S: 0 })])).toEqual([near(2)]);
    expect(gPerMol([lamp(-5, { umolPerM2S: 200, unit: 1 })])).toEqual([near(2)]);
    // Twice the light for the second half: 1.5 times as many mol.
    expect(gPerMol([lamp(5, { umolPerM2S: 200 })])).toEqual([near(2 / 1.5)]);
    expect(gPerMol([lamp(5, { umolPerM2S: 200, unit: 0 })])).toEqual([near(2 / 1.5)]);
    // From its start on with 5 h a day, and dimmed to 0.9 since before that.
    expect(gPerMol([lamp(-9, { level: 0.9 }), lamp(0, { hoursPerDay: 15 })])).toEqual([near(2 / 1.35)]);
    expect(gPerMol([lamp(-9, { umolPerM2S: 150, hoursPerDay: 8 }), lamp(-8, { level: 0.9 })], {})).toEqual([near(2 / (1.5 * 0.8 * 0.9))]);
  });
  test("each harvest has the light of its own days, the five latest of a kind are listed", () => {
    const harvests = [10, 20, 30, 40, 50, 60].map((day) => harvest(day, (2 * 3.6) / 0.05));
    // Light doubles on day 20, when the second harvest ends: 1 g a mol from then on.
    const all = only("HARVEST_ABOVE_LIGHT", found(harvests, lit, { light: [lamp(20, { umolPerM2S: 200 })] }));
    expect(all.map((one) => (one as [number, string, { gPerMol: number }])[2].gPerMol)).toEqual([2, 1, 1, 1, 1].map(near));
    expect((all[0] as unknown[])[0]).toBe(22);
    const later = only("HARVEST_ABOVE_LIGHT", found(harvests, lit, { light: [lamp(15, { umolPerM2S: 200 }), lamp(35, { umolPerM2S: 100 })] }));
    expect(later.map((one) => (one as [number, string, { gPerMol: number }])[2].gPerMol)).toEqual([2 / 1.5, 1, 2 / 1.5, 2, 2].map(near));
  });
});

describe("growth", () => {
  // 40 g m-2 d-1 on 0.1 m2 are 40 g dry in 10 days: 800 g drained at the likely dry fraction, 1053 g at the lowest.
  const high = (drainedG: number, more: Partial<ScreenUnit> = {}): unknown[] => only("GROWTH_TOO_HIGH", found([harvest(10, drainedG)], more));
  test("above 40 g m-2 d-1 is not believable, serious if even the lowest dry fraction cannot bring it down", () => {
    expect(high(799)).toEqual([]);
    expect(high(810)).toEqual([[12, "caution", { screen: "left", growth: near(40.5), most: 40 }]]);
    expect(high(1052)).toMatchObject([[12, "caution", {}]]);
    expect(high(1053)).toEqual([[12, "serious", { screen: "left", growth: near(52.65), most: 40 }]]);
  });
  test("is not told without area, start or days", () => {
    for (const more of [{ litAreaM2: null }, { startedDay: null }, { startedDay: 10 }, { startedDay: 12 }]) expect(high(5000, more)).toEqual([]);
  });
  test("at exactly 40 is believed", () => {
    const exactly = { dryFraction: { drained: exact(0.5), pressed: exact(0.5) }, litAreaM2: 0.5 };
    // 0.5 x 400 g = 200 g on 0.5 m2 in 10 days; the weighing's twentieth is taken off the lowest.
    expect(high(400, exactly)).toEqual([]);
    expect(high(400.1, exactly)).toMatchObject([[12, "caution", {}]]);
  });

  /** Every ten days after a start-up harvest; grams of dry mass a day. */
  const falling = (perDay: readonly number[], share = 0.05): unknown[] => {
    const harvests = perDay.map((rate, place) => harvest(10 * (place + 1), (10 * rate) / 0.05));
    return only("GROWTH_FALLING", harvestWarnings(accountsOf({ harvests }, setUpOf({ harvestShare: share, units: [screen({ ...SCREEN, litAreaM2: null })] }))));
  };
  test("has fallen where five harvests after the first each grew less than the one before, to less than 0.7 in all", () => {
    expect(falling([9, 1, 0.9, 0.8, 0.75, 0.69])).toEqual([[62, "caution", { screen: "left", from: near(1), to: near(0.69) }]]);
    expect(falling([9, 1, 0.9, 0.8, 0.75, 0.71])).toEqual([]);
    expect(falling([9, 1, 0.9, 0.9, 0.75, 0.6])).toEqual([]);
    expect(falling([9, 1, 0.8, 0.9, 0.75, 0.6])).toEqual([]);
    // Only four after the start-up harvest, which was larger than they.
    expect(falling([1, 0.9, 0.8, 0.7, 0.6])).toEqual([]);
    // Only the latest five count: an old rise is no matter, nor are earlier ones needed.
    expect(falling([9, 0.5, 1, 0.9, 0.8, 0.75, 0.6])).toMatchObject([[72, "caution", { from: near(1), to: near(0.6) }]]);
    expect(falling([9, 2, 1, 0.9, 0.8, 0.75, 0.71])).toEqual([]);
  });
  test("and by more than the weighing may be off: 0.6 x 1.25 is 0.75, 0.6 x 1.2 less than 0.8", () => {
    expect(falling([9, 1, 0.9, 0.8, 0.7, 0.6], 0.25)).toEqual([]);
    expect(falling([9, 1, 0.9, 0.8, 0.7, 0.6], 0.24)).toHaveLength(1);
  });
  test("counts a day, not a harvest: longer intervals with as much growth a day are no fall", () => {
    const days = [10, 30, 48, 64, 78, 90];
    const even = days.map((day, place) => harvest(day, 20 * (day - (days[place - 1] ?? 0))));
    expect(only("GROWTH_FALLING", found(even, { litAreaM2: null }))).toEqual([]);
    const lean = days.map((day, place) => harvest(day, (20 - 2 * place) * (day - (days[place - 1] ?? 0))));
    expect(only("GROWTH_FALLING", found(lean, { litAreaM2: null }))).toMatchObject([[92, "caution", { from: near(0.9), to: near(0.5) }]]);
  });
});

test("a first harvest is noted by screen as long as it is the only one", () => {
  expect(only("FIRST_HARVEST", found([harvest(10, 50)]))).toEqual([[12, "note", { screen: "left" }]]);
  expect(only("FIRST_HARVEST", found([harvest(10, 50), harvest(11, 50)]))).toHaveLength(1);
  expect(only("FIRST_HARVEST", found([harvest(10, 50), harvest(20, 50)]))).toEqual([]);
  expect(found([])).toEqual([]);
});

describe("the next harvest", () => {
  const overdue = (harvests: readonly HarvestEntry[], lastDay: number, more: Partial<ScreenUnit> = {}): unknown[] => only("HARVEST_OVERDUE", found(harvests, more, { lastDay }));
  test("is due after the usual curve's good stretch", () => {
    const { highDays } = harvestInterval(usualRegrowth);
    expect(overdue([harvest(10, 50)], 10 + highDays - 0.01)).toEqual([]);
    expect(overdue([harvest(10, 50)], 10 + highDays + 0.01)).toEqual([[12, "caution", { screen: "left", since: near(highDays + 0.01), longest: near(highDays), ownCurve: false }]]);
  });
  test("or after 1.25 times the keeper's own middle interval where that is longer", () => {
    // Intervals of 40, 24, 16, 20 days after the start-up harvest of 60 days: the lower middle of the four is 20, so 25 days are borne.
    const harvests = [10, 50, 74, 90, 110].map((day) => harvest(day, 50));
    expect(overdue(harvests, 135, { startedDay: -50 })).toEqual([]);
    expect(overdue(harvests, 135.5, { startedDay: -50 })).toEqual([[112, "caution", { screen: "left", since: 25.5, longest: 25, ownCurve: false }]]);
  });
  test("by the screen's own curve where its harvests tell one", () => {
    // Of the logistic curve K 200, B0 20, rate 0.3 on 0.1 m2; dry to 0.05. The start-up harvest is no interval of it.
    const taken = (days: number): number => (200 * 20) / (20 + 180 * Math.exp(-0.3 * days)) - 20;
    const days = [6, 9, 4, 12, 18, 8, 25, 15];
    let day = 30;
    const harvests = [harvest(30, 50), ...days.map((one) => harvest((day += one), (0.1 * taken(one)) / 0.05))];
    const { highDays } = harvestInterval(fitRegrowth(days.map((one) => ({ days: one, dryGPerM2: taken(one) })), "logistic"));
    expect(highDays).toBeCloseTo(harvestInterval({ curve: "logistic", most: 200, stubble: 20, ratePerDay: 0.3 }).highDays, 6);
    expect(overdue(harvests, day + highDays + 1)).toEqual([[day + 2, "caution", { screen: "left", since: near(highDays + 1), longest: expect.closeTo(highDays, 6), ownCurve: true }]]);
    // Without a lit area the mass of the whole screen tells the same days.
    expect(overdue(harvests, day + highDays + 1, { litAreaM2: null })).toMatchObject([[day + 2, "caution", { longest: expect.closeTo(highDays, 6), ownCurve: true }]]);
  });
  test("of the latest thirty harvests: what grew before them was another screen", () => {
    const taken = (days: number, most: number): number => (most * 20) / (20 + (most - 20) * Math.exp(-0.3 * days)) - 20;
    let day = 30;
    const old = [25, 5, 12, 20, 8].map((one) => harvest((day += one), (0.1 * taken(one, 60)) / 0.05));
    const young = Array.from({ length: 30 }, (_, place) => 5 + ((7 * place) % 20)).map((one) => harvest((day += one), (0.1 * taken(one, 200)) / 0.05));
    const { highDays } = harvestInterval({ curve: "logistic", most: 200, stubble: 20, ratePerDay: 0.3 });
    expect(overdue([harvest(30, 50), ...old, ...young], day + 40)).toMatchObject([[day + 2, "caution", { longest: expect.closeTo(highDays, 6), ownCurve: true }]]);
  });
  test("not by a curve whose best interval is longer than any that was tried", () => {
    // The same curve tried up to 9 days only, where growth is still rising: its best is at 10.6 days.
    const taken = (days: number): number => (200 * 20) / (20 + 180 * Math.exp(-0.3 * days)) - 20;
    const days = [3, 4, 5, 6, 7, 8, 9, 3.5, 9];
    let day = 30;
    const harvests = [harvest(30, 50), ...days.map((one) => harvest((day += one), (0.1 * taken(one)) / 0.05))];
    expect(overdue(harvests, day + 40)).toMatchObject([[day + 2, "caution", { longest: near(harvestInterval(usualRegrowth).highDays), ownCurve: false }]]);
  });
});

test("what was fed back is noted once, at the last such harvest", () => {
  const all = found([harvest(10, 100, { fedBackShare: 0.25 }), harvest(20, 80, { fedBackShare: 0.5 }), harvest(30, 50)]);
  expect(only("FED_BACK", all)).toEqual([[22, "note", { grams: near(65), harvests: 2 }]]);
  expect(only("FED_BACK", found([harvest(30, 50)]))).toEqual([]);
});

describe("the feed against what all screens can take up", () => {
  const lit = screen({ ...SCREEN, tissue: triangular({ low: 0.02, value: 0.04, high: 0.06 }), umolPerM2S: 100, hoursPerDay: 10 });
  const load = (massG: number, days: number, more: Partial<ScreenUnit> = {}, from = 0): unknown[] => {
    const feeds = Array.from({ length: days }, (_, place) => feed(from + place + 1, massG));
    return loadWarnings(accountsOf({ feeds, firstDay: from, lastDay: from + days, series: [series("NO3", [])] }, setUpOf({ retainedShare: exact(0.1), units: [{ ...lit, ...more }] }))).map(({ row, severity, facts }) => [row, severity, facts]);
  };
  // 3.6 mol m-2 d-1 x 0.8 g a mol x 0.1 m2 x 6 % are 0.01728 g N a day; 1 g of pellets brings 0.9 x 0.08 = 0.072 g.
  test("is a caution with both figures", () => {
    expect(capacityGPerDay(0.1, 0.06, { loadNGPerDay: 1, loadPGPerDay: 0, lightMolPerM2Day: 3.6, targetNMgPerL: null, targetPMgPerL: null, temperatureC: 25, setting: "outdoor" }, 0.8)).toBeCloseTo(0.01728, 12);
    expect(load(0.239, 20)).toEqual([]);
    expect(load(0.241, 20)).toEqual([[null, "caution", { loadG: near(0.241 * 0.072), capacityG: near(0.01728), days: 20 }]]);
  });
  test("from seven days of log on, over the last 28", () => {
    expect(load(1, 6)).toEqual([]);
    expect(load(1, 7)).toMatchObject([[null, "caution", { days: 7 }]]);
    expect(load(1, 40)).toMatchObject([[null, "caution", { loadG: near(0.072), days: 28 }]]);
  });
  test("a screen counts from its start; one that starts on the last day, or none, says nothing", () => {
    expect(load(1, 20, { startedDay: 20 })).toEqual([]);
    expect(load(1, 20, { startedDay: 19 })).toHaveLength(1);
    expect(load(1, 20, { litAreaM2: null })).toEqual([]);
    expect(load(1, 20, { umolPerM2S: null })).toEqual([]);
  });
});
