import type { Log, ReadingSeries } from "../../science/budget/log";
import type { Period } from "../../science/budget/period";
import { budget as words } from "../../words/native-account";
import type { Draft } from "../draft";
import type { ChangeTable } from "./entries";
import type { QuantityCells } from "./quantities";
import { Table } from "./table";

type WaterColumn = keyof typeof words.waterHeadings;
export type WaterTable = Table<WaterColumn>;
export type ReadingTable = Table<"day" | "low" | "high" | "value" | "u" | "below">;

/** The course of one test's concentration: where the account reads it. Places are rows of the table. */
export interface WaterCourse {
  readonly series: ReadingSeries;
  readonly readings: ReadingTable;
  readonly table: WaterTable;
  /** The row of the water just before each change. */
  readonly beforeChange: readonly number[];
  readonly starts: readonly number[];
  readonly ends: readonly number[];
}

interface Event {
  readonly kind: "reading" | "change" | "before" | "after";
  readonly day: number;
  readonly dayText: string;
  /** Of the reading or the change. */
  readonly place: number;
}

/** At one moment: what is asked for before it, then its reading, then its change, then what is asked for after it. */
const ORDER: Readonly<Record<Event["kind"], number>> = { before: 0, reading: 1, change: 2, after: 3 };
const MOST_BACK = 3;

/**
 * Between two readings the water rises or falls at one steady rate, with a step at each change. Each row carries the concentration of
 * its moment as weights of the two readings and of the new water, so that a change of any of them is followed.
 */
export function waterCourse(draft: Draft, left: number, log: Log, series: ReadingSeries, readings: ReadingTable, changes: ChangeTable, periods: readonly Period[], days: { readonly from: (k: number) => string; readonly to: (k: number) => string }, incoming: QuantityCells): WaterCourse {
  const events = eventsOf(log, series, readings, changes, periods, days);
  const table: WaterTable = new Table(draft, left, words.water(series.name), words.waterHeadings, events.length);
  const readingRows = events.flatMap(({ kind }, row) => (kind === "reading" ? [row] : []));
  const first = readingRows[0] ?? 0;
  events.forEach(({ kind, dayText, place, day }, row) => {
    const at = (column: WaterColumn, other = row): string => table.cell(other, column);
    table.put(row, "what", words.events[kind]);
    const before = events[row - 1];
    // The rows stand in the order of the hand-over; when the days leave it, nothing is told.
    table.formula(row, "day", before ? `IF(${dayText}${before.day === day ? "=" : ">"}${at("day", row - 1)},${dayText},NA())` : dayText);
    if (kind === "change") table.formula(row, "share", changes.cell(place, "share"));
    if (row < first) backward(table, row, kind);
    else forward(table, row, kind, readingRows[0] === row);
    if (kind === "reading") return;
    const [from, to] = [readingRows.filter((one) => one < row).length - 1, readingRows.filter((one) => one < row).length];
    if (row < first) {
      table.put(row, "first", 1);
      table.formula(row, "ofFirst", at("start2"));
      table.put(row, "ofNext", 0);
      table.formula(row, "ofNew", at("fresh2"));
      table.formula(row, "drift", `${at("day", first)}-${at("day")}`);
      table.formula(row, "value", `${at("ofFirst")}*${readings.cell(0, "value")}+${at("ofNew")}*${incoming.best}`);
      return;
    }
    table.put(row, "first", from + 1);
    const end = readingRows[to];
    if (end === undefined) {
      table.formula(row, "ofFirst", at("start"));
      table.put(row, "ofNext", 0);
      table.formula(row, "ofNew", at("fresh"));
      table.formula(row, "drift", `${at("day")}-${at("day", readingRows[from])}`);
      table.formula(row, "value", `${at("ofFirst")}*${readings.cell(from, "value")}+${at("ofNew")}*${incoming.best}`);
      return;
    }
    table.put(row, "next", to + 1);
    table.formula(row, "ofNext", `${at("slope")}/${at("slope", end)}`);
    table.formula(row, "ofFirst", `${at("start")}-${at("ofNext")}*${at("start", end)}`);
    table.formula(row, "ofNew", `${at("fresh")}-${at("ofNext")}*${at("fresh", end)}`);
    const [a, b] = [`(${at("day")}-${at("day", readingRows[from])})`, `(${at("day", end)}-${at("day")})`];
    table.formula(row, "drift", `${a}*${b}/(${a}+${b})`);
    table.formula(row, "value", `${at("ofFirst")}*${readings.cell(from, "value")}+${at("ofNext")}*${readings.cell(to, "value")}+${at("ofNew")}*${incoming.best}`);
  });
  const find = (kind: Event["kind"], day: number): number => events.findIndex((event) => event.kind === kind && event.day === day);
  return {
    series, readings, table,
    beforeChange: log.changes.map(({ day }) => find("before", day)),
    starts: periods.map(({ from, withFrom }) => find(withFrom ? "before" : "after", from)),
    ends: periods.map(({ to, withTo }) => find(withTo ? "after" : "before", to)),
  };
}

