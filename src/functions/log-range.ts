import { log as words } from "../words/log";
import { science } from "../words/science";
import type { BadEntry, FeedEntry, HarvestEntry, Log, MassEntry, ReadingEntry, ReadingSeries, SetUp, VolumeEntry } from "../science/budget/log";
import { feedMassG, findFood, type FoodTable } from "../science/feed";
import { elementMgPerL, nutrientOf, substanceOf, type Nutrient } from "../science/nutrient-forms";
import { Problem } from "../science/problem";
import { meanReading, parseReading, type Kit, type Reading } from "../science/reading";
import { cellsOf, isBlank, numberIn, textIn, within, type Cell, type Cells } from "./arguments";
import { isCellError } from "./cell-error";
import { serialOf } from "./dates";
import { conditionsFrom, countsForTheBudget, rowsOf } from "./log-conditions";
import { headed, type HeadedColumn, type Of } from "./log-columns";
import { calendarOffsetFrom, setUpFrom, SetUpRows, testFrom, waterStateFrom } from "./setup-range";

/** A reading column with what the set-up knows of its test. */
interface TestColumn extends Of<"reading"> {
  readonly factor: number;
  readonly kit: Kit | undefined;
}

/**
 * Reads a log range (heading row first) and a two-column set-up range for one nutrient.
 * A cell that cannot be used becomes a `bad` entry of its day: its period is not reckoned, the others are.
 * @throws Problem where no account is possible: headings, set-up, a row with figures but no date
 */
