import type { Log } from "../../science/budget/log";
import { budget as budgetWords } from "../../words/native-account";
import { NotWritable } from "../not-writable";
import type { Draft } from "../draft";
import { isSame, quoted } from "../given";
import { FoodsBlock } from "../foods";
import type { LogCells } from "./log-cells";
import type { QuantityCells } from "./quantities";
import { Table } from "./table";

const words = budgetWords.entries;

/** What an entry's table needs of the account around it. */
export interface Around {
  readonly draft: Draft;
  readonly log: Log;
  readonly cells: LogCells;
  /** The number of the period in which a day lies, as a formula. */
  readonly periodOf: (day: string) => string;
}

export type FeedTable = Table<"day" | "food" | "mass" | "arrived" | "period" | "variance">;

/** Each feed: its mass, what of it reaches the water, its period and the square of its own error. */
export function feedTable({ draft, log, cells, periodOf }: Around, left: number, foods: ReadonlyMap<string, QuantityCells>, block: FoodsBlock, kept: QuantityCells, feedShare: string): FeedTable {
  const table: FeedTable = new Table(draft, left, words.feeds, words.feedHeadings, log.feeds.length);
  const foodColumn = cells.columns.find((one) => one.column.kind === "food");
  const taken = new Set<string>();
  log.feeds.forEach((feed, row) => {
    const column = cells.of("feed").find((one) => {
      const key = `${feed.row} ${one.place}`;
      const named = one.column.food !== "" ? one.column.food.toLowerCase() === feed.food.name.toLowerCase() : true;
      if (taken.has(key) || !named || !cells.isEntry(feed.row, one)) return false;
      taken.add(key);
      return true;
    });
    const food = foods.get(feed.food.name);
    if (!column || !food) throw new NotWritable();
    table.formula(row, "day", cells.day(feed.row));
    table.put(row, "food", feed.food.name);
    let mass = cells.figure(feed.row, column, column.column.factor);
    if (column.column.unit === "portions") mass = `${mass}*${block.figure(quoted(feed.food.name), "portion")}`;
    const named = column.column.food === "" && foodColumn ? cells.at(feed.row, foodColumn) : null;
    // Another food in the cell is another content.
    if (named) mass = `IF(${isSame(named)},${mass},NA())`;
    table.formula(row, "mass", mass);
    table.formula(row, "arrived", `${table.cell(row, "mass")}*${food.best}*(1-${kept.best})`);
    table.formula(row, "period", periodOf(table.cell(row, "day")));
    table.formula(row, "variance", `(${table.cell(row, "arrived")}*${feedShare})^2/3`);
  });
  return table;
}

/** The cells of one screen's figures. */
export interface ScreenCells {
  readonly name: string;
  readonly drained: QuantityCells;
  readonly pressed: QuantityCells;
  readonly tissue: QuantityCells;
  readonly cropGuess: QuantityCells;
}

export type HarvestTable = Table<"day" | "screen" | "how" | "drained" | "fedBack" | "left" | "out" | "period" | "variance">;

/** Each harvest: what was weighed, what of it left, its period and the square of its own error. */
export function harvestTable({ draft, log, cells, periodOf }: Around, left: number, screens: readonly ScreenCells[], harvestShare: string): HarvestTable {
  const table: HarvestTable = new Table(draft, left, words.harvests, words.harvestHeadings, log.harvests.length);
  log.harvests.forEach((harvest, row) => {
    const screen = screens[harvest.unit];
    const column = cells.of("harvest").find((one) => one.column.screen.toLowerCase() === screen?.name.toLowerCase() && one.column.draining === harvest.draining && cells.isEntry(harvest.row, one));
    if (!screen || !column) throw new NotWritable();
    const dry = harvest.draining === "pressed" ? screen.pressed : screen.drained;
    const at = (name: Parameters<HarvestTable["cell"]>[1]): string => table.cell(row, name);
    table.formula(row, "day", cells.day(harvest.row));
    table.put(row, "screen", harvest.unit + 1);
    table.put(row, "how", harvest.draining);
    table.formula(row, "drained", cells.figure(harvest.row, column, column.column.factor));
    table.formula(row, "fedBack", fedBackShare(log, cells, row, table, screens));
    table.formula(row, "left", `${at("drained")}*(1-${at("fedBack")})`);
    table.formula(row, "out", `${at("left")}*${dry.best}*${screen.tissue.best}`);
    table.formula(row, "period", periodOf(at("day")));
    table.formula(row, "variance", `(${at("out")}*${harvestShare})^2/3`);
  });
  return table;
}

