import { budget as words } from "../../words/native-account";
import type { Draft } from "../draft";
import { Table } from "./table";
import type { WaterCourse } from "./water";

export type TakenOut = Table<"first" | "next" | "ofFirst" | "ofNext" | "ofNew" | "drift" | "value">;

/** The water that each change took out, one test's part of it, a row a change. */
export function takenOut(draft: Draft, left: number, { series, table: water, beforeChange }: WaterCourse): TakenOut {
  const { first, next, ofFirst, ofNext, ofNew, drift, value } = words.waterHeadings;
  const table: TakenOut = new Table(draft, left, words.taken(series.name), { first, next, ofFirst, ofNext, ofNew, drift, value }, beforeChange.length);
  beforeChange.forEach((from, row) => {
    for (const column of ["first", "next", "ofFirst", "ofNext", "ofNew", "drift", "value"] as const) table.formula(row, column, column === "next" ? `0+${water.cell(from, column)}` : water.cell(from, column));
  });
  return table;
}
