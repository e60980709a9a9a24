import { foodKey } from "../../../science/feed";
import { FOODS } from "../../../science/constants/foods";
import { isBlank } from "../../../functions/arguments";
import { figureIn, folded, isErrorText, type Grid } from "./cells";
import { isDate } from "./date-column";
import { unitsIn, type WrittenUnit } from "./units";

/** What the cells of a column say, below the headings. */
export interface ColumnValues {
  readonly filled: readonly unknown[];
  readonly figures: readonly number[];
  /** Texts that are no figure, no error and no sign for "nothing". */
  readonly texts: readonly string[];
  /** Units behind the figures, one for each cell that has one; units of a few cells only are left out, for the budget names those cells. */
  readonly units: readonly WrittenUnit[];
  readonly dates: number;
}

export function valuesOf(grid: Grid, column: number, first: number, last: number): ColumnValues {
  const filled: unknown[] = [];
  for (let row = first; row <= last; row += 1) {
    const cell = grid[row]?.[column];
    if (!isBlank(cell) && !isErrorText(cell)) filled.push(cell);
  }
  const figures: number[] = [];
  const texts: string[] = [];
  const units: WrittenUnit[] = [];
  for (const cell of filled) {
    const figure = figureIn(cell);
    if (figure !== null) figures.push(figure);
    if (typeof cell !== "string") continue;
    const behind = /^[<>~≤≥]?=?\s*[+-]?\d[\d.,\s-]*(.*)$/.exec(cell.trim());
    const rest = behind?.[1]?.trim() ?? "";
    const unit = rest === "" ? undefined : unitsIn(` ${rest}`)[0];
    if (unit) units.push(unit);
    if (figure === null && /\p{L}{2}/u.test(cell) && !/^(?:nd|n\.d\.?|n\.n\.?|bdl|none)$/i.test(cell.trim())) texts.push(cell.trim());
  }
  const counts = new Map<string, number>();
  for (const { unit } of units) counts.set(unit, (counts.get(unit) ?? 0) + 1);
  const often = units.filter(({ unit }) => (counts.get(unit) ?? 0) >= 0.2 * filled.length);
  return { filled, figures, texts, units: often, dates: filled.filter(isDate).length };
}

/** Whether the cells alone may say the unit: at least half of them do. */
export const cellsSayUnit = ({ units, filled }: ColumnValues): boolean => units.length >= 0.5 * filled.length;

export const mostlyTexts = ({ filled, texts }: ColumnValues): boolean => texts.length > 0.6 * filled.length;

const WEEKDAY = /^(?:mo|mon|tu|tue|tues|we|wed|th|thu|thur|thurs|fr|fri|sa|sat|su|sun|di|mi|do|so|lu|lun|ma|mar|me|mer|mie|je|jeu|jue|ve|ven|vie|sam|sab|dim|dom)(?:[a-z]*day|tag|woch|di|edi|coles|ado|ingo)?[a-z]*\.?$/;
export const areWeekdays = ({ filled, texts }: ColumnValues): boolean => texts.length > 0 && texts.length > 0.8 * filled.length && texts.every((text) => text.length < 12 && WEEKDAY.test(folded(text)));

/** Words by which foods are known, five letters or more of each; the built-in names and what keepers call them elsewhere. */
const FOOD_WORDS: readonly string[] = [
  ...new Set(FOODS.flatMap(({ name }) => folded(name).split(/[^a-z]+/)).filter((word) => word.length >= 3 && !/^(?:dry|raw|retail|may|treated|untreated|whole|frozen|peeled|adult|marine|dried|fresh|farmed|wild|newly|hatched|atlantic|eastern|cooked|protein|heart|lettuce|sheet|pond|sea|fish|beef|egg|freshwater)$/.test(word))),
  "artemia", "mysis", "flocken", "flakes", "flake", "pellets", "granulat", "muschel", "garnele", "krabbe", "paillettes", "granules", "crevette", "moule", "escamas", "granulado", "gamba", "mejillon", "cyclops", "copepod", "daphni", "roe", "rogen",
];

/** The food word in a text, or null. */
export function foodWordIn(text: string): string | null {
  const parts = folded(text).split(/[^a-z]+/).filter((part) => part.length >= 3);
  return FOOD_WORDS.find((word) => parts.some((part) => part === word || (word.length >= 4 && part.startsWith(word.slice(0, Math.max(4, word.length - 1)))))) ?? null;
}

/** Whether a column names foods: by the table's own names (the keeper's too), or by their words. */
export function namesFoods({ texts, filled }: ColumnValues, foods: readonly string[]): boolean {
  if (texts.length === 0 || texts.length < 0.6 * filled.length) return false;
  const known = new Set([...FOODS.map(({ name }) => name), ...foods].map(foodKey));
  return texts.filter((text) => known.has(foodKey(text)) || (text.length < 40 && foodWordIn(text) !== null)).length >= 0.6 * texts.length;
}
