import fc from "fast-check";
import { levelRange } from "../../src/science/level-range";
import { filterLevel, levelOn, levelsOf, type LevelReading } from "../../src/science/local-level";
import { fitLevelVariances } from "../../src/science/local-level-fit";
import { normalFrom, seededRandom } from "../../src/science/seeded";

const seen = (day: number, value: number, variance = 0): LevelReading => ({ day, value, variance, kind: "value" });
const below = (day: number, limit: number): LevelReading => ({ day, value: limit, variance: 0, kind: "below" });
const above = (day: number, limit: number): LevelReading => ({ day, value: limit, variance: 0, kind: "above" });

/** Mean and variance of a level known as N(m, v), of which a reading with the same noise lay below a limit: the integral by small steps. */
function cutByHand(m: number, v: number, noise: number, limit: number): { mean: number; variance: number; chance: number } {
  let [sum0, sum1, sum2] = [0, 0, 0];
  const sd = Math.sqrt(v + noise);
  // Of the reading y first: y below the limit; the level given y is N(m + k (y - m), v (1 - k)).
  const k = v / (v + noise);
  const width = sd / 20_000;
  for (let y = limit - width / 2; y > m - 12 * sd; y -= width) {
    const density = Math.exp(-0.5 * ((y - m) / sd) ** 2) / (sd * Math.sqrt(2 * Math.PI));
    const level = m + k * (y - m);
    sum0 += density * width;
    sum1 += density * width * level;
    sum2 += density * width * (level * level + v * (1 - k));
  }
  const mean = sum1 / sum0;
  return { mean, variance: sum2 / sum0 - mean * mean, chance: sum0 };
}

describe("a reading below detection", () => {
  test.each([[5, 4, 1, 4], [5, 4, 1, 0.5], [2, 0.5, 0, 3], [8, 0.3, 0.2, 5]])("level N(%f, %f), noise %f, below %f: mean, variance and chance of the cut distribution", (m, v, noise, limit) => {
    const { steps, logLikelihood } = filterLevel([below(0, limit)], { scatter: noise, perDay: 0 }, { mean: m, variance: v });
    const hand = cutByHand(m, v, noise, limit);
    expect(Math.abs((steps[0]?.mean ?? NaN) - hand.mean)).toBeLessThan(1e-6);
    expect(Math.abs((steps[0]?.variance ?? NaN) - hand.variance)).toBeLessThan(1e-6);
    expect(Math.abs(logLikelihood - Math.log(hand.chance))).toBeLessThan(1e-6);
  });
  test("one above the scale is its mirror", () => {
    const variances = { scatter: 0.7, perDay: 0.1 };
    const down = levelsOf([seen(0, 3), below(4, 2), seen(7, 2.5)], variances);
    const up = levelsOf([seen(0, -3), above(4, -2), seen(7, -2.5)], variances);
    expect(up.logLikelihood).toBeCloseTo(down.logLikelihood, 12);
    up.levels.forEach(({ mean, variance }, place) => {
      expect(mean).toBeCloseTo(-(down.levels[place]?.mean ?? NaN), 12);
      expect(variance).toBeCloseTo(down.levels[place]?.variance ?? NaN, 12);
    });
  });
  test("before the first value it lowers the levels after it, and the answer is the same as read backwards", () => {
    const variances = { scatter: 1, perDay: 0.2 };
    const readings = [below(0, 2), seen(3, 4), seen(7, 5), seen(10, 5)];
    const { levels, logLikelihood } = levelsOf(readings, variances);
    const back = levelsOf(readings.map((one) => ({ ...one, day: -one.day })).reverse(), variances);
    expect(back.logLikelihood).toBeCloseTo(logLikelihood, 10);
    [...back.levels].reverse().forEach(({ mean, variance }, place) => {
      expect(mean).toBeCloseTo(levels[place]?.mean ?? NaN, 10);
      expect(variance).toBeCloseTo(levels[place]?.variance ?? NaN, 10);
    });
    expect(levels[3]?.mean).toBeLessThan(levelsOf(readings.slice(1), variances).levels[2]?.mean ?? NaN);
  });
});

const course = fc.array(fc.record({ gap: fc.integer({ min: 1, max: 9 }), value: fc.double({ min: 0.5, max: 40, noNaN: true }), u: fc.double({ min: 0.1, max: 3, noNaN: true }) }), { minLength: 4, maxLength: 12 })
  .map((steps) => {
    let day = 46000;
    return steps.map(({ gap, value, u }) => seen((day += gap), value, u * u));
  });

