import { foodsFrom } from "../../functions/foods-range";
import type { Log, SetUp } from "../../science/budget/log";
import { budget as words } from "../../words/native-account";
import type { Draft } from "../draft";
import { type GivenRange, isBlankValue, isSame } from "../given";
import { nothingBelow } from "../rows-below";
import type { Workspace } from "../workspace";
import type { Gates } from "./answer";
import { type LogCells, valuesOf } from "./log-cells";
import { checkLog, type LogChecks } from "./log-state";
import type { PeriodDays } from "./period-days";
import { numberText, type SetUpCells } from "./set-up-cells";
import { checkSetUp, rowsRead } from "./set-up-state";

/** Days from here on are none. */
const LAST_DATE = 2958465;

/** What of an account is held against the hand-over. */
export interface Checked {
  readonly draft: Draft;
  readonly log: Log;
  readonly setUp: SetUp;
  readonly cells: LogCells;
  readonly setUpCells: SetUpCells;
  readonly checks: LogChecks;
  readonly days: PeriodDays;
}

/** Writes the two tables of checks; gives the cells that say whether all of them are met. `single`: the arguments of one cell. */
export function putChecks({ draft, log, setUp, cells, setUpCells, checks, days }: Checked, workspace: Workspace, left: number, foods: GivenRange | null, single: readonly (GivenRange | null)[]): Gates {
  const { state, values } = checks;
  setUp.units.forEach((unit, place) => {
    litArea(setUpCells, setUp, place);
    if (unit.startedDay !== null) days.checkStart(state, words.names.screen(unit.name), startedDay(setUpCells, setUp, place, days), unit.startedDay);
  });
  const free = checkLog(cells, log, workspace, draft, left, checks);
  checkSetUp(setUpCells, rowsRead(valuesOf(cells.range) ?? [], setUpCells.range, log.nutrient, foodsFrom(valuesOf(foods))), checks);
  state.add(words.checks.below, ...nothingBelow(cells.range, cells.datePlace, workspace.book), ...nothingBelow(setUpCells.range, 0, workspace.book));
  days.check(state);
  for (const given of single.map((range) => range?.rows[0]?.[0])) if (given && !given.literal) state.add(words.checks.period, isBlankValue(given.value) ? `LEN(${given.text})=0` : isSame(given));
  const first = state.put(draft, free, words.checksTitle);
  const second = values.put(draft, first.next, words.valuesTitle);
  return { holds: first.holds, same: second.holds };
}

/** The day on which a screen began: the first of the log where the set-up names none. */
export function startedDay(cells: SetUpCells, setUp: SetUp, place: number, days: PeriodDays): string {
  const unit = setUp.units[place];
  if (!unit || unit.startedDay === null) return days.first;
  const row = cells.limited({ open: true, most: LAST_DATE }, ...(unit.name ? [`started ${unit.name}`, "started"] : ["started"]));
  return row ? numberText(row.given, () => unit.startedDay) : "NA()";
}

/** The lit area of a screen, m2. */
export function litArea(cells: SetUpCells, setUp: SetUp, place: number): string {
  const name = setUp.units[place]?.name ?? "";
  const row = cells.limited({ open: true }, ...(name ? [`lit area ${name}`, "lit area"] : ["lit area"]));
  return row ? `${numberText(row.given)}${/^cm2$/i.test(row.unit) ? "/10000" : ""}` : "NA()";
}
