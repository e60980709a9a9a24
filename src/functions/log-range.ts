import { log as words } from "../words/log";
import { functions } from "../words/functions";
import type { BadEntry, FeedEntry, HarvestEntry, Log, MassEntry, ReadingEntry, ReadingSeries, SetUp, VolumeEntry } from "../science/budget/log";
import { feedMassG, findFood, type FoodTable } from "../science/feed";
import { elementMgPerL, nutrientOf, type Nutrient } from "../science/nutrient-forms";
import { Problem } from "../science/problem";
import { parseReading, type Kit, type Reading } from "../science/reading";
import { cellsOf, isBlank, numberIn, textIn, within, type Cell, type Cells } from "./arguments";
import { isCellError } from "./cell-error";
import { serialOf } from "./dates";
import { columnOf, type Column } from "./log-headings";
import { calendarOffsetFrom, setUpFrom, SetUpRows, testFrom, waterStateFrom } from "./setup-range";

interface HeadedColumn {
  readonly place: number;
  readonly heading: string;
  readonly column: Column;
}
type Of<K extends Column["kind"]> = HeadedColumn & { readonly column: Extract<Column, { kind: K }> };

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
  const screens = [...new Set(harvestColumns.map((one) => one.column.screen))];
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
  let [firstDay, lastDay] = [Infinity, -Infinity];

  const dated = datedRows(cells, columns, calendarOffset);
  for (const { row, line, day } of dated) {
    firstDay = Math.min(firstDay, day);
    lastDay = Math.max(lastDay, day);
    const cell = (one: HeadedColumn): Cell => line[one.place];
    const attempt = (one: HeadedColumn, take: () => void): void => {
      if (isBlank(cell(one))) return;
      try {
        take();
      } catch (error) {
        const sentence = error instanceof Problem || isCellError(error) ? error.message || String((error as { code?: string }).code) : null;
        if (sentence === null) throw error;
        bad.push({ day, row, sentence: words.inRow(row, one.heading, sentence) });
      }
    };
    const amount = (one: HeadedColumn): number => within(one.heading, numberIn(one.heading, cell(one)), { unit: "" });
    const foodCell = columns.find((one) => one.column.kind === "food");

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
  if (dated.length === 0) throw new Problem("missing", words.noRows);

  const byDay = <T extends { day: number }>(entries: T[]): T[] => entries.sort((a, b) => a.day - b.day);
  const series: ReadingSeries[] = tests.map((test, place) => ({
    name: test.heading,
    entries: oneADay(byDay(readings[place] ?? [])),
    kitScale: test.kitScale,
    incomingMgPerL: test.incomingMgPerL,
  }));
  const log: Log = {
    nutrient, firstDay, lastDay, calendarOffset, series,
    feeds: byDay(feeds), harvests: byDay(harvests), changes: byDay(changes), topUps: byDay(topUps), otherIn: byDay(otherIn), otherOut: byDay(otherOut), bad: byDay(bad),
  };
  return { log, setUp };
}

function headed(cells: Cells): HeadedColumn[] {
  if (cells.length < 2) throw new Problem("missing", functions.emptyRange("The log"));
  const columns = (cells[0] ?? []).map((heading, place): HeadedColumn => {
    if (isCellError(heading)) throw heading;
    return { place, heading: isBlank(heading) ? "" : String(heading).trim(), column: columnOf(heading) };
  });
  const seen = new Set<string>();
  for (const { heading, column } of columns) {
    if (column.kind === "ignored") continue;
    // What comes in or goes out by other ways may have several columns, each with its own words; they add up.
    const meaning = column.kind === "otherIn" || column.kind === "otherOut" ? heading.toLowerCase() : JSON.stringify(column);
    if (seen.has(meaning)) throw new Problem("value", words.twice(heading));
    seen.add(meaning);
  }
  return columns;
}

function datedRows(cells: Cells, columns: readonly HeadedColumn[], calendarOffset: number): { row: number; line: readonly Cell[]; day: number }[] {
  const dateColumn = columns.find((one) => one.column.kind === "date");
  if (!dateColumn) throw new Problem("value", words.noDateColumn);
  const counted = columns.filter((one) => one.column.kind !== "ignored" && one.column.kind !== "date" && one.column.kind !== "food");
  return cells.slice(1).flatMap((line, index) => {
    const row = index + 2;
    const cell = line[dateColumn.place];
    if (isBlank(cell)) {
      if (counted.some((one) => !isBlank(line[one.place]))) throw new Problem("value", words.noDate(row));
      return [];
    }
    const day = serialOf(cell, calendarOffset);
    if (day === null) throw new Problem("value", words.dateNotUnderstood(row, isCellError(cell) ? cell.code : String(cell)));
    return [{ row, line, day }];
  });
}

const screenPlace = (setUp: SetUp, screen: string): number => setUp.units.findIndex((unit) => unit.name === screen);

/** A share of water: 25 under a per cent heading and a cell formatted 25% (0.25) are the same; 1 alone could be either. */
function changedShare(one: HeadedColumn, cell: Cell): number {
  const value = within(one.heading, numberIn(one.heading, cell), { unit: "%" });
  if (value === 1) throw new Problem("value", words.shareOrPerCent);
  if (value > 100) throw new Problem("value", words.perCentTooHigh(value));
  return value > 1 ? value / 100 : value;
}

function readingOf({ factor, kit }: TestColumn, cell: Cell): Reading {
  if (isCellError(cell)) throw cell;
  const { value, low, high, u, censored } = parseReading(typeof cell === "number" ? cell : textIn("reading", cell), kit);
  return { value: value * factor, low: low * factor, high: high * factor, u: u * factor, censored };
}

/** Puts what was fed back onto the harvest of the same row and screen. */
function feedBack(harvests: HarvestEntry[], one: Of<"fedBack">, cell: Cell, row: number, setUp: SetUp): void {
  const value = within(one.heading, numberIn(one.heading, cell), { unit: "" });
  if (value === 0) return;
  const unit = screenPlace(setUp, one.column.screen);
  // This row's harvests are the last that were put in.
  let place = harvests.length - 1;
  while (place >= 0 && harvests[place]?.row === row && one.column.screen !== "" && harvests[place]?.unit !== unit) place -= 1;
  const harvest = harvests[place];
  if (!harvest || harvest.row !== row) throw new Problem("value", words.fedBackWithoutHarvest);
  const share = one.column.factor === "share" ? changedShare(one, cell) : (value * one.column.factor) / harvest.drainedG;
  if (share > 1) throw new Problem("value", words.moreFedBackThanHarvested);
  harvests[place] = { ...harvest, fedBackShare: share };
}

/** Several readings of one moment are one reading: their mean, as wide as the widest limits. */
function oneADay(entries: readonly ReadingEntry[]): ReadingEntry[] {
  const merged: ReadingEntry[] = [];
  for (const entry of entries) {
    const before = merged[merged.length - 1];
    if (before?.day !== entry.day) {
      merged.push(entry);
      continue;
    }
    const [a, b] = [before.reading, entry.reading];
    const [low, high] = [(a.low + b.low) / 2, (a.high + b.high) / 2];
    merged[merged.length - 1] = {
      ...before,
      reading: { value: (a.value + b.value) / 2, low, high, u: (a.u + b.u) / 2, censored: a.censored === "above" || b.censored === "above" ? "above" : a.censored === "below" ? b.censored : a.censored },
    };
  }
  return merged;
}
