import type { FeedEntry, HarvestEntry, Log, ReadingEntry, ReadingSeries, ScreenUnit, SetUp, VolumeEntry } from "../../src/science/budget/log";
import type { Food } from "../../src/science/constants/foods";
import { exact, rectangular, triangular, type Uncertain } from "../../src/science/uncertain";

/**
 * An invented tank of 100 L with round figures, for accounts that are worked by hand: 1 g of its food carries 0.08 g N and 0.01 g P,
 * the animals keep a tenth, drained algae are dry to a twentieth and hold 4 % N and 0.4 % P of that.
 */
export const PELLETS: Food = {
  name: "Invented pellets", waterPercent: null, factor: 6.25, portionG: null, proteinMark: "judgement", phosphorusMark: "judgement", source: "judgement", locator: "",
  proteinPercent: { value: 50, low: 40, high: 60 }, phosphorusMgPer100g: { value: 1000, low: 800, high: 1200 },
};
export const FLAKES: Food = { ...PELLETS, name: "Invented flakes", proteinPercent: { value: 25, low: 20, high: 30 }, phosphorusMgPer100g: { value: 500, low: 400, high: 600 } };

export const feed = (day: number, massG: number, food = PELLETS): FeedEntry => ({ day, row: day + 2, massG, food });
export const harvest = (day: number, drainedG: number, more: Partial<HarvestEntry> = {}): HarvestEntry => ({ day, row: day + 2, unit: 0, drainedG, draining: "drained", fedBackShare: 0, ...more });
export const volume = (day: number, litres: number): VolumeEntry => ({ day, row: day + 2, litres });
export const grams = (day: number, amount: number) => ({ day, row: day + 2, grams: amount });

export function reading(day: number, value: number, half = 0.5, censored: "no" | "below" | "above" = "no"): ReadingEntry {
  if (censored === "above") return { day, row: day + 2, reading: { value, low: value, high: Infinity, u: Infinity, censored } };
  return { day, row: day + 2, reading: { value, low: value - half, high: value + half, u: half / Math.sqrt(3), censored } };
}

export const series = (name: string, entries: readonly ReadingEntry[], more: Partial<ReadingSeries> = {}): ReadingSeries => ({ name, isMain: true, entries, kitScale: exact(1), incomingMgPerL: exact(0), ...more });

export const screen = (more: Partial<ScreenUnit> = {}): ScreenUnit => ({
  name: "", litAreaM2: 0.1, dryFraction: { drained: rectangular(0.04, 0.06), pressed: rectangular(0.08, 0.12) }, tissue: rectangular(0.03, 0.05),
  startedDay: null, umolPerM2S: null, hoursPerDay: null, watts: null, ...more,
});

export const setUpOf = (more: Partial<SetUp> = {}): SetUp => ({
  volumeL: rectangular(95, 105), retainedShare: triangular({ low: 0, value: 0.1, high: 0.2 }), units: [screen()], topUpMgPerL: exact(0),
  usual: { ph: null, temperatureC: null, salinity: null }, feedShare: 0.1, harvestShare: 0.05, changeShare: 0.05, periodUnit: 0, ...more,
});

export const logOf = (more: Partial<Log> = {}): Log => ({
  nutrient: "N", firstDay: 0, lastDay: 20, calendarOffset: 0, feeds: [], series: [], harvests: [], changes: [], topUps: [], otherIn: [], otherOut: [],
  bad: [], light: [], conditions: [], unusable: [], rows: [], ...more,
});

/** The same keeper's tank read for phosphorus: a tenth of the tissue content. */
export const forPhosphorus = (setUp: SetUp): SetUp => ({ ...setUp, units: setUp.units.map((unit) => ({ ...unit, tissue: tenth(unit.tissue) })) });
const tenth = ({ value, low, high, u, shape }: Uncertain): Uncertain => ({ value: value / 10, low: low / 10, high: high / 10, u: u / 10, shape });
