import { type CellRange, cellAddress, contains, GRID_COLUMNS, GRID_ROWS, rangeAddress, readCell, readRange } from "../files/address";
import type { Book, BookCell } from "../files/book";
import { beyondEngine } from "../files/beyond-engine";
import { formulaReferences } from "../files/formula-references";
import { customFunctionsIn } from "../files/formula-text";
import type { BookResults, FormulaResult } from "../files/patch-book";
import { sameNumber } from "../files/stored-digits";
import { joinAddress } from "../functions/cell-address";
import { isCellError } from "../functions/cell-error";
import type { CalculatedSheet, CellValue } from "../host/engine/engine";
import { cli } from "../words/cli";
import { type Direct, directAnswers, type DirectValue, NOTHING_DIRECT, sameCells } from "./direct";
import type { EngineLater } from "./engine-later";
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
/** Cells that one formula may read by their addresses: the engine looks at each, blank or not. */
const MOST_READ = 20_000_000;
/** How long a calculation may take, milliseconds: in any case, for each cell, and for each formula, native and ours. Many times what it does take. */
const TIME_ALLOWED = { least: 3000, cell: 0.5, native: 2, own: 100 };
/** Characters of a formula; Excel takes half as many. */
const LONGEST = 16_384;
const UNKNOWN = "#NAME?";
const BLOCKED = "#SPILL!";

/**
 * Calculates every formula of a book, native and ours. A native formula that the engine does not know keeps its stored value, and
 * the formulas that read it are calculated with that value, so that nothing turns into #NAME? only because of where it is opened.
 */
export async function recalculate(book: Book, engine: EngineLater, knownFunctions: ReadonlySet<string>): Promise<Recalculation> {
  const formulas = formulaCells(book);
  const kept = new Map<FormulaCell, string>();
  const rowsHidden = book.sheets.some(({ hiddenRows }) => (hiddenRows?.length ?? 0) > 0);
  for (const one of formulas) {
    if (one.formula.length > LONGEST) {
      kept.set(one, cli.keptTooLong);
      continue;
    }
    const { references, readsOtherBook } = formulaReferences(one.formula);
    if (readsOtherBook) kept.set(one, cli.keptOtherBook);
    else if (references.reduce((sum, { range }) => sum + cellsToRead(range), 0) > MOST_READ) kept.set(one, cli.keptTooMuch);
    else if (customFunctionsIn(one.formula).some((name) => !knownFunctions.has(name))) kept.set(one, cli.keptUnknown(one.formula));
    else {
      const beyond = beyondEngine(one.formula, { isArray: one.cell.spill !== undefined || customFunctionsIn(one.formula).length > 0, rowsHidden });
      if (beyond) kept.set(one, cli.keptBeyond[beyond]);
    }
  }
  const direct = await inTime(timeFor(book, formulas), async () => directAnswers(book));
  const sheets = await calculateAll(book, engine, formulas, new Map(kept), direct);
  if (await inTime(timeFor(book, formulas), async () => isUndisturbed(direct, sheets.calculated))) return collect(book, formulas, sheets, direct);
  return collect(book, formulas, await calculateAll(book, engine, formulas, kept, NOTHING_DIRECT), NOTHING_DIRECT);
}

interface Calculated {
  kept: ReadonlyMap<FormulaCell, string>;
  calculated: ReadonlyMap<string, CalculatedSheet>;
}

/** The engine's part: every formula that was not worked out beside it. */
async function calculateAll(book: Book, engine: EngineLater, formulas: readonly FormulaCell[], kept: Map<FormulaCell, string>, direct: Direct): Promise<Calculated> {
  const remaining = formulas.filter((one) => !direct.answers.get(one.sheet)?.has(one.address));
  if (remaining.every((one) => kept.has(one))) return { kept, calculated: new Map() };
  for (let round = 1; ; round += 1) {
    const calculated = await calculate(book, engine, kept, direct, formulas);
    const found = notCalculable(remaining, kept, calculated, round < MOST_ROUNDS);
    if (found.size === 0) return { kept, calculated };
    for (const [one, reason] of found) kept.set(one, reason);
  }
}

/** Whether no other answer spilled over what was worked out beside the engine, or wanted to. */
function isUndisturbed({ rests }: Direct, calculated: ReadonlyMap<string, CalculatedSheet>): boolean {
  if (rests.length === 0) return true;
  return [...calculated.values()].every(({ name, values, spills }) => {
    for (const value of values.values()) if (isCellError(value) && value.code === BLOCKED) return false;
    const ranges = [...spills.values()].flatMap((spill) => readRange(spill) ?? []);
    return !ranges.some((range) => rests.some((rest) => sameCells(rest, { sheet: name, range })));
  });
}

