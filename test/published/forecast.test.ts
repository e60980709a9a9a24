import { logisticCrop } from "../../src/science/forecast/crop";
import { forecast, STEADY_CROP, type ForecastCase, type ForecastEvent } from "../../src/science/forecast/model";
import { exchangePerDay, steadyBoth, steadyReading } from "../../src/science/forecast/steady";
import ode from "./data/ode.json";

/**
 * Reference solutions by scipy's solve_ivp (method DOP853, tolerances 1e-12 and 1e-14), scipy 1.x (Virtanen et al. 2020),
 * of dC/dt = (L - Vmax A B C / (K + C)) / V - r (C - Cin), dB/dt = g B (1 - B / Bmax).
 */
interface Params {
  V: number; L: number; Vmax: number; A: number; K: number; r: number; Cin: number; C0: number;
  g?: number; Bmax?: number; B0?: number;
  events?: { t: number; kind: string; f?: number; keep?: number }[];
}

const cases = Object.entries(ode.cases as unknown as Record<string, { params: Params; solution: { t: number; C: number; B: number }[]; steady_state_C?: number | null }>);

function caseOf({ V, L, Vmax, A, K, r, Cin, C0, g, Bmax, B0, events = [] }: Params): ForecastCase {
  const keep = events.find((event) => event.kind === "harvest")?.keep ?? 1;
  return {
    volumeL: V, start: { N: C0, P: 1 }, load: { N: L, P: 0 }, uptakeMost: { N: Vmax * A, P: 0 }, halfSaturation: { N: K, P: 1 }, exchangePerDay: r, incoming: { N: Cin, P: 0 },
    crop: g === undefined ? STEADY_CROP : logisticCrop(g, Bmax ?? 1, B0 ?? 1, keep),
    events: events.map((event): ForecastEvent => (event.kind === "harvest" ? { day: event.t, kind: "harvest" } : { day: event.t, kind: "change", share: event.f ?? 0 })),
  };
}

describe.each(cases)("%s", (_, { params, solution, steady_state_C: steady }) => {
  const course = forecast(caseOf(params), solution.map(({ t }) => t));
  test.each(solution.map(({ t, C }, place) => [t, C, place]))("day %f: %f mg/L", (_day, C, place) => {
    expect(Math.abs((course[place]?.reading.N ?? NaN) - C)).toBeLessThan(1e-6 * Math.max(C, 1e-3));
  });
  if (typeof steady === "number") {
    test(`settles at ${steady}`, () => {
      const { V, L, Vmax, A, K, r, Cin } = params;
      expect(Math.abs(steadyReading(L, Vmax * A, K, r * V, Cin) - steady)).toBeLessThan(1e-9 * Math.max(1, steady));
    });
  }
});

/** Batch uptake has a closed form: C = K W((C0/K) exp((C0 - U t / V) / K)), Lambert's W (Schnell & Mendoza 1997, from memory); values by scipy's lambertw. */
test.each([[1, 8.763890362619], [3, 6.394342847276], [7, 2.375095169708], [10, 0.606214145578]])("batch uptake, day %i: %f mg/L by Lambert's W", (day, value) => {
  const batch: ForecastCase = { volumeL: 100, start: { N: 10, P: 1 }, load: { N: 0, P: 0 }, uptakeMost: { N: 150, P: 0 }, halfSaturation: { N: 2, P: 1 }, exchangePerDay: 0, incoming: { N: 0, P: 0 }, crop: STEADY_CROP, events: [] };
  expect(forecast(batch, [day])[0]?.reading.N).toBeCloseTo(value, 9);
});

/** Mixed-tank results (Levenspiel): a rise of 5 from change to change at 25 %, clean water: 15 after, 20 before; with 5 in the new water 20 and 25. */
test.each([[0, 15, 20], [5, 20, 25]])("weekly changes without a screen, new water at %i mg/L, swing between %i and %i", (incoming, after, before) => {
  const changes = Array.from({ length: 200 }, (_, week): ForecastEvent => ({ day: 7 * (week + 1), kind: "change", share: 0.25 }));
  const tank: ForecastCase = { volumeL: 100, start: { N: 10, P: 1 }, load: { N: (5 * 100) / 7, P: 0 }, uptakeMost: { N: 0, P: 0 }, halfSaturation: { N: 1, P: 1 }, exchangePerDay: 0, incoming: { N: incoming, P: 0 }, crop: STEADY_CROP, events: changes };
  const [justAfter, justBefore] = forecast(tank, [1400, 1407 - 1e-9]);
  expect(justAfter?.reading.N).toBeCloseTo(after, 6);
  expect(justBefore?.reading.N).toBeCloseTo(before, 6);
  // The steady exchange that stands for the changes settles at their mean.
  const settled = steadyBoth({ ...tank, events: [], exchangePerDay: exchangePerDay(0.25, 7) });
  expect(settled.N).toBeCloseTo((after + before) / 2, 9);
});

test("load above capacity and no change of water: it rises without limit", () => {
  expect(steadyReading(120, 100, 0.6, 0, 0)).toBe(Infinity);
  expect(steadyReading(100, 100, 0.6, 0, 0)).toBe(Infinity);
  expect(steadyReading(60, 100, 0.6, 0, 0)).toBeCloseTo(0.9, 12);
});
