import { dot, solveCovariance } from "../linear";
import type { Nutrient } from "../nutrient-forms";
import { BALANCES, type BothTerms, type Effect } from "./effects";
import type { HarvestEntry, Log, SetUp } from "./log";
import { entriesWithin, type Period } from "./period";
import { causeOf, readingName } from "./terms";

/** The figure that, taken as wrong, explains the misfit best. `factor`: what it would have to be multiplied by to fit. */
export interface Suspect {
  readonly what: "harvest" | "feed" | "allFeed" | "change" | "reading";
  readonly row: number | null;
  /** The nutrient of a reading; what carries both is named under N. */
  readonly nutrient: Nutrient;
  /** Food, screen or test. */
  readonly name: string;
  readonly logged: number;
  readonly factor: number;
  /** Chi-square that the balances lose when this figure is left free (1 degree of freedom). */
  readonly gain: number;
  /** Chi-square of the period and its neighbours before. */
  readonly misfit: number;
}

interface Candidate extends Pick<Suspect, "what" | "row" | "nutrient" | "name" | "logged"> {
  /** Whose errors it is: one weighing, or all feeds of the period. */
  readonly keys: readonly string[];
  /** How far, as a logarithm over its usual spread, the figure is from its like; null where nothing is usual. */
  readonly usual: number | null;
  readonly spread: number;
}

interface ClosingPeriod extends BothTerms {
  readonly closes: readonly boolean[];
}

/** By what a wrong figure may have to be multiplied: a fiftieth to twenty, in steps of a tenth. */
const LOG_FACTORS = Array.from({ length: 69 }, (_, step) => -3.9 + 0.1 * step);
const FACTORS = LOG_FACTORS.map(Math.exp);

/** Chi-square that a figure out of line with its kind can add, so that it never outweighs a plain misfit: three spreads; two for all feed at once. */
const [MOST_OF_KIND, MOST_OF_ALL] = [9, 4];

/** Weighings of one kind differ among themselves by at least this much (natural logarithm), however regular a keeper is. */
const LEAST_SPREAD = 0.25;

/**
 * Finds, for a period that does not fit, the figure that is least believable: a generalised likelihood ratio over every
 * weighing, change and reading of the period (Narasimhan & Mah 1987), on the balances of the period and its two
 * neighbours, because a wrong reading shows in both periods that it bounds and a wrong harvest in one only. Feed and
 * harvest carry N and P in nearly the same ratio, so that balances alone cannot tell one too low from the other too
 * high: a figure out of line with its own kind in the log is believed less.
 */
