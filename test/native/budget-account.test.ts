import { functionNames } from "../../src/cli/functions";
import { engineAtHand } from "../../src/cli/engine-later";
import { recalculate } from "../../src/cli/recalculate";
import type { BookCell } from "../../src/files/book";
import { cellAddress } from "../../src/files/address";
import { writeBook } from "../../src/files/new-book";
import { patchBook } from "../../src/files/patch-book";
import { readBook } from "../../src/files/read-book";
import { BUDGET_N, BUDGET_P } from "../../src/functions/budget-functions";
import { logFrom } from "../../src/functions/log-range";
import { foodsFrom } from "../../src/functions/foods-range";
import { periodsOf, type PeriodChoice } from "../../src/science/budget/period";
import { budgetTerms } from "../../src/science/budget/terms";
import { firstOrder } from "../../src/science/budget/uncertainty";
import { nativeCopy } from "../../src/native/native-copy";
import { excelTests } from "../workbook/excel-tests";

/** A budget in plain formulas follows its log: the figures after a change are those of our own function with the change. Invented logs. */
type Grid = (string | number)[][];
const HEADINGS = ["Date", "Food", "Feed (g)", "Flakes fed (portions)", "NO3 (mg/L)", "NO2-N (mg/L)", "PO4 (mg/L)", "Harvest upper (g)", "Harvest upper pressed (g)", "Harvest lower (g)", "Fed back upper (g)", "Water change (%)", "Top-up (L)", "Dosed NO3 (g)", "Removed PO4 (g)"];
const FOOD_COLUMN = "Feed Dry pellets or flakes (portions)";

function tank(): { log: Grid; setUp: Grid } {
  const log: Grid = [HEADINGS.map((heading) => (heading === "Flakes fed (portions)" ? FOOD_COLUMN : heading))];
  for (let day = 0; day < 44; day += 1) {
    const row = new Array<string | number>(HEADINGS.length).fill("");
    const put = (heading: string, value: string | number): void => {
      row[HEADINGS.indexOf(heading)] = value;
    };
    put("Date", 46100 + day);
    put("Food", day % 3 === 0 ? "Mysids, frozen" : "Cod");
    put("Feed (g)", 3 + (day % 4));
    if (day % 5 === 0) put("Flakes fed (portions)", 2);
    if (day % 6 === 2) put("NO3 (mg/L)", 12 + (day % 5));
    if (day === 20) put("NO3 (mg/L)", "<5");
    if (day % 14 === 3) put("NO2-N (mg/L)", 0.05);
    if (day % 7 === 4) put("PO4 (mg/L)", 0.3);
    if (day === 9 || day === 22 || day === 35) put("Harvest upper (g)", 150 + day);
    if (day === 22) put("Harvest upper pressed (g)", 30);
    if (day === 22) put("Fed back upper (g)", 20);
    if (day === 15 || day === 30) put("Harvest lower (g)", 90);
    if (day === 0 || day === 10 || day === 20 || day === 33) put("Water change (%)", 15);
    if (day % 4 === 1) put("Top-up (L)", 6);
    if (day === 12) put("Dosed NO3 (g)", 1.5);
    if (day === 27) put("Removed PO4 (g)", 0.2);
    log.push(row);
  }
  return {
    log,
    setUp: [["Volume (L)", 320], ["NO3 kit steps", "0 5 10 20 40"], ["PO4 kit steps", 0.02], ["Dry fraction", 0.085], ["Dry fraction lower", 0.07], ["Dry fraction lower low", 0.05], ["Tissue N", 0.04], ["New water NO3 (mg/L)", "<2"], ["Top-up NO3 (mg/L)", 1], ["Retained (%)", 8], ["Feed error", 0.15], ["Started lower", 46090], ["Lit area lower (m2)", 0.1], ["Lit area upper (cm2)", 1500], ["NO2-N kit error", 0.1]],
  };
}

