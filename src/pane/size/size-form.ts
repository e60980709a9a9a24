import type { Setting } from "../../science/constants/algae";
import { FOODS } from "../../science/constants/foods";
import { BUDGET_DEFAULT } from "../../science/constants/practice";
import { SIZING_START, type SizingStart, type WaterKind } from "../../science/constants/sizing-start";
import { type Dimension, fromMetric, plain, toMetric, type Units } from "./units";

/** A text as it was typed, with the units that stood beside the box then: another choice of units shows it converted and loses nothing. */
export interface Typed {
  readonly text: string;
  readonly units: Units;
}

export const FIELDS = ["volume", "changed", "no3", "po4", "temperature", "light", "hours", "width", "retained"] as const;
export type FieldName = (typeof FIELDS)[number];

export interface FoodRow {
  readonly id: number;
  readonly name: string;
  readonly amount: Typed;
}

/** What a person chose and typed; what is absent is the usual value of the water. */
export interface SizeForm {
  readonly water: WaterKind;
  readonly units: Units;
  readonly typed: Readonly<Partial<Record<FieldName, Typed>>>;
  /** Null until the foods are touched. */
  readonly foods: readonly FoodRow[] | null;
  readonly setting: Setting | null;
  readonly sides: 1 | 2;
}

export const EMPTY_FORM: SizeForm = { water: "marine", units: "metric", typed: {}, foods: null, setting: null, sides: 2 };

export const DIMENSION: Readonly<Record<FieldName, Dimension>> = {
  volume: "volume",
  changed: "none",
  no3: "none",
  po4: "none",
  temperature: "temperature",
  light: "none",
  hours: "none",
  width: "length",
  retained: "none",
};

const START: Readonly<Record<FieldName, (start: SizingStart) => number>> = {
  volume: ({ volumeL }) => volumeL,
  changed: ({ changedPercentAWeek }) => changedPercentAWeek,
  no3: ({ targetNO3MgPerL }) => targetNO3MgPerL,
  po4: ({ targetPO4MgPerL }) => targetPO4MgPerL,
  temperature: ({ temperatureC }) => temperatureC,
  light: ({ lightUmolPerM2S }) => lightUmolPerM2S,
  hours: ({ hoursPerDay }) => hoursPerDay,
  width: ({ sheetWidthCm }) => sheetWidthCm,
  retained: () => 100 * BUDGET_DEFAULT.retained.value,
};

const USUAL_DIGITS = 2;
const CONVERTED_DIGITS = 4;

/** The text of a box: as typed, converted when the units have changed since, or the usual value of the water. */
export function shownText(form: SizeForm, field: FieldName): string {
  const typed = form.typed[field];
  return typed ? inUnits(typed, DIMENSION[field], form.units) : usualText(form, field);
}

/** What a box holds until something is typed; also the example that a blank box is told with. */
export const usualText = ({ water, units }: SizeForm, field: FieldName): string =>
  plain(fromMetric(START[field](SIZING_START[water]), DIMENSION[field], units), field === "temperature" ? 3 : USUAL_DIGITS);

export function inUnits({ text, units: then }: Typed, dimension: Dimension, units: Units): string {
  const value = /^\s*-?\d*[.,]?\d+\s*$/.test(text) ? Number(text.replace(",", ".")) : NaN;
  if (then === units || dimension === "none" || Number.isNaN(value)) return text;
  return plain(fromMetric(toMetric(value, dimension, then), dimension, units), CONVERTED_DIGITS);
}

export const settingOf = ({ setting, water }: SizeForm): Setting => setting ?? SIZING_START[water].setting;

export function foodRows({ foods, water, units }: SizeForm): readonly FoodRow[] {
  if (foods) return foods;
  return SIZING_START[water].foods.map(({ name, gPerDay }, place) => ({ id: place, name, amount: { text: plain(fromMetric(gPerDay, "mass", units), USUAL_DIGITS), units } }));
}

export type SizeAction =
  | { readonly type: "water"; readonly water: WaterKind }
  | { readonly type: "units"; readonly units: Units }
  | { readonly type: "field"; readonly field: FieldName; readonly text: string }
  | { readonly type: "setting"; readonly setting: Setting }
  | { readonly type: "sides"; readonly sides: 1 | 2 }
  | { readonly type: "food"; readonly id: number; readonly name: string }
  | { readonly type: "amount"; readonly id: number; readonly text: string }
  | { readonly type: "add" }
  | { readonly type: "remove"; readonly id: number };

export function sizeReducer(form: SizeForm, action: SizeAction): SizeForm {
  const rows = foodRows(form);
  const changeRow = (id: number, change: Partial<FoodRow>): SizeForm => ({ ...form, foods: rows.map((row) => (row.id === id ? { ...row, ...change } : row)) });
  switch (action.type) {
    case "water":
      return { ...form, water: action.water };
    case "units":
      return { ...form, units: action.units };
    case "field":
      return { ...form, typed: { ...form.typed, [action.field]: { text: action.text, units: form.units } } };
    case "setting":
      return { ...form, setting: action.setting };
    case "sides":
      return { ...form, sides: action.sides };
    case "food":
      return changeRow(action.id, { name: action.name });
    case "amount":
      return changeRow(action.id, { amount: { text: action.text, units: form.units } });
    case "add":
      return { ...form, foods: [...rows, { id: nextId(rows), name: unused(rows), amount: { text: "", units: form.units } }] };
    case "remove":
      return { ...form, foods: rows.filter(({ id }) => id !== action.id) };
  }
}

const nextId = (rows: readonly FoodRow[]): number => Math.max(-1, ...rows.map(({ id }) => id)) + 1;

/** A new row begins with a food that stands in no other row. */
function unused(rows: readonly FoodRow[]): string {
  const taken = new Set(rows.map(({ name }) => name));
  return (FOODS.find(({ name }) => !taken.has(name)) ?? FOODS[0])?.name ?? "";
}
