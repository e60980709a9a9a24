import { cellAddress, cellsOf, type CellRange, contains, GRID_COLUMNS, GRID_ROWS, meets, readCell, readRange } from "../files/address";
import type { Book, BookCell, BookSheet } from "../files/book";
import { worksheetFunctions } from "../functions";
import { isCellError } from "../functions/cell-error";
import { liftSingles } from "../host/engine/lift";
import { type FormulaCall, outermostCalls } from "../native/formula-calls";
import { literalIn } from "../native/given";
import { referenceIn, type SheetRange } from "../native/references";
import { metadata } from "./functions";

/** A value without an error. */
export type DirectValue = number | string | boolean;

/** What was worked out beside the engine. */
export interface Direct {
  /** Rows of values by sheet and by the address of the formula; more than one value where the answer spills. */
  readonly answers: ReadonlyMap<string, ReadonlyMap<string, readonly (readonly DirectValue[])[]>>;
  /** The cells that it rests on, and those over which answers spill: nothing else may spill there. */
  readonly rests: readonly SheetRange[];
}

export const NOTHING_DIRECT: Direct = { answers: new Map(), rests: [] };

interface Entry {
  readonly takesRange: readonly boolean[];
  readonly needed: number;
  readonly run: (...args: unknown[]) => unknown;
}

/** Cells that all these formulas together may read, and answers that may spill; beyond, the book is left to the engine and its limits. */
const MOST = { cellsRead: 5_000_000, spills: 500 };

const ENTRIES: ReadonlyMap<string, Entry> = new Map(
  metadata.functions.flatMap(({ id, name, parameters }) => {
    const run = worksheetFunctions.get(id) as Entry["run"] | undefined;
    return run ? [[name.toUpperCase(), { takesRange: parameters.map(({ dimensionality }) => dimensionality === "matrix"), needed: parameters.filter(({ optional }) => !optional).length, run }] as const] : [];
  }),
);

/**
 * The formulas that are one call of ours over entries that stand there already, worked out without the engine, which takes a hundred
 * times longer for each: the same function with the same arguments. Errors are left to the engine, and so is an answer that has no
 * room and whatever reads what another formula shows.
 */
export function directAnswers(book: Book): Direct {
  const answers = new Map<string, Map<string, readonly (readonly DirectValue[])[]>>();
  const sheets = new Map(book.sheets.map((sheet) => [sheet.name, { sheet, spills: storedSpills(sheet) }]));
  const [reads, areas]: [SheetRange[], SheetRange[]] = [[], []];
  let cellsRead = 0;

  for (const { sheet, spills } of sheets.values()) {
    const found = new Map<string, readonly (readonly DirectValue[])[]>();
    for (const [address, cell] of sheet.cells) {
      const call = loneCall(cell);
      const entry = call && ENTRIES.get(call.name);
      const place = call && readCell(address);
      if (!call || !entry || !place || call.args.length > entry.takesRange.length || call.args.length < entry.needed) continue;
      const args: (unknown[][] | null)[] = [];
      for (const text of call.args) {
        const argument = argumentOf(text, sheet.name, place.row, book);
        if (!argument) break;
        if (argument.at) {
          cellsRead += sizeOf(argument.at.range);
          if (cellsRead > MOST.cellsRead) return NOTHING_DIRECT;
          const rows = entriesIn(argument.at.range, sheets.get(argument.at.sheet));
          if (!rows) break;
          reads.push(argument.at);
          args.push(rows);
        } else args.push(argument.rows);
      }
      if (args.length < call.args.length) continue;
      const rows = valuesOf(() => liftSingles(call.name, entry.takesRange.map((_, at) => args[at] ?? null), entry.takesRange, (one) => entry.run(...one)));
      if (!rows) continue;
      const area = { startRow: place.row, startColumn: place.column, endRow: place.row + rows.length - 1, endColumn: place.column + (rows[0]?.length ?? 1) - 1 };
      if (sizeOf(area) > 1) {
        if (areas.length >= MOST.spills || !hasRoom(area, address, cell, sheet, spills)) continue;
        areas.push({ sheet: sheet.name, range: area });
      }
      found.set(address, rows);
    }
    if (found.size > 0) answers.set(sheet.name, found);
  }
  const clear = areas.every((area, at) => ![...reads, ...areas.slice(at + 1)].some((other) => sameCells(area, other)));
  return clear ? { answers, rests: [...reads, ...areas] } : NOTHING_DIRECT;
}

