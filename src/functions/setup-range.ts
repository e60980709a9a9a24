import { functions } from "../words/functions";
import { log as words } from "../words/log";
import { ALGAE } from "../science/constants/algae";
import { BUDGET_DEFAULT } from "../science/constants/practice";
import type { ReadingSeries, ScreenUnit, SetUp } from "../science/budget/log";
import { mostTissue, usualTissue } from "../science/harvest";
import { elementMgPerL, formNamed, formsOf, nutrientOf, parseBasis, substanceOf, type Form, type Nutrient, type WaterState } from "../science/nutrient-forms";
import { Problem } from "../science/problem";
import { parseKit, parseReading, type Kit } from "../science/reading";
import { exact, rectangular, triangular, withinShare, type Uncertain } from "../science/uncertain";
import { cellsOf, isBlank, numberIn, shareWithin, textIn, within, type Cell, type Limits } from "./arguments";
import { isCellError } from "./cell-error";
import { DAYS_1904, serialOf } from "./dates";
import { lampsFrom, usualConditionsFrom } from "./log-conditions";
import { distance, splitHeading, volume } from "./log-headings";

interface Row {
  readonly key: string;
  readonly unit: string;
  readonly cell: Cell;
}

const ALL_FORMS: readonly Form[] = ["N", "NO3", "NO3-N", "NO2", "NO2-N", "NH3", "NH3-N", "NH4", "NH4-N", "P", "PO4", "PO4-P", "P2O5"];

/** One set-up serves both budgets, so rows that belong to the other nutrient are known too. */
const KEYS_OF_EITHER_NUTRIENT: readonly string[] = [
  ...ALL_FORMS.flatMap((form) => [`${form} kit steps`, `${form} kit error`, `new water ${form}`, `top-up ${form}`]).map((key) => key.toLowerCase()),
];

/** The rows of a two-column set-up range, looked up by their words without regard to case; the unit stands in brackets. */
export class SetUpRows {
  private readonly rows = new Map<string, Row>();
  private readonly asked = new Set<string>();

  constructor(given: unknown) {
    const cells = cellsOf(given);
    if (cells.some((row) => row.length < 2)) throw new Problem("value", words.setUpTwoColumns);
    for (const [key, value] of cells) {
      if (isBlank(key) || isBlank(value)) continue;
      const { name, unit } = splitHeading(String(key));
      const plain = name.toLowerCase();
      if (this.rows.has(plain)) throw new Problem("value", words.setUpTwice(name));
      this.rows.set(plain, { key: name, unit, cell: value });
    }
  }

  find(...keys: string[]): Row | null {
    for (const key of keys) this.asked.add(key.trim().toLowerCase());
    for (const key of keys) {
      const row = this.rows.get(key.trim().toLowerCase());
      if (row) return row;
    }
    return null;
  }

  /** Reads one row, and says which row it was when it cannot be used. */
  read<T>(keys: string[], take: (row: Row) => T): T | null {
    const row = this.find(...keys);
    if (!row) return null;
    if (isCellError(row.cell)) throw row.cell;
    try {
      return take(row);
    } catch (error) {
      throw error instanceof Problem ? new Problem(error.kind, words.setUpRow(row.key, error.message)) : error;
    }
  }

  number(keys: string[], limits: Limits): number | null {
    return this.read(keys, (row) => within(row.key, numberIn(row.key, row.cell), limits));
  }

  share(keys: string[], most: number): number | null {
    return this.read(keys, (row) => {
      const value = numberIn(row.key, row.cell);
      if (!/^(%|per ?cent)$/i.test(row.unit)) return shareWithin(row.key, value, most);
      // Under a per cent sign 5 and a cell formatted 5% (0.05) are the same; 1 alone could be either.
      if (value === 1) throw new Problem("value", words.shareOrPerCent);
      return shareWithin(row.key, value > 1 ? value / 100 : value, most);
    });
  }

  text(keys: string[]): string | null {
    return this.read(keys, (row) => textIn(row.key, row.cell));
  }

  /** Refuses a row that looks like a slip of one that was asked for, so that a setting is never dropped unseen. */
  refuseSlips(): void {
    const known = new Set([...this.asked, ...KEYS_OF_EITHER_NUTRIENT]);
    for (const [plain, { key }] of this.rows) {
      if (known.has(plain)) continue;
      const near = [...known].find((word) => word.length > 5 && distance(plain, word) <= 2);
      if (near) throw new Problem("value", words.setUpRow(key, words.perhapsMeant(key, `"${near}"`)));
    }
  }

