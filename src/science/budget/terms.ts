import { foodContent } from "../feed";
import type { Food } from "../constants/foods";
import { exact, rectangular, type Uncertain } from "../uncertain";
import { concentrationPath, type Mixture } from "./concentration";
import { standingCrop, type StandingCrop } from "./crop";
import type { HarvestEntry, Log, SetUp } from "./log";
import { entriesWithin, type Period } from "./period";
import type { Reading } from "../reading";

/** The columns of a budget. */
export type Part = "feedIn" | "otherIn" | "harvestOut" | "changeOut" | "otherOut" | "storeChange";
export const PARTS: readonly Part[] = ["feedIn", "otherIn", "harvestOut", "changeOut", "otherOut", "storeChange"];

/** Inputs count up, exports and what the water gained count down: unexplained = inputs - exports - change in store. */
export const SIGN: Readonly<Record<Part, 1 | -1>> = { feedIn: 1, otherIn: 1, harvestOut: -1, changeOut: -1, otherOut: -1, storeChange: -1 };

/** What a keeper would have to know better. */
export type Doubt = "volume" | "retained" | "incoming" | "topUp" | "dryFraction" | "tissue" | "standingCrop" | "food" | "readings" | "feedWeight" | "harvestWeight" | "changeVolume";

/** The doubt behind each part's errors of its own. */
export const OWN_DOUBT: Readonly<Record<Part, Doubt>> = {
  feedIn: "feedWeight",
  otherIn: "feedWeight",
  harvestOut: "harvestWeight",
  changeOut: "changeVolume",
  otherOut: "harvestWeight",
  storeChange: "readings",
};

/** coefficient x the product of the named quantities, grams of the element. */
export interface Monomial {
  readonly part: Part;
  readonly coefficient: number;
  readonly factors: readonly number[];
}

/** An error that enters once: one weighing, one estimate. The same cause in the budgets of N and P is one and the same error. */
export interface OwnError {
  readonly part: Part;
  readonly cause: string;
  /** What the part would move if the figure were off by all of itself, and by its standard uncertainty, g. */
  readonly whole: number;
  readonly u: number;
}

/** One period written out: sums of products of quantities, so that a quantity that enters twice is one quantity. */
export interface PeriodTerms extends Period {
  readonly monomials: readonly Monomial[];
  /** Variance, by part, of errors that enter once only: one weighing, one estimate (g^2). */
  readonly ownVariance: Readonly<Record<Part, number>>;
  readonly ownErrors: readonly OwnError[];
  /** Days from the period's ends to the nearest reading (the farther of both ends), and whether algae on a screen had to be estimated. */
  readonly readingGapDays: number;
  readonly estimatedCrop: boolean;
  readonly censored: boolean;
  readonly aboveScale: boolean;
}

/** Every uncertain quantity of the log once, in a fixed order; monomials name it by its place. */
export interface Terms {
  readonly quantities: readonly Uncertain[];
  /** The doubt behind each quantity, in the same order. */
  readonly doubts: readonly Doubt[];
  /** What each quantity is, in the same order: one name in the budgets of N and P is one quantity. */
  readonly names: readonly string[];
  readonly periods: readonly PeriodTerms[];
}

const NO_VARIANCE: Record<Part, number> = { feedIn: 0, otherIn: 0, harvestOut: 0, changeOut: 0, otherOut: 0, storeChange: 0 };
/** Standard uncertainty of a figure known to plus or minus a share of itself (rectangular). */
const halfWidthU = (grams: number, share: number): number => Math.abs(grams * share) / Math.sqrt(3);

