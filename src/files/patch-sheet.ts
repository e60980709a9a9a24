import { Problem } from "../science/problem";
import { files } from "../words/files";
import { type CellRange, cellAddress, cellsOf, contains, GRID_COLUMNS, GRID_ROWS, rangeAddress, readCell, readRange } from "./address";
import { type CellResult, storedResult } from "./cell-result";
import { type CellChange, changeCell, newCell } from "./patch-cell";
import { GridIndex } from "./grid-index";
import { applyEdits, type Edit } from "./xml";
import type { StoredCell } from "./sheet-walk";

/** The answer of a formula: one value, or rows of values that spill from the formula's cell. */
export type FormulaResult = CellResult | readonly (readonly CellResult[])[];

export interface SpillMarks {
  /** Whether cell metadata of this number marks a formula that spills freely. */
  spillsFreely(metadata: number): boolean;
  /** The number for a formula that is not marked yet; throws a Problem where none can be had. Asking means that it will be used. */
  newMark(): number;
}

/**
 * A worksheet part with new results in its formula cells and in the cells that they spill over; all other text of the part stays.
 * Throws a Problem, and changes nothing, when an answer has no formula cell or would cover a cell that is not empty.
 */
export function patchSheet(xml: string, part: string, results: ReadonlyMap<string, FormulaResult>, marks: SpillMarks): string {
  const grid = new GridIndex(xml, part);
  const changes = new Map<StoredCell, CellChange>();
  const added = new Map<string, CellResult>();
  const answers: Answer[] = [];
  for (const [address, result] of results) {
    const answer = readAnswer(grid, address, result, marks);
    if ("range" in answer) answers.push(answer);
    else changes.set(answer.cell, { result: storedResult(answer.only) });
  }
  const spilledBefore = new Set(answers.flatMap(({ oldRange }) => [...cellsOf(oldRange)].map(({ row, column }) => cellAddress(row, column))));
  const taken = new Set<string>();

  for (const { cell, rows, range, oldRange, dynamic } of answers) {
    const formula = cellAddress(cell.row, cell.column);
    for (const { row, column } of cellsOf(range)) {
      const address = cellAddress(row, column);
      const result = rows[row - range.startRow]?.[column - range.startColumn] ?? "";
      if (taken.has(address)) throw new Problem("value", files.spillOverCells(formula, address));
      taken.add(address);
      if (row === cell.row && column === cell.column) continue;
      const existing = grid.cell(row, column);
      const free = !existing || isBlank(existing) || (existing.formula === undefined && spilledBefore.has(address));
      if (!free) throw new Problem("value", files.spillOverCells(formula, address));
      if (existing) changes.set(existing, { result: storedResult(result) });
      else added.set(address, result);
    }
    const spills = dynamic || range.startRow !== range.endRow || range.startColumn !== range.endColumn;
    const keepsRange = cell.formula?.kind === "array" && !dynamic;
    const metadata = dynamic && cell.metadata > 0 ? cell.metadata : 0;
    changes.set(cell, {
      result: storedResult(rows[0]?.[0] ?? ""),
      ...(spills && !keepsRange ? { spill: { ref: rangeAddress(range), metadata: metadata || marks.newMark() } } : {}),
    });
    for (const { row, column } of cellsOf(oldRange)) {
      const left = contains(range, row, column) ? undefined : grid.cell(row, column);
      if (left && left.formula === undefined && !changes.has(left)) changes.set(left, { result: undefined });
    }
  }

  const edits: Edit[] = [];
  for (const [cell, change] of changes) {
    const edit = changeCell(xml, cell, change);
    if (edit) edits.push(edit);
  }
  const inserted = [...added].map(([address, result]) => {
    const place = readCell(address) ?? { row: 0, column: 0 };
    return { ...place, text: newCell(grid.prefix, address, grid.styleAt(place.row, place.column), storedResult(result)) };
  });
  edits.push(...grid.insertions(inserted));
  return edits.length > 0 ? applyEdits(xml, edits) : xml;
}

interface Answer {
  cell: StoredCell;
  rows: readonly (readonly CellResult[])[];
  range: CellRange;
  oldRange: CellRange;
  dynamic: boolean;
}

/** The one value of a formula that neither spills nor did so before. */
interface OneValue {
  cell: StoredCell;
  only: CellResult;
}

function readAnswer(grid: GridIndex, address: string, result: FormulaResult, marks: SpillMarks): Answer | OneValue {
  const place = readCell(address);
  const cell = place && grid.cell(place.row, place.column);
  const formula = cell?.formula;
  if (!cell || !formula || formula.kind === "dataTable") throw new Problem("value", files.noFormula(address));
  if (formula.kind !== "array" && !Array.isArray(result)) return { cell, only: result as CellResult };
  const given: readonly (readonly CellResult[])[] = Array.isArray(result) ? result : [[result as CellResult]];
  const own = { startRow: cell.row, startColumn: cell.column, endRow: cell.row, endColumn: cell.column };
  const oldRange = (formula.kind === "array" ? readRange(formula.ref ?? "") : undefined) ?? own;
  const dynamic = formula.kind === "array" && marks.spillsFreely(cell.metadata);
  const rows = formula.kind === "array" && !dynamic ? fitted(given, oldRange) : given;
  const range = { ...own, endRow: cell.row + rows.length - 1, endColumn: cell.column + Math.max(...rows.map((row) => row.length)) - 1 };
  if (range.endRow >= GRID_ROWS || range.endColumn >= GRID_COLUMNS) throw new Problem("value", files.spillOutsideGrid(address));
  if (formula.kind === "shared" && (rows.length > 1 || range.endColumn > cell.column)) throw new Problem("value", files.sharedFormulaSpills(address));
  return { cell, rows, range, oldRange, dynamic };
}

/** An answer in a range of fixed size: cut, one row or column repeated, and #N/A where it has nothing, as array formulas do. */
function fitted(rows: readonly (readonly CellResult[])[], range: CellRange): CellResult[][] {
  return Array.from({ length: range.endRow - range.startRow + 1 }, (_, r) => {
    const row = rows[rows.length === 1 ? 0 : r];
    return Array.from({ length: range.endColumn - range.startColumn + 1 }, (_unused, c) => row?.[row.length === 1 ? 0 : c] ?? { code: "#N/A" });
  });
}

function isBlank(cell: StoredCell): boolean {
  return cell.formula === undefined && cell.inline === undefined && (cell.value === undefined || (cell.value.text === "" && cell.kind !== "str"));
}