  screensNamed(word: string): string[] {
    return [...this.rows.values()].filter((row) => row.key.toLowerCase().startsWith(`${word} `)).map((row) => row.key.slice(word.length + 1).trim());
  }
}

/** Salinity and temperature, for readings in mg/kg. */
export function waterStateFrom(rows: SetUpRows): WaterState | undefined {
  const salinity = rows.number(["salinity"], { most: 42, unit: "" });
  const temperatureC = rows.number(["temperature"], { least: -2, most: 40, unit: functions.units.celsius });
  return salinity === null || temperatureC === null ? undefined : { salinity, temperatureC };
}

export function calendarOffsetFrom(rows: SetUpRows): number {
  const system = rows.read(["date system"], (row) => numberIn(row.key, row.cell));
  if (system === null || system === 1900) return 0;
  if (system === 1904) return DAYS_1904;
  throw new Problem("value", words.unknownDateSystem(system));
}

type TestFacts = Pick<ReadingSeries, "kitScale" | "incomingMgPerL"> & { readonly kit: Kit | undefined };

/** What the set-up says of one test: the kit's steps and scale, and what the new water carries (mg of the element per litre). */
export function testFrom(rows: SetUpRows, form: Form, factorToElement: number): TestFacts {
  const kit = rows.read([`${form} kit steps`], (row) => parseKit([typeof row.cell === "number" ? row.cell : textIn(row.key, row.cell)])) ?? undefined;
  const substance = formsOf(substanceOf(form));
  if (!kit) {
    const other = substance.map((one) => rows.find(`${one} kit steps`)).find((row) => row !== null);
    if (other) throw new Problem("value", words.setUpRow(other.key, words.kitOfOtherForm(other.key, form)));
  }
  const usual = kit ? BUDGET_DEFAULT.kitScale.value : BUDGET_DEFAULT.kitShare.value;
  const kitShare = rows.share([form, ...substance].map((one) => `${one} kit error`), 1) ?? usual;
  // New water that is stated as NO3 counts for a log in NO3-N too; each form has its own factor.
  const forms = form === "N" ? ALL_FORMS.filter((one) => nutrientOf(one) === "N") : substance;
  const incomingMgPerL = statedInAll(rows, "new water", forms, (one) => (one === form ? factorToElement : elementMgPerL({ unit: "mg/L", form: one })));
  return { kit, kitScale: withinShare(1, kitShare), incomingMgPerL };
}

/** What a water carries by the set-up, over all forms of a nutrient, mg of the element per litre; nothing stated is nothing. @throws Problem when one substance is stated twice */
function statedInAll(rows: SetUpRows, word: string, forms: readonly Form[], factorOf: (form: Form) => number): Uncertain {
  const stated = forms.flatMap((form) => {
    const key = `${word} ${form}`;
    const carried = concentrationFrom(rows, [key], form, factorOf(form));
    return carried ? [{ key, substance: substanceOf(form), carried }] : [];
  });
  for (const { key, substance } of stated) {
    const other = stated.find((one) => one.key !== key && (one.substance === substance || one.substance === "total nitrogen"));
    if (other) throw new Problem("value", words.setUpSameSubstance(key, other.key));
  }
  return rectangular(sum(stated.map(({ carried }) => carried.low)), sum(stated.map(({ carried }) => carried.high)));
}

/** A concentration that the keeper states: a number is taken as it is, a text such as <0.2 as a reading. */
function concentrationFrom(rows: SetUpRows, keys: string[], form: Form, usualFactor: number): Uncertain | null {
  return rows.read(keys, ({ key, unit, cell }) => {
    const factor = unit === "" ? usualFactor : elementMgPerL(parseBasis(formNamed(unit.split(" ").pop() ?? "") ? unit : `${unit} ${form}`), waterStateFrom(rows));
    if (typeof cell === "number") return exact(within(key, cell, { unit: unit || "mg/L" }) * factor);
    const { low, high } = parseReading(textIn(key, cell));
    return rectangular(low * factor, high * factor);
  });
}