/** From one reading on: what is left of it, for how many days the rise has worked, and what is new water. */
function forward(table: WaterTable, row: number, kind: Event["kind"], isFirst: boolean): void {
  const at = (column: WaterColumn, other = row): string => table.cell(other, column);
  if (!isFirst) {
    table.formula(row, "start", at("start2", row - 1));
    table.formula(row, "slope", `${at("slope2", row - 1)}+${at("day")}-${at("day", row - 1)}`);
    table.formula(row, "fresh", at("fresh2", row - 1));
  }
  const share = at("share");
  const after = kind === "reading" ? ["1", "0", "0"] : kind === "change" ? [`${at("start")}*(1-${share})`, `${at("slope")}*(1-${share})`, `(1-${share})*${at("fresh")}+${share}`] : [at("start"), at("slope"), at("fresh")];
  (["start2", "slope2", "fresh2"] as const).forEach((column, place) => table.formula(row, column, after[place] ?? "0"));
}

/** Back from the first reading: each change is taken out again, until two thirds of the water were other water. "slope2" is 1 from where nothing more is taken out. */
function backward(table: WaterTable, row: number, kind: Event["kind"]): void {
  const at = (column: WaterColumn, other = row): string => table.cell(other, column);
  const next = (column: "start2" | "slope2" | "fresh2"): string => at(column, row + 1);
  if (kind !== "change") {
    table.formula(row, "start2", next("start2"));
    table.formula(row, "slope2", next("slope2"));
    table.formula(row, "fresh2", next("fresh2"));
    return;
  }
  const share = at("share");
  table.formula(row, "slope2", `IF(${next("slope2")}=1,1,IF(${next("start2")}>${MOST_BACK}*(1-${share}),1,0))`);
  table.formula(row, "start2", `IF(${at("slope2")}=1,${next("start2")},${next("start2")}/(1-${share}))`);
  table.formula(row, "fresh2", `IF(${at("slope2")}=1,${next("fresh2")},(${next("fresh2")}-${share})/(1-${share}))`);
}

function eventsOf(log: Log, series: ReadingSeries, readings: ReadingTable, changes: ChangeTable, periods: readonly Period[], days: { readonly from: (k: number) => string; readonly to: (k: number) => string }): Event[] {
  const asked = new Map<string, Event>();
  const ask = (kind: "before" | "after", day: number, dayText: string): void => {
    if (!asked.has(`${kind} ${day}`)) asked.set(`${kind} ${day}`, { kind, day, dayText, place: 0 });
  };
  log.changes.forEach(({ day }, place) => ask("before", day, changes.cell(place, "day")));
  periods.forEach(({ from, to, withFrom, withTo }, k) => {
    ask(withFrom ? "before" : "after", from, days.from(k));
    ask(withTo ? "after" : "before", to, days.to(k));
  });
  const events: Event[] = [
    ...asked.values(),
    ...series.entries.map(({ day }, place) => ({ kind: "reading" as const, day, dayText: readings.cell(place, "day"), place })),
    ...log.changes.map(({ day }, place) => ({ kind: "change" as const, day, dayText: changes.cell(place, "day"), place })),
  ];
  return events.sort((a, b) => a.day - b.day || ORDER[a.kind] - ORDER[b.kind]);
}
