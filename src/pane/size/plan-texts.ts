import type { Ranged } from "../../science/constants/foods";
import type { ScreenPlan, ScreenWish } from "../../science/sizing-plan";
import { size as words } from "../../words/size";
import { sizing } from "../../words/sizing";
import { areaUnit, fromMetric, plain, type Units } from "./units";

/** A plan in words and figures of the units chosen. */
export interface PlanTexts {
  readonly headline: string;
  readonly likely: string;
  readonly why: readonly string[];
  readonly habit: readonly string[];
  readonly figures: readonly Figure[];
}

/** One line of the hardware and the harvest: the likely figure, and below it the range. */
export interface Figure {
  readonly name: string;
  readonly text: string;
  readonly range: string;
}

/** Shares of a spread below this are not worth a word; at most so many are named. */
const NAMED_DRIVER = 0.05;
const NAMED_DRIVERS = 3;

/** Two digits: more would promise what the ranges do not hold. */
const two = (value: number): string => plain(value, 2);
const grams = (value: number): string => (value < 1 ? `${two(1000 * value)} mg` : `${two(value)} g`);

export function planTexts(wish: ScreenWish, plan: ScreenPlan, units: Units): PlanTexts {
  const { screen } = plan;
  return {
    ...headlineOf(plan, units),
    why: whyOf(wish, plan),
    habit: habitOf(plan, units),
    figures: screen ? figuresOf(wish, plan, screen, units) : [],
  };
}

function headlineOf({ screen }: ScreenPlan, units: Units): { headline: string; likely: string } {
  if (!screen) return { headline: words.answer.noScreen, likely: words.answer.noScreenWhy };
  const { low, middle, high } = screen.area;
  const { name, perM2 } = areaUnit(high, units);
  const { count, widthCm, heightCm, litSides } = screen.sheets;
  const length = (cm: number): string => two(fromMetric(cm, "length", units));
  const sheets = words.answer.sheets(count, length(widthCm), length(heightCm), words.form.unit.length[units], litSides);
  return { headline: words.answer.range(two(low * perM2), two(high * perM2), name), likely: words.answer.likely(two(middle * perM2), name, sheets) };
}

function whyOf({ changedShareAWeek }: ScreenWish, { loads: { N, P }, screen }: ScreenPlan): string[] {
  const load = words.why.load(grams(N.fed.value), grams(P.fed.value));
  const changes = changedShareAWeek > 0 ? [words.why.changes(grams(N.changes), grams(P.changes))] : [];
  if (!screen) return [load, ...changes];
  const drivers = screen.area.drivers.filter(({ share }) => share >= NAMED_DRIVER).slice(0, NAMED_DRIVERS);
  const named = drivers.map(({ input, share }) => ({ what: sizing.input[input], share }));
  return [load, ...changes, `${sizing.rules(screen.area.nitrogenRules)} ${sizing.drivers(named)}`, words.why.range];
}

function habitOf({ habit: { areaM2, carried } }: ScreenPlan, units: Units): string[] {
  const { name, perM2 } = areaUnit(areaM2.high, units);
  const area = words.habit.area(two(areaM2.low * perM2), two(areaM2.high * perM2), name);
  if (!carried) return [area];
  return [area, words.habit.carries(carried.low, carried.high), carried.value < 1 ? words.habit.gap : words.habit.noGap];
}

function figuresOf(wish: ScreenWish, plan: ScreenPlan, screen: NonNullable<ScreenPlan["screen"]>, units: Units): Figure[] {
  const { figures } = words;
  const flowed = (litres: number): string => two(fromMetric(litres, "volume", units));
  const weighed = (grams: number): string => two(fromMetric(grams, "mass", units));
  const days = (value: number): string => String(Math.round(value));
  const figure = (name: string, { low, value, high }: Ranged, unit: string, show: (value: number) => string = two): Figure => ({
    name,
    text: figures.about(show(value), unit),
    range: figures.range(show(low), show(high), unit),
  });
  const { low, high } = screen.flowLPerH;
  return [
    { name: figures.light, text: figures.lightText(plain(wish.lightUmolPerM2S, 3)), range: figures.lightSum(plain(wish.hoursPerDay, 3), plain(plan.lightMolPerM2Day, 3)) },
    figure(figures.watts, screen.watts, "W"),
    figure(figures.energy, screen.kWhAWeek, figures.energyUnit),
    { name: figures.flow, text: figures.range(flowed(low), flowed(high), figures.flowUnit[units]), range: figures.flowOver(screen.sheets.count) },
    figure(figures.harvest, screen.harvestDrainedGAWeek, figures.harvestUnit[units], weighed),
    figure(figures.interval, plan.intervalDays, figures.intervalUnit, days),
  ];
}
