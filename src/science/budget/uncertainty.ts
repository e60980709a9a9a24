import { draw, expectation, type Uncertain } from "../uncertain";
import { normalFrom, quantileOf, seededRandom } from "../seeded";
import { OWN_DOUBT, PARTS, SIGN, type Doubt, type Monomial, type Part, type PeriodTerms } from "./terms";

export type PartValues = Record<Part, number>;

/** First-order result for one period. `slopes`: d unexplained / d quantity, by quantity. */
export interface FirstOrder {
  readonly parts: PartValues;
  readonly unexplained: number;
  /** The same at the expectation of every quantity, about which u is reckoned (JCGM 100:2008, 4.1.4); differs where limits are lop-sided. */
  readonly expected: number;
  readonly u: number;
  readonly slopes: ReadonlyMap<number, number>;
  /** Share of the variance that comes from the largest single quantity that is rectangular or lop-sided about its value. */
  readonly unlikeNormalShare: number;
}

/**
 * Law of propagation of uncertainty (JCGM 100:2008, 5.1 and 5.2). A quantity that enters several times is one quantity,
 * so its contributions are added with their signs before squaring: that is the covariance term of 5.2.
 */
export function firstOrder(period: PeriodTerms, quantities: readonly Uncertain[]): FirstOrder {
  const parts = Object.fromEntries(PARTS.map((part) => [part, 0])) as PartValues;
  const slopes = new Map<number, number>();
  const means = new Map<number, number>();
  const meanAt = (place: number): number => {
    const known = means.get(place);
    if (known !== undefined) return known;
    const quantity = quantities[place];
    const mean = quantity ? expectation(quantity) : 0;
    means.set(place, mean);
    return mean;
  };
  let expected = 0;
  for (const { part, coefficient, factors } of period.monomials) {
    let value = coefficient;
    for (const factor of factors) value *= valueAt(quantities, factor);
    parts[part] += value;
    expected += SIGN[part] * factors.reduce((product, factor) => product * meanAt(factor), coefficient);
    for (const factor of factors) {
      const others = factors.reduce((product, other) => (other === factor ? product : product * meanAt(other)), coefficient);
      slopes.set(factor, (slopes.get(factor) ?? 0) + SIGN[part] * others);
    }
  }
  let variance = PARTS.reduce((sum, part) => sum + period.ownVariance[part], 0);
  let largestUnlikeNormal = 0;
  for (const [quantity, slope] of slopes) {
    const known = quantities[quantity];
    if (!known) continue;
    const contribution = (slope * known.u) ** 2;
    variance += contribution;
    if (unlikeNormal(known)) largestUnlikeNormal = Math.max(largestUnlikeNormal, contribution);
  }
  const unexplained = PARTS.reduce((sum, part) => sum + SIGN[part] * parts[part], 0);
  return { parts, unexplained, expected, u: Math.sqrt(variance), slopes, unlikeNormalShare: variance > 0 ? largestUnlikeNormal / variance : 0 };
}

/** Where value plus or minus 2 u says little (JCGM 101:2008, 5.8): no tails, or a best value well off the middle of what is possible. */
const unlikeNormal = (quantity: Uncertain): boolean =>
  quantity.shape === "rectangular" || (quantity.shape === "triangular" && Math.abs(expectation(quantity) - quantity.value) > 0.1 * quantity.u);

/** Which doubt makes most of the variance of the unexplained part. */
export function largestDoubt(period: PeriodTerms, { slopes }: FirstOrder, quantities: readonly Uncertain[], doubts: readonly Doubt[]): Doubt | null {
  const variance = new Map<Doubt, number>();
  const add = (doubt: Doubt | undefined, amount: number): void => {
    if (doubt && amount > 0) variance.set(doubt, (variance.get(doubt) ?? 0) + amount);
  };
  for (const [quantity, slope] of slopes) add(doubts[quantity], (slope * (quantities[quantity]?.u ?? 0)) ** 2);
  for (const part of PARTS) add(OWN_DOUBT[part], period.ownVariance[part]);
  return [...variance.entries()].sort((a, b) => b[1] - a[1])[0]?.[0] ?? null;
}

const valueAt = (quantities: readonly Uncertain[], place: number): number => quantities[place]?.value ?? 0;

/** Spread of the unexplained part found by drawing every quantity: standard deviation and the middle 95 %. */
export interface Spread {
  readonly u: number;
  readonly low: number;
  readonly high: number;
}

/** More than one period of any log has; a quantity drawn again gives the same draws, because its seed is its own. */
const DRAWS_KEPT = 256;

/**
 * Propagation of distributions by Monte Carlo (JCGM 101:2008). The same seed gives the same draws, and a quantity keeps
 * its draws from period to period, so neighbouring periods share the reading between them.
 * `draws`: how many; `seed`: any whole number.
 */
export function monteCarlo(quantities: readonly Uncertain[], draws: number, seed: number): (period: PeriodTerms) => Spread {
  const drawn = new Map<number, Float64Array>();
  const ofQuantity = (place: number): Float64Array => {
    const known = drawn.get(place);
    if (known) {
      // The longest unused goes first: a long log has thousands of readings, each of use in its own two periods only.
      drawn.delete(place);
      drawn.set(place, known);
      return known;
    }
    const random = seededRandom(seed + 7919 * (place + 1));
    const quantity = quantities[place];
    const values = new Float64Array(draws);
    // A plain loop: Float64Array.from asks its source for every element by name.
    if (quantity) for (let index = 0; index < draws; index += 1) values[index] = draw(quantity, random);
    drawn.set(place, values);
    if (drawn.size > DRAWS_KEPT) drawn.delete(drawn.keys().next().value as number);
    return values;
  };
  return (period) => {
    const normal = normalFrom(seededRandom(seed + Math.round(period.from * 1000)));
    const ownU = Math.sqrt(PARTS.reduce((sum, part) => sum + period.ownVariance[part], 0));
    const results = new Float64Array(draws);
    if (ownU > 0) for (let index = 0; index < draws; index += 1) results[index] = ownU * normal();
    for (const monomial of period.monomials) addMonomial(results, monomial, ofQuantity);
    return spreadOf(results);
  };
}

function addMonomial(results: Float64Array, { part, coefficient, factors }: Monomial, ofQuantity: (place: number) => Float64Array): void {
  const [first, second, ...others] = factors.map(ofQuantity);
  const scale = SIGN[part] * coefficient;
  const draws = results.length;
  // One loop for each number of factors: most terms of a budget have one or two, and an inner loop over them costs more than the product.
  if (!first) for (let index = 0; index < draws; index += 1) results[index] = (results[index] as number) + scale;
  else if (!second) for (let index = 0; index < draws; index += 1) results[index] = (results[index] as number) + scale * (first[index] as number);
  else if (others.length === 0) for (let index = 0; index < draws; index += 1) results[index] = (results[index] as number) + scale * (first[index] as number) * (second[index] as number);
  else {
    for (let index = 0; index < draws; index += 1) {
      let product = scale * (first[index] as number) * (second[index] as number);
      for (const column of others) product *= column[index] as number;
      results[index] = (results[index] as number) + product;
    }
  }
}

function spreadOf(results: Float64Array): Spread {
  let sum = 0;
  const draws = results.length;
  for (let index = 0; index < draws; index += 1) sum += results[index] as number;
  const mean = sum / draws;
  let squares = 0;
  for (let index = 0; index < draws; index += 1) squares += ((results[index] as number) - mean) ** 2;
  const variance = squares / (draws - 1);
  return { u: Math.sqrt(variance), low: quantileOf(results, 0.025), high: quantileOf(results, 0.975) };
}