export function logFrom(logRange: unknown, setUpRange: unknown, nutrient: Nutrient, foods: FoodTable): { log: Log; setUp: SetUp } {
  const cells = cellsOf(logRange);
  const columns = headed(cells);
  const rows = new SetUpRows(setUpRange);
  const calendarOffset = calendarOffsetFrom(rows);
  const water = waterStateFrom(rows);
  const harvestColumns = columns.filter((one): one is Of<"harvest"> => one.column.kind === "harvest");
  const screens = harvestColumns.map((one) => one.column.screen);
  const defaultFood = rows.text(["food"]);

  const tests = columns
    .filter((one): one is Of<"reading"> => one.column.kind === "reading" && nutrientOf(one.column.basis.form) === nutrient)
    .map((one) => {
      const factor = elementMgPerL(one.column.basis, water);
      return { ...one, factor, ...testFrom(rows, one.column.basis.form, factor) };
    });
  const setUp = setUpFrom(rows, nutrient, screens, calendarOffset);
  rows.refuseSlips();

  const feeds: FeedEntry[] = [];
  const readings = tests.map((): ReadingEntry[] => []);
  const harvests: HarvestEntry[] = [];
  const changes: VolumeEntry[] = [];
  const topUps: VolumeEntry[] = [];
  const otherIn: MassEntry[] = [];
  const otherOut: MassEntry[] = [];
  const bad: BadEntry[] = [];

  const allDated = datedRows(cells, columns, calendarOffset);
  const dated = allDated.filter((one) => one.says);
  if (dated.length === 0) throw new Problem("missing", words.noRows);
  const { firstDay, lastDay } = span(dated);
  const foodCell = columns.find((one) => one.column.kind === "food");
  for (const { row, line, day } of dated) {
    const filled = new Map<string, string>();
    const cell = (one: HeadedColumn): Cell => line[one.place];
    const attempt = (one: HeadedColumn, take: () => void): void => {
      if (isBlank(cell(one))) return;
      try {
        const other = filled.get(one.meaning);
        if (other !== undefined && cell(one) !== 0) throw new Problem("value", words.givenTwice(other));
        if (one.meaning !== "" && cell(one) !== 0) filled.set(one.meaning, one.heading);
        take();
      } catch (error) {
        const sentence = error instanceof Problem || isCellError(error) ? error.message || String((error as { code?: string }).code) : null;
        if (sentence === null) throw error;
        bad.push({ day, row, about: ABOUT[one.column.kind] ?? "other", sentence: words.inRow(row, one.heading, sentence) });
      }
    };
    const amount = (one: HeadedColumn): number => within(one.heading, numberIn(one.heading, cell(one)), { unit: "" });

    for (const one of columns) {
      const { column } = one;
      if (column.kind === "feed") {
        attempt(one, () => {
          const value = amount(one);
          if (value === 0) return;
          const name = column.food || (foodCell && !isBlank(cell(foodCell)) ? textIn("Food", cell(foodCell)) : defaultFood);
          if (!name) throw new Problem("missing", words.noFoodNamed);
          const food = findFood(name, foods);
          feeds.push({ day, row, food, massG: feedMassG(value * column.factor, column.unit, food) });
        });
      } else if (column.kind === "harvest") {
        attempt(one, () => {
          const value = amount(one) * column.factor;
          if (value > 0) harvests.push({ day, row, unit: screenPlace(setUp, column.screen), drainedG: value, draining: column.draining, fedBackShare: 0 });
        });
      } else if (column.kind === "change" || column.kind === "topUp") {
        attempt(one, () => {
          const litres = column.factor === "share" ? changedShare(one, cell(one)) * setUp.volumeL.value : amount(one) * column.factor;
          if (litres > setUp.volumeL.value && column.kind === "change") throw new Problem("value", words.moreThanTheTank(litres, setUp.volumeL.value));
          if (litres > 0) (column.kind === "change" ? changes : topUps).push({ day, row, litres });
        });
      } else if ((column.kind === "otherIn" || column.kind === "otherOut") && nutrientOf(column.form) === nutrient) {
        attempt(one, () => {
          const grams = amount(one) * column.factor * elementMgPerL({ unit: "mg/L", form: column.form });
          if (grams > 0) (column.kind === "otherIn" ? otherIn : otherOut).push({ day, row, grams });
        });
      }
    }
    tests.forEach((test, place) => attempt(test, () => readings[place]?.push({ day, row, reading: readingOf(test, cell(test)) })));
    for (const one of columns) if (one.column.kind === "fedBack") attempt(one, () => feedBack(harvests, one as Of<"fedBack">, cell(one), row, setUp));
  }

  const byDay = <T extends { day: number }>(entries: T[]): T[] => entries.sort((a, b) => a.day - b.day);
  const series: ReadingSeries[] = tests.map((test, place) => ({
    name: test.heading,
    isMain: MAIN_SUBSTANCES.has(substanceOf(test.column.basis.form)),
    entries: oneAMoment(byDay(readings[place] ?? [])),
    kitScale: test.kitScale,
    incomingMgPerL: test.incomingMgPerL,
  }));
  const log: Log = {
    nutrient, firstDay, lastDay, calendarOffset, series,
    feeds: byDay(feeds), harvests: byDay(harvests), changes: byDay(changes), topUps: byDay(topUps), otherIn: byDay(otherIn), otherOut: byDay(otherOut), bad: byDay(bad),
    ...conditionsFrom(allDated, columns, setUp.units), rows: rowsOf(dated),
  };
  return { log, setUp };
}

/** The log read for nitrogen and for phosphorus. @throws Problem as `logFrom` */
export function accountsFrom(logRange: unknown, setUpRange: unknown, foods: FoodTable): Record<Nutrient, { log: Log; setUp: SetUp }> {
  return { N: logFrom(logRange, setUpRange, "N", foods), P: logFrom(logRange, setUpRange, "P", foods) };
}

const ABOUT: Partial<Record<HeadedColumn["column"]["kind"], BadEntry["about"]>> = { feed: "feed", harvest: "harvest", fedBack: "harvest", change: "water", topUp: "water", reading: "reading" };

/** Tests without which the store of a nutrient is not known. */
const MAIN_SUBSTANCES: ReadonlySet<string> = new Set(["nitrate", "total nitrogen", "phosphate"]);

export interface DatedRow {
  /** Whether the row holds a figure of the account. */
  readonly says: boolean;
  readonly row: number;
  readonly line: readonly Cell[];
  readonly day: number;
}

