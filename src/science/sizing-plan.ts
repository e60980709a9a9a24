import { ALGAE, type Setting } from "./constants/algae";
import type { Food, Ranged } from "./constants/foods";
import { BUDGET_DEFAULT, PRACTICE } from "./constants/practice";
import { SIZING } from "./constants/sizing-start";
import { foodContent } from "./feed";
import { harvestInterval, usualIntervalRange, usualRegrowth } from "./harvest-interval";
import { flowNeededLPerH } from "./hydraulics";
import { lightDailyMolPerM2 } from "./light";
import { lampKWh } from "./light-yield";
import { elementMgPerL, type Nutrient } from "./nutrient-forms";
import { areaNeeded, type AreaRange, habitAreaM2, shareCarried, type SizingCase } from "./sizing";
import { expectation, triangular, type Uncertain } from "./uncertain";

/** What is fed, what the water should read, and what light and sheet there is. */
export interface ScreenWish {
  readonly foods: readonly { readonly food: Food; readonly gPerDay: number }[];
  /** Share of the food's nitrogen and phosphorus that growing animals keep. */
  readonly retainedShare: number;
  readonly volumeL: number;
  /** Water changed a week, share of the volume; the new water is taken to hold neither nitrate nor phosphate. */
  readonly changedShareAWeek: number;
  /** Null: so much that growth is not slowed; then a water change counts as no sink. */
  readonly targetNO3MgPerL: number | null;
  readonly targetPO4MgPerL: number | null;
  readonly temperatureC: number;
  readonly setting: Setting;
  readonly lightUmolPerM2S: number;
  readonly hoursPerDay: number;
  readonly sheetWidthCm: number;
  readonly litSides: 1 | 2;
}

/** One nutrient in g a day: what the food brings, what the water changes take at the target, what is left for a screen. */
export interface PlannedLoad {
  readonly fed: Ranged;
  readonly changes: number;
  readonly left: Ranged;
}

/** One point of the picture: lit areas at so many grams of the same mix of food. */
export interface AreaAtFood {
  readonly foodGPerDay: number;
  readonly area: Ranged;
}

export interface PlannedScreen {
  /** Lit area, m2. */
  readonly area: AreaRange;
  /** The middle area as sheets of the width given. */
  readonly sheets: { readonly count: number; readonly widthCm: number; readonly heightCm: number; readonly litSides: 1 | 2 };
  /** Power of lamps for the middle area, W, and what they use in a week, kWh. */
  readonly watts: Ranged;
  readonly kWhAWeek: Ranged;
  readonly flowLPerH: Ranged;
  /** Drained weight that carries the load, g a week. */
  readonly harvestDrainedGAWeek: Ranged;
}

export interface ScreenPlan {
  readonly loads: Readonly<Record<Nutrient, PlannedLoad>>;
  /** By what share of itself the load left for the screen may be off, in whole per cent. */
  readonly loadShare: number;
  readonly lightMolPerM2Day: number;
  readonly foodGPerDay: number;
  readonly frozenFoodGPerDay: number;
  /** Null when the water changes alone carry the load. */
  readonly screen: PlannedScreen | null;
  /** Common-practice area, m2, and the share of the load that it carries; null share with nothing to carry. */
  readonly habit: { readonly areaM2: Ranged; readonly carried: Ranged | null };
  /** Best days between harvests on the usual curve, with the limits that the curve's own limits give. */
  readonly intervalDays: Ranged;
  /** Areas at 0 to 2 times the food, for the picture. */
  readonly areaAtFood: readonly AreaAtFood[];
}

/** As the worksheet functions have it, so that a workbook gives the pane's figures. */
const DRAWS = 10_000;
const SEED = 20260301;
/** The picture needs no more: its lines are a millimetre wide. The plan's own food is at the middle step. */
const PICTURE_DRAWS = 500;
const PICTURE_STEPS = 6;
/** A load that may be off by more would be drawn below zero. */
const MOST_LOAD_SHARE = 0.9;
/** Standard deviations from the middle to the 10 and 90 % points of a normal spread. */
export const TENTH_POINT = 1.2816;

const NUTRIENTS: readonly Nutrient[] = ["N", "P"];
const TISSUE: Record<Nutrient, Uncertain> = { N: triangular(ALGAE.tissueN), P: triangular(ALGAE.tissueP) };
const DRY = triangular(ALGAE.dryFractionDrained);

/**
 * The whole plan of a screen, every figure with its range.
 * @throws Problem as `areaNeeded`: no food, no light, a target of zero
 */
