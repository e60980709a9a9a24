import { ALGAE } from "../../src/science/constants/algae";
import { usualCrop } from "../../src/science/forecast/crop";
import { integrate, type Slopes } from "../../src/science/forecast/integrate";
import { forecast, STEADY_CROP, type Crop, type ForecastCase, type ForecastEvent, type ForecastPoint } from "../../src/science/forecast/model";
import { daysToTarget, drawnForecasts, likelyCase, outlookRange, repeated, settled, spreadOf, type Outlook } from "../../src/science/forecast/range";
import { exchangePerDay, steadyBoth, steadyReading } from "../../src/science/forecast/steady";
import { GROWTH_CURVES } from "../../src/science/growth-curves";
import { harvestInterval, meanGrowthGPerM2Day, usualRegrowth } from "../../src/science/harvest-interval";
import { Problem } from "../../src/science/problem";
import { exact } from "../../src/science/uncertain";

const near = (value: number, digits = 8): number => expect.closeTo(value, digits) as unknown as number;
/** 100 L with plenty of both: the screen takes up 20 mg N and 2 mg P a day, whatever the readings. */
const PLENTY: ForecastCase = {
  volumeL: 100, start: { N: 50, P: 5 }, load: { N: 30, P: 1 }, uptakeMost: { N: 20, P: 2 }, halfSaturation: { N: 1e-12, P: 1e-12 },
  exchangePerDay: 0, incoming: { N: 4, P: 0.4 }, crop: STEADY_CROP, events: [],
};
const IDLE: ForecastCase = { ...PLENTY, uptakeMost: { N: 0, P: 0 } };
const end = (one: ForecastCase, day: number): ForecastPoint => {
  const [point] = forecast(one, [day]);
  if (!point) throw new Error("no point");
  return point;
};

