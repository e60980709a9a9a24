import { ALGAE } from "../src/science/constants/algae";
import { FOODS, type Food } from "../src/science/constants/foods";
import { BUDGET_DEFAULT } from "../src/science/constants/practice";
import { foodContent } from "../src/science/feed";
import { elementMgPerL, type Nutrient } from "../src/science/nutrient-forms";
import { seededRandom, type Random } from "../src/science/seeded";
import { draw, triangular, withinShare } from "../src/science/uncertain";

/** What truly happened in a period, g of the element; by construction feedIn + otherIn - harvestOut - changeOut - storeChange is 0. */
export interface TruePeriod {
  readonly from: number;
  readonly to: number;
  feedIn: number;
  otherIn: number;
  harvestOut: number;
  changeOut: number;
  storeChange: number;
}

export interface SimulatedLog {
  /** The log range with its heading row, as a keeper would have written it: weighing errors, tests rounded to the kit's steps. */
  readonly log: unknown[][];
  readonly setUp: unknown[][];
  /** Harvest to harvest of the first screen. */
  readonly truth: Readonly<Record<Nutrient, TruePeriod[]>>;
}

interface Kit {
  readonly written: number | string;
  readonly show: (value: number) => number;
}
interface Screen {
  readonly name: string;
  readonly litAreaM2: number;
  readonly growth: number;
  readonly everyDays: number;
  standingG: number;
  since: number;
}

const FIRST_DAY = 46000;
const NUTRIENTS: readonly Nutrient[] = ["N", "P"];
const FEEDS = FOODS.filter((food) => food.portionG && food.waterPercent && food.waterPercent.value > 50 && food.proteinPercent.value > 5);

/**
 * One tank that lives day by day, everything in it drawn at random with the spread that the set-up's own figures and the usual
 * constants have. The keeper makes no mistake: each weighing is off by no more than the set-up says, each test shows its nearest step.
 */
