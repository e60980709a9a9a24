import { joinAddress, splitAddress } from "../functions/cell-address";
import { columnOf, splitHeading } from "../functions/log-headings";
import { Problem } from "../science/problem";

/** Where the log and the set-up of the open workbook stand: "Log!A1:H113", "'Set-up'!A1:B14". */
export interface OpenLog {
  readonly log: string;
  readonly setUp: string;
}

interface Sheet {
  readonly name: string;
  /** The row of the last filled cell. */
  readonly lastRow: number;
  /** The first rows from A1, as far as they are needed to tell a log from a set-up. */
  readonly top: readonly (readonly unknown[])[];
}

const TOP = "A1:Z40";
const COLUMNS = 26;

/**
 * Looks for a log whose headings stand in row 1 and for a two-column set-up with a row Volume, which is how the sample workbooks
 * are laid out. null when the open workbook has none, or more than one of either.
 */
export async function findOpenLog(): Promise<OpenLog | null> {
  const sheets = await Excel.run({ delayForCellEdit: true }, readSheets);
  const [log, otherLog] = sheets.filter(isLog);
  const [setUp, otherSetUp] = sheets.filter(isSetUp);
  if (!log || !setUp || otherLog || otherSetUp) return null;
  return {
    log: joinAddress(log.name, `A1:${lastColumn(log)}${log.lastRow}`),
    setUp: joinAddress(setUp.name, `A1:B${setUp.lastRow}`),
  };
}

async function readSheets(context: Excel.RequestContext): Promise<Sheet[]> {
  const { worksheets } = context.workbook;
  worksheets.load("items/name");
  await context.sync();
  const asked = worksheets.items.map((sheet) => ({
    name: sheet.name,
    used: sheet.getUsedRangeOrNullObject(true).load("address"),
    top: sheet.getRange(TOP).load("values"),
  }));
  await context.sync();
  return asked.filter(({ used }) => !used.isNullObject).map(({ name, used, top }) => ({ name, lastRow: lastRowOf(used.address), top: top.values }));
}

/** "Log!A1:H113" ends in row 113. */
function lastRowOf(address: string): number {
  return Number(/\d+$/.exec(splitAddress(address).cell)?.[0] ?? 1);
}

/** The headings from A1 to the first blank one. */
function headings({ top }: Sheet): unknown[] {
  const row = top[0] ?? [];
  const blank = row.findIndex((heading) => String(heading).trim() === "");
  return row.slice(0, blank < 0 ? COLUMNS : blank);
}

function lastColumn(sheet: Sheet): string {
  return String.fromCharCode("A".charCodeAt(0) + headings(sheet).length - 1);
}

function isLog(sheet: Sheet): boolean {
  const kinds = headings(sheet).map(kindOf);
  return sheet.lastRow > 1 && kinds.includes("date") && kinds.some((kind) => kind === "feed" || kind === "reading" || kind === "harvest");
}

/** A heading with a slip in it is no reason to overlook the log: the function itself says what is wrong with it. */
function kindOf(heading: unknown): string {
  try {
    return columnOf(String(heading)).kind;
  } catch (error) {
    if (error instanceof Problem) return "doubtful";
    throw error;
  }
}

function isSetUp({ top }: Sheet): boolean {
  return top.some(([key, value]) => splitHeading(String(key)).name.toLowerCase() === "volume" && String(value).trim() !== "");
}
