import { DATE_ORDERS, dateFigures, serialInOrder, serialOfText, type DateOrder } from "../../../functions/date-text";
import { join as words } from "../../../words/join";

/** In which order the dates of a column are written, or why it has to be asked. */
export interface OrderFound {
  readonly order: DateOrder | null;
  /** Empty when nothing needs to be asked. */
  readonly orders: readonly DateOrder[];
  readonly why: string;
}

/** Longer than a log: an order under which the dates lie farther apart has taken days for years. */
const MOST_DAYS = 20 * 366;

/** "3 April 2026", the same for every reader. */
export function shownDate(serial: number): string {
  const day = new Date((Math.floor(serial) - 25569) * 86_400_000);
  return `${day.getUTCDate()} ${words.months[day.getUTCMonth()] ?? ""} ${day.getUTCFullYear()}`;
}

/** @param cells the cells of the date column below the headings, blanks left out */
export function dateOrderOf(cells: readonly unknown[]): OrderFound {
  const texts = cells.filter((cell): cell is string => typeof cell === "string");
  const figures = texts.filter((text) => (dateFigures(text)?.[0] ?? "0000").length < 4);
  const sample = figures[0];
  if (sample === undefined) {
    const first = texts.find((text) => serialOfText(text, null, 0) !== null);
    const serial = first === undefined ? null : serialOfText(first, null, 0);
    return { order: null, orders: [], why: serial === null ? words.why.realDates : words.why.textDates(first ?? "", shownDate(serial)) };
  }
  const whole = DATE_ORDERS.filter((order) => fits(figures, order, 0));
  const possible = whole.length > 0 ? whole : DATE_ORDERS.filter((order) => fits(figures, order, 0.02));
  const settled = possible.length === 1 ? possible[0] : possible.includes("dmy") && figures.every((text) => /^\D*\d+\.\s?\d+\./.test(text)) ? "dmy" : undefined;
  if (settled === undefined) {
    if (possible.length === 0) return { order: null, orders: DATE_ORDERS, why: disagreement(figures, sample) };
    const ambiguous = figures.find((text) => new Set(possible.map((order) => serialInOrder(text, order, 0))).size > 1) ?? sample;
    const [first, second] = possible.map((order) => shownDate(serialInOrder(ambiguous, order, 0) ?? 0));
    return { order: null, orders: possible, why: words.why.datesTwoWays(ambiguous, first ?? "", second ?? "") };
  }
  // Excel turns 3/4/2026 into a date by its own order and leaves 31/3/2026 a text: then the real dates are the turned ones.
  const isHalfTurned = cells.some((cell) => typeof cell === "number") && figures.every((text) => (dateFigures(text) ?? []).some((part) => part.length <= 2 && Number(part) > 12)) && /[/-]/.test(sample);
  if (isHalfTurned) return { order: settled, orders: [settled], why: words.why.datesHalfTurned(sample) };
  return { order: settled, orders: [], why: words.why.textDates(sample, shownDate(serialInOrder(sample, settled, 0) ?? 0)) };
}

/** An order fits when the dates exist in it, but for a share of slips, and the whole is no longer than a log. The budget names the slips. */
function fits(texts: readonly string[], order: DateOrder, mostSlips: number): boolean {
  const serials = texts.map((text) => serialInOrder(text, order, 0));
  const read = serials.filter((serial): serial is number => serial !== null).sort((a, b) => a - b);
  const slips = serials.length - read.length;
  if (read.length === 0 || slips > mostSlips * serials.length) return false;
  return (read[read.length - 1] ?? 0) - (read[0] ?? 0) <= MOST_DAYS;
}

function disagreement(texts: readonly string[], sample: string): string {
  const first = texts.find((text) => serialInOrder(text, "dmy", 0) === null) ?? sample;
  const second = texts.find((text) => serialInOrder(text, "mdy", 0) === null) ?? sample;
  return words.why.datesDisagree(first, second);
}