describe("for any readings", () => {
  const variances = { scatter: 0.4, perDay: 0.3 };
  test("no day without a reading changes what is known of the others", () => fc.assert(fc.property(course, (readings) => {
    const first = readings[0] as LevelReading;
    const with_ = levelsOf([first, { day: first.day + 0.5, value: NaN, variance: 0, kind: "none" }, ...readings.slice(1)], variances);
    const plain = levelsOf(readings, variances);
    expect(with_.logLikelihood).toBeCloseTo(plain.logLikelihood, 8);
    expect(with_.levels[2]?.mean).toBeCloseTo(plain.levels[1]?.mean ?? NaN, 8);
  })));
  test("the level after the last reading stays and its variance grows by the wandering of the days", () => fc.assert(fc.property(course, fc.integer({ min: 1, max: 60 }), (readings, ahead) => {
    const last = readings[readings.length - 1]?.day ?? NaN;
    const [now, later] = [levelOn(last, readings, variances), levelOn(last + ahead, readings, variances)];
    expect(later.mean).toBeCloseTo(now.mean, 8);
    expect(later.variance - now.variance).toBeCloseTo(0.3 * ahead, 8);
  })));
  test("the unit does not matter: in ug/L the variances are a million times those in mg/L", () => fc.assert(fc.property(course, (readings) => {
    const [one, thousand] = [fitLevelVariances(readings), fitLevelVariances(readings.map((reading) => ({ ...reading, value: 1000 * reading.value, variance: 1e6 * reading.variance })))];
    const shift = (readings.length - 1) * Math.log(1000);
    expect(Math.abs(thousand.logLikelihood + shift - one.logLikelihood)).toBeLessThan(1e-6);
  }), { numRuns: 10 }));
  test("low is above zero, and below the middle, and that below high; ahead is no narrower", () => fc.assert(fc.property(course, (readings) => {
    const last = readings[readings.length - 1]?.day ?? NaN;
    const [now, ahead] = [levelRange(readings, last), levelRange(readings, last + 30)];
    expect(now.low).toBeGreaterThan(0);
    expect(now.low).toBeLessThan(now.middle);
    expect(now.middle).toBeLessThan(now.high);
    expect(ahead.high).toBeGreaterThan(now.high);
  }), { numRuns: 10 }));
});

test("in 100 simulated tanks with 9 readings each the limits hold the true level in at least 90, and a test 5 days later too", () => {
  const random = seededRandom(11);
  const normal = normalFrom(random);
  let [held, heldAhead] = [0, 0];
  for (let tank = 0; tank < 100; tank += 1) {
    let [day, level] = [46000, 20];
    const readings = Array.from({ length: 9 }, (_, place): LevelReading => {
      const gap = place === 0 ? 0 : 3 + Math.floor(5 * random());
      day += gap;
      level += Math.sqrt(0.2 * gap) * normal();
      return seen(day, level + Math.sqrt(0.25 + 0.8) * normal(), 0.25);
    });
    const now = levelRange(readings, day);
    if (now.low <= level && level <= now.high) held += 1;
    const ahead = levelRange(readings, day + 5);
    const test = level + Math.sqrt(0.2 * 5) * normal() + Math.sqrt(0.25 + 0.8) * normal();
    if (ahead.low <= test && test <= ahead.high) heldAhead += 1;
  }
  // Of 100 with a chance of 95 % fewer than 90 would be held about once in a hundred times.
  expect(held).toBeGreaterThanOrEqual(90);
  expect(heldAhead).toBeGreaterThanOrEqual(90);
});

describe("what has no answer", () => {
  test("readings on three days", () => expect(() => fitLevelVariances([seen(1, 5, 1), seen(2, 6, 1), seen(3, 5, 1), seen(3, 5, 1)])).toThrow("at least four different days"));
  test("no reading that shows a value", () => expect(() => fitLevelVariances([1, 2, 3, 4].map((day) => below(day, 2)))).toThrow("None of the readings shows a value"));
  test("the same value each time, without an uncertainty", () => expect(() => fitLevelVariances([1, 2, 3, 4].map((day) => seen(day, 5)))).toThrow("give the steps of the kit"));
});
