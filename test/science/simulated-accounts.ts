import type { Account } from "../../src/science/budget/both";
import type { FeedEntry, HarvestEntry, Log, MassEntry, ReadingEntry, SetUp, VolumeEntry } from "../../src/science/budget/log";
import type { Food } from "../../src/science/constants/foods";
import { foodContent } from "../../src/science/feed";
import type { Nutrient } from "../../src/science/nutrient-forms";
import { normalFrom, seededRandom } from "../../src/science/seeded";
import { draw, exact, triangular, withinShare, type Uncertain } from "../../src/science/uncertain";

/** An invented tank: what a keeper logs of it, and what truly went where. The truth closes exactly. */
export interface Simulated {
  readonly accounts: Readonly<Record<Nutrient, Account>>;
  /** True grams of each period: from harvest to harvest, N and P. */
  readonly truth: readonly { readonly feedIn: Record<Nutrient, number>; readonly harvestOut: Record<Nutrient, number>; readonly changeOut: Record<Nutrient, number>; readonly storeChange: Record<Nutrient, number> }[];
  readonly harvestRows: readonly number[];
}

const FOOD: Food = {
  name: "Invented food", factor: 6.25, portionG: null,
  proteinPercent: { value: 13, low: 11.7, high: 14.3 }, phosphorusMgPer100g: { value: 220, low: 198, high: 242 },
} as unknown as Food;
const START = 45_000;

/**
 * A tank of 150 to 450 L with one screen, fed daily, harvested every 7 to 14 days; tests on the harvest days, read to a
 * meter's step; a water change in the middle of some periods. Every weighing and every constant is off within the limits
 * that the set-up states, by the spread that they are stated to have.
 */
