import { functions } from "../words/functions";
import { log as words } from "../words/log";
import type { BadEntry, ConditionEntry, LightEntry, RowEntry, ScreenUnit, SetUp } from "../science/budget/log";
import { Problem } from "../science/problem";
import { isBlank, numberIn, shareWithin, within, type Cell } from "./arguments";
import { isCellError } from "./cell-error";
import type { HeadedColumn, Of } from "./log-columns";
import type { DatedRow } from "./log-range";
import { isPhotonFlux } from "./log-headings";
import type { SetUpRows } from "./setup-range";

/** The most that each can be, and its unit in a sentence. */
export const CONDITION_LIMITS = {
  ph: { least: 4, most: 11, unit: "" },
  temperatureC: { least: -2, most: 40, unit: functions.units.celsius },
  salinity: { most: 42, unit: "" },
} as const;
export const LIGHT_MOST = { most: 5000, unit: "umol m-2 s-1" } as const;
export const HOURS_MOST = { most: 24, unit: functions.units.hours } as const;

/** What the rows say of the lamps and of the water, which the warnings and the comparison of screens need and the budget does not. */
export function conditionsFrom(dated: readonly DatedRow[], columns: readonly HeadedColumn[], units: readonly ScreenUnit[]): { light: LightEntry[]; conditions: ConditionEntry[]; unusable: BadEntry[] } {
  const light: LightEntry[] = [];
  const conditions: ConditionEntry[] = [];
  const unusable: BadEntry[] = [];
  const lightColumns = columns.filter((one): one is Of<"light"> => one.column.kind === "light");
  const conditionColumns = columns.filter((one): one is Of<"condition"> => one.column.kind === "condition");
  if (lightColumns.length + conditionColumns.length === 0) return { light, conditions, unusable };
  for (const { row, day, line } of dated) {
    const attempt = (one: HeadedColumn, take: (cell: Cell) => void): void => {
      const cell = line[one.place];
      if (isBlank(cell)) return;
      try {
        take(cell);
      } catch (error) {
        if (!(error instanceof Problem) && !isCellError(error)) throw error;
        unusable.push({ day, row, about: one.column.kind === "light" ? "light" : "condition", sentence: words.inRow(row, one.heading, error.message) });
      }
    };
    const said: { ph: number | null; temperatureC: number | null; salinity: number | null } = { ph: null, temperatureC: null, salinity: null };
    for (const one of conditionColumns) {
      attempt(one, (cell) => {
        const value = numberIn(one.heading, cell);
        if (one.column.of === "temperatureF") said.temperatureC = within(one.heading, (value - 32) / 1.8, CONDITION_LIMITS.temperatureC);
        else said[one.column.of] = within(one.heading, value, CONDITION_LIMITS[one.column.of]);
      });
    }
    if (said.ph !== null || said.temperatureC !== null || said.salinity !== null) conditions.push({ day, row, ...said });
    for (const one of lightColumns) attempt(one, (cell) => light.push({ day, row, unit: screenOf(one, units), ...lightOf(one, cell) }));
  }
  return { light: light.sort((a, b) => a.day - b.day), conditions: conditions.sort((a, b) => a.day - b.day), unusable };
}

function screenOf({ heading, column }: Of<"light">, units: readonly ScreenUnit[]): number | null {
  if (column.screen === "") return null;
  const place = units.findIndex((unit) => unit.name.toLowerCase() === column.screen.toLowerCase());
  if (place < 0) throw new Problem("value", words.unknownLightScreen(heading, units.map((unit) => unit.name).filter(Boolean)));
  return place;
}

function lightOf({ heading, column }: Of<"light">, cell: Cell): Pick<LightEntry, "umolPerM2S" | "hoursPerDay" | "level"> {
  const value = numberIn(heading, cell);
  const none = { umolPerM2S: null, hoursPerDay: null, level: null };
  if (column.of === "umolPerM2S") return { ...none, umolPerM2S: within(heading, value, LIGHT_MOST) };
  if (column.of === "hoursPerDay") return { ...none, hoursPerDay: within(heading, value, HOURS_MOST) };
  // 50 and a cell formatted 50% (0.5) are the same; 1 alone could be full light or one per cent, and lamps are not run at 1 %.
  return { ...none, level: shareWithin(heading, value > 1 ? value / 100 : value, 1) };
}

/** The dated rows in the order of the sheet; a row that repeats an earlier one of its day, figure by figure, is marked. */
export function rowsOf(dated: readonly DatedRow[]): RowEntry[] {
  const onDay = new Map<number, number>();
  for (const { day } of dated) onDay.set(day, (onDay.get(day) ?? 0) + 1);
  const seen = new Map<string, number>();
  return dated.map(({ row, day, line }) => {
    if (onDay.get(day) === 1) return { row, day, sameAs: null };
    const key = `${day} ${JSON.stringify(line.map((cell) => (isBlank(cell) ? "" : cell)))}`;
    const sameAs = seen.get(key) ?? null;
    if (sameAs === null) seen.set(key, row);
    return { row, day, sameAs };
  });
}

/** Lamps of one screen as the set-up states them. `keys`: the screen's own row first, then the one for all. */
export function lampsFrom(rows: SetUpRows, keys: (word: string) => string[]): Pick<ScreenUnit, "umolPerM2S" | "hoursPerDay" | "watts"> {
  const umolPerM2S = rows.read(keys("light"), ({ key, unit, cell }) => {
    if (!isPhotonFlux(unit)) throw new Problem("value", unit === "" ? words.unitMissing(key, "Light (umol m-2 s-1)") : words.unitUnknown(key, unit, "umol m-2 s-1"));
    return within(key, numberIn(key, cell), LIGHT_MOST);
  });
  return { umolPerM2S, hoursPerDay: rows.number([...keys("light hours"), ...keys("hours lit")], HOURS_MOST), watts: rows.number([...keys("watts"), ...keys("power")], { unit: "W" }) };
}

export const usualConditionsFrom = (rows: SetUpRows): SetUp["usual"] => ({
  ph: rows.number(["ph"], CONDITION_LIMITS.ph),
  temperatureC: rows.number(["temperature"], CONDITION_LIMITS.temperatureC),
  salinity: rows.number(["salinity"], CONDITION_LIMITS.salinity),
});

/** Whether a column's figures belong to the account; others do not make the log longer. */
export const countsForTheBudget = ({ column }: HeadedColumn): boolean => !["ignored", "date", "food", "light", "condition"].includes(column.kind);

