import { type CellRange, cellAddress, contains, GRID_COLUMNS, GRID_ROWS, readCell, readRange } from "../files/address";
import type { Book, BookCell } from "../files/book";
import { formulaReferences } from "../files/formula-references";
import { customFunctionsIn } from "../files/formula-text";
import type { BookResults, FormulaResult } from "../files/patch-book";
import { joinAddress } from "../functions/cell-address";
import { isCellError } from "../functions/cell-error";
import type { CalculatedSheet, CellValue, Engine } from "../host/engine/engine";
import { cli } from "../words/cli";
import { type DirectNumbers, directNumbers } from "./direct";
import { inTime } from "./watched";

export interface CellNote {
  /** With its sheet: "Log!B7". */
  address: string;
  sentence: string;
}

export interface Recalculation {
  results: BookResults;
  formulaCells: number;
  changed: number;
  errors: (CellNote & { code: string })[];
  /** Formula cells whose stored value stays, because it cannot be worked out here as Excel would. */
  kept: CellNote[];
}

interface FormulaCell {
  sheet: string;
  address: string;
  cell: BookCell;
  formula: string;
}

const MOST_ROUNDS = 20;
const MOST_COMPARED = 2000;
/** Of a number, as a share of it. */
const LAST_DIGITS = 1e-14;
/** Cells that one formula may read by their addresses: the engine looks at each, blank or not. */
const MOST_READ = 20_000_000;
/** How long a calculation may take, milliseconds: in any case, and for each cell and each formula. Many times what it does take. */
const TIME_ALLOWED = { least: 3000, cell: 1, formula: 100 };
const UNKNOWN = "#NAME?";
const BLOCKED = "#SPILL!";

/**
 * Calculates every formula of a book, native and ours. A native formula that the engine does not know keeps its stored value, and
 * the formulas that read it are calculated with that value, so that nothing turns into #NAME? only because of where it is opened.
 */
export async function recalculate(book: Book, engine: Engine, knownFunctions: ReadonlySet<string>): Promise<Recalculation> {
  const formulas = formulaCells(book);
  const kept = new Map<FormulaCell, string>();
  for (const one of formulas) {
    const { references, readsOtherBook } = formulaReferences(one.formula);
    if (readsOtherBook) kept.set(one, cli.keptOtherBook);
    else if (references.reduce((sum, { range }) => sum + cellsToRead(range), 0) > MOST_READ) kept.set(one, cli.keptTooMuch);
    else if (customFunctionsIn(one.formula).some((name) => !knownFunctions.has(name))) kept.set(one, cli.keptUnknown(one.formula));
  }
  const direct = directNumbers(book);
  let sheets = await calculate(book, engine, kept, direct, formulas.length);
  for (let round = 1; ; round += 1) {
    const found = notCalculable(formulas, kept, sheets, round < MOST_ROUNDS);
    if (found.size === 0) break;
    for (const [one, reason] of found) kept.set(one, reason);
    sheets = await calculate(book, engine, kept, direct, formulas.length);
  }
  return collect(book, formulas, kept, sheets);
}

function formulaCells(book: Book): FormulaCell[] {
  return book.sheets.flatMap(({ name, cells }) =>
    [...cells].flatMap(([address, cell]) => (cell.formula === undefined ? [] : [{ sheet: name, address, cell, formula: cell.formula }])),
  );
}

async function calculate(book: Book, engine: Engine, kept: ReadonlyMap<FormulaCell, string>, direct: DirectNumbers, formulas: number): Promise<Map<string, CalculatedSheet>> {
  const cells = new Map(book.sheets.map((sheet) => [sheet.name, new Map(sheet.cells)]));
  for (const [sheet, numbers] of direct) for (const [address, value] of numbers) cells.get(sheet)?.set(address, { value });
  // A cell that was never calculated must not count as blank for the formulas that read it.
  for (const { sheet, address, cell } of kept.keys()) cells.get(sheet)?.set(address, { value: cell.value ?? UNKNOWN });
  const opened = { ...book, sheets: book.sheets.map((sheet) => ({ ...sheet, cells: cells.get(sheet.name) ?? sheet.cells })) };
  const size = book.sheets.reduce((sum, sheet) => sum + sheet.cells.size, 0);
  const allowed = TIME_ALLOWED.least + TIME_ALLOWED.cell * size + TIME_ALLOWED.formula * formulas;
  const sheets = await inTime(allowed, () => {
    engine.open(opened);
    return engine.calculate();
  });
  return new Map(sheets.map((sheet) => [sheet.name, sheet]));
}

/** Of whole columns or rows the engine reads only what is in use; of a whole sheet it does not. */
function cellsToRead({ startRow, startColumn, endRow, endColumn }: CellRange): number {
  const [rows, columns] = [endRow - startRow + 1, endColumn - startColumn + 1];
  return (rows === GRID_ROWS) === (columns === GRID_COLUMNS) ? rows * columns : 0;
}

