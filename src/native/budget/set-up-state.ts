import { CellError, isCellError } from "../../functions/cell-error";
import { splitHeading } from "../../functions/log-headings";
import { logFrom } from "../../functions/log-range";
import { CONDITION_LIMITS, HOURS_MOST, LIGHT_MOST } from "../../functions/log-conditions";
import type { FoodTable } from "../../science/feed";
import type { Nutrient } from "../../science/nutrient-forms";
import { Problem } from "../../science/problem";
import { budget as words } from "../../words/native-account";
import { NotWritable } from "../not-writable";
import { type GivenRange, isBlankValue, isError, isSame, quoted } from "../given";
import type { LogChecks } from "./log-state";
import { numberConditions, type SetUpCells, type SetUpLimits } from "./set-up-cells";

/** Water and lamps, which the account itself does not read: our function refuses one that cannot be. */
const LIMITS: readonly (readonly [RegExp, SetUpLimits])[] = [
  [/^ph$/i, CONDITION_LIMITS.ph],
  [/^temperature$/i, CONDITION_LIMITS.temperatureC],
  [/^salinity$/i, CONDITION_LIMITS.salinity],
  [/^(?:light hours|hours lit)\b/i, HOURS_MOST],
  [/^light\b/i, LIGHT_MOST],
  [/^(?:watts|power)\b/i, {}],
];

/**
 * Holds every row of a set-up against the hand-over: this name, a value where one stood and none where none did. A number that the account
 * reads may become another one that our function takes; all else that our function reads has to stay what it was.
 */
export function checkSetUp(cells: SetUpCells, isRead: (row: number) => boolean, { state, values }: LogChecks): void {
  cells.range.rows.forEach(([key, given], row) => {
    if (!key || !given) return;
    if (key.literal || given.literal || isError(key.value) || isError(given.value)) throw new NotWritable();
    const what = words.checks.setUpRow(isBlankValue(key.value) ? row + 1 : String(key.value));
    state.add(what, isBlankValue(key.value) ? `LEN(TRIM(${key.text}))=0` : `EXACT(${key.text},${quoted(String(key.value))})`);
    if (isBlankValue(given.value)) return state.add(what, `LEN(TRIM(${given.text}))=0`);
    if (isBlankValue(key.value)) return;
    const { text, value } = given;
    const limited = cells.conditionsOf(row);
    if (!limited && !isRead(row)) return;
    const live = typeof value === "number" ? (limited ?? ofConditions(String(key.value), text)) : null;
    if (live) state.add(what, ...live);
    else if (typeof value === "string") state.add(what, `EXACT(${text},${quoted(value)})`);
    else state.add(what, `ISNUMBER(${text})=${typeof value === "number" ? "TRUE" : "FALSE"}`, isSame(given));
    values.add(what, isSame(given));
  });
}

function ofConditions(key: string, text: string): string[] | null {
  const { name } = splitHeading(key);
  const found = LIMITS.find(([known]) => known.test(name));
  return found ? numberConditions(text, found[1]) : null;
}

/** Which rows of a set-up the function reads for one nutrient: those in which an error of the workbook becomes its answer. */
export function rowsRead(log: readonly (readonly unknown[])[], { rows }: GivenRange, nutrient: Nutrient, foods: FoodTable): (row: number) => boolean {
  const found = new CellError("#N/A", "");
  // The set-up is read before the log's rows.
  const short = log.slice(0, 2);
  return (row) => {
    const setUp = rows.map((line, r) => line.map(({ value }, c) => (r === row && c === 1 ? found : value)));
    try {
      logFrom(short, setUp, nutrient, foods);
    } catch (error) {
      if (error === found) return true;
      if (!(error instanceof Problem) && !isCellError(error)) throw error;
    }
    return false;
  };
}