describe("the course of the water, by closed forms", () => {
  test("load and uptake at one rate: 50 + 10 x 10 / 100, 5 - 1 x 10 / 100", () => {
    expect(end(PLENTY, 10)).toEqual({ day: 10, reading: { N: near(51), P: near(4.9) }, takenUp: { N: near(200), P: near(20) }, changedOut: { N: 0, P: 0 }, loaded: { N: near(300), P: near(10) } });
  });
  test("feed and light change load and uptake from their day on", () => {
    const events: ForecastEvent[] = [{ day: 4, kind: "feed", factor: 2 }, { day: 6, kind: "light", factor: 0.5 }];
    // Loaded 30 x (4 + 2 x 6), 1 x 16; taken up 20 x (6 + 0.5 x 4), 2 x 8.
    expect(end({ ...PLENTY, events }, 10)).toMatchObject({ loaded: { N: near(480), P: near(16) }, takenUp: { N: near(160), P: near(16) }, reading: { N: near(50 + 3.2), P: near(5) } });
  });
  test("a change mixes in new water, and what went out is told net of what it brought", () => {
    const change = (day: number, share: number): ForecastEvent => ({ day, kind: "change", share });
    // 50 + 0.3 x 5 = 51.5; half of the difference to 4 goes: 27.75; + 1.5; a quarter of the difference goes.
    const [first, second] = [51.5, 51.5 - 0.5 * 47.5 + 1.5];
    const found = end({ ...IDLE, events: [change(10, 0.25), change(5, 0.5)] }, 12);
    expect(found.reading.N).toBeCloseTo(second - 0.25 * (second - 4) + 0.6, 8);
    expect(found.changedOut.N).toBeCloseTo(100 * (0.5 * (first - 4) + 0.25 * (second - 4)), 6);
    expect(found.reading.P).toBeCloseTo(5 + 0.12 - found.changedOut.P / 100, 8);
    expect(found.changedOut.P).toBeCloseTo(100 * (0.5 * (5.05 - 0.4) + 0.25 * (5.05 - 0.5 * 4.65 + 0.05 - 0.4)), 6);
    // At the start's own day it happens at once; before it it is history.
    expect(end({ ...IDLE, events: [change(0, 0.5), change(-1, 0.5)] }, 0).reading).toEqual({ N: 27, P: near(2.7) });
  });
  test("water exchanged all the time goes to Cin + L / (r V) as e^(-r t)", () => {
    // N: 4 + 30 / (0.1 x 100) = 7; P: 0.4 + 0.1 = 0.5.
    const found = end({ ...IDLE, exchangePerDay: 0.1 }, 10);
    expect(found.reading).toEqual({ N: near(7 + 43 / Math.E), P: near(0.5 + 4.5 / Math.E) });
    expect(found.changedOut).toEqual({ N: near(300 - 100 * (7 + 43 / Math.E - 50), 6), P: near(10 - 100 * (0.5 + 4.5 / Math.E - 5), 6) });
  });
  test("uptake follows the crop since the last harvest, from what that one left", () => {
    // 1 + 0.1 t for 5 days: 6.25. Half of 1.5 is left: 0.75 + 0.1 t for 3 days: 2.7. Half of 1.05: 0.525 + 0.1 t for 2 days: 1.25.
    const crop: Crop = { factor: (days, left) => left + 0.1 * days, leaves: (factor) => factor / 2, atStart: 1 };
    const events: ForecastEvent[] = [{ day: 8, kind: "harvest" }, { day: 5, kind: "harvest" }];
    expect(end({ ...PLENTY, crop, events }, 10).takenUp).toEqual({ N: near(204, 6), P: near(20.4, 6) });
  });
  test("a nutrient that the screen does not take up holds nothing back; one that it does holds back both", () => {
    const alone = { ...PLENTY, start: { N: 0, P: 5 }, load: { N: 0, P: 0 }, uptakeMost: { N: 0, P: 2 } };
    expect(end(alone, 10).takenUp).toEqual({ N: 0, P: near(20) });
    expect(end({ ...alone, start: { N: 5, P: 0 }, uptakeMost: { N: 20, P: 0 } }, 10).takenUp).toEqual({ N: near(200), P: 0 });
    expect(end({ ...alone, uptakeMost: { N: 20, P: 2 } }, 10).takenUp).toEqual({ N: near(0), P: near(0) });
    // Half of the uptake at C = K, held there by a volume without end.
    const half = { ...PLENTY, volumeL: 1e12, start: { N: 0.2, P: 5 }, halfSaturation: { N: 0.2, P: 0.03 } };
    expect(end(half, 10).takenUp.N).toBeCloseTo(100, 6);
  });
  test("the usual crop is growth on the usual curve over that of a screen kept at its best interval", () => {
    const crop = usualCrop(4);
    const parameters = [ALGAE.standingCropMost.value, ALGAE.standingCropMost.value * ALGAE.stubbleShare.value, ALGAE.regrowthRate.value];
    const best = harvestInterval(usualRegrowth).growthGPerM2Day;
    expect(crop.factor(2, crop.atStart)).toBeCloseTo(GROWTH_CURVES.logistic.growth(6, parameters) / best, 12);
    expect(crop.factor(2, crop.leaves(1))).toBeCloseTo(GROWTH_CURVES.logistic.growth(2, parameters) / best, 12);
  });
});

describe("the integrator", () => {
  const run = (slopes: Slopes, start: number, from: number, to: number, relative = 1e-10, firstStep = 0.1): { value: number; step: number } => {
    const state = new Float64Array([start]);
    const step = integrate(slopes, state, from, to, relative, 1e-12, firstStep);
    return { value: state[0] ?? NaN, step };
  };
  const decay: Slopes = (_, y, into) => { into[0] = -(y[0] ?? NaN); };
  test("is exact for a polynomial of the fifth degree in time, in one step", () => {
    const value = run((t, _, into) => { into[0] = 5 * t ** 4 - 8 * t ** 3 + 1; }, 3, 0, 2, 1, 2).value;
    expect(value).toBeCloseTo(3 + 32 - 32 + 2, 12);
  });
  test("keeps its tolerance, be the first step much too long or the slope one of time", () => {
    expect(Math.abs(run(decay, 1, 0, 10, 1e-10, 10).value / Math.exp(-10) - 1)).toBeLessThan(1e-6);
    expect(run((t, _, into) => { into[0] = Math.cos(t); }, 0, 0, 20, 1e-10, 20).value).toBeCloseTo(Math.sin(20), 8);
    expect(run((t, y, into) => { into[0] = -2 * t * (y[0] ?? NaN); }, 1, -1, 1).value).toBeCloseTo(1, 8);
  });
  test("over no time changes nothing and gives its step back", () => {
    expect(run(decay, 7, 5, 5, 1e-10, 0.3)).toEqual({ value: 7, step: 0.3 });
    expect(run(decay, 7, 5, 4, 1e-10, 0.3)).toEqual({ value: 7, step: 0.3 });
  });
  test("a step cut short by the end does not shorten the next one", () => {
    expect(run(decay, 1, 0, 0.01, 1e-4, 0.1).step).toBe(0.1);
    expect(run(decay, 1, 0, 0.1, 1e-4, 0.1).step).toBeGreaterThan(0.1);
  });
  test("what has no end or no value is refused", () => {
    const kind = (slopes: Slopes): unknown => {
      try {
        return run(slopes, 1, 0, 2).value;
      } catch (error) {
        return error instanceof Problem ? error.kind : error;
      }
    };
    expect(kind((_, __, into) => { into[0] = NaN; })).toBe("number");
    // y' = y^2 from 1 is without limit at t = 1.
    expect(kind((_, y, into) => { into[0] = (y[0] ?? NaN) ** 2; })).toBe("number");
  });
});

