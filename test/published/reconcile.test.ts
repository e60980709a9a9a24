import { inverse, Matrix } from "ml-matrix";
import { chanceOfLarger, reconcile } from "../../src/science/budget/reconcile";
import { normalFrom, seededRandom } from "../../src/science/seeded";

const diagonal = (variances: readonly number[]): number[][] => variances.map((variance, i) => variances.map((_, j) => (i === j ? variance : 0)));

describe("balances worked by hand", () => {
  test("one balance: 10 in, 8 out, 1 stayed; u 1, 0.5, 0.2", () => {
    // Misfit 1; variance of the misfit 1 + 0.25 + 0.04 = 1.29; each figure moves by its share of that variance.
    const done = reconcile([10, 8, 1], diagonal([1, 0.25, 0.04]), [[1, -1, -1]]);
    expect(done?.adjusted.map((value) => value.toFixed(6))).toEqual([10 - 1 / 1.29, 8 + 0.25 / 1.29, 1 + 0.04 / 1.29].map((value) => value.toFixed(6)));
    expect(done?.chiSquare).toBeCloseTo(1 / 1.29, 12);
    expect(done?.u[0]).toBeCloseTo(Math.sqrt(1 - 1 / 1.29), 12);
    expect(done?.scores.map((score) => score.toFixed(6))).toEqual([1 / 1.29, -0.5 / 1.29, -0.2 / 1.29].map((score) => score.toFixed(6)));
  });

  test("two balances whose harvests share one weighing: N 10 in, 8 out; P 1 in, 1.2 out", () => {
    // u: 1, 1, 0.1, 0.1, the two harvests fully correlated (covariance 0.1). Variances of the misfits 2 and 0.02, covariance 0.1,
    // determinant 0.03; misfits 2 and -0.2; multipliers (0.02 x 2 + 0.1 x 0.2) / 0.03 = 2 and -(0.1 x 2 + 2 x 0.2) / 0.03 = -20.
    // The harvest cannot be too small and too large at once, so it stays, and both feeds move: 10 - 2 = 8, 1 + 0.2 = 1.2.
    const covariance = [[1, 0, 0, 0], [0, 1, 0, 0.1], [0, 0, 0.01, 0], [0, 0.1, 0, 0.01]];
    const done = reconcile([10, 8, 1, 1.2], covariance, [[1, -1, 0, 0], [0, 0, 1, -1]]);
    [8, 8, 1.2, 1.2].forEach((value, place) => expect(done?.adjusted[place]).toBeCloseTo(value, 12));
    expect(done?.chiSquare).toBeCloseTo(2 * 2 + 0.2 * 20, 10);
    expect(done?.u[0]).toBeCloseTo(Math.sqrt(1 - 0.02 / 0.03), 12);
    expect(done?.p).toBeCloseTo(Math.exp(-4), 12);
  });

  test("two balances without anything shared are two single ones", () => {
    const together = reconcile([10, 8, 5, 6], diagonal([1, 1, 4, 1]), [[1, -1, 0, 0], [0, 0, 1, -1]]);
    expect(together?.adjusted).toEqual([9, 9, 5.8, 5.8]);
    expect(together?.chiSquare).toBeCloseTo(4 / 2 + 1 / 5, 12);
    expect(together?.degreesOfFreedom).toBe(2);
  });

  test("a balance in which all is exact is left as it is", () => {
    expect(reconcile([10, 8], diagonal([0, 0]), [[1, -1]])).toBeNull();
    expect(reconcile([10, 8, 3, 3], diagonal([0, 0, 1, 1]), [[1, -1, 0, 0], [0, 0, 1, -1]])?.degreesOfFreedom).toBe(1);
  });
});

/** NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.4: upper critical values of the chi-square distribution. */
test.each([
  [1, 0.1, 2.706], [1, 0.05, 3.841], [1, 0.01, 6.635], [1, 0.001, 10.828],
  [2, 0.1, 4.605], [2, 0.05, 5.991], [2, 0.01, 9.21], [2, 0.001, 13.816],
])("chi-square of %i degrees of freedom: a chance of %f at %f", (freedom, chance, value) => {
  expect(Math.abs(chanceOfLarger(value, freedom) / chance - 1)).toBeLessThan(2e-3);
});

test("agrees with a dense linear-algebra library (ml-matrix) to 1e-9 on 500 random systems of twelve figures", () => {
  const random = seededRandom(7);
  const normal = normalFrom(random);
  const balances = [[1, 1, -1, -1, -1, -1, 0, 0, 0, 0, 0, 0], [0, 0, 0, 0, 0, 0, 1, 1, -1, -1, -1, -1]];
  for (let run = 0; run < 500; run += 1) {
    // Phosphorus is a tenth of nitrogen, errors are shared: S = F Ft with eight causes.
    const size = (place: number): number => (place < 6 ? 1 : 0.1);
    const causes = Array.from({ length: 12 }, (_, place) => Array.from({ length: 8 }, () => normal() * size(place)));
    const x = Array.from({ length: 12 }, (_, place) => 3 * normal() * size(place));
    const S = new Matrix(causes).mmul(new Matrix(causes).transpose());
    const A = new Matrix(balances);
    const X = Matrix.columnVector(x);
    const gain = S.mmul(A.transpose()).mmul(inverse(A.mmul(S).mmul(A.transpose())));
    const adjusted = Matrix.sub(X, gain.mmul(A).mmul(X)).to1DArray();
    const after = Matrix.sub(S, gain.mmul(A).mmul(S)).diagonal();
    const done = reconcile(x, S.to2DArray(), balances);
    adjusted.forEach((value, place) => expect(Math.abs((done?.adjusted[place] ?? NaN) - value)).toBeLessThan(1e-9 * Math.max(1, Math.abs(value)) * size(place) * 10));
    after.forEach((variance, place) => expect(Math.abs((done?.u[place] ?? NaN) ** 2 - Math.max(0, variance))).toBeLessThan(1e-9 * 20));
  }
});
