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
  // In a typed array: variables that outlive the call would be made anew as objects for each number beyond 31 bits.
  const state = Int32Array.of(next(), next(), next(), next());
  return () => {
    const [a, b, c, d] = [state[0] as number, state[1] as number, state[2] as number, state[3] as number];
    const times5 = Math.imul(b, 5);
    const result = Math.imul((times5 << 7) | (times5 >>> 25), 9) >>> 0;
    const [mixedC, mixedD] = [c ^ a, d ^ b];
    state[0] = a ^ mixedD;
    state[1] = b ^ mixedC;
    state[2] = mixedC ^ (b << 9);
    state[3] = (mixedD << 11) | (mixedD >>> 21);
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

/** The p quantile of numbers in any order, as of sorted ones; it changes their order. A few of them are looked at several times, where sorting looks at all. */
export function quantileOf(values: Float64Array, p: number): number {
  const last = values.length - 1;
  const below = Math.floor(last * p);
  const above = Math.min(below + 1, last);
  settle(values, below, 0, last);
  settle(values, above, above, last);
  return quantileOfSorted(values, p);
}

/** Puts at `place` what sorting from `first` to `last` would put there, none larger before it and none smaller behind it (Hoare 1961, FIND). */
function settle(values: Float64Array, place: number, first: number, last: number): void {
  while (first < last) {
    const pivot = values[place] as number;
    let [up, down] = [first, last];
    while (up <= down) {
      while ((values[up] as number) < pivot) up += 1;
      while ((values[down] as number) > pivot) down -= 1;
      if (up > down) break;
      const value = values[up] as number;
      values[up] = values[down] as number;
      values[down] = value;
      up += 1;
      down -= 1;
    }
    if (down < place) first = up;
    if (up > place) last = down;
  }
}

/** The p quantile of sorted numbers, linear between neighbours (Hyndman & Fan 1996, type 7). */
export function quantileOfSorted(sorted: ArrayLike<number>, p: number): number {
  const place = (sorted.length - 1) * p;
  const below = Math.floor(place);
  const low = sorted[below] ?? NaN;
  const high = sorted[Math.min(below + 1, sorted.length - 1)] ?? NaN;
  return low + (high - low) * (place - below);
}