export function planScreen(wish: ScreenWish): ScreenPlan {
  const light = lightDailyMolPerM2(wish.lightUmolPerM2S, wish.hoursPerDay);
  const now = loadsAt(wish, 1);
  const wanted = caseOf(wish, now, light);
  const nothingLeft = NUTRIENTS.every((nutrient) => now.loads[nutrient].left.value === 0 && now.loads[nutrient].fed.value > 0);
  const foodGPerDay = wish.foods.reduce((sum, { gPerDay }) => sum + gPerDay, 0);
  const frozen = wish.foods.reduce((sum, { food, gPerDay }) => sum + gPerDay * frozenEqual(food), 0);
  const area = nothingLeft ? null : areaNeeded(wanted, DRAWS, SEED);
  const habitLimits = habitAreaM2(frozen);
  const habitArea = { ...habitLimits, value: (habitLimits.low + habitLimits.high) / 2 };
  // What an area carries is proportional to it, so one run of the draws serves three areas. The load is taken as it stands, as SCRUBAREA_HABIT does.
  const perM2 = area && shareCarried(1, { ...wanted, loadShare: 0 }, DRAWS, SEED);
  return {
    ...now,
    lightMolPerM2Day: light,
    foodGPerDay,
    frozenFoodGPerDay: frozen,
    screen: area && screenOf(wish, area, now),
    habit: { areaM2: habitArea, carried: perM2 && { low: habitArea.low * perM2.low, value: habitArea.value * perM2.middle, high: habitArea.high * perM2.high } },
    intervalDays: usualInterval,
    areaAtFood: Array.from({ length: PICTURE_STEPS + 1 }, (_, step) => areaAt(wish, (2 * step) / PICTURE_STEPS, light, foodGPerDay)),
  };
}

/** Grams of frozen food that one gram of a food counts as in the habit: itself, or by its dry matter when it is a dry food. */
export function frozenEqual(food: Food): number {
  const water = food.waterPercent?.value ?? SIZING.frozenWater.value;
  return water >= 50 ? 1 : (100 - water) / (100 - SIZING.frozenWater.value);
}

/** How far off a triangular figure is, as a share of its mean. */
export const relativeU = (quantity: Uncertain): number => quantity.u / expectation(quantity);

function screenOf(wish: ScreenWish, area: AreaRange, now: Loads): PlannedScreen {
  const { litSides, sheetWidthCm: widthCm } = wish;
  const wholeHeightCm = (area.middle / (litSides * (widthCm / 100))) * 100;
  const count = Math.max(1, Math.ceil(wholeHeightCm / SIZING.tallestSheet.value));
  const watts = wattsNeeded(area.middle, wish.lightUmolPerM2S);
  const kWh = (power: number): number => lampKWh(power, wish.hoursPerDay, 7);
  return {
    area,
    sheets: { count, widthCm, heightCm: wholeHeightCm / count, litSides },
    watts,
    kWhAWeek: { low: kWh(watts.low), value: kWh(watts.value), high: kWh(watts.high) },
    flowLPerH: flowNeededLPerH(widthCm, count),
    harvestDrainedGAWeek: harvestAWeek(now),
  };
}

/** Lamps for a light on an area, W: light x area / (efficacy x share that reaches the screen); the limits with both at their best and worst. */
export function wattsNeeded(litAreaM2: number, lightUmolPerM2S: number): Ranged {
  const { lampEfficacy: efficacy, lightReaching: reaching } = PRACTICE;
  const light = litAreaM2 * lightUmolPerM2S;
  return { low: light / (efficacy.high * reaching.high), value: light / (efficacy.value * reaching.value), high: light / (efficacy.low * reaching.low) };
}

/**
 * Drained algae that holds the load of a week, g: load x 7 / tissue share / dry fraction, for the nutrient that asks for more algae.
 * Means of the triangular spreads; the 10 and 90 % points to first order (JCGM 100:2008, 5.1.6, for a product), as a log-normal.
 */
function harvestAWeek({ loads, loadShare }: Loads): Ranged {
  const [most] = NUTRIENTS.map((nutrient) => ({ dryG: loads[nutrient].left.value / expectation(TISSUE[nutrient]), tissue: TISSUE[nutrient] })).sort((a, b) => b.dryG - a.dryG);
  const value = ((most?.dryG ?? 0) * 7) / expectation(DRY);
  const spread = Math.exp(TENTH_POINT * Math.hypot(loadShare / Math.sqrt(3), relativeU(most?.tissue ?? TISSUE.N), relativeU(DRY)));
  return { low: value / spread, value, high: value * spread };
}

