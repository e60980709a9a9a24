import { type CellRange, GRID_COLUMNS, GRID_ROWS, columnNumber, readCell } from "./address";
import { formulaTokens, type FormulaToken, isCall, isSheetName } from "./formula-tokens";

export interface FormulaReference {
  /** The sheet that the reference names; undefined for the formula's own. */
  sheet: string | undefined;
  range: CellRange;
}

export interface FormulaReferences {
  references: FormulaReference[];
  /** Whether the formula reads anything else: a name, a table, several sheets, another workbook. */
  readsMore: boolean;
  readsOtherBook: boolean;
}

const COLUMN = /^\$?([A-Z]{1,3})$/i;
const ROW = /^\$?([1-9]\d{0,6})$/;
const CONSTANT = /^(TRUE|FALSE)$/i;

/** What a formula (without its leading "=") reads, as far as its text tells. */
export function formulaReferences(formula: string): FormulaReferences {
  const tokens = formulaTokens(formula);
  const found: FormulaReferences = { references: [], readsMore: false, readsOtherBook: false };
  for (let at = 0; at < tokens.length; at += 1) {
    const token = tokens[at];
    if (!token) break;
    if (token.kind === "sheet" || isSheetName(tokens, at)) {
      // A sheet's name has no bracket of its own.
      if (token.text.includes("[")) found.readsOtherBook = true;
      if (tokens[at + 1]?.text !== "!") found.readsMore = true;
      continue;
    }
    if (token.kind === "bracket") {
      if (isOtherBook(tokens, at)) found.readsOtherBook = true;
      else found.readsMore = true;
      continue;
    }
    if ((token.kind !== "word" && token.kind !== "number") || isCall(tokens, at)) continue;
    const reference = referenceAt(tokens, at);
    if (reference) {
      found.references.push({ sheet: sheetBefore(tokens, at), range: reference.range });
      at += reference.length - 1;
    } else if (token.kind === "word" && !CONSTANT.test(token.text)) found.readsMore = true;
  }
  return found;
}

/** "[2]Log!A1": a number in brackets before a sheet's name; a table's part follows the table's name. */
function isOtherBook(tokens: readonly FormulaToken[], at: number): boolean {
  return /^\[\d+\]$/.test(tokens[at]?.text ?? "") && (tokens[at + 1]?.text === "!" || isSheetName(tokens, at + 1));
}

function sheetBefore(tokens: readonly FormulaToken[], at: number): string | undefined {
  const name = tokens[at - 1]?.text === "!" ? tokens[at - 2] : undefined;
  if (!name) return undefined;
  return name.kind === "sheet" ? name.text.slice(1, -1).replace(/''/g, "'") : name.text;
}

function referenceAt(tokens: readonly FormulaToken[], at: number): { range: CellRange; length: number } | undefined {
  const first = tokens[at]?.text ?? "";
  const second = tokens[at + 1]?.text === ":" ? (tokens[at + 2]?.text ?? "") : undefined;
  const from = readCell(first);
  if (from) {
    const to = second === undefined ? undefined : readCell(second);
    return { range: spanned(from.row, from.column, to?.row ?? from.row, to?.column ?? from.column), length: to ? 3 : 1 };
  }
  if (second === undefined) return undefined;
  const columns = [COLUMN.exec(first)?.[1], COLUMN.exec(second)?.[1]];
  if (columns[0] && columns[1]) return { range: spanned(0, columnNumber(columns[0]), GRID_ROWS - 1, columnNumber(columns[1])), length: 3 };
  const rows = [ROW.exec(first)?.[1], ROW.exec(second)?.[1]];
  if (rows[0] && rows[1]) return { range: spanned(Number(rows[0]) - 1, 0, Number(rows[1]) - 1, GRID_COLUMNS - 1), length: 3 };
  return undefined;
}

function spanned(row: number, column: number, otherRow: number, otherColumn: number): CellRange {
  return { startRow: Math.min(row, otherRow), startColumn: Math.min(column, otherColumn), endRow: Math.max(row, otherRow), endColumn: Math.max(column, otherColumn) };
}