const { engine } = excelTests();
const cellsOf = (grid: Grid): [string, BookCell][] => grid.flatMap((row, r) => row.flatMap((value, c): [string, BookCell][] => (value === "" ? [] : [[cellAddress(r, c), { value }]])));

/** The copy of a workbook with both budgets, as a book. */
async function copyOf({ log, setUp }: { log: Grid; setUp: Grid }, period: PeriodChoice) {
  const last = cellAddress(log.length - 1, HEADINGS.length - 1);
  const budget = (nutrient: string): [string, BookCell][] => [["A1", { value: null, formula: `ALGAL.BUDGET_${nutrient}(Log!A1:${last},'Set up'!A1:B${setUp.length},"${period}")` }]];
  const file = await writeBook({ sheets: [{ name: "Log", cells: new Map(cellsOf(log)) }, { name: "Set up", cells: new Map(cellsOf(setUp)) }, { name: "N", cells: new Map(budget("N")) }, { name: "P", cells: new Map(budget("P")) }], names: [], date1904: false });
  const { results } = await recalculate(await readBook(file), engineAtHand(engine()), functionNames);
  const copy = await nativeCopy(await patchBook(file, results), (book) => {
    engine().open(book);
    return engine().calculate();
  }, { title: "invented", day: "2026-11-26" });
  expect(copy.frozen).toEqual([]);
  return readBook(copy.file);
}

interface Shown {
  readonly rows: (string | number | object)[][];
  readonly firstOrder: unknown[];
}

/** What the sheets of both budgets show after changes. */
async function shown(book: Awaited<ReturnType<typeof readBook>>, changes: Readonly<Record<string, number | string>>): Promise<Record<"N" | "P", Shown>> {
  const sheets = book.sheets.map((one) => ({ ...one, cells: new Map(one.cells) }));
  for (const [address, value] of Object.entries(changes)) {
    const [name = "", cell = ""] = address.split("!");
    sheets.find((one) => one.name === name)?.cells.set(cell, { value });
  }
  engine().open({ ...book, sheets });
  const calculated = new Map((await engine().calculate()).map((one) => [one.name, one.values]));
  const of = (sheet: string, account: string): Shown => {
    const values = calculated.get(sheet);
    const rows: Shown["rows"] = [];
    for (let r = 0; values?.has(cellAddress(r, 0)); r += 1) rows.push(Array.from({ length: 11 }, (_, c) => values.get(cellAddress(r, c)) ?? "") as Shown["rows"][number]);
    return { rows, firstOrder: rows.slice(1).map((_, k) => calculated.get(account)?.get(cellAddress(5 + k, 23))) };
  };
  return { N: of("N", "Workings account 1"), P: of("P", "Workings account 2") };
}

function changed(grid: Grid, changes: Readonly<Record<string, number | string>>, sheet: string): Grid {
  const copy = grid.map((row) => [...row]);
  for (const [address, value] of Object.entries(changes)) {
    const [name, cell = ""] = address.split("!");
    const match = /^([A-Z])(\d+)$/.exec(cell);
    if (name === sheet && match) (copy[Number(match[2]) - 1] as (string | number)[])[(match[1] ?? "A").charCodeAt(0) - 65] = value;
  }
  return copy;
}

const CHANGES: Readonly<Record<string, Readonly<Record<string, number | string>>>> = {
  "a feed": { "Log!C12": 9 },
  "a portion": { "Log!D12": 5 },
  "a harvest and what was fed back": { "Log!H24": 210, "Log!K24": 50 },
  "readings": { "Log!E4": 20, "Log!F5": 0.2, "Log!G6": 0.5 },
  "a water change": { "Log!L12": 40 },
  "the top-up and what was dosed and removed": { "Log!M3": 12, "Log!N14": 4, "Log!O29": 0.5 },
  "the volume, the new water and the share kept": { "Set up!B1": 280, "Set up!B9": 3, "Set up!B10": 12 },
  "the dry fractions and the day on which a screen began": { "Set up!B4": 0.1, "Set up!B5": 0.08, "Set up!B12": 46095, "Set up!B14": 1200 },
  "days inside their order": { "Log!A12": 46110.6, "Log!A32": 46130.3 },
};

