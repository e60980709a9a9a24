const ROOT_2_PI = Math.sqrt(2 * Math.PI);
/** Beyond this the series loses digits and the continued fraction of the tail gains them. */
const TAIL_FROM = 3;

export const normalDensity = (z: number): number => Math.exp(-0.5 * z * z) / ROOT_2_PI;

/** Chance that a standard normal number is below z: the series of Marsaglia 2004 (J. Stat. Softw. 11:4) in the middle, the tail by its continued fraction. */
export function normalDistribution(z: number): number {
  if (Number.isNaN(z)) return NaN;
  if (z < -TAIL_FROM) return normalDensity(z) / tailFraction(-z);
  if (z > TAIL_FROM) return 1 - normalDensity(z) / tailFraction(z);
  let [sum, term] = [z, z];
  for (let odd = 3; term * term > 1e-34 * sum * sum; odd += 2) sum += term *= (z * z) / odd;
  return 0.5 + sum * normalDensity(z);
}

/** ln of the same, right also far out in the lower tail, where the chance itself is too small for a number. */
export const logNormalDistribution = (z: number): number =>
  z < -TAIL_FROM ? -0.5 * z * z - Math.log(ROOT_2_PI) - Math.log(tailFraction(-z)) : Math.log(normalDistribution(z));

/** Density over chance, phi(z) / Phi(z): minus the mean of a standard normal number of which only is known that it lies below z. */
export const densityOverDistribution = (z: number): number => (z < -TAIL_FROM ? tailFraction(-z) : normalDensity(z) / normalDistribution(z));

/** Density over upper tail for z above 3, Laplace's continued fraction z + 1/(z + 2/(z + 3/(z + ...))). */
function tailFraction(z: number): number {
  if (z > 1e8) return z;
  let value = z;
  for (let step = 50; step >= 1; step -= 1) value = z + step / value;
  return value;
}

/** The z below which a standard normal number lies with chance p (0 < p < 1), by Halley's steps from Hastings' start (Abramowitz & Stegun 1964, 26.2.22). */
export function normalQuantile(p: number): number {
  if (p === 0.5) return 0;
  if (p > 0.5) return -normalQuantile(1 - p);
  const t = Math.sqrt(-2 * Math.log(p));
  let z = -(t - (2.30753 + 0.27061 * t) / (1 + 0.99229 * t + 0.04481 * t * t));
  for (let step = 0; step < 4; step += 1) {
    const off = (normalDistribution(z) - p) / normalDensity(z);
    z -= off / (1 + (z * off) / 2);
  }
  return z;
}
