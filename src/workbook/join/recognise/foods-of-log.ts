import { columnOf } from "../../../functions/log-headings";
import { FOODS } from "../../../science/constants/foods";
import { foodKey, foodTable } from "../../../science/feed";
import { startsLikeFormula } from "../../places";
import { cellAt, type Grid } from "./cells";
import type { FoundLog } from "./find-log";

/** What the log leaves open about its food. */
export interface FoodsOfLog {
  /** Feed is logged and nothing names its food. */
  readonly needsOne: boolean;
  /** Names that are not in the built-in table, as the keeper writes them, in the order of the log. */
  readonly unknown: readonly string[];
}

const TABLE = foodTable(FOODS);

/** @param meanings our heading for each column, null or undefined: left alone or not settled */
export function foodsOfLog(grid: Grid, { left, firstDataRow, bottom }: Pick<FoundLog, "left" | "firstDataRow" | "bottom">, meanings: readonly (string | null | undefined)[]): FoodsOfLog {
  const columns = meanings.map((meaning) => (meaning ? columnOf(meaning) : null));
  const inColumns = columns.flatMap((column, place) => (column?.kind === "food" ? namesIn(grid, left + place, firstDataRow, bottom) : []));
  const inHeadings = columns.flatMap((column) => (column?.kind === "feed" && column.food !== "" ? [column.food] : []));
  const named = new Map([...inColumns, ...inHeadings].reverse().map((name) => [foodKey(name), name]));
  return {
    needsOne: columns.some((column) => column?.kind === "feed" && column.food === "") && !columns.some((column) => column?.kind === "food"),
    unknown: [...named].reverse().flatMap(([key, name]) => (TABLE.has(key) || startsLikeFormula(name) ? [] : [name])),
  };
}

function namesIn(grid: Grid, column: number, first: number, last: number): string[] {
  const cells = Array.from({ length: last - first + 1 }, (_, place) => cellAt(grid, first + place, column));
  return cells.flatMap((cell) => (typeof cell === "string" && cell.trim() !== "" ? [cell.trim()] : []));
}