/** Each change alone where the harvests bound the periods; all of them at once for the other ways of counting. */
const EACH = Object.entries(CHANGES);
const ALL: typeof EACH = [["all of it at once", Object.assign({}, ...EACH.map(([, changes]) => changes)) as Record<string, number | string>]];

describe.each([["harvest", EACH], ["week", ALL], ["reading", ALL], ["month", ALL], ["whole", ALL]] as const)("counted by %s", (period, cases) => {
  const given = tank();
  let book: Awaited<ReturnType<typeof readBook>>;
  beforeAll(async () => {
    book = await copyOf(given, period);
  });

  test.each(cases.map((one) => [...one] as const))("follows %s", async (_what, changes) => {
    const both = await shown(book, changes);
    for (const [sheet, nutrient, ours] of [["N", "N", BUDGET_N], ["P", "P", BUDGET_P]] as const) {
      const [log, setUp] = [changed(given.log, changes, "Log"), changed(given.setUp, changes, "Set up")];
      const wanted = ours(log, setUp, period) as (string | number)[][];
      const { rows, firstOrder: uncertainties } = both[sheet];
      expect(rows.length).toBe(wanted.length);
      const read = logFrom(log, setUp, nutrient, foodsFrom(null));
      const terms = budgetTerms(read.log, read.setUp, periodsOf(read.log, read.setUp, period));
      wanted.slice(1).forEach((row, k) => {
        const size = Math.max(...row.slice(2, 8).map((figure) => Math.abs(Number(figure))));
        row.slice(0, 9).forEach((figure, c) => expect([k, c, Number(rows[k + 1]?.[c])]).toEqual([k, c, expect.closeTo(Number(figure), c < 2 ? 6 : 9 - Math.ceil(Math.log10(size + 1)))]));
        const first = terms.periods[k] ? firstOrder(terms.periods[k], terms.quantities).u : NaN;
        expect(Math.abs(Number(uncertainties[k]) - first)).toBeLessThanOrEqual(1e-9 * first);
      });
    }
  });

  if (period !== "harvest") return;

  test.each([
    ["a reading that was not there", { "Log!E6": 14 }],
    ["a heading that means something else", { "Log!C1": "Feed (kg)" }],
    ["another food", { "Log!B5": "Mussel" }],
    ["a kit with other steps", { "Set up!B2": "0 10 20 40" }],
    ["days that change places", { "Log!A12": 46130 }],
    ["a weight below zero", { "Log!E4": -3 }],
  ])("tells nothing after %s", async (_what, changes) => {
    const { rows } = (await shown(book, changes)).N;
    const unexplained = rows.slice(1).map((row) => row[8]);
    expect(unexplained.some((figure) => typeof figure === "object")).toBe(true);
    expect(rows.slice(1).filter((row) => typeof row[8] === "number" && !String(row[10]).startsWith("An entry")).length).toBeLessThan(rows.length - 1);
  });

  test("shows the verdict as long as nothing was changed, and says when it no longer holds", async () => {
    const wanted = BUDGET_N(given.log, given.setUp, period) as (string | number)[][];
    const before = (await shown(book, {})).N;
    expect(before.rows.map((row) => row[10])).toEqual(wanted.map((row) => row[10]));
    const after = (await shown(book, { "Log!C12": 9 })).N;
    const period10 = wanted.slice(1).findIndex((row) => Number(row[0]) <= 46110 && Number(row[1]) >= 46110);
    expect(after.rows[period10 + 1]?.[10]).toBe("An entry or a coefficient was changed after the copy was made: this verdict no longer holds.");
  });
});