export function simulatedAccounts(seed: number, periods = 6): Simulated {
  const random = seededRandom(seed);
  normalFrom(random);
  const between = (low: number, high: number): number => low + random() * (high - low);
  const off = (share: number): number => 1 + between(-share, share);
  const volumeL = withinShare(Math.round(between(150, 450)), 0.05);
  const retained = triangular({ low: 0, value: 0.05, high: 0.15 });
  const dryFraction = withinShare(between(0.06, 0.1), 0.15);
  const tissue = { N: withinShare(between(0.025, 0.045), 0.15), P: withinShare(between(0.0025, 0.0045), 0.15) };
  const scale = { N: withinShare(1, 0.05), P: withinShare(1, 0.05) };
  const step = { N: 0.5, P: 0.05 };
  const [feedShare, harvestShare, changeShare] = [0.1, 0.05, 0.05];
  const content = { N: foodContent(FOOD, "N"), P: foodContent(FOOD, "P") };
  const real = (quantity: Uncertain): number => draw(quantity, random);
  const is = {
    volume: real(volumeL), kept: real(retained), dry: real(dryFraction),
    tissue: { N: real(tissue.N), P: real(tissue.P) }, scale: { N: real(scale.N), P: real(scale.P) }, content: { N: real(content.N), P: real(content.P) },
  };
  const nutrients = ["N", "P"] as const;
  const water = { N: between(4, 12), P: between(0.4, 1.2) };
  const target = { ...water };
  const feeds: FeedEntry[] = [];
  const harvests: HarvestEntry[] = [];
  const changes: VolumeEntry[] = [];
  const media: Record<Nutrient, MassEntry[]> = { N: [], P: [] };
  const dosed: Record<Nutrient, MassEntry[]> = { N: [], P: [] };
  const readings: Record<Nutrient, ReadingEntry[]> = { N: [], P: [] };
  const truth: Simulated["truth"][number][] = [];
  let [day, row] = [START, 2];
  const read = (): void => {
    for (const nutrient of nutrients) {
      const shown = Math.max(step[nutrient], Math.round(water[nutrient] / is.scale[nutrient] / step[nutrient]) * step[nutrient]);
      const [low, high] = [shown - step[nutrient] / 2, shown + step[nutrient] / 2];
      readings[nutrient].push({ day, row, reading: { value: shown, low, high, u: (high - low) / Math.sqrt(12), censored: "no" } });
    }
  };
  read();
  const dailyFeed = between(2, 8) * (is.volume / 250);
  for (let period = 0; period < periods; period += 1) {
    const days = 7 + Math.floor(random() * 8);
    const from = day;
    let fedG = 0;
    for (let index = 1; index <= days; index += 1) {
      const massG = Math.round(10 * dailyFeed * off(0.2)) / 10;
      feeds.push({ day: from + index, row: row + index, food: FOOD, massG });
      fedG += massG * off(feedShare);
    }
    const feedIn = { N: fedG * is.content.N * (1 - is.kept), P: fedG * is.content.P * (1 - is.kept) };
    // What the screen took: enough nitrogen to hold the water near where it was, give or take.
    const dryG = Math.max(0.2 * feedIn.N, feedIn.N * off(0.3) + ((water.N - target.N) * is.volume) / 1000) / is.tissue.N;
    const harvestOut = { N: dryG * is.tissue.N, P: dryG * is.tissue.P };
    const litres = random() < 0.4 ? Math.round(is.volume * between(0.05, 0.2)) : 0;
    const changedL = litres * off(changeShare);
    const changeDay = from + Math.floor(days / 2) + 0.5;
    const changeOut = { N: 0, P: 0 };
    const storeChange = { N: 0, P: 0 };
    for (const nutrient of nutrients) {
      // Media or a dose, weighed exactly, keep the water in range; both run evenly over the period.
      const gone = harvestOut[nutrient] - feedIn[nutrient];
      const wanted = ((target[nutrient] - water[nutrient]) * is.volume) / 1000 + gone;
      const dose = Math.round(1e6 * wanted) / 1e6;
      if (dose > 0) dosed[nutrient].push({ day: from + days, row: row + days, grams: dose });
      else media[nutrient].push({ day: from + days, row: row + days, grams: -dose });
      const ratePerDay = (1000 * (dose - gone)) / days / is.volume;
      const before = water[nutrient];
      // The rise is uneven: at the change the water is off the straight line by as much as all of the feed could make it.
      const [first, second] = [changeDay - from, from + days - changeDay];
      const uneven = between(-1, 1) * ((1000 * feedIn[nutrient]) / days / is.volume) * ((first * second) / days);
      let concentration = before + ratePerDay * first + uneven;
      changeOut[nutrient] = (concentration * changedL) / 1000;
      concentration *= 1 - changedL / is.volume;
      concentration += ratePerDay * second - uneven;
      storeChange[nutrient] = ((concentration - before) * is.volume) / 1000;
      water[nutrient] = concentration;
    }
    if (litres > 0) changes.push({ day: changeDay, row: row + Math.floor(days / 2), litres });
    day = from + days;
    row += days;
    harvests.push({ day, row, unit: 0, drainedG: (dryG / is.dry) / off(harvestShare), draining: "drained", fedBackShare: 0 });
    read();
    truth.push({ feedIn, harvestOut, changeOut, storeChange });
  }
  const account = (nutrient: Nutrient): Account => {
    const log: Log = {
      nutrient, firstDay: START, lastDay: day, calendarOffset: 0, feeds, harvests, changes, topUps: [], otherIn: dosed[nutrient], otherOut: media[nutrient],
      bad: [], light: [], conditions: [], unusable: [], rows: [],
      series: [{ name: nutrient === "N" ? "NO3" : "PO4", isMain: true, entries: readings[nutrient], kitScale: scale[nutrient], incomingMgPerL: exact(0) }],
    };
    const setUp: SetUp = {
      volumeL, retainedShare: retained, topUpMgPerL: exact(0), feedShare, harvestShare, changeShare, periodUnit: 0, usual: { ph: null, temperatureC: null, salinity: null },
      units: [{ name: "", litAreaM2: 0.2, dryFraction: { drained: dryFraction, pressed: dryFraction }, tissue: tissue[nutrient], startedDay: null, umolPerM2S: null, hoursPerDay: null, watts: null }],
    };
    return { log, setUp };
  };
  return { accounts: { N: account("N"), P: account("P") }, truth, harvestRows: harvests.map((harvest) => harvest.row) };
}