export function suspects(accounts: Readonly<Record<Nutrient, { log: Log; setUp: SetUp }>>, both: readonly ClosingPeriod[], periods: readonly Period[]): (place: number) => Suspect | null {
  const usual = usualFigures(accounts.N);
  const onBalances = new Map<number, OnBalances>();
  const balancesOf = (place: number): OnBalances => {
    const known = onBalances.get(place) ?? balancesIn(both[place]);
    onBalances.set(place, known);
    return known;
  };
  const blocks = new Map<string, number[][]>();
  /** Covariance of the balances of two periods; each is reckoned once, though three windows use it. */
  const blockOf = (i: number, j: number): number[][] => {
    const key = `${i} ${j}`;
    let block = blocks.get(key);
    if (!block) blocks.set(key, (block = covarianceOf(balancesOf(i), balancesOf(j))));
    return block;
  };
  return (place) => {
    const period = periods[place];
    if (!period) return null;
    const places = [place - 1, place, place + 1];
    const window = places.map(balancesOf);
    const misfits = window.flatMap((one) => one.misfits);
    const weights = places.flatMap((i, at) => (window[at]?.misfits ?? []).map((_, row) => places.flatMap((j, beside) => (window[beside]?.misfits ?? []).map((__, column) => (i <= j ? blockOf(i, j)[row]?.[column] : blockOf(j, i)[column]?.[row]) ?? 0))));
    const inverse = solveCovariance(weights, weights.map((_, i) => weights.map((__, j) => (i === j ? 1 : 0))));
    if (!inverse) return null;
    const solvedMisfits = inverse.map((row) => dot(row, misfits));
    const misfit = dot(misfits, solvedMisfits);
    let best: { suspect: Suspect; score: number } | null = null;
    for (const candidate of candidatesOf(accounts, period, usual)) {
      const whole = window.flatMap(({ misfits: own, effects }) => own.map((_, balance) => candidate.keys.reduce((sum, key) => sum + (effects.get(key)?.byWhole[balance] ?? 0), 0)));
      const size = dot(whole, inverse.map((row) => dot(row, whole)));
      const pull = dot(whole, solvedMisfits);
      // What is left free gains at most pull^2 / size, and its kind adds at most its own hold.
      if (size <= 0 || (best && pull ** 2 / size + MOST_OF_KIND <= best.score)) continue;
      // Chi-square that is saved when the figure is multiplied by `factor`; the best factor weighs it against the figure's own kind.
      const gainAt = (factor: number): number => 2 * (1 - factor) * pull - (1 - factor) ** 2 * size;
      const straight = Math.min(20, Math.max(0.02, 1 - pull / size));
      const ofKind = ofItsKind(candidate);
      let [factor, score] = [straight, gainAt(straight) + ofKind(Math.log(straight))];
      if (candidate.usual !== null) {
        for (let place = 0; place < FACTORS.length; place += 1) {
          const at = gainAt(FACTORS[place] as number) + ofKind(LOG_FACTORS[place] as number);
          if (at > score) [factor, score] = [FACTORS[place] as number, at];
        }
      }
      const gain = gainAt(factor);
      const { what, row, nutrient, name, logged } = candidate;
      if (!best || score > best.score) best = { suspect: { what, row, nutrient, name, logged, factor, gain, misfit }, score };
    }
    return best?.suspect ?? null;
  };
}

function covarianceOf(one: OnBalances, other: OnBalances): number[][] {
  const block = one.misfits.map(() => other.misfits.map(() => 0));
  for (const [key, { byU }] of one.effects) {
    const beside = other.effects.get(key)?.byU;
    if (!beside) continue;
    for (let i = 0; i < byU.length; i += 1) {
      const line = block[i] as number[];
      for (let j = 0; j < beside.length; j += 1) line[j] = (line[j] as number) + (byU[i] as number) * (beside[j] as number);
    }
  }
  return block;
}

/** What the quantities of one period do to each of its balances that close: N, then P. */
interface OnBalances {
  readonly misfits: readonly number[];
  readonly effects: ReadonlyMap<string, Effect>;
}

function balancesIn(period: ClosingPeriod | undefined): OnBalances {
  const rows = period ? BALANCES.filter((_, nutrient) => period.closes[nutrient]) : [];
  if (!period || rows.length === 0) return { misfits: [], effects: new Map() };
  const on = (vector: readonly number[]): number[] => {
    const left = new Array<number>(rows.length);
    for (let place = 0; place < rows.length; place += 1) left[place] = dot(rows[place] as readonly number[], vector);
    return left;
  };
  return { misfits: on(period.figures), effects: new Map([...period.effects].map(([key, { byU, byWhole }]) => [key, { byU: on(byU), byWhole: on(byWhole) }])) };
}

/**
 * How much nearer to its like the figure comes when it is multiplied, by the logarithm of the factor, in squared spreads; held
 * so that it never outweighs a plain misfit.
 */
function ofItsKind({ what, usual, logged, spread }: Candidate): (logFactor: number) => number {
  if (usual === null) return () => 0;
  // All feed of a period is wrong less often than one figure of it.
  const most = what === "allFeed" ? MOST_OF_ALL : MOST_OF_KIND;
  const away = Math.log(logged / usual);
  const before = Math.min(most, (away / spread) ** 2);
  return (logFactor) => before - Math.min(most, ((away + logFactor) / spread) ** 2);
}

interface Usual {
  readonly kinds: ReadonlyMap<string, { readonly value: number; readonly spread: number }>;
  /** Days that each harvest had grown. */
  readonly grownDays: ReadonlyMap<HarvestEntry, number>;
}