describe("where it settles", () => {
  test("without exchange: K L / (U - L), nothing, no end, or where it is", () => {
    expect(steadyReading(60, 100, 0.2, 0, 3)).toBeCloseTo(0.3, 12);
    expect([steadyReading(100, 100, 0.2, 0, 0), steadyReading(120, 100, 0.2, 0, 0), steadyReading(5, 0, 0.2, 0, 0)]).toEqual([Infinity, Infinity, Infinity]);
    expect(steadyReading(0, 100, 0.2, 0, 0)).toBe(0);
    expect(steadyReading(0, 0, 0.2, 0, 0)).toBeNaN();
  });
  test("with exchange the balance closes to the last digits, also where one figure is a million times another", () => {
    for (const [load, uptake, half, exchange, incoming] of [[60, 100, 0.2, 4, 0.5], [1e-6, 1e6, 1, 1, 0], [1e9, 0, 1e-6, 1, 0], [1e9, 10, 1e-6, 1, 2], [5, 5, 0.2, 1e-3, 0], [1, 3, 1, 1, 1]] as const) {
      const c = steadyReading(load, uptake, half, exchange, incoming);
      const [gain, loss] = [load + exchange * incoming, (uptake * c) / (half + c) + exchange * c];
      expect(c).toBeGreaterThan(0);
      expect(Math.abs(loss / gain - 1)).toBeLessThan(1e-12);
    }
  });
  const case_ = (more: Partial<ForecastCase>): ForecastCase => ({ ...PLENTY, load: { N: 60, P: 6 }, uptakeMost: { N: 100, P: 10 }, halfSaturation: { N: 0.2, P: 0.03 }, incoming: { N: 0, P: 0 }, ...more });
  test("both, without exchange: the one that comes in less for what the algae need settles, the other rises", () => {
    expect(steadyBoth(case_({}))).toEqual({ N: near(0.3, 12), P: near(0.045, 12) });
    expect(steadyBoth(case_({ load: { N: 60, P: 3 } }))).toEqual({ N: Infinity, P: near((0.03 * 3) / 7, 12) });
    expect(steadyBoth(case_({ load: { N: 30, P: 6 } }))).toEqual({ N: near((0.2 * 30) / 70, 12), P: Infinity });
  });
  test("a nutrient that is not taken up goes by its own balance, and so does the other", () => {
    const exchange = { exchangePerDay: 0.01 };
    expect(steadyBoth(case_({ ...exchange, uptakeMost: { N: 0, P: 10 }, load: { N: 0.001, P: 6 } }))).toEqual({ N: near(0.001, 12), P: near(steadyReading(6, 10, 0.03, 1, 0), 12) });
    expect(steadyBoth(case_({ ...exchange, uptakeMost: { N: 100, P: 0 }, load: { N: 60, P: 0.001 } }))).toEqual({ N: near(steadyReading(60, 100, 0.2, 1, 0), 12), P: near(0.001, 12) });
    expect(steadyBoth(case_({ uptakeMost: { N: 0, P: 10 }, load: { N: 0, P: 6 } }))).toEqual({ N: NaN, P: near(0.045, 12) });
    expect(steadyBoth(case_({ uptakeMost: { N: 100, P: 0 }, load: { N: 60, P: 0 } }))).toEqual({ N: near(0.3, 12), P: NaN });
    expect(steadyBoth(case_({ uptakeMost: { N: 0, P: 0 }, load: { N: 60, P: 0 } }))).toEqual({ N: Infinity, P: NaN });
  });
  test("with next to no exchange the scarce one still has its digits: K s / (1 - s) at s = L / U", () => {
    const scarce = (load: { N: number; P: number }) => steadyBoth(case_({ exchangePerDay: 1e-9, load: { N: 1e5 * load.N, P: 1e5 * load.P }, uptakeMost: { N: 1e7, P: 1e6 } }));
    expect(Math.abs(scarce({ N: 60, P: 9 }).N / 0.3 - 1)).toBeLessThan(1e-9);
    expect(Math.abs(scarce({ N: 90, P: 6 }).P / 0.045 - 1)).toBeLessThan(1e-9);
    // The other goes by its balance: (9e5 - 1e6 x 0.6) / (1e-9 x 100).
    expect(scarce({ N: 60, P: 9 }).P).toBeCloseTo(3e12, -4);
  });
  test("with exchange, by substitution: both balances close at the scarcer one's hold", () => {
    for (const load of [{ N: 60, P: 9 }, { N: 90, P: 4 }, { N: 140, P: 14 }]) {
      const one = case_({ load, exchangePerDay: 0.03, incoming: { N: 0.5, P: 0.02 } });
      const { N, P } = steadyBoth(one);
      const hold = Math.min(N / (0.2 + N), P / (0.03 + P));
      expect(Math.abs((load.N - 100 * hold - 3 * (N - 0.5)) / load.N)).toBeLessThan(1e-9);
      expect(Math.abs((load.P - 10 * hold - 3 * (P - 0.02)) / load.P)).toBeLessThan(1e-9);
    }
  });
});