/** First and last day of the log. */
function span(dated: readonly DatedRow[]): { firstDay: number; lastDay: number } {
  const first = dated.reduce((least, one) => (one.day < least.day ? one : least));
  const last = dated.reduce((most, one) => (one.day > most.day ? one : most));
  if (last.day - first.day > 73_050) throw new Problem("value", words.datesTooFarApart(first.row, last.row));
  return { firstDay: first.day, lastDay: last.day };
}

/** The rows with a date; dates filled in ahead, with nothing beside them, say nothing and do not make the log longer. */
function datedRows(cells: Cells, columns: readonly HeadedColumn[], calendarOffset: number): DatedRow[] {
  const dateColumn = columns.find((one) => one.column.kind === "date");
  if (!dateColumn) throw new Problem("value", words.noDateColumn);
  const counted = columns.filter(countsForTheBudget);
  return cells.slice(1).flatMap((line, index) => {
    const row = index + 2;
    const cell = line[dateColumn.place];
    const says = counted.some((one) => !isBlank(line[one.place]));
    if (isBlank(cell)) {
      if (says) throw new Problem("value", words.noDate(row));
      return [];
    }
    const day = serialOf(cell, calendarOffset);
    if (day === null) throw new Problem("value", words.dateNotUnderstood(row, isCellError(cell) ? cell.code : String(cell)));
    return [{ says, row, line, day }];
  });
}

const screenPlace = (setUp: SetUp, screen: string): number => setUp.units.findIndex((unit) => unit.name.toLowerCase() === screen.toLowerCase());

/** A share of water: 25 under a per cent heading and a cell formatted 25% (0.25) are the same; 1 alone could be either. */
function changedShare(one: HeadedColumn, cell: Cell): number {
  const value = within(one.heading, numberIn(one.heading, cell), { unit: "%" });
  if (value === 1) throw new Problem("value", words.shareOrPerCent);
  if (value > 100) throw new Problem("value", words.perCentTooHigh(value));
  return value > 1 ? value / 100 : value;
}

function readingOf({ factor, kit }: TestColumn, cell: Cell): Reading {
  if (isCellError(cell)) throw cell;
  if (typeof cell !== "number" && typeof cell !== "string") throw new Problem("value", science.readingNotUnderstood(cell));
  const { value, low, high, u, censored } = parseReading(cell, kit);
  return { value: value * factor, low: low * factor, high: high * factor, u: u * factor, censored };
}

/** Puts what was fed back onto the harvests of the same row: of its screen, or of all screens where it names none and none is without a name. */
function feedBack(harvests: HarvestEntry[], one: Of<"fedBack">, cell: Cell, row: number, setUp: SetUp): void {
  const value = within(one.heading, numberIn(one.heading, cell), { unit: "" });
  if (value === 0) return;
  const unit = screenPlace(setUp, one.column.screen);
  const places: number[] = [];
  // This row's harvests are the last that were put in.
  for (let place = harvests.length - 1; place >= 0 && harvests[place]?.row === row; place -= 1) {
    if (harvests[place]?.unit === unit || (one.column.screen === "" && unit < 0)) places.push(place);
  }
  if (places.length === 0) throw new Problem("value", words.fedBackWithoutHarvest);
  const drainedG = places.reduce((sum, place) => sum + (harvests[place]?.drainedG ?? 0), 0);
  const share = one.column.factor === "share" ? changedShare(one, cell) : (value * one.column.factor) / drainedG;
  if (share > 1 + 1e-9) throw new Problem("value", words.moreFedBackThanHarvested);
  for (const place of places) {
    const harvest = harvests[place];
    if (harvest) harvests[place] = { ...harvest, fedBackShare: Math.min(1, share) };
  }
}

/** Several readings of one moment are one reading. */
function oneAMoment(entries: readonly ReadingEntry[]): ReadingEntry[] {
  const moments = new Map<number, ReadingEntry[]>();
  for (const entry of entries) {
    const same = moments.get(entry.day);
    if (same) same.push(entry);
    else moments.set(entry.day, [entry]);
  }
  return [...moments.values()].flatMap((same) => {
    const [first] = same;
    return first && same.length > 1 ? [{ ...first, reading: meanReading(same.map((entry) => entry.reading)) }] : same;
  });
}