/** The set-up of one nutrient's budget. `screens`: the names behind the log's harvest columns ("" for a single one). */
export function setUpFrom(rows: SetUpRows, nutrient: Nutrient, screens: readonly string[], calendarOffset: number): SetUp {
  const volumeL = rows.read(["volume", "water volume"], ({ key, unit, cell }) => within(key, numberIn(key, cell), { open: true, unit: "L" }) * volume(key, unit, "Volume (L)"));
  if (volumeL === null) throw new Problem("missing", words.setUpNeeds("Volume (L)"));
  const { volumeShare, retained, feedShare, harvestShare, changeShare } = BUDGET_DEFAULT;
  const keptShare = rows.share(["retained", "retained share"], 1);
  const named = [...screens, ...rows.screensNamed("lit area")];
  const once = named.filter((name, place) => named.findIndex((other) => other.toLowerCase() === name.toLowerCase()) === place);
  const units = (once.length > 0 ? once : [""]).map((name) => screenFrom(rows, nutrient, name, calendarOffset));
  const setUp: SetUp = {
    volumeL: withinShare(volumeL, rows.share(["volume error"], 1) ?? volumeShare.value),
    retainedShare: keptShare === null ? triangular(retained) : retainedAround(keptShare),
    units,
    topUpMgPerL: topUpFrom(rows, nutrient),
    usual: usualConditionsFrom(rows),
    feedShare: rows.share(["feed error"], 1) ?? feedShare.value,
    harvestShare: rows.share(["harvest error"], 1) ?? harvestShare.value,
    changeShare: rows.share(["water change error"], 1) ?? changeShare.value,
    periodUnit: periodUnitFrom(rows, units),
  };
  return setUp;
}

/** A stated share may be half of itself off, but no animal keeps more than all. */
function retainedAround(kept: number): Uncertain {
  const half = Math.min(0.5 * kept, 1 - kept);
  return rectangular(kept - half, kept + half);
}

function periodUnitFrom(rows: SetUpRows, units: readonly ScreenUnit[]): number {
  const wanted = rows.text(["period screen"]);
  if (wanted === null) return 0;
  const place = units.findIndex((unit) => unit.name.toLowerCase() === wanted.toLowerCase());
  if (place < 0) throw new Problem("value", words.unknownPeriodUnit(wanted, units.map((unit) => unit.name).filter(Boolean)));
  return place;
}

function topUpFrom(rows: SetUpRows, nutrient: Nutrient): Uncertain {
  return statedInAll(rows, "top-up", ALL_FORMS.filter((form) => nutrientOf(form) === nutrient), (form) => elementMgPerL({ unit: "mg/L", form }));
}

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);

function screenFrom(rows: SetUpRows, nutrient: Nutrient, name: string, calendarOffset: number): ScreenUnit {
  const keys = (word: string): string[] => (name ? [`${word} ${name}`, word] : [word]);
  const area = rows.read(keys("lit area"), ({ key, unit, cell }) => {
    const factor = /^cm2$/i.test(unit) ? 0.0001 : /^m2$/i.test(unit) ? 1 : null;
    if (factor === null) throw new Problem("value", unit === "" ? words.unitMissing(key, "Lit area (m2)") : words.unitUnknown(key, unit, "m2, cm2"));
    return within(key, numberIn(key, cell), { open: true, unit }) * factor;
  });
  const started = rows.read(keys("started"), ({ key, cell }) => {
    const serial = serialOf(cell, calendarOffset);
    if (serial === null) throw new Problem("value", words.dateNotUnderstood(0, String(cell)).replace("Row 0: ", `${key}: `));
    return serial;
  });
  // One set-up serves both budgets: a row of the other nutrient is no slip of this one's.
  for (const word of ["tissue N", "tissue P"]) rows.find(...keys(word).flatMap((key) => [key, `${key} low`, `${key} high`]));
  return {
    name,
    litAreaM2: area,
    dryFraction: {
      drained: ownOrUsual(rows, keys("dry fraction"), 0.5, ALGAE.dryFractionDrained),
      pressed: ownOrUsual(rows, keys("dry fraction pressed"), 0.5, ALGAE.dryFractionPressed),
    },
    tissue: ownOrUsual(rows, keys(`tissue ${nutrient}`), mostTissue(nutrient), usualTissue(nutrient)),
    startedDay: started,
    ...lampsFrom(rows, keys),
  };
}

/** The keeper's own figure with its limits, if given; else the usual one with its wide limits. */
function ownOrUsual(rows: SetUpRows, keys: string[], most: number, usual: { value: number; low: number; high: number }): Uncertain {
  const own = rows.share(keys, most);
  const low = rows.share(keys.map((key) => `${key} low`), most);
  const high = rows.share(keys.map((key) => `${key} high`), most);
  if (own === null && (low !== null || high !== null)) throw new Problem("value", words.limitsWithoutValue(keys[keys.length - 1] ?? ""));
  if (own === null) return triangular(usual);
  const half = own * BUDGET_DEFAULT.measuredShare.value;
  const limits = { low: low ?? own - half, value: own, high: high ?? own + half };
  if (limits.low > own || limits.high < own) throw new Problem("value", words.lowAboveHigh(keys[0] ?? ""));
  return low === null && high === null ? rectangular(limits.low, limits.high) : triangular(limits);
}