function formulaCells(book: Book): FormulaCell[] {
  return book.sheets.flatMap(({ name, cells }) =>
    [...cells].flatMap(([address, cell]) => (cell.formula === undefined ? [] : [{ sheet: name, address, cell, formula: cell.formula }])),
  );
}

async function calculate(book: Book, engineLater: EngineLater, kept: ReadonlyMap<FormulaCell, string>, direct: Direct, formulas: readonly FormulaCell[]): Promise<Map<string, CalculatedSheet>> {
  const cells = new Map(book.sheets.map((sheet) => [sheet.name, new Map(sheet.cells)]));
  for (const [sheet, answers] of direct.answers) for (const [address, rows] of answers) putValues(cells.get(sheet), address, rows);
  // A cell that was never calculated must not count as blank for the formulas that read it.
  for (const { sheet, address, cell } of kept.keys()) cells.get(sheet)?.set(address, { value: cell.value ?? UNKNOWN });
  const opened = { ...book, sheets: book.sheets.map((sheet) => ({ ...sheet, cells: cells.get(sheet.name) ?? sheet.cells })) };
  const engine = await engineLater.get();
  const sheets = await inTime(timeFor(book, formulas), () => {
    engine.open(opened);
    return engine.calculate("formulas");
  });
  return new Map(sheets.map((sheet) => [sheet.name, sheet]));
}

/** How long the calculation of a book may take, milliseconds. */
function timeFor(book: Book, formulas: readonly FormulaCell[]): number {
  const size = book.sheets.reduce((sum, sheet) => sum + sheet.cells.size, 0);
  const own = formulas.filter(({ formula }) => /ALGAL\./i.test(formula)).length;
  return TIME_ALLOWED.least + TIME_ALLOWED.cell * size + TIME_ALLOWED.native * (formulas.length - own) + TIME_ALLOWED.own * own;
}

/** Puts an answer into the cells as entries; an empty text as a formula, for as an entry it would be a blank cell. */
function putValues(cells: Map<string, BookCell> | undefined, address: string, rows: readonly (readonly DirectValue[])[]): void {
  const place = readCell(address) ?? { row: 0, column: 0 };
  rows.forEach((row, r) => row.forEach((value, c) => cells?.set(cellAddress(place.row + r, place.column + c), value === "" ? { value, formula: '""' } : { value })));
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
    else if (native && storedForOneCell && (code === BLOCKED || sheet?.spills.has(one.address))) found.set(one, cli.keptBeyond.place);
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

function collect(book: Book, formulas: readonly FormulaCell[], { kept, calculated }: Calculated, direct: Direct): Recalculation {
  const results = new Map<string, Map<string, FormulaResult>>();
  const errors: Recalculation["errors"] = [];
  const stored = new Map(book.sheets.map((sheet) => [sheet.name, sheet.cells]));
  let changed = 0;
  for (const one of formulas) {
    const answer = direct.answers.get(one.sheet)?.get(one.address) ?? answerOf(one, calculated.get(one.sheet));
    if (kept.has(one) || !answer) continue;
    const place = readCell(one.address) ?? { row: 0, column: 0 };
    const storedAt = (r: number, c: number) => stored.get(one.sheet)?.get(cellAddress(place.row + r, place.column + c))?.value ?? null;
    const rows = answer.map((row, r) => row.map((value, c) => keptDigits(storedAt(r, c), value)));
    const range = rangeAddress({ startRow: place.row, startColumn: place.column, endRow: place.row + rows.length - 1, endColumn: place.column + (rows[0]?.length ?? 1) - 1 });
    let differs = range !== (one.cell.spill ?? one.address) && !one.cell.fixedSpill;
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

function answerOf({ address, cell }: FormulaCell, sheet: CalculatedSheet | undefined): CellValue[][] | undefined {
  if (!sheet) return undefined;
  const { values, spills } = sheet;
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

const keptDigits = (stored: BookCell["value"], value: CellValue): CellValue => (typeof stored === "number" && sameNumber(stored, value) ? stored : value);

function same(stored: BookCell["value"], value: CellValue): boolean {
  return (stored ?? "") === (isCellError(value) ? value.code : value);
}