/** Writes the budget of each period as products of uncertain quantities. */
export function budgetTerms(log: Log, setUp: SetUp, periods: readonly Period[]): Terms {
  const quantities: Uncertain[] = [];
  const doubts: Doubt[] = [];
  const names: string[] = [];
  const add = (doubt: Doubt, name: string, quantity: Uncertain): number => {
    doubts.push(doubt);
    names.push(name);
    return quantities.push(quantity) - 1;
  };

  const { nutrient } = log;
  const volume = add("volume", "volume", setUp.volumeL);
  const kept = add("retained", "retained", setUp.retainedShare);
  const topUp = add("topUp", `topUp ${nutrient}`, setUp.topUpMgPerL);
  const units = setUp.units.map((unit, place) => ({
    unit,
    place,
    drained: add("dryFraction", `drained ${place}`, unit.dryFraction.drained),
    pressed: add("dryFraction", `pressed ${place}`, unit.dryFraction.pressed),
    tissue: add("tissue", `tissue ${nutrient} ${place}`, unit.tissue),
    cropGuess: add("standingCrop", `crop ${place}`, rectangular(0, 2)),
    harvests: [] as HarvestEntry[],
    startDay: unit.startedDay ?? log.firstDay,
  }));
  for (const harvest of log.harvests) units[harvest.unit]?.harvests.push(harvest);
  const foods = new Map<Food, number>();
  for (const feed of log.feeds) if (!foods.has(feed.food)) foods.set(feed.food, add("food", `food ${nutrient} ${feed.food.name}`, foodContent(feed.food, nutrient)));
  const series = log.series
    .filter((one) => one.entries.length > 0)
    .map((one) => ({
      name: one.name,
      scale: add("readings", `scale ${one.name}`, one.kitScale),
      incoming: add("incoming", `incoming ${one.name}`, one.incomingMgPerL),
      incomingMgPerL: one.incomingMgPerL.value,
      entries: one.entries,
      path: concentrationPath(one.entries, log.changes, setUp.volumeL.value),
      /** Place of the series' first reading among the quantities; the others follow it. */
      first: one.entries.map(({ reading, row }) => add("readings", readingName(one.name, row), readingQuantity(reading)))[0] ?? 0,
    }));
  const driftPerDay = inputRateMgPerL(log, setUp) / Math.max(1, series.length);

  const termsOf = (period: Period): PeriodTerms => {
    const { from, to, withFrom, withTo } = period;
    const [atFrom, atTo] = [withFrom ? "before" : "after", withTo ? "after" : "before"] as const;
    const monomials: Monomial[] = [];
    const own = { ...NO_VARIANCE };
    const ownErrors: OwnError[] = [];
    const err = (part: Part, cause: string, grams: number, u: number): void => {
      if (u === 0 && grams === 0) return;
      own[part] += u * u;
      ownErrors.push({ part, cause, whole: grams, u });
    };
    let [gap, censored, aboveScale, estimatedCrop] = [0, false, false, false];
    const inPeriod = <T extends { day: number }>(entries: readonly T[]): readonly T[] => entriesWithin(entries, period);
    const put = (part: Part, coefficient: number, ...factors: number[]): void => {
      if (coefficient !== 0) monomials.push({ part, coefficient, factors });
    };

    // Feed: mass x content, less what the animals keep.
    const massOf = new Map<number, number>();
    for (const feed of inPeriod(log.feeds)) {
      const content = foods.get(feed.food) ?? 0;
      massOf.set(content, (massOf.get(content) ?? 0) + feed.massG);
      const arrived = feed.massG * (quantities[content]?.value ?? 0) * (1 - setUp.retainedShare.value);
      err("feedIn", causeOf("feed", feed.row, feed.food.name), arrived, halfWidthU(arrived, setUp.feedShare));
    }
    for (const [content, massG] of massOf) {
      put("feedIn", massG, content);
      put("feedIn", -massG, content, kept);
    }
    for (const entry of inPeriod(log.otherIn)) put("otherIn", entry.grams);
    for (const entry of inPeriod(log.otherOut)) put("otherOut", entry.grams);
    for (const entry of inPeriod(log.topUps)) put("otherIn", entry.litres / 1000, topUp);

    // Harvests, and the change of what stands on each screen.
    for (const screen of units) {
      const dryOf = (harvest: HarvestEntry): number => (harvest.draining === "pressed" ? screen.pressed : screen.drained);
      const gramsOf = (harvest: HarvestEntry, drainedG: number): number =>
        drainedG * (quantities[dryOf(harvest)]?.value ?? 0) * (quantities[screen.tissue]?.value ?? 0);
      for (const harvest of inPeriod(screen.harvests)) {
        const left = harvest.drainedG * (1 - harvest.fedBackShare);
        put("harvestOut", left, dryOf(harvest), screen.tissue);
        err("harvestOut", causeOf("harvest", harvest.row, `${screen.place} ${harvest.draining}`), gramsOf(harvest, left), halfWidthU(gramsOf(harvest, left), setUp.harvestShare));
      }
      // Algae fed back stay in the system: they are no export, and their N is in the water or the animals.
      const stand = (crop: StandingCrop, sign: 1 | -1): void => {
        if (crop.kind === "none") return;
        estimatedCrop ||= crop.kind !== "share" || crop.share < 1;
        if (crop.kind === "usual") {
          put("storeChange", sign * crop.dryG, screen.tissue, screen.cropGuess);
          return;
        }
        for (const harvest of crop.of) {
          const guess = crop.kind === "scaled" ? [screen.cropGuess] : [];
          put("storeChange", sign * harvest.drainedG * crop.share, dryOf(harvest), screen.tissue, ...guess);
        }
        // The weighings of one moment share the curve, so their errors add before they are squared.
        if (crop.kind === "share") {
          const u = crop.of.reduce((sum, harvest) => sum + gramsOf(harvest, harvest.drainedG * crop.u), 0);
          err("storeChange", `stand ${screen.place} ${sign}`, 0, sign * u);
        }
      };
      stand(standingCrop(screen.unit, screen.harvests, screen.startDay, from, atFrom), -1);
      stand(standingCrop(screen.unit, screen.harvests, screen.startDay, to, atTo), 1);
    }

    // Water: what changes took out and brought, and what the water holds more at the end than at the start.
    const changed = inPeriod(log.changes);
    /** What each change took out beyond what it brought, g in all series: the error of its volume acts on that. */
    const netOut = changed.map(() => 0);
    for (const one of series) {
      for (const change of changed) put("otherIn", change.litres / 1000, one.incoming);
      const weights = new Map<number, number>();
      let ofIncoming = 0;
      changed.forEach((change, place) => {
        const mixture = one.path.at(change.day, "before");
        addTo(weights, mixture, change.litres / 1000);
        ofIncoming += (mixture.incoming * change.litres) / 1000;
        netOut[place] = (netOut[place] ?? 0) + ((valueOf(mixture, one.first, one.incomingMgPerL) - one.incomingMgPerL) * change.litres) / 1000;
        err("changeOut", `drift ${one.name} ${change.row}`, 0, halfWidthU((change.litres * driftPerDay) / 1000, mixture.driftDays));
      });
      for (const [reading, weight] of weights) put("changeOut", weight, one.scale, one.first + reading);
      put("changeOut", ofIncoming, one.incoming);

      const [start, end] = [one.path.at(from, atFrom), one.path.at(to, atTo)];
      const difference = new Map<number, number>();
      addTo(difference, end, 0.001);
      addTo(difference, start, -0.001);
      for (const [reading, weight] of difference) put("storeChange", weight, volume, one.scale, one.first + reading);
      put("storeChange", (end.incoming - start.incoming) / 1000, volume, one.incoming);
      [start, end].forEach(({ driftDays, nearestDays }, side) => {
        err("storeChange", `drift ${one.name} end ${side}`, 0, halfWidthU((setUp.volumeL.value * driftPerDay) / 1000, driftDays));
        gap = Math.max(gap, nearestDays);
      });
      // A reading that cancels out, or that has no weight at a neighbour's own moment, is not used.
      const used = [...weights, ...difference].filter(([, weight]) => Math.abs(weight) > 1e-12).map(([reading]) => reading);
      for (const reading of new Set(used)) {
        const kind = one.entries[reading]?.reading.censored;
        censored ||= kind === "below";
        aboveScale ||= kind === "above";
      }
    }
    changed.forEach((change, place) => err("changeOut", causeOf("change", change.row), netOut[place] ?? 0, halfWidthU(netOut[place] ?? 0, setUp.changeShare)));
    return { ...period, monomials, ownVariance: own, ownErrors, readingGapDays: gap, estimatedCrop, censored, aboveScale };
  };

  const valueOf = (mixture: Mixture, first: number, incomingMgPerL: number): number =>
    mixture.weights.reduce((sum, [reading, weight]) => sum + weight * (quantities[first + reading]?.value ?? 0), 0) +
    mixture.incoming * incomingMgPerL;

  return { quantities, doubts, names, periods: periods.map(termsOf) };
}