interface Loads {
  readonly loads: Record<Nutrient, PlannedLoad>;
  readonly loadShare: number;
}

/** The loads at a multiple of the food. The share by which the rest may be off belongs to the nutrient that asks for more algae. */
function loadsAt(wish: ScreenWish, times: number): Loads {
  const parts = NUTRIENTS.map((nutrient) => {
    const { value, u } = fedGPerDay(wish, nutrient, times);
    const changes = changesGPerDay(wish, nutrient);
    return { nutrient, value, u, changes, left: Math.max(0, value - changes) };
  });
  const [rules] = [...parts].sort((a, b) => b.left / expectation(TISSUE[b.nutrient]) - a.left / expectation(TISSUE[a.nutrient]));
  const off = rules && rules.left > 0 ? (Math.sqrt(3) * rules.u) / rules.left : 0;
  const loadShare = Math.min(MOST_LOAD_SHARE, Math.ceil(100 * off - 1e-9) / 100);
  const loadOf = ({ value, u, changes, left }: (typeof parts)[number]): PlannedLoad => ({
    fed: { low: Math.max(0, value - Math.sqrt(3) * u), value, high: value + Math.sqrt(3) * u },
    changes,
    left: { low: left * (1 - loadShare), value: left, high: left * (1 + loadShare) },
  });
  const [n, p] = parts.map(loadOf) as [PlannedLoad, PlannedLoad];
  return { loads: { N: n, P: p }, loadShare };
}

/** Feed load with its standard uncertainty: content of each food, weighing, and what the animals keep (JCGM 100:2008, 5.1.2). */
function fedGPerDay({ foods, retainedShare }: ScreenWish, nutrient: Nutrient, times: number): { value: number; u: number } {
  let [mass, variance] = [0, 0];
  for (const { food, gPerDay } of foods) {
    const content = foodContent(food, nutrient);
    const grams = gPerDay * times;
    mass += grams * content.value;
    variance += (grams * content.u) ** 2 + (grams * content.value * BUDGET_DEFAULT.feedShare.value) ** 2 / 3;
  }
  const { value, low, high } = BUDGET_DEFAULT.retained;
  const retained = triangular({ low: Math.max(0, retainedShare + low - value), value: retainedShare, high: Math.min(1, retainedShare + high - value) });
  return { value: mass * (1 - retainedShare), u: Math.hypot(Math.sqrt(variance) * (1 - retainedShare), mass * retained.u) };
}

/** What the water changes take out at the target, g a day: changed litres x target. */
function changesGPerDay(wish: ScreenWish, nutrient: Nutrient): number {
  const target = targetMgPerL(wish, nutrient);
  return target === null ? 0 : (wish.volumeL * wish.changedShareAWeek * target) / 7 / 1000;
}

/** mg of the element per litre. */
function targetMgPerL({ targetNO3MgPerL, targetPO4MgPerL }: ScreenWish, nutrient: Nutrient): number | null {
  const [target, form] = nutrient === "N" ? ([targetNO3MgPerL, "NO3"] as const) : ([targetPO4MgPerL, "PO4"] as const);
  return target === null ? null : target * elementMgPerL({ unit: "mg/L", form });
}

const caseOf = (wish: ScreenWish, { loads, loadShare }: Loads, lightMolPerM2Day: number): SizingCase => ({
  loadNGPerDay: loads.N.left.value,
  loadPGPerDay: loads.P.left.value,
  loadShare,
  lightMolPerM2Day,
  targetNMgPerL: targetMgPerL(wish, "N"),
  targetPMgPerL: targetMgPerL(wish, "P"),
  temperatureC: wish.temperatureC,
  setting: wish.setting,
});

function areaAt(wish: ScreenWish, times: number, light: number, foodGPerDay: number): AreaAtFood {
  const then = loadsAt(wish, times);
  const food = { foodGPerDay: foodGPerDay * times };
  if (NUTRIENTS.every((nutrient) => then.loads[nutrient].left.value === 0)) return { ...food, area: { low: 0, value: 0, high: 0 } };
  const { low, middle, high } = areaNeeded(caseOf(wish, then, light), PICTURE_DRAWS, SEED);
  return { ...food, area: { low, value: middle, high } };
}

const usualInterval: Ranged = (() => {
  const { lowDays: low, highDays: high } = usualIntervalRange();
  return { low, value: harvestInterval(usualRegrowth).bestDays, high };
})();
