import type { Food } from "../constants/foods";
import type { Draining } from "../harvest";
import type { Nutrient } from "../nutrient-forms";
import type { Reading } from "../reading";
import type { Uncertain } from "../uncertain";

/** Days are Excel serial dates; a part of a day is the time. `row` is the row of the keeper's range, the heading row being 1. */
interface Entry {
  readonly day: number;
  readonly row: number;
}

export interface FeedEntry extends Entry {
  readonly food: Food;
  readonly massG: number;
}

/** A reading as mg of the element per litre. */
export interface ReadingEntry extends Entry {
  readonly reading: Reading;
}

export interface HarvestEntry extends Entry {
  /** Place of the screen in `SetUp.units`. */
  readonly unit: number;
  readonly drainedG: number;
  readonly draining: Draining;
  readonly fedBackShare: number;
}

export interface VolumeEntry extends Entry {
  readonly litres: number;
}

/** Grams of the element that came in or went out by another way. */
export interface MassEntry extends Entry {
  readonly grams: number;
}

/** A change of the lamps, in force until the next one: light, hours lit a day, share of full light (dimming). Null: as before. */
export interface LightEntry extends Entry {
  /** Place of the screen in `SetUp.units`, or null for all screens. */
  readonly unit: number | null;
  readonly umolPerM2S: number | null;
  readonly hoursPerDay: number | null;
  readonly level: number | null;
}

/** What a row says of the water besides its nutrients. */
export interface ConditionEntry extends Entry {
  readonly ph: number | null;
  readonly temperatureC: number | null;
  readonly salinity: number | null;
}

/** One dated row of the keeper's range. `sameAs`: an earlier row of the same day with the same figures. */
export interface RowEntry extends Entry {
  readonly sameAs: number | null;
}

/** A cell that could not be used; the period in which it lies gets no figures. */
export interface BadEntry extends Entry {
  /** What the column holds. */
  readonly about: "feed" | "harvest" | "water" | "reading" | "other" | "light" | "condition";
  readonly sentence: string;
}

/** One test's readings, such as nitrate or nitrite; all series of a nutrient add up to what the water holds. */
export interface ReadingSeries {
  readonly name: string;
  /** Whether it is most of what the water holds (nitrate, phosphate): without it nothing can be said of the store. */
  readonly isMain: boolean;
  readonly entries: readonly ReadingEntry[];
  /** The kit's own scale, the same in all its readings; its value is 1. */
  readonly kitScale: Uncertain;
  /** What the new water of a change carries of it. */
  readonly incomingMgPerL: Uncertain;
}

/** A keeper's log of one tank or pond for one nutrient, each list in order of day. */
export interface Log {
  readonly nutrient: Nutrient;
  readonly firstDay: number;
  readonly lastDay: number;
  /** Days to add to reach the 1900 date system: 0, or 1,462 in a workbook of the 1904 system. */
  readonly calendarOffset: number;
  readonly feeds: readonly FeedEntry[];
  readonly series: readonly ReadingSeries[];
  readonly harvests: readonly HarvestEntry[];
  readonly changes: readonly VolumeEntry[];
  readonly topUps: readonly VolumeEntry[];
  readonly otherIn: readonly MassEntry[];
  readonly otherOut: readonly MassEntry[];
  readonly bad: readonly BadEntry[];
  readonly light: readonly LightEntry[];
  readonly conditions: readonly ConditionEntry[];
  /** Cells of light and of conditions that could not be used: the budget does not need them. */
  readonly unusable: readonly BadEntry[];
  /** The rows in the order in which they stand. */
  readonly rows: readonly RowEntry[];
}

/** One lit screen. */
export interface ScreenUnit {
  readonly name: string;
  readonly litAreaM2: number | null;
  readonly dryFraction: Readonly<Record<Draining, Uncertain>>;
  readonly tissue: Uncertain;
  /** Day on which the screen began clean; null: the first day of the log. */
  readonly startedDay: number | null;
  /** Full light on the lit area, hours lit a day, and electric power of the lamps, where they are stated. */
  readonly umolPerM2S: number | null;
  readonly hoursPerDay: number | null;
  readonly watts: number | null;
}

/** What does not change from row to row. Concentrations are mg of the element per litre. */
export interface SetUp {
  readonly volumeL: Uncertain;
  readonly retainedShare: Uncertain;
  readonly units: readonly ScreenUnit[];
  readonly topUpMgPerL: Uncertain;
  /** The usual salinity, temperature and pH, for rows that do not say. */
  readonly usual: Omit<ConditionEntry, keyof Entry>;
  /** Half-widths, as shares, of one weighed feed, one drained weight, one changed volume. */
  readonly feedShare: number;
  readonly harvestShare: number;
  readonly changeShare: number;
  /** Unit whose harvests bound the periods. */
  readonly periodUnit: number;
}
