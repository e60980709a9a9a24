import { FOODS } from "../../science/constants/foods";
import { findFood, foodTable } from "../../science/feed";
import { lightDailyMolPerM2 } from "../../science/light";
import { numberFromText } from "../../science/number-text";
import { Problem } from "../../science/problem";
import type { ScreenWish } from "../../science/sizing-plan";
import { science } from "../../words/science";
import { size as words } from "../../words/size";
import { DIMENSION, FIELDS, type FieldName, foodRows, settingOf, type SizeForm, type Typed, usualText } from "./size-form";
import { type Dimension, fromMetric, plain, toMetric } from "./units";

/** What the form says: a wish to plan from, or what is wrong, each sentence at its box. */
export interface ReadForm {
  readonly wish: ScreenWish | null;
  readonly fields: Readonly<Partial<Record<FieldName, string>>>;
  /** By the row's id. */
  readonly amounts: Readonly<Record<number, string>>;
  /** Of the food list as a whole. */
  readonly foods: string | null;
}

interface Limits {
  readonly least: number;
  readonly most: number;
  /** The least itself is refused. */
  readonly open?: boolean;
  /** May be left empty. */
  readonly optional?: boolean;
}

/** In metric units; within what the worksheet functions take, so that the sheet can say what the pane says. */
const LIMITS: Readonly<Record<FieldName, Limits>> = {
  volume: { least: 0, most: 10_000_000, open: true },
  changed: { least: 0, most: 700 },
  no3: { least: 0, most: 1000, open: true, optional: true },
  po4: { least: 0, most: 100, open: true, optional: true },
  temperature: { least: 5, most: 35 },
  light: { least: 0, most: 5000, open: true },
  hours: { least: 0, most: 24, open: true },
  width: { least: 0, most: 2000, open: true },
  retained: { least: 0, most: 90 },
};
const AMOUNT: Limits = { least: 0, most: 1_000_000 };
const MOST_LIGHT_SUM = 80;
const TABLE = foodTable(FOODS);

export function readForm(form: SizeForm): ReadForm {
  const fields: Partial<Record<FieldName, string>> = {};
  const values = {} as Record<FieldName, number | null>;
  for (const field of FIELDS) {
    const name = words.form.fields[field];
    values[field] = reading(form.typed[field] ?? { text: usualText(form, field), units: form.units }, form, DIMENSION[field], unitOf(field, form), LIMITS[field], name, usualText(form, field), (sentence) => {
      fields[field] = sentence;
    });
  }
  for (const field of ["no3", "po4"] as const) {
    if (values[field] === null && !fields[field] && (values.changed ?? 0) > 0) fields[field] = words.problem.targetForChanges(words.form.fields[field]);
  }
  const lightSum = lightDailyMolPerM2(values.light ?? 0, values.hours ?? 0);
  if (lightSum > MOST_LIGHT_SUM) fields.light = words.problem.lightSum(plain(lightSum, 3), MOST_LIGHT_SUM);

  const amounts: Record<number, string> = {};
  const foods = foodRows(form).map((row, place) => {
    const gPerDay = reading(row.amount, form, "mass", words.form.unit.mass[form.units], AMOUNT, words.form.amount(place + 1), "2", (sentence) => {
      amounts[row.id] = sentence;
    });
    return { food: findFood(row.name, TABLE), gPerDay: gPerDay ?? 0 };
  });
  const fed = foods.some(({ gPerDay }) => gPerDay > 0);
  const foodsProblem = !fed && Object.keys(amounts).length === 0 ? words.problem.nothingFed : null;
  const good = foodsProblem === null && Object.keys(fields).length + Object.keys(amounts).length === 0;
  return { wish: good ? wishOf(form, values, foods) : null, fields, amounts, foods: foodsProblem };
}

export const problemCount = ({ fields, amounts, foods }: ReadForm): number => Object.keys(fields).length + Object.keys(amounts).length + (foods === null ? 0 : 1);

/** What stands beside a box. */
export function unitOf(field: FieldName, { units }: SizeForm): string {
  const { unit } = words.form;
  const fixed: Readonly<Partial<Record<FieldName, string>>> = { changed: unit.percent, retained: unit.percent, no3: unit.no3, po4: unit.po4, light: unit.light, hours: unit.hours };
  const dimension = DIMENSION[field];
  return fixed[field] ?? (dimension === "none" || dimension === "mass" ? "" : unit[dimension][units]);
}

/** The metric value of one box; null when it is blank and may be, or when it is wrong and that was told. */
function reading(typed: Typed, { units }: SizeForm, dimension: Dimension, unit: string, limits: Limits, name: string, example: string, wrong: (sentence: string) => void): number | null {
  if (typed.text.trim() === "") {
    if (!limits.optional) wrong(words.problem.blank(name, example));
    return null;
  }
  try {
    const written = numberFromText(typed.text);
    if (written === null) throw new Problem("value", science.notANumber(name, typed.text.trim()));
    const value = toMetric(written, dimension, typed.units);
    if (limits.open && value <= limits.least) throw new Problem("value", words.problem.belowOrZero(name));
    if (value < limits.least || value > limits.most) {
      const shown = (metric: number): number => Number(plain(fromMetric(metric, dimension, units), 4));
      throw new Problem("value", science.outOfRange(name, shown(limits.least), shown(limits.most), unit, shown(value)));
    }
    return value;
  } catch (error) {
    if (!(error instanceof Problem)) throw error;
    wrong(error.message);
    return null;
  }
}

function wishOf(form: SizeForm, values: Readonly<Record<FieldName, number | null>>, foods: ScreenWish["foods"]): ScreenWish {
  const given = (field: FieldName): number => values[field] ?? 0;
  return {
    foods: foods.filter(({ gPerDay }) => gPerDay > 0),
    retainedShare: given("retained") / 100,
    volumeL: given("volume"),
    changedShareAWeek: given("changed") / 100,
    targetNO3MgPerL: values.no3,
    targetPO4MgPerL: values.po4,
    temperatureC: given("temperature"),
    setting: settingOf(form),
    lightUmolPerM2S: given("light"),
    hoursPerDay: given("hours"),
    sheetWidthCm: given("width"),
    litSides: form.sides,
  };
}
