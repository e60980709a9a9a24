import fc from "fast-check";
import { usualCrop } from "../../src/science/forecast/crop";
import { forecast, STEADY_CROP, type ForecastCase, type ForecastEvent } from "../../src/science/forecast/model";
import { daysToTarget, likelyForecast, outlookRange, repeated, settled, type Outlook } from "../../src/science/forecast/range";
import { steadyBoth } from "../../src/science/forecast/steady";
import { exact, rectangular } from "../../src/science/uncertain";

const NUTRIENTS = ["N", "P"] as const;
const TANK: ForecastCase = {
  volumeL: 200, start: { N: 3, P: 0.2 }, load: { N: 60, P: 6 }, uptakeMost: { N: 100, P: 10 }, halfSaturation: { N: 0.2, P: 0.03 },
  exchangePerDay: 0, incoming: { N: 0, P: 0 }, crop: STEADY_CROP, events: [],
};

test("mass in = taken up + changed out + change in store, for any tank, harvests and changes", () => {
  const number = (low: number, high: number): fc.Arbitrary<number> => fc.double({ min: low, max: high, noNaN: true });
  const anEvent: fc.Arbitrary<ForecastEvent> = fc.oneof(
    fc.record({ day: number(0, 30), kind: fc.constant("harvest" as const) }),
    fc.record({ day: number(0, 30), kind: fc.constant("change" as const), share: number(0, 0.9) }),
    fc.record({ day: number(0, 30), kind: fc.constantFrom("feed" as const, "light" as const), factor: number(0, 3) }),
  );
  const pair = (low: number, high: number): fc.Arbitrary<{ N: number; P: number }> => fc.record({ N: number(low, high), P: number(low / 10, high / 10) });
  const aTank = fc.record({
    volumeL: number(20, 2000), start: pair(0, 20), load: pair(0, 300), uptakeMost: pair(0, 300), halfSaturation: pair(0.05, 1), exchangePerDay: number(0, 0.1), incoming: pair(0, 5),
    crop: fc.constantFrom(STEADY_CROP, usualCrop(4)), events: fc.array(anEvent, { maxLength: 6 }),
  });
  fc.assert(
    fc.property(aTank, (tank) => {
      const [end] = forecast(tank, [30]);
      for (const nutrient of NUTRIENTS) {
        const { reading, takenUp, changedOut, loaded } = end as NonNullable<typeof end>;
        const stored = (reading[nutrient] - tank.start[nutrient]) * tank.volumeL;
        const size = 1 + loaded[nutrient] + takenUp[nutrient] + Math.abs(changedOut[nutrient]) + Math.abs(stored);
        expect(Math.abs(loaded[nutrient] - takenUp[nutrient] - changedOut[nutrient] - stored) / size).toBeLessThan(1e-8);
        expect(reading[nutrient]).toBeGreaterThan(-1e-6);
      }
    }),
    { numRuns: 1000 },
  );
}, 120_000);

test("nitrogen and phosphorus leave in the ratio of the tissue", () => {
  const [end] = forecast(TANK, [40]);
  expect(end?.takenUp.N).toBeCloseTo(10 * (end?.takenUp.P ?? NaN), 6);
});

test("the scarcer one holds both: without phosphorus nitrogen is not taken up, and rises by its load", () => {
  const [end] = forecast({ ...TANK, start: { N: 3, P: 0 }, load: { N: 60, P: 0 } }, [10]);
  expect(end?.takenUp.N).toBeCloseTo(0, 9);
  expect(end?.reading.N).toBeCloseTo(3 + (60 * 10) / 200, 9);
  expect(end?.reading.P).toBeCloseTo(0, 9);
});

test("what comes in too little is used up, the other rises: N settles, P rises without limit", () => {
  const rich = { ...TANK, load: { N: 60, P: 9 } };
  const settled = steadyBoth(rich);
  expect(settled.N).toBeCloseTo((0.2 * 60) / 40, 9);
  expect(settled.P).toBe(Infinity);
  const [far, farther] = forecast(rich, [800, 1000]);
  expect(far?.reading.N).toBeCloseTo(0.3, 4);
  // What is over: 9 - 60 / 10 = 3 mg a day in 200 L.
  expect((farther?.reading.P ?? NaN) - (far?.reading.P ?? NaN)).toBeCloseTo((3 * 200) / 200, 4);
});

test("with water changes both settle where the long course ends", () => {
  for (const load of [{ N: 60, P: 9 }, { N: 80, P: 4 }, { N: 140, P: 14 }]) {
    const tank = { ...TANK, load, exchangePerDay: 0.02, incoming: { N: 0.5, P: 0.01 } };
    const settled = steadyBoth(tank);
    const [end] = forecast(tank, [3000]);
    for (const nutrient of NUTRIENTS) expect(Math.abs((end?.reading[nutrient] ?? NaN) / settled[nutrient] - 1)).toBeLessThan(1e-6);
  }
});

test("a harvest comes before a change of the same day, in whatever order they are given", () => {
  const change: ForecastEvent = { day: 5, kind: "change", share: 0.5 };
  const harvest: ForecastEvent = { day: 5, kind: "harvest" };
  const course = (events: ForecastEvent[]): unknown => forecast({ ...TANK, crop: usualCrop(0), events }, [5, 20]);
  expect(course([change, harvest])).toEqual(course([harvest, change]));
  expect(forecast({ ...TANK, uptakeMost: { N: 0, P: 0 }, load: { N: 0, P: 0 }, events: [change] }, [5])[0]?.reading.N).toBeCloseTo(1.5, 9);
});

