import { cellAddress, GRID_COLUMNS, GRID_ROWS, rangeAddress, readCell, readRange } from "../../address";
import { shiftFormula } from "../../shared-formula";
import { type FormulaElement, type StoredCell, type StoredRow, walkSheet } from "../../sheet-walk";
import { applyEdits, type Edit, escapeXml, tagStart, withAttribute } from "../../xml";
import { CannotMerge } from "../cannot-merge";
import { COLUMNS, movedLine, movedList, movedRange, ROWS, type SheetMoves } from "./line-move";

/** The rows and cells of a worksheet part with their formulas after the changes; each row and cell keeps all else that it says. @param moved gives a formula of this sheet as it reads after them */
export function movedCells(xml: string, part: string, moves: SheetMoves, moved: (formula: string) => string): string {
  const shared = sharedFormulas(xml, part, moves, moved);
  const edits: Edit[] = [];
  let inRow: Edit[] = [];
  walkSheet(xml, part, {
    places: true,
    cell(cell) {
      const place = placeOf(cell, moves);
      if (!place) {
        // The other cells of such an array have no formula of their own.
        if (cell.formula?.kind === "array" && cell.metadata === 0 && movedList(cell.formula.ref ?? "", moves) !== "") throw new CannotMerge("The first cell of an array formula was deleted.");
        inRow.push({ start: cell.start, end: cell.end, text: "" });
      }
      else inRow.push(...cellEdits(xml, cell, place, moves, moved, shared));
    },
    row(row) {
      const line = movedLine(row.row, ROWS, moves);
      if (line === undefined) edits.push({ start: row.start, end: row.end, text: "" });
      else edits.push(...rowEdit(xml, row, line, moves), ...inRow);
      if (line !== undefined && line >= GRID_ROWS) throw new CannotMerge("Rows would be moved over the end of the sheet.");
      inRow = [];
    },
  });
  return edits.length > 0 ? applyEdits(xml, edits) : xml;
}

function placeOf({ column, row }: StoredCell, moves: SheetMoves): { row: number; column: number } | undefined {
  const [line, across] = [movedLine(row, ROWS, moves), movedLine(column, COLUMNS, moves)];
  if (line === undefined || across === undefined) return undefined;
  if (across >= GRID_COLUMNS) throw new CannotMerge("Columns would be moved over the end of the sheet.");
  return { row: line, column: across };
}

function rowEdit(xml: string, row: StoredRow, line: number, moves: SheetMoves): Edit[] {
  const before = xml.slice(row.start, row.tagEnd);
  const numbered = withAttribute(before, "r", String(line + 1));
  // Only a help for the reader, which may be left out.
  const tag = moves.some(({ along }) => along === COLUMNS) ? withAttribute(numbered, "spans", undefined) : numbered;
  return tag === before ? [] : [{ start: row.start, end: row.tagEnd, text: tag }];
}

/** What becomes of cells that share a formula, by their addresses before: the text of each that has to have its own, "keep" for the others. */
type Shared = ReadonlyMap<string, { readonly text: string; readonly stays: boolean }>;

function cellEdits(xml: string, cell: StoredCell, place: { row: number; column: number }, moves: SheetMoves, moved: (formula: string) => string, shared: Shared): Edit[] {
  const edits: Edit[] = [];
  const before = xml.slice(cell.start, cell.tagEnd);
  const tag = withAttribute(before, "r", cellAddress(place.row, place.column));
  if (tag !== before) edits.push({ start: cell.start, end: cell.tagEnd, text: tag });
  const { formula, prefix } = cell;
  if (!formula) return edits;
  const own = shared.get(cellAddress(cell.row, cell.column));
  if (own && !own.stays) return [...edits, { start: formula.start, end: formula.end, text: `<${prefix}f>${escapeXml(own.text)}</${prefix}f>` }];
  const opening = xml.slice(formula.start, formula.tagEnd);
  const attributes = formulaTag(opening, formula, moves);
  const isEmpty = formula.tagEnd === formula.end;
  const text = isEmpty || formula.text === "" ? undefined : (own?.text ?? moved(formula.text));
  if (attributes !== opening) edits.push({ start: formula.start, end: formula.tagEnd, text: attributes });
  if (text !== undefined && text !== formula.text) edits.push({ start: formula.tagEnd, end: tagStart(xml, formula.end), text: escapeXml(text) });
  return edits;
}

/** The range of an array, of cells that share a formula or of a what-if table, and the cells that such a table varies. */
function formulaTag(tag: string, { ref }: FormulaElement, moves: SheetMoves): string {
  let text = tag;
  if (ref !== undefined) {
    const range = readRange(ref);
    const moved = range && movedRange(range, moves);
    if (moved) text = withAttribute(text, "ref", ref.includes(":") || rangeAddress(moved).includes(":") ? rangeAddress(moved) : cellAddress(moved.startRow, moved.startColumn));
  }
  for (const [name, gone] of [["r1", "del1"], ["r2", "del2"]] as const) {
    const cell = readCell(new RegExp(`\\s${name}\\s*=\\s*["']([^"']*)["']`).exec(tag)?.[1] ?? "");
    if (!cell) continue;
    const [row, column] = [movedLine(cell.row, ROWS, moves), movedLine(cell.column, COLUMNS, moves)];
    text = row === undefined || column === undefined ? withAttribute(text, gone, "1") : withAttribute(text, name, cellAddress(row, column));
  }
  return text;
}

/** Cells share a formula on as long as each would still read the same out of the first. */
function sharedFormulas(xml: string, part: string, moves: SheetMoves, moved: (formula: string) => string): Shared {
  const groups = new Map<string, { first: StoredCell | undefined; cells: StoredCell[] }>();
  walkSheet(xml, part, {
    cell(cell) {
      const id = cell.formula?.kind === "shared" ? cell.formula.sharedId : undefined;
      if (id === undefined) return;
      const group = groups.get(id) ?? { first: undefined, cells: [] };
      if (cell.formula?.text !== "") group.first ??= cell;
      group.cells.push(cell);
      groups.set(id, group);
    },
  });
  const shared = new Map<string, { text: string; stays: boolean }>();
  for (const { cells, first } of groups.values()) {
    if (!first?.formula) continue;
    const [text, home] = [first.formula.text, placeOf(first, moves)];
    const after = cells.map((cell) => moved(cell === first || cell.formula?.text !== "" ? (cell.formula?.text ?? "") : shiftFormula(text, cell.row - first.row, cell.column - first.column)));
    const stays = home !== undefined && cells.every((cell, i) => {
      const place = placeOf(cell, moves);
      return place === undefined || cell.formula?.text !== "" || after[i] === shiftFormula(moved(text), place.row - home.row, place.column - home.column);
    });
    cells.forEach((cell, i) => shared.set(cellAddress(cell.row, cell.column), { text: after[i] ?? "", stays }));
  }
  return shared;
}
