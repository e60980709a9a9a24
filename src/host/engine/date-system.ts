import type { Book } from "../../files/book";
import { Problem } from "../../science/problem";
import { host } from "../../words/host";

/** Native functions whose answer depends on which day is number 0. */
const DATE_FUNCTIONS =
  /\b(DATE|DATEDIF|DATEVALUE|DAY|DAYS|DAYS360|EDATE|EOMONTH|ISOWEEKNUM|MONTH|NETWORKDAYS(\.INTL)?|NOW|TEXT|TODAY|WEEKDAY|WEEKNUM|WORKDAY(\.INTL)?|YEAR|YEARFRAC)\s*\(/i;

/**
 * The engine counts days from 1900 only. A workbook that counts from 1904 is calculated as it stands, since differences of dates
 * are the same, unless a formula of it asks for a calendar date: that would be 1,462 days off, so it is refused.
 */
export function refuseCalendarFrom1904(book: Book): void {
  if (!book.date1904) return;
  for (const sheet of book.sheets) {
    for (const [address, { formula }] of sheet.cells) {
      if (formula !== undefined && DATE_FUNCTIONS.test(formula)) throw new Problem("value", host.calendarFrom1904(sheet.name, address));
    }
  }
}
