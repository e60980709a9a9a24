/** A source of random numbers between 0 and 1 (0 excluded) that gives the same numbers for the same seed. */
export type Random = () => number;

/**
 * xoshiro128** of Blackman and Vigna (2018, public domain), seeded through splitmix32.
 * Chosen because it is fast in plain 32-bit arithmetic and passes the usual batteries; nothing here is secret.
 */
export function seededRandom(seed: number): Random {
  let mix = seed | 0;
  const next = (): number => {
    mix = (mix + 0x9e3779b9) | 0;
    let z = mix ^ (mix >>> 16);
    z = Math.imul(z, 0x21f0aaad);
    z ^= z >>> 15;
    z = Math.imul(z, 0x735a2d97);
    return z ^ (z >>> 15);
  };
  let [a, b, c, d] = [next(), next(), next(), next()];
  return () => {
    const times5 = Math.imul(b, 5);
    const result = Math.imul((times5 << 7) | (times5 >>> 25), 9) >>> 0;
    const t = b << 9;
    c ^= a;
    d ^= b;
    b ^= c;
    a ^= d;
    c ^= t;
    d = (d << 11) | (d >>> 21);
    return (result + 0.5) / 4294967296;
  };
}

/** Standard normal numbers, two uniforms each (Box & Muller 1958). */
export function normalFrom(random: Random): Random {
  let spare: number | null = null;
  return () => {
    if (spare !== null) {
      const value = spare;
      spare = null;
      return value;
    }
    const radius = Math.sqrt(-2 * Math.log(random()));
    const angle = 2 * Math.PI * random();
    spare = radius * Math.sin(angle);
    return radius * Math.cos(angle);
  };
}

/** The p quantile of sorted numbers, linear between neighbours (Hyndman & Fan 1996, type 7). */
export function quantileOfSorted(sorted: ArrayLike<number>, p: number): number {
  const place = (sorted.length - 1) * p;
  const below = Math.floor(place);
  const low = sorted[below] ?? NaN;
  const high = sorted[Math.min(below + 1, sorted.length - 1)] ?? NaN;
  return low + (high - low) * (place - below);
}
