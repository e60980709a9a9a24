import { cellAddress, rangeAddress, readCell, readRange } from "../../address";
import { type FormulaToken, formulaTokens } from "../../formula-tokens";
import { shiftFormula } from "../../shared-formula";
import type { NewBook, NewCell, NewSheet } from "../../new-book-model";
import { rangeOf } from "../../rule-ranges";
import type { PlacedBook } from "../placed-book";
import { movedCorner } from "./moved-drawing";
import { COLUMNS, movedLine, movedList, ROWS, type SheetMoves } from "./line-move";
import { inCells, movedFormula, type SheetChanges } from "./moved-formula";
import { movedName } from "./moved-file";

/** What the grid would have made of the file had it been as it is after the changes, so that they count for none of the keeper's other ones. */
export function movedBook({ book, ids, ...rest }: PlacedBook, changes: SheetChanges): PlacedBook {
  const sheets = book.sheets.map((sheet) => movedSheet(sheet, changes.moves.get(sheet.name.toLowerCase()) ?? [], changes));
  const names = book.names.map((name) => ({ ...name, ref: movedName(name.ref, name.sheet === undefined ? "" : (book.sheets[name.sheet]?.name ?? ""), changes) }));
  return { ...rest, ids, book: { ...book, sheets, names } };
}

function movedSheet(sheet: NewSheet, moves: SheetMoves, changes: SheetChanges): NewSheet {
  const formula = (text: string) => movedFormula(text, sheet.name, changes);
  const ofCell = (text: string) => movedFormula(text, sheet.name, inCells(changes));
  const cells = new Map([...sheet.cells].flatMap(([address, cell]) => {
    const place = movedAddress(address, moves);
    return place === undefined ? [] : [[place, movedCell(cell, moves, ofCell)] as const];
  }));
  for (const address of newHeadings(sheet.tables ?? [], moves)) cells.set(address, { value: `${NOT_TYPED}${address}` });
  const charts = sheet.charts?.map((chart) => ({
    ...chart,
    position: movedList(chart.position, moves) || chart.position,
    series: chart.series.map((series) => ({ ...series, values: series.values && lostAsNull(formula(series.values)), xValues: series.xValues && lostAsNull(formula(series.xValues)) })),
  }));
  if (moves.length === 0) return { ...sheet, cells, ...(charts ? { charts } : {}) };
  const ranged = <Rule extends { readonly range: string }>(rules: readonly Rule[] | undefined) =>
    rules?.flatMap((rule) => {
      const range = movedList(rule.range, moves);
      return range === "" ? [] : [{ ...rule, range }];
    });
  const lines = (numbers: readonly number[] | undefined, along: typeof COLUMNS | typeof ROWS) => numbers?.flatMap((number) => [movedLine(number - 1, along, moves)].flatMap((line) => (line === undefined ? [] : [line + 1])));
  const [hiddenRows, hiddenColumns, merges] = [lines(sheet.hiddenRows, ROWS), lines(sheet.hiddenColumns, COLUMNS), sheet.merges?.flatMap((ref) => movedList(ref, moves) || []).filter((ref) => ref.includes(":"))];
  const { frozenColumns, frozenRows } = sheet;
  const kept: NewSheet = { ...sheet };
  for (const name of ["frozenColumns", "frozenRows", "hiddenColumns", "hiddenRows", "merges", "rowHeights"] as const) delete kept[name];
  const heights = [...(sheet.rowHeights ?? [])].flatMap(([row, height]) => [movedLine(row - 1, ROWS, moves)].flatMap((line) => (line === undefined ? [] : [[line + 1, height] as const])));
  return {
    ...kept,
    cells,
    ...(frozenRows ? { frozenRows: movedCorner(frozenRows, ROWS, moves) } : {}),
    ...(frozenColumns ? { frozenColumns: movedCorner(frozenColumns, COLUMNS, moves) } : {}),
    ...(merges && merges.length > 0 ? { merges } : {}),
    ...(heights.length > 0 ? { rowHeights: new Map(heights) } : {}),
    ...(hiddenRows && hiddenRows.length > 0 ? { hiddenRows } : {}),
    ...(hiddenColumns && hiddenColumns.length > 0 ? { hiddenColumns } : {}),
    ...(sheet.columnWidths ? { columnWidths: movedWidths(sheet.columnWidths, moves) } : {}),
    ...(charts ? { charts } : {}),
    ...(sheet.tables ? { tables: sheet.tables.map((table) => ({ ...table, ref: movedList(table.ref, moves) || table.ref })) } : {}),
    ...(sheet.validations ? { validations: ranged(sheet.validations) ?? [] } : {}),
    // In the grid a rule is seen from its first cell, wherever that goes.
    ...(sheet.conditionalFormats ? { conditionalFormats: (ranged(sheet.conditionalFormats) ?? []).map((rule, i) => ({ ...rule, formula: seenFrom(rule.formula, sheet.conditionalFormats?.filter(({ range }) => movedList(range, moves) !== "")[i]?.range ?? rule.range, rule.range) })) } : {}),
    ...(sheet.print ? { print: movedPrint(sheet.print, moves) } : {}),
  };
}

/** A heading that no keeper types, so that whatever stands there now is written. */
const NOT_TYPED = "\u0001";