/** 0.2 m2 at 14 mol and 0.4 g a mol: 5.6 g m-2 d-1, under the 7.5 of ordinary screens; 3.5 % N and 0.35 % P: 39.2 and 3.92 mg a day. */
const OUTLOOK: Outlook = {
  volumeL: 200, start: { N: exact(4), P: exact(0.2) }, incoming: { N: 1, P: 0.05 }, loadGPerDay: { N: 0.06, P: 0.006 }, loadShare: 0.2,
  litAreaM2: 0.2, lightMolPerM2Day: 14, temperatureC: 25, setting: "ordinary", daysSinceHarvest: 3, harvestEveryDays: 10, changes: [], events: [],
};

describe("an outlook", () => {
  test("at the likely values, written out", () => {
    expect(likelyCase(OUTLOOK)).toMatchObject({
      volumeL: 200, start: { N: 4, P: 0.2 }, load: { N: near(60), P: near(6) }, uptakeMost: { N: near(39.2), P: near(3.92) }, halfSaturation: { N: 0.196, P: 0.031 }, exchangePerDay: 0, incoming: { N: 1, P: 0.05 },
    });
    // A large screen on little water: what it takes up in a twentieth of a day, 2,940 mg x 0.05 / 20 L.
    expect(likelyCase({ ...OUTLOOK, litAreaM2: 15, volumeL: 20 }).halfSaturation).toEqual({ N: near(7.35), P: near(0.735) });
    expect(likelyCase({ ...OUTLOOK, temperatureC: 35 }).uptakeMost.N).toBeCloseTo(39.2 * 1.6, 9);
  });
  test("settles at the mean growth of its interval and a steady exchange for all its changes together", () => {
    const changes = [{ share: 0.1, everyDays: 7 }, { share: 0.2, everyDays: 28 }];
    const kept = meanGrowthGPerM2Day(usualRegrowth, 5) / harvestInterval(usualRegrowth).growthGPerM2Day;
    const one = { ...likelyCase(OUTLOOK), exchangePerDay: 0.1 / (7 * 0.95) + 0.2 / (28 * 0.9), uptakeMost: { N: 39.2 * kept, P: 3.92 * kept } };
    expect(exchangePerDay(0.1, 7)).toBeCloseTo(0.1 / 6.65, 15);
    const expected = steadyBoth(one);
    const event: ForecastEvent = { day: 3, kind: "change", share: 0.9 };
    expect(settled({ ...OUTLOOK, harvestEveryDays: 5, changes, events: [event] })).toEqual({ N: near(expected.N), P: near(expected.P) });
    // Never harvested: only the water carries out, 60 mg against 200 L x r x (C - 1).
    expect(settled({ ...OUTLOOK, harvestEveryDays: 0, changes }).N).toBeCloseTo(1 + 60 / (200 * one.exchangePerDay), 8);
    expect(settled({ ...OUTLOOK, harvestEveryDays: 0, changes }).P).toBeCloseTo(0.05 + 6 / (200 * one.exchangePerDay), 8);
  });
  test("draws the load evenly within its share, the same for both nutrients", () => {
    const courses = drawnForecasts(OUTLOOK, [0, 2], 200, 9);
    const loads = courses.map((course) => (course[1]?.loaded.N ?? NaN) / 120);
    expect(Math.min(...loads)).toBeGreaterThanOrEqual(0.8);
    expect(Math.max(...loads)).toBeLessThanOrEqual(1.2);
    expect(Math.min(...loads)).toBeLessThan(0.82);
    expect(Math.max(...loads)).toBeGreaterThan(1.18);
    for (const course of courses) expect((course[1]?.loaded.P ?? NaN) / (course[1]?.loaded.N ?? NaN)).toBeCloseTo(0.1, 9);
    const [start, later] = outlookRange(OUTLOOK, [0, 2], 200, 9);
    expect(start).toEqual({ day: 0, reading: { N: { low: 4, middle: 4, high: 4 }, P: { low: 0.2, middle: 0.2, high: 0.2 } } });
    expect(later?.reading.N).toEqual(spreadOf(courses.map((course) => course[1]?.reading.N ?? NaN)));
    expect(spreadOf([5, 1, 3, 2, 4, 6, 7, 8, 9, 10, 0])).toEqual({ low: 1, middle: 5, high: 9 });
  });
});