/** What the animals got of a harvest, as a share of it. */
function fedBackShare(log: Log, cells: LogCells, place: number, table: HarvestTable, screens: readonly ScreenCells[]): string {
  const harvest = log.harvests[place];
  if (!harvest || harvest.fedBackShare === 0) return "0";
  const known = (screen: string): number => screens.findIndex(({ name }) => name.toLowerCase() === screen.toLowerCase());
  const column = cells.of("fedBack").find((one) => cells.isEntry(harvest.row, one) && (known(one.column.screen) === harvest.unit || (one.column.screen === "" && known("") < 0)));
  if (!column) throw new NotWritable();
  const { factor, screen } = column.column;
  if (factor === "share") return cells.share(harvest.row, column);
  const shared = log.harvests.flatMap((one, row) => (one.row === harvest.row && (one.unit === known(screen) || (screen === "" && known("") < 0)) ? [table.cell(row, "drained")] : []));
  const fedBack = `${cells.figure(harvest.row, column, factor)}/(${shared.join("+")})`;
  // More than was harvested is refused, but for rounding.
  return `IF(${fedBack}>1+10^(-9),NA(),MIN(1,${fedBack}))`;
}

export type ChangeTable = Table<"day" | "litres" | "share" | "period" | "net" | "variance">;

/** Each water change: its volume, its share of the water and its period. What it took out is put in when the water's course is known. */
export function changeTable({ draft, log, cells, periodOf }: Around, left: number, volume: QuantityCells): ChangeTable {
  const table: ChangeTable = new Table(draft, left, words.changes, words.changeHeadings, log.changes.length);
  log.changes.forEach((change, row) => {
    const column = cells.of("change").find((one) => cells.isEntry(change.row, one));
    if (!column) throw new NotWritable();
    const { factor } = column.column;
    table.formula(row, "day", cells.day(change.row));
    table.formula(row, "litres", factor === "share" ? `${cells.share(change.row, column)}*${volume.best}` : cells.figure(change.row, column, factor));
    table.formula(row, "share", `IF(${table.cell(row, "litres")}>${volume.best},NA(),${table.cell(row, "litres")}/${volume.best})`);
    table.formula(row, "period", periodOf(table.cell(row, "day")));
  });
  return table;
}

export type OtherTable = Table<"day" | "what" | "amount" | "period">;

/** What came in or went out by other ways, g, and what was topped up, L. `elementPer`: grams of the element in a gram of what a column counts. */
export function otherTable({ draft, log, cells, periodOf }: Around, left: number, elementPer: (column: ReturnType<LogCells["of"]>[number]) => string): OtherTable {
  const kinds = [
    ...log.otherIn.map((entry) => ({ entry, kind: "otherIn" as const })),
    ...log.otherOut.map((entry) => ({ entry, kind: "otherOut" as const })),
    ...log.topUps.map((entry) => ({ entry, kind: "topUp" as const })),
  ];
  const table: OtherTable = new Table(draft, left, words.others, words.otherHeadings, kinds.length);
  const taken = new Set<string>();
  kinds.forEach(({ entry, kind }, row) => {
    const column = cells.columns.find((one) => {
      const key = `${entry.row} ${one.place}`;
      if (one.column.kind !== kind || taken.has(key) || !cells.isEntry(entry.row, one)) return false;
      if (one.column.kind !== "topUp" && elementPer(one) === "") return false;
      taken.add(key);
      return true;
    });
    if (!column || !("factor" in column.column) || typeof column.column.factor !== "number") throw new NotWritable();
    const figure = cells.figure(entry.row, column, column.column.factor);
    table.formula(row, "day", cells.day(entry.row));
    table.put(row, "what", words.kinds[kind]);
    table.formula(row, "amount", kind === "topUp" ? figure : `${figure}*${elementPer(column)}`);
    table.formula(row, "period", periodOf(table.cell(row, "day")));
  });
  return table;
}
