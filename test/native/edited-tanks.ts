import { cellAddress } from "../../src/files/address";
import { PERIOD_CHOICES, type PeriodChoice } from "../../src/science/budget/period";
import { seededRandom } from "../../src/science/seeded";

export type Value = string | number;
/** Rows from the heading row on; "" is a blank cell. */
export type Rows = readonly (readonly Value[])[];

/** An invented log with its set-up, and blank rows in both. */
export interface Tank {
  readonly log: Rows;
  readonly setUp: Rows;
  readonly period: PeriodChoice;
}

const COLUMNS = ["Date", "Food", "Feed (g)", "Feed Dry pellets or flakes (portions)", "NO3 (mg/L)", "NO2-N (mg/L)", "PO4 (mg/L)", "Harvest upper (g)", "Harvest upper pressed (g)", "Harvest lower (g)", "Fed back upper (g)", "Water change (%)", "Top-up (L)", "Dosed NO3 (g)", "Removed PO4 (g)", "Notes"];
/** Rows of which some are in the set-up, the others blank or with a name and no value. */
const ROWS: Rows = [
  ["NO3 kit steps", "0 5 10 20 40"], ["NO3 kit steps", 0.5], ["PO4 kit steps", 0.02], ["Dry fraction", 0.085], ["Dry fraction lower", 0.07], ["Dry fraction lower high", 0.1], ["Dry fraction pressed (%)", 16], ["Tissue N", 0.04], ["Tissue P", 0.004],
  ["New water NO3 (mg/L)", "<2"], ["New water PO4 (mg/L)", 0.05], ["Top-up NO3 (mg/L)", 1], ["Retained (%)", 8], ["Volume error", 0.03], ["Feed error", 0.15], ["Harvest error", 0.2], ["Water change error (%)", 8], ["Started lower", 46090], ["Started upper", 46095],
  ["Lit area lower (m2)", 0.1], ["Lit area upper (cm2)", 1500], ["NO2-N kit error", 0.1], ["Period screen", "lower"], ["Food", "Cod"], ["pH", 8.1], ["Temperature (C)", 25], ["Light (umol m-2 s-1)", 200], ["Keeper", "Ada"], ["Water change errors", ""],
];

/** A tank of some weeks, the same for the same seed; some have cells that are refused. */
export function tankOf(seed: number): Tank {
  const random = seededRandom(seed);
  const chance = (share: number): boolean => random() < share;
  const pick = <T>(of: readonly T[]): T => of[Math.floor(random() * of.length)] as T;
  const columns = COLUMNS.filter((heading) => ["Date", "Food", "Feed (g)", "NO3 (mg/L)", "Harvest upper (g)"].includes(heading) || chance(0.75));
  const setUpRows = ROWS.filter(([name], place) => chance(0.55) && ROWS.findIndex(([other]) => other === name) <= place).map(([name, value]) => (chance(0.1) ? [name as Value, ""] : [name as Value, value as Value]));
  const once = setUpRows.filter(([name], place) => setUpRows.findIndex(([other]) => other === name) === place);
  const hasKit = once.some(([name, value]) => name === "NO3 kit steps" && value !== "");
  const isChart = once.some(([name, value]) => name === "NO3 kit steps" && typeof value === "string");
  const hasPhosphateKit = once.some(([name, value]) => name === "PO4 kit steps" && value !== "");
  const setUp = [["Volume (L)", 320], ...once, ["", ""], ["", ""]].sort(() => random() - 0.5);
  const days = 18 + Math.floor(random() * 24);
  const log: Value[][] = [columns];
  let day = 46100;
  for (let row = 0; row < days; row += 1) {
    const line = new Array<Value>(columns.length).fill("");
    const put = (heading: string, value: Value): void => void (columns.includes(heading) && (line[columns.indexOf(heading)] = value));
    day += chance(0.1) ? 2 : chance(0.05) ? 0.5 : 1;
    put("Date", chance(0.03) ? new Date((Math.floor(day) - 25569) * 86_400_000).toISOString().slice(0, 10) : day);
    put("Food", pick(["Mysids, frozen", "Cod", "Cod"]));
    if (chance(0.85)) put("Feed (g)", chance(0.05) ? 0 : chance(0.03) ? "4" : 2 + Math.floor(random() * 6));
    if (chance(0.2)) put("Feed Dry pellets or flakes (portions)", 1 + Math.floor(random() * 3));
    if (row === 2 || chance(0.18)) put("NO3 (mg/L)", chance(0.12) ? "<5" : isChart ? pick([5, 10, 20, 12]) : (80 + Math.floor(random() * 60)) / 10);
    if (chance(0.05) && hasKit) put("NO3 (mg/L)", 0);
    if (chance(0.1)) put("NO2-N (mg/L)", 0.05);
    if (row === 4 || chance(0.15)) put("PO4 (mg/L)", hasPhosphateKit && chance(0.1) ? 0 : (10 + Math.floor(random() * 30)) / 100);
    if (row === 8 || chance(0.08)) {
      put("Harvest upper (g)", 120 + Math.floor(random() * 80));
      if (chance(0.3)) put("Fed back upper (g)", 20);
      if (chance(0.3)) put("Harvest upper pressed (g)", 30);
    }
    if (row === 11 || chance(0.06)) put("Harvest lower (g)", 90);
    if (chance(0.1)) put("Water change (%)", chance(0.1) ? 100 : 15);
    if (chance(0.2)) put("Top-up (L)", 6);
    if (chance(0.06)) put("Dosed NO3 (g)", 1.5);
    if (chance(0.06)) put("Removed PO4 (g)", 0.2);
    if (chance(0.1)) put("Notes", "cloudy");
    log.push(line);
  }
  for (const ahead of [1, 2]) log.push(columns.map((heading) => (heading === "Date" && chance(0.5) ? day + ahead : "")));
  // Some logs hold what our function refuses.
  if (chance(0.25)) (log[6] as Value[])[columns.indexOf("Feed (g)")] = pick([-2, "some", 2e12]);
  if (chance(0.15)) (log[9] as Value[])[columns.indexOf("NO3 (mg/L)")] = pick<Value>([-1, "pale"]);
  return { log, setUp: setUp as Rows, period: pick(PERIOD_CHOICES) };
}