describe("events that repeat", () => {
  const days = (every: number, until: number, firstAfter?: number): number[] => repeated(every, until, (day) => ({ day, kind: "harvest" }), firstAfter).map(({ day }) => day);
  test("from the first on, the last day among them", () => {
    expect(days(7, 21)).toEqual([7, 14, 21]);
    expect(days(7, 20)).toEqual([7, 14]);
    expect(days(0.1, 0.3)).toHaveLength(3);
    expect(days(7, 20, 3)).toEqual([3, 10, 17]);
    expect(days(7, 20, 0)).toEqual([0, 7, 14]);
    expect(days(7, 20, -3)).toEqual([4, 11, 18]);
  });
  test("never where there is no interval, or it is longer than the time", () => {
    for (const every of [0, -1, NaN, 30]) expect(days(every, 20)).toEqual([]);
  });
});

describe("days to a target", () => {
  const course = (...readings: number[]): ForecastPoint[] => readings.map((N, place) => ({ day: 2 * place + 1, reading: { N, P: 0 }, takenUp: { N: 0, P: 0 }, changedOut: { N: 0, P: 0 }, loaded: { N: 0, P: 0 } }));
  test("straight between the days, from either side", () => {
    expect(daysToTarget(course(10, 8, 4), "N", 5)).toBeCloseTo(4.5, 12);
    expect(daysToTarget(course(1, 2, 6), "N", 5)).toBeCloseTo(4.5, 12);
    expect(daysToTarget(course(10, 5, 4), "N", 5)).toBe(3);
  });
  test("at once where it is met, also where it stays; never where it is not, or nothing is known", () => {
    expect(daysToTarget(course(5, 5, 5), "N", 5)).toBe(1);
    expect(daysToTarget(course(5, 6), "N", 5)).toBe(1);
    expect(daysToTarget(course(10, 8, 6), "N", 5)).toBe(Infinity);
    expect(daysToTarget(course(10), "N", 5)).toBe(Infinity);
    expect(daysToTarget([], "N", 5)).toBe(Infinity);
  });
});