/** The formulas whose result here cannot be what Excel would show, with the reason. */
function notCalculable(formulas: readonly FormulaCell[], kept: ReadonlyMap<FormulaCell, string>, sheets: ReadonlyMap<string, CalculatedSheet>, rootsOnly: boolean): Map<FormulaCell, string> {
  const found = new Map<FormulaCell, string>();
  const unknown: FormulaCell[] = [];
  for (const one of formulas) {
    if (kept.has(one)) continue;
    const sheet = sheets.get(one.sheet);
    const value = sheet?.values.get(one.address);
    const code = isCellError(value) ? value.code : "";
    const native = customFunctionsIn(one.formula).length === 0;
    const storedForOneCell = one.cell.spill === undefined;
    if (code === UNKNOWN) unknown.push(one);
    else if (code === BLOCKED && one.cell.fixedSpill) found.set(one, cli.keptArray);
    // In a file a plain native formula is for its own cell alone: over a range it takes the value of its row or column.
    else if (native && storedForOneCell && (code === BLOCKED || sheet?.spills.has(one.address))) found.set(one, cli.keptPlace);
  }
  for (const one of rootsOnly ? rootsOf(unknown) : unknown) found.set(one, cli.keptUnknown(one.formula));
  return found;
}

/** Those that do not read another of them, so that the others may be all right once these have a value; all, if none is so. */
function rootsOf(unknown: readonly FormulaCell[]): readonly FormulaCell[] {
  // Each is looked for among the references of all others.
  if (unknown.length > MOST_COMPARED) return unknown;
  const places = new Map<string, { row: number; column: number }[]>();
  for (const { sheet, address } of unknown) {
    const place = readCell(address);
    const key = sheet.toLowerCase();
    if (place) places.set(key, [...(places.get(key) ?? []), place]);
  }
  const roots = unknown.filter(({ sheet, formula }) => {
    const { references, readsMore } = formulaReferences(formula);
    if (readsMore && unknown.length > 1) return false;
    return !references.some((reference) => (places.get((reference.sheet ?? sheet).toLowerCase()) ?? []).some(({ row, column }) => contains(reference.range, row, column)));
  });
  return roots.length > 0 ? roots : unknown;
}

function collect(book: Book, formulas: readonly FormulaCell[], kept: ReadonlyMap<FormulaCell, string>, sheets: ReadonlyMap<string, CalculatedSheet>): Recalculation {
  const results = new Map<string, Map<string, FormulaResult>>();
  const errors: Recalculation["errors"] = [];
  const stored = new Map(book.sheets.map((sheet) => [sheet.name, sheet.cells]));
  let changed = 0;
  for (const one of formulas) {
    const sheet = sheets.get(one.sheet);
    if (kept.has(one) || !sheet) continue;
    const place = readCell(one.address) ?? { row: 0, column: 0 };
    const storedAt = (r: number, c: number) => stored.get(one.sheet)?.get(cellAddress(place.row + r, place.column + c))?.value ?? null;
    const rows = answerOf(one, sheet).map((row, r) => row.map((value, c) => withStoredDigits(storedAt(r, c), value)));
    let differs = (sheet.spills.get(one.address) ?? one.address) !== (one.cell.spill ?? one.address) && !one.cell.fixedSpill;
    rows.forEach((row, r) =>
      row.forEach((value, c) => {
        if (isCellError(value)) errors.push({ address: joinAddress(one.sheet, cellAddress(place.row + r, place.column + c)), code: value.code, sentence: value.message });
        differs ||= !same(storedAt(r, c), value);
      }),
    );
    if (differs) changed += 1;
    let ofSheet = results.get(one.sheet);
    if (!ofSheet) results.set(one.sheet, (ofSheet = new Map()));
    ofSheet.set(one.address, rows.length === 1 && rows[0]?.length === 1 ? (rows[0][0] ?? "") : rows);
  }
  const notes = [...kept].map(([{ sheet, address }, sentence]) => ({ address: joinAddress(sheet, address), sentence }));
  return { results, formulaCells: formulas.length, changed, errors, kept: notes };
}

function answerOf({ address, cell }: FormulaCell, { values, spills }: CalculatedSheet): CellValue[][] {
  // An array formula of the older kind keeps its range, whatever the answer's size.
  const range = readRange(spills.get(address) ?? address);
  const most = cell.fixedSpill && cell.spill !== undefined ? readRange(cell.spill) : undefined;
  if (!range) return [[""]];
  const endRow = Math.min(range.endRow, most?.endRow ?? range.endRow);
  const endColumn = Math.min(range.endColumn, most?.endColumn ?? range.endColumn);
  return Array.from({ length: endRow - range.startRow + 1 }, (_, r) =>
    Array.from({ length: endColumn - range.startColumn + 1 }, (_unused, c) => values.get(cellAddress(range.startRow + r, range.startColumn + c)) ?? ""),
  );
}

/** The engine rounds to 15 digits and Excel stores 17: a number that differs in the last ones only stays as it is stored. */
function withStoredDigits(stored: BookCell["value"], value: CellValue): CellValue {
  if (typeof stored !== "number" || typeof value !== "number") return value;
  return Math.abs(stored - value) <= LAST_DIGITS * Math.max(Math.abs(stored), Math.abs(value)) ? stored : value;
}

function same(stored: BookCell["value"], value: CellValue): boolean {
  return (stored ?? "") === (isCellError(value) ? value.code : value);
}
