import type { Of } from "../../functions/log-columns";
import type { Log, ReadingSeries } from "../../science/budget/log";
import { type Kit, parseKit, parseReading } from "../../science/reading";
import { formNamed, parseBasis, type Form } from "../../science/nutrient-forms";
import { budget as words } from "../../words/native-account";
import { Problem } from "../../science/problem";
import type { Draft } from "../draft";
import { figureText, type Given, type GivenRange, isBlankValue } from "../given";
import { readingRules } from "../functions/reading";
import { ruleText } from "../rule-text";
import type { Workspace } from "../workspace";
import type { LogCells } from "./log-cells";
import type { Settings } from "./settings";
import type { SetUpCells } from "./set-up-cells";
import type { StatedConcentration } from "./set-up-quantities";
import { numberText } from "./set-up-cells";
import { Table } from "./table";
import type { ReadingTable } from "./water";

const limit = (which: "LOW" | "HIGH", cell: Given, kit: Given | null, workspace: Workspace): string => {
  const range: GivenRange | null = kit ? { rows: [[kit]], text: kit.text } : null;
  return ruleText(readingRules[`READING_${which}`], `READING_${which}`, [cell, null], [null, range], workspace);
};

const kitOf = (kit: Given | null): Kit | undefined => (kit && !isBlankValue(kit.value) ? parseKit([typeof kit.value === "number" ? kit.value : String(kit.value)]) : undefined);

/** Whether our function takes what a cell holds for a reading. */
function isReading({ value }: Given, kit: Given | null): boolean {
  if (isBlankValue(value) || (typeof value !== "number" && typeof value !== "string")) return false;
  try {
    parseReading(value, kitOf(kit));
    return true;
  } catch (error) {
    if (error instanceof Problem) return false;
    throw error;
  }
}

/** 1 for a reading below detection, 0 for another. What a text says stays, and so do the patches of a chart, which are a text. */
function below(cell: Given, kit: Given | null): string {
  const known = kitOf(kit);
  if (typeof cell.value === "string") return parseReading(cell.value, known).censored === "below" ? "1" : "0";
  return known ? `IF(${cell.text}<=${"patches" in known ? figureText(known.patches[0] ?? 0) : "0"},1,0)` : "0";
}

/** The readings of one test in mg of the element per litre: what each can mean. Several of one moment are one reading. */
export function readingTable(draft: Draft, left: number, log: Log, series: ReadingSeries, column: Of<"reading">, cells: LogCells, setUp: SetUpCells, settings: Settings, workspace: Workspace): ReadingTable {
  const { entries } = series;
  const table: ReadingTable = new Table(draft, left, words.readings(series.name), words.readingHeadings, entries.length);
  const kit = setUp.limited({ open: true }, `${column.column.basis.form} kit steps`)?.given ?? null;
  const factor = settings.elementMgPerL(column.column.basis);
  const of = (which: "LOW" | "HIGH", row: number): string => `${limit(which, cells.at(row, column), kit, workspace)}*${factor}`;
  entries.forEach(({ day, reading }, place) => {
    const at = (name: Parameters<ReadingTable["cell"]>[1]): string => table.cell(place, name);
    const rows = log.rows.filter((one) => one.day === day && isReading(cells.at(one.row, column), kit)).map(({ row }) => row);
    const [first = entries[place]?.row ?? 0] = rows;
    table.formula(place, "day", cells.day(first));
    if (reading.censored === "above" || rows.length === 1) {
      table.formula(place, "low", of("LOW", first));
      table.formula(place, "high", reading.censored === "above" ? at("low") : of("HIGH", first));
    } else {
      // As wide as the widest, and wide enough to hold each value.
      const values = rows.map((row) => `(${of("LOW", row)}+${of("HIGH", row)})/2`);
      const mean = `(${values.join("+")})/${rows.length}`;
      const half = `MAX(${rows.flatMap((row, which) => [`(${of("HIGH", row)}-${of("LOW", row)})/2`, `ABS(${values[which] ?? ""}-${mean})`]).join(",")})`;
      table.formula(place, "low", `MAX(0,${mean}-${half})`);
      table.formula(place, "high", `${mean}+${half}`);
    }
    table.formula(place, "below", rows.map((row) => below(cells.at(row, column), kit)).join("*"));
    table.formula(place, "value", `(${at("low")}+${at("high")})/2`);
    table.formula(place, "u", `(${at("high")}-${at("low")})/SQRT(12)`);
  });
  return table;
}

/** What a row of the set-up says that a water carries, in mg of the element per litre: a number as it is, a text such as <0.2 as a reading. */
export const statedConcentration = (setUp: SetUpCells, settings: Settings, workspace: Workspace, own: { readonly form: Form; readonly factor: string } | null): StatedConcentration => (form, key) => {
  const row = setUp.limited({ most: Infinity }, key);
  if (!row) return null;
  const { given, unit } = row;
  const named = formNamed(unit.split(" ").pop() ?? "") ? unit : `${unit} ${form}`;
  const factor = unit !== "" ? settings.elementMgPerL(parseBasis(named)) : own && own.form === form ? own.factor : settings.elementMgPerL({ unit: "mg/L", form });
  if (typeof given.value === "number") {
    const value = `${numberText(given)}*${factor}`;
    return { low: value, high: value };
  }
  return { low: `${limit("LOW", given, null, workspace)}*${factor}`, high: `${limit("HIGH", given, null, workspace)}*${factor}` };
};
