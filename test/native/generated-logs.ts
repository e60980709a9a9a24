import { cellAddress, sheetReference } from "../../src/files/address";
import type { NewBook, NewCell, NewSheet } from "../../src/files/new-book-model";
import { type Random, seededRandom } from "../../src/science/seeded";
import { simulatedLog } from "../simulated-logs";
import { type Entry, EntrySheets, sheetOfRows } from "./entry-sheets";
import { FROZEN, MORE_SHAPES, TRANSLATED } from "./function-arguments";
import { OWN_FOODS, RandomCalls } from "./random-calls";

export interface GeneratedLog {
  readonly book: NewBook;
  readonly entries: readonly Entry[];
  /** Whether every call in it is one that follows its entries. */
  readonly follows: boolean;
}

const ENTRY_SHEETS = ["Entries", "My entries", "Keeper's log", "Süd-Becken", "A1", "2026"] as const;
const CALLS = [...Object.entries(TRANSLATED), ...MORE_SHAPES];

/** An invented workbook of entries and calls; the same for the same seed. Neighbouring seeds go through all functions in turn. */
export function generatedLog(seed: number): GeneratedLog {
  const random = seededRandom(seed);
  const sheets = new EntrySheets(ENTRY_SHEETS[seed % ENTRY_SHEETS.length] as string);
  const foods = sheetOfRows(seed % 3 === 0 ? "My foods" : "Foods", OWN_FOODS);
  const follows = seed % 4 !== 0;
  // Functions of one argument that give it back: a call inside a call.
  const calls = new RandomCalls(random, sheets, `${sheetReference(foods.name)}!A1:G4`, (kind) => (kind.kind === "number" && kind.from > 0 ? `ALGAL.NET_VOLUME(${sheets.put([kind.from + 0.5 * (kind.to - kind.from)]).text})` : null));
  const results: NewSheet = { name: "Results", cells: new Map() };
  const taken = [...Array.from({ length: 12 }, (_, at) => CALLS[(seed * 12 + at) % CALLS.length]), ...(follows ? [] : FROZEN)];
  let row = 0;
  for (const one of taken) {
    if (!one) continue;
    const [name, kinds] = one;
    const { text, rows } = calls.call(name, kinds);
    results.cells.set(cellAddress(row, 0), { value: name });
    results.cells.set(cellAddress(row, 1), { value: null, formula: wrapped(random, text) });
    row += rows + 1;
  }
  const account = seed % 5 === 0 ? budgetSheets(seed) : [];
  return { book: { sheets: [sheets.sheet, foods, results, ...account], names: sheets.names, date1904: false }, entries: sheets.entries, follows: follows && account.length === 0 };
}

/** Most calls stand alone; some stand in the keeper's own formula. */
function wrapped(random: Random, call: string): string {
  const ways: ((text: string) => string)[] = [(text) => `IF(1+1=2,${text},0)`, (text) => `SUM(${text})`, (text) => `INDEX(${text},1,1)`, (text) => `IFERROR(${text},-1)`, (text) => `2*SUM(${text})+1`];
  return random() < 0.7 ? call : (ways[Math.floor(random() * ways.length)] as (text: string) => string)(call);
}

/** A whole log with its balances. */
function budgetSheets(seed: number): NewSheet[] {
  const { log, setUp } = simulatedLog(seed);
  const rows = log.slice(0, 41);
  const [logSheet, setUpSheet] = [sheetOfRows("Tank log", rows), sheetOfRows("Set-up", setUp as unknown[][])];
  const place = `'Tank log'!A1:${cellAddress(rows.length - 1, (rows[0]?.length ?? 1) - 1)}`;
  const formula = (nutrient: string): NewCell => ({ value: null, formula: `ALGAL.BUDGET_${nutrient}(${place},'Set-up'!A1:B${setUp.length})` });
  return [logSheet, setUpSheet, { name: "Balance N", cells: new Map([["A1", formula("N")]]) }, { name: "Balance P", cells: new Map([["A1", formula("P")]]) }];
}