export const readingName = (series: string, row: number): string => `reading ${series} ${row}`;
/** A weighing or a change of one row is the same error for nitrogen and for phosphorus. */
export const causeOf = (what: "feed" | "harvest" | "change", row: number, which = ""): string => `${what} ${row} ${which}`;

/** A reading above the kit's scale has no upper limit; its period is not reckoned, so its lowest value only holds the place. */
const readingQuantity = ({ low, high, censored }: Reading): Uncertain => (censored === "above" ? exact(low) : rectangular(low, high));

function addTo(sum: Map<number, number>, mixture: Mixture, factor: number): void {
  for (const [reading, weight] of mixture.weights) sum.set(reading, (sum.get(reading) ?? 0) + weight * factor);
}

/** The mean rate of what comes in if it all stayed dissolved, mg per litre and day: how fast a reading can drift unseen. */
function inputRateMgPerL(log: Log, setUp: SetUp): number {
  const fed = log.feeds.reduce((sum, feed) => sum + feed.massG * foodContent(feed.food, log.nutrient).value, 0);
  const dosed = log.otherIn.reduce((sum, entry) => sum + entry.grams, 0);
  return (1000 * (fed * (1 - setUp.retainedShare.value) + dosed)) / ((log.lastDay - log.firstDay) * setUp.volumeL.value);
}