test("a screen that is never harvested stops taking up; one that is keeps its mean", () => {
  const crop = usualCrop(0);
  const harvests = repeated(10.5, 210, (day) => ({ day, kind: "harvest" }));
  const rich = { ...TANK, start: { N: 1000, P: 100 }, crop };
  const [kept] = forecast({ ...rich, events: harvests }, [210]);
  const [left] = forecast(rich, [210]);
  // Mean uptake over whole intervals at the best one is the full uptake, 100 mg a day, less a little by scarcity.
  expect((kept?.takenUp.N ?? NaN) / 210 / 100).toBeCloseTo(1, 2);
  expect((left?.takenUp.N ?? NaN) / 210 / 100).toBeLessThan(0.15);
});

const OUTLOOK: Outlook = {
  volumeL: 200, start: { N: exact(4), P: exact(0.2) }, incoming: { N: 0, P: 0 }, loadGPerDay: { N: 0.06, P: 0.006 }, loadShare: 0.2,
  litAreaM2: 0.2, lightMolPerM2Day: 14, temperatureC: 25, setting: "ordinary", daysSinceHarvest: 0, harvestEveryDays: 10, changes: [], events: repeated(10, 60, (day) => ({ day, kind: "harvest" })),
};

test("an outlook is a range that holds its middle, widens with time and with the reading's own doubt, and repeats with its seed", () => {
  const [start, week, later] = outlookRange(OUTLOOK, [0, 7, 60], 200, 5);
  expect(start?.reading.N.low).toBe(4);
  expect(week?.reading.N.low).toBeLessThan(week?.reading.N.middle ?? NaN);
  expect(week?.reading.N.middle).toBeLessThan(week?.reading.N.high ?? NaN);
  const width = (point: typeof start): number => (point?.reading.N.high ?? NaN) - (point?.reading.N.low ?? NaN);
  expect(width(later)).toBeGreaterThan(width(week));
  const [unsure] = outlookRange({ ...OUTLOOK, start: { N: rectangular(0, 8), P: exact(0.2) } }, [0], 200, 5);
  expect(unsure?.reading.N.low).toBeGreaterThan(0);
  expect(width(unsure)).toBeGreaterThan(5);
  expect(outlookRange(OUTLOOK, [7], 50, 5)).toEqual(outlookRange(OUTLOOK, [7], 50, 5));
});

test("where it settles is where the long course goes, whatever the days that are looked at", () => {
  const harvests = repeated(10, 3600, (day) => ({ day, kind: "harvest" }));
  const changes = repeated(7, 3600, (day) => ({ day, kind: "change" as const, share: 0.1 }));
  const kept = { ...OUTLOOK, changes: [{ share: 0.1, everyDays: 7 }], events: [...harvests, ...changes] };
  const course = likelyForecast(kept, Array.from({ length: 700 }, (_, place) => 2900 + place));
  for (const nutrient of NUTRIENTS) {
    const mean = course.reduce((sum, point) => sum + point.reading[nutrient], 0) / course.length;
    expect(Math.abs(settled(kept)[nutrient] / mean - 1)).toBeLessThan(0.25);
  }
  expect(settled({ ...kept, events: [] })).toEqual(settled(kept));
  expect(settled({ ...OUTLOOK, harvestEveryDays: 0 })).toEqual({ N: Infinity, P: Infinity });
  const overgrown = settled({ ...kept, harvestEveryDays: 60 });
  expect(overgrown.N).toBeGreaterThan(2 * settled(kept).N);
});

test("nothing in and nothing out: the reading stays as it is, and has no place where it settles", () => {
  const still = { ...OUTLOOK, loadGPerDay: { N: 0, P: 0 }, litAreaM2: 0, events: [] };
  expect(settled(still)).toEqual({ N: NaN, P: NaN });
});

test("a large screen on little water ends in time, and leaves next to nothing of the scarcer nutrient", () => {
  const [end] = outlookRange({ ...OUTLOOK, litAreaM2: 10 }, [56], 30, 1);
  expect(Math.min(end?.reading.N.middle ?? NaN, end?.reading.P.middle ?? NaN)).toBeLessThan(0.02);
  expect(end?.reading.P.low).toBeGreaterThanOrEqual(0);
});

test("days to a target: between the days, from above and from below, never when it is not met", () => {
  const falling = forecast({ ...TANK, load: { N: 0, P: 0 }, uptakeMost: { N: 0, P: 0 }, exchangePerDay: Math.LN2 / 10 }, Array.from({ length: 101 }, (_, day) => day));
  expect(daysToTarget(falling, "N", 1.5)).toBeCloseTo(10, 2);
  expect(daysToTarget(falling, "N", 3)).toBe(0);
  expect(daysToTarget(falling, "N", 4)).toBe(Infinity);
  const rising = forecast({ ...TANK, uptakeMost: { N: 0, P: 0 } }, [0, 5, 10]);
  expect(daysToTarget(rising, "N", 3 + 0.3 * 7)).toBeCloseTo(7, 9);
});