export function simulatedLog(seed: number): SimulatedLog {
  const random = seededRandom(seed);
  const between = (low: number, high: number): number => low + random() * (high - low);
  const pick = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)] as T;
  const { volumeShare, feedShare, harvestShare, changeShare, kitScale, measuredShare, retained } = BUDGET_DEFAULT;

  const volumeL = Math.round(80 * 25 ** random());
  const trueVolumeL = volumeL * off(random, volumeShare.value);
  const days = Math.round(between(40, 200));
  const foods = Array.from({ length: 1 + Math.floor(random() * 3) }, () => pick(FEEDS));
  const content = new Map<Food, Record<Nutrient, number>>(foods.map((food) => [food, { N: draw(foodContent(food, "N"), random), P: draw(foodContent(food, "P"), random) }]));
  const kept = draw(triangular(retained), random);

  const setUp: unknown[][] = [["Volume (L)", volumeL]];
  /** The keeper's own figure, off by no more than its usual error; or none, and the truth is anywhere in the usual range. */
  const ownOrUsual = (key: string, usual: { value: number; low: number; high: number }): number => {
    const truth = draw(triangular(usual), random);
    if (random() < 0.5) setUp.push([key, Number((truth / off(random, measuredShare.value)).toPrecision(4))]);
    return truth;
  };
  const dryFraction = ownOrUsual("Dry fraction", ALGAE.dryFractionDrained);
  const tissue: Record<Nutrient, number> = { N: ownOrUsual("Tissue N", ALGAE.tissueN), P: ownOrUsual("Tissue P", ALGAE.tissueP) };
  const kits: Record<Nutrient, Kit> = { N: random() < 0.5 ? meter(pick([0.2, 0.5, 1])) : chart("0 2 5 10 20 40 80"), P: random() < 0.5 ? meter(pick([0.01, 0.02, 0.05])) : chart("0 0.03 0.08 0.12 0.25 0.5 1 2") };
  setUp.push(["NO3 kit steps", kits.N.written], ["PO4 kit steps", kits.P.written]);
  const scale: Record<Nutrient, number> = { N: off(random, kitScale.value), P: off(random, kitScale.value) };
  const incoming: Record<Nutrient, number> = { N: random() < 0.3 ? between(0.2, 3) : 0, P: 0 };
  if (incoming.N > 0) setUp.push(["New water NO3-N (mg/L)", incoming.N]);

  const light = { umol: Math.round(between(80, 400)), hours: Math.round(between(8, 18)) };
  const isStated = random() < 0.7;
  if (isStated) setUp.push(["Light (umol m-2 s-1)", light.umol], ["Light hours", light.hours]);
  const mol = (light.umol * 3600 * light.hours) / 1e6;
  const names = random() < 0.7 ? [""] : ["front", "rear"];
  const screens = names.map((name): Screen => {
    const litAreaM2 = Number(((volumeL * between(0.4, 1.6)) / 1500).toFixed(3));
    if (isStated || random() < 0.5) setUp.push([`Lit area ${name} (m2)`.replace("  ", " "), litAreaM2]);
    return { name, litAreaM2, growth: Math.min(20, draw(triangular(ALGAE.lightYield), random) * mol), everyDays: Math.round(between(6, 18)), standingG: 0, since: 0 };
  });

  const uptakeN = screens.reduce((sum, screen) => sum + screen.litAreaM2 * screen.growth, 0) * tissue.N;
  const feedG = (0.7 * between(0.8, 1.3) * uptakeN) / ((content.get(foods[0] as Food)?.N ?? 1) * (1 - kept));
  const changeEvery = pick([0, 7, 14, 28]);
  const changeShareOfVolume = between(0.05, 0.3);
  const testEvery = pick([3, 5, 7, 10]);

  const water: Record<Nutrient, number> = { N: (between(1, 8) * trueVolumeL) / 1000, P: (between(0.03, 0.4) * trueVolumeL) / 1000 };
  const head = ["Date", "Food", "Feed (g)", "NO3 (mg/L)", "PO4 (mg/L)", ...screens.map(({ name }) => `Harvest ${name} (g)`.replace("  ", " ")), "Water change (L)", "NH4 (mg/L)", "pH", "Temperature (C)"];
  const log: unknown[][] = [head];
  const truth: Record<Nutrient, TruePeriod[]> = { N: [], P: [] };
  const store = (nutrient: Nutrient): number => water[nutrient] + screens.reduce((sum, screen) => sum + screen.standingG, 0) * tissue[nutrient];
  let start: Record<Nutrient, number> = { N: store("N"), P: store("P") };
  let running = { N: emptyPeriod(FIRST_DAY), P: emptyPeriod(FIRST_DAY) };

  for (let day = 0; day <= days; day += 1) {
    const food = pick(foods);
    const fedG = feedG * between(0.8, 1.2);
    for (const nutrient of NUTRIENTS) {
      const grams = fedG * (content.get(food)?.[nutrient] ?? 0) * (1 - kept);
      water[nutrient] += grams;
      running[nutrient].feedIn += grams;
    }
    for (const screen of screens) {
      const wanted = screen.growth * screen.litAreaM2 * Math.min(1, (day - screen.since + 1) / 4) * Math.min(1, (day + 3) / 20) * between(0.85, 1.15);
      const grown = Math.min(wanted, ...NUTRIENTS.map((nutrient) => (0.3 * water[nutrient]) / tissue[nutrient]));
      screen.standingG += grown;
      for (const nutrient of NUTRIENTS) water[nutrient] -= grown * tissue[nutrient];
    }
    const harvests = screens.map((screen) => day < days && day - screen.since >= screen.everyDays + Math.floor(between(-1, 2)) && screen.standingG > 1);
    const tests = day % testEvery === 0 || harvests[0] === true || day === days;
    const reading = (nutrient: Nutrient, form: "NO3" | "PO4"): number | "" =>
      tests ? kits[nutrient].show(((1000 * water[nutrient]) / trueVolumeL / elementMgPerL({ unit: "mg/L", form })) / scale[nutrient]) : "";
    const readings = [reading("N", "NO3"), reading("P", "PO4")];
    const changeL = changeEvery > 0 && day > 0 && day % changeEvery === 0 ? changeShareOfVolume * volumeL : 0;
    for (const nutrient of NUTRIENTS) {
      const [out, brought] = [(changeL / trueVolumeL) * water[nutrient], (changeL * incoming[nutrient]) / 1000];
      water[nutrient] += brought - out;
      running[nutrient].changeOut += out;
      running[nutrient].otherIn += brought;
    }
    const weighed = screens.map((screen, place) => {
      if (!harvests[place]) return "";
      const drained = screen.standingG / dryFraction;
      for (const nutrient of NUTRIENTS) running[nutrient].harvestOut += screen.standingG * tissue[nutrient];
      screen.standingG = 0;
      screen.since = day;
      return Number((drained / off(random, harvestShare.value)).toPrecision(4));
    });
    log.push([FIRST_DAY + day, food.name, Number((fedG / off(random, feedShare.value)).toPrecision(4)), ...readings, ...weighed, changeL > 0 ? Number((changeL / off(random, changeShare.value)).toPrecision(4)) : "", day % 14 === 0 ? 0.05 : "", day % 14 === 0 ? 8.1 : "", day % 14 === 0 ? 25 : ""]);
    if (harvests[0] || day === days) {
      for (const nutrient of NUTRIENTS) truth[nutrient].push({ ...running[nutrient], to: FIRST_DAY + day, storeChange: store(nutrient) - start[nutrient] });
      start = { N: store("N"), P: store("P") };
      running = { N: emptyPeriod(FIRST_DAY + day), P: emptyPeriod(FIRST_DAY + day) };
    }
  }
  return { log, setUp, truth };
}

const emptyPeriod = (from: number): TruePeriod => ({ from, to: from, feedIn: 0, otherIn: 0, harvestOut: 0, changeOut: 0, storeChange: 0 });

/** What truth / written is, where the written figure may be off by a share. */
const off = (random: Random, share: number): number => draw(withinShare(1, share), random);

const meter = (step: number): Kit => ({ written: step, show: (value) => Number((Math.round(value / step) * step).toFixed(4)) });

/** The keeper sees the patch whose half-way bounds hold the colour; the last patch for all that is darker. */
function chart(written: string): Kit {
  const patches = written.split(" ").map(Number);
  return { written, show: (value) => patches.reduce((best, patch) => (Math.abs(patch - value) < Math.abs(best - value) ? patch : best), patches[0] as number) };
}
