import fc from "fast-check";
import { censoredLikelihood, robustOrderStatistics, type SetReading } from "../../src/science/censored";

const shown = (value: number): SetReading => ({ value, below: false });
const under = (value: number): SetReading => ({ value, below: true });
const values = fc.uniqueArray(fc.double({ min: 0.05, max: 50, noNaN: true }), { minLength: 5, maxLength: 20 });
const moments = (all: number[]): [number, number] => {
  const mean = all.reduce((sum, one) => sum + one, 0) / all.length;
  return [mean, Math.sqrt(all.reduce((sum, one) => sum + (one - mean) ** 2, 0) / (all.length - 1))];
};

describe("without a reading below detection", () => {
  test("robust order statistics are the plain mean and standard deviation", () => fc.assert(fc.property(values, (set) => {
    const { mean, sd, meanLog } = robustOrderStatistics(set.map(shown));
    expect(mean).toBeCloseTo(moments(set)[0], 8);
    expect(sd).toBeCloseTo(moments(set)[1], 8);
    expect(meanLog).toBeCloseTo(moments(set.map(Math.log))[0], 8);
  })));
  test("the likelihood's are those of the logarithms, divided by n", () => fc.assert(fc.property(values, (set) => {
    const { meanLog, sdLog } = censoredLikelihood(set.map(shown));
    const [mean, sd] = moments(set.map(Math.log));
    expect(meanLog).toBeCloseTo(mean, 7);
    expect(sdLog).toBeCloseTo(sd * Math.sqrt((set.length - 1) / set.length), 7);
  })));
});

describe("with readings below detection", () => {
  const set = [under(2), under(2), shown(3), shown(4.5), under(4), shown(7), shown(12), shown(3.2)];
  test("the unit does not matter", () => {
    const scaled = set.map(({ value, below }) => ({ value: 1000 * value, below }));
    expect(robustOrderStatistics(scaled).mean / robustOrderStatistics(set).mean).toBeCloseTo(1000, 8);
    expect(censoredLikelihood(scaled).sd / censoredLikelihood(set).sd).toBeCloseTo(1000, 6);
    expect(censoredLikelihood(scaled, "normal").mean / censoredLikelihood(set, "normal").mean).toBeCloseTo(1000, 6);
  });
  test("the order of the readings does not matter", () => fc.assert(fc.property(fc.shuffledSubarray(set, { minLength: set.length, maxLength: set.length }), (mixed) => {
    expect(robustOrderStatistics(mixed).mean).toBeCloseTo(robustOrderStatistics(set).mean, 10);
    expect(censoredLikelihood(mixed).mean).toBeCloseTo(censoredLikelihood(set).mean, 8);
  })));
  test("no step away from the top of the likelihood is higher", () => {
    const { meanLog, sdLog, logLikelihood } = censoredLikelihood(set);
    const height = (mean: number, sd: number): number => set.reduce((sum, { value, below }) => {
      const z = (Math.log(value) - mean) / sd;
      if (!below) return sum - Math.log(value * sd) - 0.5 * z * z - 0.5 * Math.log(2 * Math.PI);
      let chance = 0;
      for (let y = z - 0.0005; y > -12; y -= 0.001) chance += (0.001 * Math.exp(-0.5 * y * y)) / Math.sqrt(2 * Math.PI);
      return sum + Math.log(chance);
    }, 0);
    const [mean, sd] = [meanLog ?? NaN, sdLog ?? NaN];
    expect(height(mean, sd)).toBeCloseTo(logLikelihood, 5);
    for (const [dm, ds] of [[0.05, 0], [-0.05, 0], [0, 0.05], [0, -0.05]] as const) expect(height(mean + dm, sd + ds)).toBeLessThan(logLikelihood - 1e-4);
  });
  test("a lower limit for the same reading lowers the mean: it is not the limit and not nothing", () => {
    const lower = set.map(({ value, below }) => ({ value: below ? value / 4 : value, below }));
    expect(censoredLikelihood(lower).meanLog).toBeLessThan(censoredLikelihood(set).meanLog ?? NaN);
    const asZero = set.reduce((sum, { value, below }) => sum + (below ? 0 : value), 0) / set.length;
    expect(robustOrderStatistics(set).mean).toBeGreaterThan(asZero);
  });
});

describe("what cannot be told", () => {
  test("more than 80 % below detection leaves the share", () => {
    const set = [...Array.from({ length: 17 }, () => under(2)), shown(3), shown(4), shown(5)];
    expect(() => robustOrderStatistics(set)).toThrow("17 of 20 readings are below detection: no more than that share can be told");
    expect(() => censoredLikelihood(set)).toThrow("17 of 20");
    // Four fifths exactly, 12 of 15, are still a set.
    expect(robustOrderStatistics(set.slice(5)).mean).toBeGreaterThan(0);
    expect(() => robustOrderStatistics(set.slice(4))).toThrow("13 of 16");
  });
  test("two different figures", () => expect(() => robustOrderStatistics([shown(3), shown(4), shown(4), under(2)])).toThrow("At least 3 different readings"));
  test("a zero on the log scale", () => expect(() => censoredLikelihood([shown(0), shown(1), shown(2), shown(3)])).toThrow("above zero"));
});