/** Whether two ranges have a cell in common. */
export const sameCells = (one: SheetRange, other: SheetRange): boolean => one.sheet === other.sheet && meets(one.range, other.range);

const sizeOf = ({ startRow, startColumn, endRow, endColumn }: CellRange): number => (endRow - startRow + 1) * (endColumn - startColumn + 1);

interface StoredSpill {
  readonly address: string;
  readonly range: CellRange;
}

const storedSpills = ({ cells }: BookSheet): StoredSpill[] => [...cells].flatMap(([address, { spill }]) => (spill === undefined ? [] : [readRange(spill) ?? []].flat().map((range) => ({ address, range }))));

/** The call that is the whole of a formula. */
function loneCall({ formula, fixedSpill }: BookCell): FormulaCall | undefined {
  if (formula === undefined || fixedSpill || !/^ALGAL\./i.test(formula)) return undefined;
  const [call] = outermostCalls(formula);
  return call && call.start === 0 && call.end === formula.length ? call : undefined;
}

/** An argument: where its cells are, or its value, null when it is left out; undefined when it is not for here. */
function argumentOf(text: string, sheet: string, row: number, book: Book): { at?: SheetRange; rows: unknown[][] | null } | undefined {
  if (text === "") return { rows: null };
  const literal = literalIn(text);
  if (literal) return typeof literal.value === "boolean" || isPlain(literal.value) ? { rows: [[literal.value]] } : undefined;
  // How far down whole columns reach is the engine's matter.
  const at = referenceIn(text, sheet, row, book, false);
  return at ? { at, rows: null } : undefined;
}

/** The values of cells that are entries or blank; undefined when one is a formula, an error, or a text that an engine might take for a figure. */
function entriesIn(range: CellRange, on: { sheet: BookSheet; spills: readonly StoredSpill[] } | undefined): unknown[][] | undefined {
  if (!on || on.spills.some((spill) => meets(spill.range, range))) return undefined;
  const rows: unknown[][] = Array.from({ length: range.endRow - range.startRow + 1 }, () => []);
  for (const { row, column } of cellsOf(range)) {
    const cell = on.sheet.cells.get(cellAddress(row, column));
    const value = cell?.value ?? "";
    if (cell?.formula !== undefined || (value !== "" && !isPlain(value))) return undefined;
    rows[row - range.startRow]?.push(value);
  }
  return rows;
}

/** A number, or a text that no engine takes for anything else. */
const isPlain = (value: unknown): boolean =>
  typeof value === "number" || (typeof value === "string" && value.trim() !== "" && !value.startsWith("#") && !/^[\s\d+\-.,:/%$€£]+$/.test(value) && !/^\s*[\d.]+e[\d+-]+\s*$/i.test(value) && !/^(true|false)$/i.test(value));

/** The rows of an answer; undefined if it has errors, or no shape. */
function valuesOf(run: () => unknown): DirectValue[][] | undefined {
  let answer: unknown;
  try {
    answer = run();
  } catch {
    return undefined;
  }
  const rows: unknown[][] = !Array.isArray(answer) ? [[answer]] : answer.every(Array.isArray) ? (answer as unknown[][]) : [answer];
  const width = rows[0]?.length ?? 0;
  if (width === 0 || rows.some((row) => row.length !== width || row.some((value) => isCellError(value) || (typeof value === "number" && !Number.isFinite(value))))) return undefined;
  return rows.map((row) => row.map((value) => (typeof value === "number" || typeof value === "boolean" ? value : String(value ?? ""))));
}

/** Whether an answer can spill: into blank cells, or where it did before; not into a table or merged cells. */
function hasRoom(area: CellRange, address: string, own: BookCell, sheet: BookSheet, spills: readonly StoredSpill[]): boolean {
  if (area.endRow >= GRID_ROWS || area.endColumn >= GRID_COLUMNS) return false;
  const taken = [...(sheet.merges ?? []), ...(sheet.tables ?? []).map(({ ref }) => ref)].flatMap((text) => readRange(text) ?? []);
  if ([...taken, ...spills.filter((spill) => spill.address !== address).map(({ range }) => range)].some((range) => meets(range, area))) return false;
  const before = readRange(own.spill ?? address);
  for (const { row, column } of cellsOf(area)) {
    const cell = sheet.cells.get(cellAddress(row, column));
    if (!cell || cell === own || (cell.formula === undefined && (cell.value === null || cell.value === ""))) continue;
    if (cell.formula !== undefined || !before || !contains(before, row, column)) return false;
  }
  return true;
}
