import type { ReadingEntry, VolumeEntry } from "./log";

/**
 * A concentration as a sum over readings: weight x reading, plus a share of the new water's concentration.
 * Weights rather than a number, so that an uncertainty follows every reading to wherever it is used.
 */
export interface Mixture {
  readonly weights: readonly (readonly [reading: number, weight: number])[];
  readonly incoming: number;
  /** For how many days the water could have drifted unseen: a b / (a + b) between readings a and b days away. Zero on a reading's own day. */
  readonly driftDays: number;
  readonly nearestDays: number;
}

/** C = start x C(first reading) + slope x rate + incoming x C(new water), while walking from one reading to the next. */
interface Walk {
  start: number;
  slope: number;
  incoming: number;
}

interface Segment {
  readonly from: number;
  readonly to: number;
  /** Indices into the changes: those on or after the first reading's moment and before the second's. */
  readonly firstChange: number;
  readonly afterLastChange: number;
  readonly end: Walk;
}

/**
 * The concentration of the water at any moment, from readings and water changes (both in order of day).
 *
 * Between two readings the water is taken to rise or fall at one steady rate, with a step at each change; the rate is
 * the one that meets the second reading, so the mass that a change removes is counted at the concentration of that
 * moment. On one and the same moment a reading comes before a change. Outside the readings the rate is zero.
 */
export function concentrationPath(entries: readonly ReadingEntry[], changes: readonly VolumeEntry[], volumeL: number) {
  const days = entries.map((entry) => entry.day);
  const last = entries.length - 1;
  const shares = changes.map((change) => Math.min(1, change.litres / volumeL));
  const before: Walk[] = changes.map(() => ({ start: 1, slope: 0, incoming: 0 }));
  const after: Walk[] = changes.map(() => ({ start: 1, slope: 0, incoming: 0 }));
  const segments: Segment[] = [];
  const firstOnOrAfter = (day: number): number => lowerBound(changes, (change) => change.day >= day);

  for (let place = 0; place <= last; place += 1) {
    const [from, to] = [days[place] ?? 0, days[place + 1] ?? Infinity];
    const firstChange = firstOnOrAfter(from);
    const afterLastChange = to === Infinity ? changes.length : firstOnOrAfter(to);
    const walk: Walk = { start: 1, slope: 0, incoming: 0 };
    let day = from;
    for (let index = firstChange; index < afterLastChange; index += 1) {
      const change = changes[index];
      if (!change) continue;
      walk.slope += change.day - day;
      day = change.day;
      before[index] = { ...walk };
      mix(walk, shares[index] ?? 0);
      after[index] = { ...walk };
    }
    if (to !== Infinity) walk.slope += to - day;
    segments.push({ from, to, firstChange, afterLastChange, end: walk });
  }

  /** Just before or just after whatever happens at that moment. */
  const at = (day: number, side: "before" | "after"): Mixture => {
    const first = days[0] ?? 0;
    if (day < first || (day === first && side === "before")) return beforeFirst(day, side, first);
    const place = lowerBound(days, (reading) => (side === "after" ? reading > day : reading >= day)) - 1;
    const segment = segments[place];
    if (!segment) return { weights: [[0, 1]], incoming: 0, driftDays: 0, nearestDays: 0 };
    const walk = walkTo(segment, day, side);
    if (segment.to === Infinity) return { weights: [[place, walk.start]], incoming: walk.incoming, driftDays: day - segment.from, nearestDays: day - segment.from };
    const { end } = segment;
    const along = walk.slope / end.slope;
    const [a, b] = [day - segment.from, segment.to - day];
    return {
      weights: [
        [place, walk.start - along * end.start],
        [place + 1, along],
      ],
      incoming: walk.incoming - along * end.incoming,
      driftDays: (a * b) / (a + b),
      nearestDays: Math.min(a, b),
    };
  };

  const walkTo = (segment: Segment, day: number, side: "before" | "after"): Walk => {
    const bound = lowerBound(changes, (change) => (side === "after" ? change.day > day : change.day >= day));
    const lastChange = Math.min(bound, segment.afterLastChange) - 1;
    if (lastChange < segment.firstChange) return { start: 1, slope: day - segment.from, incoming: 0 };
    const walk = { ...(after[lastChange] ?? { start: 1, slope: 0, incoming: 0 }) };
    walk.slope += day - (changes[lastChange]?.day ?? day);
    return walk;
  };

  /**
   * Back from the first reading with no rise of its own: each change is taken out again, until two thirds of the water were other water;
   * of what was there before, the reading tells nothing.
   */
  const beforeFirst = (day: number, side: "before" | "after", first: number): Mixture => {
    let [weight, incoming] = [1, 0];
    for (let index = firstOnOrAfter(first) - 1; index >= 0; index -= 1) {
      const change = changes[index];
      if (!change || change.day < day || (change.day === day && side === "after")) break;
      const share = shares[index] ?? 0;
      if (weight / (1 - share) > MOST_BACK) break;
      weight /= 1 - share;
      incoming = (incoming - share) / (1 - share);
    }
    return { weights: [[0, weight]], incoming, driftDays: first - day, nearestDays: first - day };
  };

  return { at };
}

const MOST_BACK = 3;

function mix(walk: Walk, share: number): void {
  walk.start *= 1 - share;
  walk.slope *= 1 - share;
  walk.incoming = (1 - share) * walk.incoming + share;
}

/** First place at which the condition holds in a list where it holds from some place on. */
export function lowerBound<T>(list: readonly T[], holds: (item: T) => boolean): number {
  let [low, high] = [0, list.length];
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (holds(list[middle] as T)) high = middle;
    else low = middle + 1;
  }
  return low;
}