/** One cell of log or set-up that holds something else, "" for a cell that is cleared. */
export interface CellEdit {
  readonly sheet: "Log" | "Set up";
  readonly row: number;
  readonly column: number;
  readonly value: Value;
}
export interface TankEdit {
  readonly what: string;
  readonly cells: readonly CellEdit[];
}

/** What somebody may do to the copy, in one cell or a few; `place`: of the way in which, in turn. */
export function editOf(tank: Tank, seed: number, place: number): TankEdit {
  const random = seededRandom(seed);
  const pick = <T>(of: readonly T[]): T => of[Math.floor(random() * of.length)] as T;
  const { log, setUp } = tank;
  const cell = (sheet: CellEdit["sheet"], row: number, column: number, value: Value): CellEdit => ({ sheet, row, column, value });
  const headings = log[0] as readonly Value[];
  const amounts = headings.flatMap((heading, column) => (["Date", "Food", "Notes"].includes(String(heading)) ? [] : [column]));
  const inLog = (test: (value: Value) => boolean): { row: number; column: number; value: Value }[] => log.slice(1).flatMap((line, at) => amounts.flatMap((column) => (test(line[column] ?? "") ? [{ row: at + 1, column, value: line[column] ?? "" }] : [])));
  const [filled, blank] = [inLog((value) => value !== ""), inLog((value) => value === "")];
  const given = setUp.flatMap(([name = "", value = ""], row) => (name !== "" && value !== "" ? [{ row, name, value }] : []));
  const some = pick(filled);
  const logEdits: Readonly<Record<string, () => readonly CellEdit[]>> = {
    "another number": () => [cell("Log", some.row, some.column, typeof some.value === "number" ? Number((some.value * (0.6 + 0.8 * random())).toPrecision(3)) : 5)],
    "several other numbers": () => Array.from({ length: 5 }, () => pick(filled)).map(({ row, column, value }) => cell("Log", row, column, typeof value === "number" ? Number((value * (0.8 + 0.4 * random())).toPrecision(3)) : value)),
    "a 0 in place of an entry": () => [cell("Log", some.row, some.column, 0)],
    "an entry cleared": () => [cell("Log", some.row, some.column, "")],
    "a 0 in a blank cell": () => [pick(blank)].map(({ row, column }) => cell("Log", row, column, 0)),
    "a number in a blank cell": () => [pick(blank)].map(({ row, column }) => cell("Log", row, column, 3)),
    "an entry moved to another row": () => {
      const free = blank.filter(({ column }) => column === some.column);
      return free.length === 0 ? [] : [cell("Log", some.row, some.column, ""), cell("Log", pick(free).row, some.column, some.value)];
    },
    "two entries swapped": () => {
      const other = pick(filled.filter(({ column }) => column === some.column));
      return [cell("Log", some.row, some.column, other.value), cell("Log", other.row, other.column, some.value)];
    },
    "a text in place of an entry": () => [cell("Log", some.row, some.column, pick(["a lot", "<3", "5", "2,5", " ", "nd", ">40", "3-6"]))],
    "a figure that is refused": () => [cell("Log", some.row, some.column, pick([-1, -0.001, 2e12, 150, 1]))],
    "a small figure": () => [cell("Log", some.row, some.column, pick([1, 0.5, 0.004, 100]))],
    "a day moved": () => [1 + Math.floor(random() * (log.length - 1))].map((row) => cell("Log", row, 0, typeof log[row]?.[0] === "number" ? (log[row]?.[0] as number) + pick([0.25, -0.25, 0.4, 1, -1, 3, -40, 40]) : 46105)),
    "two days swapped": () => [1 + Math.floor(random() * (log.length - 3))].map((row) => [cell("Log", row, 0, log[row + 1]?.[0] ?? ""), cell("Log", row + 1, 0, log[row]?.[0] ?? "")]).flat(),
    "a day cleared": () => [cell("Log", 1 + Math.floor(random() * (log.length - 1)), 0, "")],
    "the last day later": () => [...log].map((line, row) => ({ line, row })).filter(({ line }) => line.slice(2).some((value) => value !== "")).slice(-1).map(({ row }) => cell("Log", row, 0, 46100 + 50 + Math.floor(random() * 40))),
    "a heading": () => [Math.floor(random() * headings.length)].map((column) => cell("Log", 0, column, pick(["Feed (kg)", "Notes", "NO3-N (mg/L)", "", "Harvest (g)", String(headings[column]).replace("(g)", "(kg)")]))),
    "another food": () => [cell("Log", 1 + Math.floor(random() * (log.length - 1)), headings.indexOf("Food"), pick(["Mussel", "cod", "Cod*", "", "Dust", 0]))],
    "a row below": () => [cell("Log", log.length, 0, 46190), cell("Log", log.length, headings.indexOf("Feed (g)"), 5)],
    "a row in the blank rows": () => [cell("Log", log.length - 1, 0, 46180), cell("Log", log.length - 1, headings.indexOf("Feed (g)"), 5)],
    "a note": () => (headings.includes("Notes") ? [cell("Log", 3, headings.indexOf("Notes"), pick([7, "clear"]))] : []),
  };
  const row = pick(given);
  const setUpEdits: typeof logEdits = {
    "another number in the set-up": () => [cell("Set up", row.row, 1, typeof row.value === "number" ? Number((row.value * (0.7 + 0.6 * random())).toPrecision(4)) : row.value)],
    "a figure that is refused in the set-up": () => [cell("Set up", row.row, 1, pick([-1, 0, 1, 1.5, 0.6, 150, 3e12]))],
    "a text in the set-up": () => [cell("Set up", row.row, 1, pick(["much", "5", "<2", "0 10 20", "upper"]))],
    "a value of the set-up cleared": () => [cell("Set up", row.row, 1, "")],
    "a row of the set-up cleared": () => [cell("Set up", row.row, 0, ""), cell("Set up", row.row, 1, "")],
    "a row of the set-up renamed": () => [cell("Set up", row.row, 0, pick(["Dry fraction", "Tissue N", "Retained", "Wind", `${String(row.name)} low`, String(row.name).toUpperCase()]))],
    "another unit in the set-up": () => [cell("Set up", row.row, 0, String(row.name).includes("(") ? String(row.name).replace(/\(.*\)/, pick(["(m3)", "(%)", "(cm2)", ""])) : `${String(row.name)} (%)`)],
    "a value where none stood": () => setUp.flatMap(([name = "", value = ""], at) => (value === "" ? [cell("Set up", at, 1, pick([0.05, 0, 3])), ...(name === "" ? [cell("Set up", at, 0, pick(["Tissue N", "Dry fraction", "Volume error", "Retained", "New water NO3-N (mg/L)", "Top-up PO4 (mg/L)", "Feed eror"]))] : [])] : [])).slice(0, 2),
    "a row below the set-up": () => [cell("Set up", setUp.length, 0, "Tissue N"), cell("Set up", setUp.length, 1, 0.06)],
  };
  const all = Object.entries({ ...logEdits, ...setUpEdits });
  const [what, cells] = all[place % all.length] as (typeof all)[number];
  return { what, cells: cells() };
}

/** Log and set-up with an edit; rows below them are no part of the ranges that the formulas name. */
export function withEdit({ log, setUp }: Tank, { cells }: TankEdit): Pick<Tank, "log" | "setUp"> {
  const copies = { Log: log.map((line) => [...line]), "Set up": setUp.map((line) => [...line]) };
  for (const { sheet, row, column, value } of cells) if (copies[sheet][row]) (copies[sheet][row] as Value[])[column] = value;
  return { log: copies.Log, setUp: copies["Set up"] };
}

export const addressOf = ({ row, column }: CellEdit): string => cellAddress(row, column);
