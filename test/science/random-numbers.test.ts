import fc from "fast-check";
import { normalFrom, quantileOf, quantileOfSorted, seededRandom } from "../../src/science/seeded";

/**
 * xoshiro128** and a splitmix32 for its state, as published (Blackman & Vigna 2018), in whole numbers of any length modulo 2^32:
 * another arithmetic than the product's.
 */
const WORD = 2n ** 32n;
const word = (value: bigint): bigint => ((value % WORD) + WORD) % WORD;
const turned = (value: bigint, by: bigint): bigint => word((value << by) | (value >> (32n - by)));

function* xoshiro(state: readonly bigint[]): Generator<bigint> {
  let [a = 0n, b = 0n, c = 0n, d = 0n] = state;
  for (;;) {
    yield word(turned(word(b * 5n), 7n) * 9n);
    const t = word(b << 9n);
    c ^= a;
    d ^= b;
    b ^= c;
    a ^= d;
    c ^= t;
    d = turned(d, 11n);
  }
}

function splitmix(seed: number, count: number): bigint[] {
  let mix = word(BigInt(seed));
  return Array.from({ length: count }, () => {
    mix = word(mix + 0x9e3779b9n);
    let z = mix ^ (mix >> 16n);
    z = word(z * 0x21f0aaadn);
    z ^= z >> 15n;
    z = word(z * 0x735a2d97n);
    return z ^ (z >> 15n);
  });
}
const taken = (from: Generator<bigint>, count: number): bigint[] => Array.from({ length: count }, () => from.next().value as bigint);

/** Worked by hand from the state 1, 2, 3, 4: rotl(5 x 2, 7) x 9 = 11520; the next b is 0, the one after 1029: 1029 x 5 x 128 x 9 = 5927040. */
test("the reference gives the published first numbers", () => {
  expect(taken(xoshiro([1n, 2n, 3n, 4n]), 3)).toEqual([11520n, 0n, 5927040n]);
});

test.each([0, 1, 7, 42, 20260301, -5, 2 ** 31])("seed %d: 1,000 numbers are those of the reference, in the middle of their step", (seed) => {
  const random = seededRandom(seed);
  const reference = taken(xoshiro(splitmix(seed, 4)), 1000);
  expect(Array.from({ length: 1000 }, () => random())).toEqual(reference.map((value) => (Number(value) + 0.5) / 2 ** 32));
});

/** Box & Muller 1958: sqrt(-2 ln U1) cos(2 pi U2), then the same with the sine. */
test("two uniforms make two normals", () => {
  const given = [Math.exp(-2), 1 / 12, Math.exp(-0.5), 0.5];
  const normal = normalFrom(() => given.shift() ?? NaN);
  // sqrt(4) = 2 at 30 degrees; sqrt(1) = 1 at 180 degrees.
  expect(normal()).toBeCloseTo(Math.sqrt(3), 12);
  expect(normal()).toBeCloseTo(1, 12);
  expect(normal()).toBeCloseTo(-1, 12);
  expect(normal()).toBeCloseTo(0, 12);
  expect(given).toEqual([]);
});

test("10,000 normals: mean 0, variance 1, 95.4 % within two, to four standard errors", () => {
  const normal = normalFrom(seededRandom(3));
  const drawn = Array.from({ length: 10_000 }, normal);
  const mean = drawn.reduce((sum, one) => sum + one, 0) / 10_000;
  expect(Math.abs(mean)).toBeLessThan(4 / 100);
  expect(Math.abs(drawn.reduce((sum, one) => sum + one * one, 0) / 10_000 - 1)).toBeLessThan((4 * Math.SQRT2) / 100);
  expect(Math.abs(drawn.filter((one) => Math.abs(one) < 2).length / 10_000 - 0.9545)).toBeLessThan(4 * Math.sqrt(0.9545 * 0.0455) / 100);
});

/** Hyndman & Fan 1996, type 7: the place is (n - 1) p from 0, linear between neighbours. */
test.each([
  [[10, 20, 30, 40], 0, 10],
  [[10, 20, 30, 40], 1, 40],
  [[10, 20, 30, 40], 0.5, 25],
  [[10, 20, 30, 40], 0.1, 13],
  [[10, 20, 30, 40], 0.9, 37],
  [[1, 2, 4, 8, 16], 0.25, 2],
  [[7], 0.3, 7],
])("of %j the %d quantile is %d", (sorted, p, expected) => expect(quantileOfSorted(sorted, p)).toBeCloseTo(expected, 12));

test("a quantile of numbers in any order is that of the sorted ones, with equal ones among them too", () => {
  const numbers = fc.array(fc.oneof(fc.integer({ min: -3, max: 3 }), fc.double({ min: -1e6, max: 1e6, noNaN: true })), { minLength: 1, maxLength: 60 });
  const share = fc.oneof(fc.constantFrom(0, 0.025, 0.5, 0.975, 1), fc.double({ min: 0, max: 1, noNaN: true }));
  fc.assert(
    fc.property(numbers, share, (given, p) => {
      const values = Float64Array.from(given);
      // Added to nothing, the two zeros are one.
      expect(quantileOf(values, p) + 0).toBe(quantileOfSorted(Float64Array.from(given).sort(), p) + 0);
      expect([...values].sort((a, b) => a - b)).toEqual([...given].sort((a, b) => a - b));
    }),
    { numRuns: 1000 },
  );
});
