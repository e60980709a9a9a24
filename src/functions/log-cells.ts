import { numberFromText } from "../science/number-text";
import { Problem } from "../science/problem";
import { isBlank, type Cell } from "./arguments";
import { serialInOrder, type DateOrder } from "./date-text";
import { splitHeading, type Column } from "./log-headings";

/** How the texts of a log are to be read: its dates, and whether its numbers have a decimal comma. */
export interface TextReading {
  readonly order: DateOrder | null;
  readonly calendarOffset: number;
  readonly decimalComma: boolean;
}

/** Words with which a keeper's sheet says that a test found nothing, in German, French and Spanish; n.n. is "nicht nachweisbar". */
const NOT_DETECTED = /^(?:n\.?\s?n\.?|nicht nachweisbar|nicht messbar|unter nachweisgrenze|non d[ée]tect[ée]|ind[ée]tectable|no detectado|no detectable|indetectable|undetectable)$/i;
/** A dash alone says that nothing was entered. */
const DASH = /^[-–—−]+$/;
const NUMBER_AND_REST = /^([+-]?[\d.,\u00a0\u202f ]*\d[.,]?)\s*([^\d\s].*)$/;

/** Spellings of one unit, for stripping the unit that a keeper wrote into the cell as well. */
const SAME_UNIT: readonly RegExp[] = [/^(?:g|gr|grams?|grammes?|gramm|gramos?)\.?$/i, /^(?:kg|kilos?)\.?$/i, /^mg$/i, /^(?:l|lt|lit(?:er|re|ro)s?)\.?$/i, /^ml$/i, /^m[3³]$/i, /^(?:portions?|portion(?:en)?|raci[oó]n(?:es)?)$/i, /^(?:h|hours?|std\.?|stunden?|heures?|horas?)$/i, /^(?:°\s?)?c(?:elsius)?$/i, /^(?:°\s?)?f(?:ahrenheit)?$/i, /^mg\s?\/\s?l$/i, /^[uµμ]g\s?\/\s?l$/i, /^[uµμ]mol\s?\/\s?l$/i];

/** Whether two units are spellings of the same. */
export const sameUnit = (one: string, other: string): boolean =>
  one.trim().toLowerCase() === other.trim().toLowerCase() || SAME_UNIT.some((unit) => unit.test(one.trim()) && unit.test(other.trim()));

/**
 * One cell of a keeper's log as the strict reader wants it under its heading. What cannot be read is passed on as it is, so that
 * the budget names the cell instead of missing it.
 */
export function cellAsRead(cell: Cell, heading: string, column: Column, texts: TextReading): Cell {
  if (isBlank(cell)) return "";
  if (column.kind === "date") return serialInOrder(cell, texts.order, texts.calendarOffset) ?? cell;
  if (typeof cell !== "string") return cell;
  const text = cell.trim();
  if (DASH.test(text)) return "";
  if (column.kind === "food" || column.kind === "ignored") return text;
  const { unit } = splitHeading(heading);
  return column.kind === "reading" ? readingAsRead(text, unit, texts) : (numberAsRead(text, unit, texts) ?? cell);
}

/** A number in text, also with the unit of its heading behind it; null when it is none. 20% is the share 0.2 under a per cent heading. */
function numberAsRead(text: string, unit: string, texts: TextReading): number | null {
  const alone = numberOrNull(text, texts);
  if (alone !== null) return alone;
  const match = NUMBER_AND_REST.exec(text);
  const value = match ? numberOrNull(match[1] ?? "", texts) : null;
  if (value === null) return null;
  if (/^(%|prozent|per ?cent|pour ?cent|por ciento)$/i.test((match?.[2] ?? "").trim())) return /^(%|share|per ?cent)$/i.test(unit) && value <= 100 ? value / 100 : null;
  return sameUnit(match?.[2] ?? "", unit) ? value : null;
}

/** A reading keeps its text where the text says more than the number: signs, ranges, and the places to which it was read (0,50). */
function readingAsRead(text: string, unit: string, texts: TextReading): string | number {
  if (NOT_DETECTED.test(text)) return "nd";
  const [concentration = ""] = unit.split(/\s+(?:as\s+)?(?=[A-Z])/);
  const behind = /^([<>~≤≥]?=?\s*[\d.,]+(?:\s*[-–—]\s*[\d.,]+)?)\s*([a-zµμ].*)$/i.exec(text);
  const bare = behind && sameUnit(behind[2] ?? "", concentration) ? (behind[1] ?? "").trim() : text;
  const value = numberOrNull(bare, texts);
  return value !== null && (String(value) === bare.replace(",", ".") || POINT_THOUSANDS.test(bare)) ? value : bare;
}

const COMMA_THREE = /^[+-]?[1-9]\d{0,2},\d{3}$/;
const POINT_THOUSANDS = /^[+-]?[1-9]\d{0,2}(?:\.\d{3})+$/;

/**
 * Whether the numbers in text have a decimal comma throughout: some that cannot be meant otherwise (3,5) and none with a point
 * (3.5). Then 7,816 and 1.234 have one meaning each, which alone they have not.
 */
export function hasDecimalComma(cells: Iterable<Cell>): boolean {
  let commas = false;
  for (const cell of cells) {
    if (typeof cell !== "string") continue;
    if (/(?:^|[^\d.,])\d*\.(?:\d{1,2}|\d{4,})(?![\d.,])|(?:^|\D)0\.\d/.test(cell)) return false;
    if (/(?:^|[^\d.,])\d*,(?:\d{1,2}|\d{4,})(?![\d.,])|(?:^|\D)0,\d/.test(cell)) commas = true;
  }
  return commas;
}

function numberOrNull(text: string, { decimalComma }: TextReading): number | null {
  try {
    if (decimalComma && COMMA_THREE.test(text)) return numberFromText(text.replace(",", "."));
    if (decimalComma && POINT_THOUSANDS.test(text)) return numberFromText(text.replace(/\./g, ""));
    return numberFromText(text);
  } catch (error) {
    // 1,234 has two meanings: the budget says so beside its row.
    if (error instanceof Problem) return null;
    throw error;
  }
}

/** A row's first words that make it a total of the rows above, in four languages. */
const TOTAL = /^\s*(?:grand\s+)?(?:total|totals|totaux|totales|sum|summe|gesamt|insgesamt|somme|suma|average|mean|mittel(?:wert)?|durchschnitt|moyenne|promedio|min|max|minimum|maximum)\b/i;
export const saysTotal = (cell: Cell): boolean => typeof cell === "string" && TOTAL.test(cell);

/**
 * Whether a row below the headings is no entry of the log: a total, a title such as the month, or the heading row once more.
 * `dateAt`: place of the date column; `others`: places of the other columns that are read.
 */
export function isNoEntry(line: readonly Cell[], headings: readonly (readonly Cell[])[], dateAt: number, others: readonly number[], texts: TextReading): boolean {
  const date = line[dateAt];
  if (typeof date !== "string" || isBlank(date) || serialInOrder(date, texts.order, texts.calendarOffset) !== null) return false;
  if (saysTotal(date)) return true;
  const filled = others.filter((place) => !isBlank(line[place]));
  if (filled.length === 0) return true;
  const same = (place: number): boolean => headings.some((row) => !isBlank(row[place]) && String(row[place]).trim().toLowerCase() === String(line[place]).trim().toLowerCase());
  return [dateAt, ...filled].every(same);
}
