const DAY_MS = 86_400_000;
const ISO = /^(\d{4})-(\d\d)-(\d\d)(?:T(\d\d):(\d\d)(?::(\d\d(?:\.\d+)?))?)?Z?$/;
/** The day that each date system calls 0. In the first, numbers before 1900-03-01 are one too high, as Excel has it. */
const DAY_ZERO = { from1900: Date.UTC(1899, 11, 30), from1904: Date.UTC(1904, 0, 1) };

/** The serial number of an ISO 8601 date, with or without a time of day; undefined for any other text. */
export function serialOfIsoDate(text: string, date1904: boolean): number | undefined {
  const match = ISO.exec(text);
  if (!match) return undefined;
  const [year = 0, month = 0, day = 0, hours = 0, minutes = 0, seconds = 0] = match.slice(1).map((part) => Number(part ?? 0));
  const date = Date.UTC(year, month - 1, day);
  if (new Date(date).getUTCMonth() !== month - 1) return undefined;
  const days = (date - (date1904 ? DAY_ZERO.from1904 : DAY_ZERO.from1900)) / DAY_MS;
  const early = !date1904 && days < 61 ? days - 1 : days;
  return early + (hours * 3600 + minutes * 60 + seconds) / 86_400;
}

/** The other way round, for whole days from 1900-03-01 on: "2026-01-31"; undefined for any other number. */
export function isoDate(serial: number): string | undefined {
  if (!Number.isInteger(serial) || serial < 61 || serial > LAST_DAY) return undefined;
  return new Date(DAY_ZERO.from1900 + serial * DAY_MS).toISOString().slice(0, 10);
}

/** 9999-12-31 */
const LAST_DAY = 2_958_465;