/** What is usual: growth a day of each screen, one feed of each food, all feed of a day. */
function usualFigures({ log, setUp }: { log: Log; setUp: SetUp }): Usual {
  const kinds = new Map<string, number[]>();
  const add = (kind: string, value: number): void => {
    const known = kinds.get(kind);
    if (known) known.push(value);
    else kinds.set(kind, [value]);
  };
  const last = new Map<number, number>();
  const grownDays = new Map<HarvestEntry, number>();
  for (const harvest of log.harvests) {
    const { unit, day, drainedG, draining } = harvest;
    const days = day - (last.get(unit) ?? setUp.units[unit]?.startedDay ?? log.firstDay);
    grownDays.set(harvest, days);
    if (days > 0) add(`harvest ${unit} ${draining}`, drainedG / days);
    last.set(unit, day);
  }
  for (const { food, massG } of log.feeds) add(`feed ${food.name}`, massG);
  add("allFeed", log.feeds.reduce((sum, { massG }) => sum + massG, 0) / (log.lastDay - log.firstDay));
  return { kinds: new Map([...kinds].map(([kind, values]) => [kind, middleOf(values)])), grownDays };
}

/** Median, and the spread of the logarithms about it (1.4826 x median absolute deviation, as for a normal spread). */
function middleOf(values: readonly number[]): { value: number; spread: number } {
  const median = (list: number[]): number => list.sort((a, b) => a - b)[list.length >> 1] ?? NaN;
  const value = median([...values]);
  const deviation = median(values.map((one) => Math.abs(Math.log(one / value))));
  return { value, spread: Math.max(LEAST_SPREAD, 1.4826 * deviation) };
}

function candidatesOf({ N, P }: Readonly<Record<Nutrient, { log: Log; setUp: SetUp }>>, period: Period, usual: Usual): Candidate[] {
  const { log, setUp } = N;
  const like = (kind: string): Pick<Candidate, "usual" | "spread"> => ({ usual: usual.kinds.get(kind)?.value ?? null, spread: usual.kinds.get(kind)?.spread ?? 1 });
  const feeds = entriesWithin(log.feeds, period);
  const feedKeys = feeds.map(({ row, food }) => causeOf("feed", row, food.name));
  const fed = feeds.reduce((sum, { massG }) => sum + massG, 0);
  return [
    ...entriesWithin(log.harvests, period).map((harvest): Candidate => {
      const { unit, row, draining, drainedG } = harvest;
      const { usual: rate, spread } = like(`harvest ${unit} ${draining}`);
      const days = usual.grownDays.get(harvest) ?? 0;
      return { what: "harvest", row, nutrient: "N", name: setUp.units[unit]?.name ?? "", logged: drainedG, keys: [causeOf("harvest", row, `${unit} ${draining}`)], usual: rate !== null && days > 0 ? rate * days : null, spread };
    }),
    ...feeds.map(({ row, food, massG }, place): Candidate => ({ what: "feed", row, nutrient: "N", name: food.name, logged: massG, keys: feedKeys.slice(place, place + 1), ...like(`feed ${food.name}`) })),
    ...(feeds.length > 1 ? [{ what: "allFeed", row: null, nutrient: "N", name: "", logged: fed, keys: feedKeys, usual: (like("allFeed").usual ?? 0) * (period.to - period.from), spread: like("allFeed").spread } as const] : []),
    ...entriesWithin(log.changes, period).map(({ row, litres }): Candidate => ({ what: "change", row, nutrient: "N", name: "", logged: litres, keys: [causeOf("change", row)], usual: null, spread: 1 })),
    ...[N, P].flatMap((account) =>
      account.log.series.flatMap((series) =>
        entriesWithin(series.entries, { ...period, withFrom: true, withTo: true }).map(({ row, reading }): Candidate => ({ what: "reading", row, nutrient: account.log.nutrient, name: series.name, logged: reading.value, keys: [readingName(series.name, row)], usual: null, spread: 1 }),
        ),
      ),
    ),
  ];
}