/** The heading cells of columns that came into tables. */
function newHeadings(tables: NonNullable<NewSheet["tables"]>, moves: SheetMoves): string[] {
  return tables.flatMap(({ hasHeadings = true, ref }) => {
    const [range, after] = [readRange(ref), readRange(movedList(ref, moves))];
    if (!range || !after || !hasHeadings) return [];
    const stands = new Set(Array.from({ length: range.endColumn - range.startColumn + 1 }, (_column, i) => movedLine(range.startColumn + i, COLUMNS, moves)));
    return Array.from({ length: after.endColumn - after.startColumn + 1 }, (_column, i) => after.startColumn + i).flatMap((column) => (stands.has(column) ? [] : [cellAddress(after.startRow, column)]));
  });
}

function movedAddress(address: string, moves: SheetMoves): string | undefined {
  if (moves.length === 0) return address;
  const cell = readCell(address);
  const [row, column] = [movedLine(cell?.row ?? 0, ROWS, moves), movedLine(cell?.column ?? 0, COLUMNS, moves)];
  return row === undefined || column === undefined ? undefined : cellAddress(row, column);
}

function movedCell(cell: NewCell, moves: SheetMoves, formula: (text: string) => string): NewCell {
  const { spill, ...rest } = cell;
  return {
    ...rest,
    ...(cell.formula === undefined ? {} : { formula: formula(cell.formula) }),
    ...(spill === undefined ? {} : { spill: movedSpill(spill, moves) }),
  };
}

function movedSpill(spill: string, moves: SheetMoves): string {
  const [range, moved] = [readRange(spill), readRange(movedList(spill, moves))];
  if (!range || !moved) return spill;
  // An answer is as large as it was; only where it begins moves.
  return rangeAddress({ ...moved, endRow: moved.startRow + range.endRow - range.startRow, endColumn: moved.startColumn + range.endColumn - range.startColumn });
}

const lostAsNull = (ref: string): string | null => (ref.includes("#REF!") ? null : ref);

function movedWidths(widths: readonly number[], moves: SheetMoves): number[] {
  const moved: number[] = [];
  widths.forEach((width, i) => {
    const column = movedLine(i, COLUMNS, moves);
    if (column !== undefined) moved[column] = width;
  });
  return Array.from(moved, (width) => width ?? 0);
}

function seenFrom(formula: string, before: string, after: string): string {
  const [from, to] = [rangeOf(before.split(" ")[0] ?? before), rangeOf(after.split(" ")[0] ?? after)];
  return formula === "" ? "" : shiftFormula(formula, to.startRow - from.startRow, to.startColumn - from.startColumn);
}

function movedPrint(print: NonNullable<NewSheet["print"]>, moves: SheetMoves): NonNullable<NewSheet["print"]> {
  const rows = print.titleRows && movedList(`${print.titleRows.from}:${print.titleRows.to}`, moves);
  const [from, to] = (rows ?? "").split(":").map(Number);
  return {
    ...print,
    ...(from && to ? { titleRows: { from, to } } : {}),
    ...(print.area === undefined ? {} : { area: movedList(print.area, moves) || print.area }),
  };
}

/** What the grid holds now with the file's own writing where it means the same: names that it has left as they were, and formulas that it spells otherwise. */
export function withFollowed(before: PlacedBook, moved: PlacedBook, { book: now, ids }: PlacedBook): NewBook {
  const sheets = now.sheets.map((sheet, i) => {
    const was = moved.book.sheets[moved.ids.indexOf(ids[i] ?? "")];
    const respelt = [...sheet.cells].flatMap(([address, cell]) => {
      const formula = was?.cells.get(address)?.formula;
      const same = formula !== undefined && cell.formula !== undefined && formula !== cell.formula && plainly(formula, sheet.name) === plainly(cell.formula, sheet.name);
      return same ? [[address, { ...cell, formula }] as const] : [];
    });
    return respelt.length > 0 ? { ...sheet, cells: new Map([...sheet.cells, ...respelt]) } : sheet;
  });
  const names = now.names.map((name) => {
    const at = before.book.names.findIndex((one) => one.name.toLowerCase() === name.name.toLowerCase() && one.ref === name.ref);
    return at < 0 ? name : { ...name, ref: moved.book.names[at]?.ref ?? name.ref };
  });
  return { ...now, sheets, names };
}

/** A formula without the name of its own sheet, without blanks, and with all quotes around other sheets' names. */
function plainly(formula: string, own: string): string {
  const tokens = formulaTokens(formula);
  return tokens.map(({ kind, text }, at) => {
    if (kind === "space" || (text === "!" && tokens[at + 1]?.kind === "error")) return "";
    if ((kind !== "sheet" && kind !== "word") || tokens[at + 1]?.text !== "!") return text === "!" && nameOf(tokens[at - 1]) === own.toLowerCase() ? "" : text;
    return tokens[at + 2]?.kind === "error" || nameOf(tokens[at]) === own.toLowerCase() ? "" : `'${nameOf(tokens[at])}'`;
  }).join("");
}

function nameOf(token: FormulaToken | undefined): string {
  return (token?.kind === "sheet" ? token.text.slice(1, -1).replace(/''/g, "'") : (token?.text ?? "")).toLowerCase();
}
