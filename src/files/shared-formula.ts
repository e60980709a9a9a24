import { columnLetters, columnNumber, GRID_COLUMNS, GRID_ROWS } from "./address";
import { formulaTokens, type FormulaToken, isCall, isSheetName } from "./formula-tokens";

const CELL = /^(\$?)([A-Z]{1,3})(\$?)([1-9]\d{0,6})$/i;
const COLUMN = /^(\$?)([A-Z]{1,3})$/i;
const ROW = /^(\$?)([1-9]\d{0,6})$/;
const LOST = "#REF!";

/**
 * A formula moved by whole rows and columns, as a file means it where cells share one formula: references without a dollar sign
 * move along, and one that leaves the worksheet becomes #REF!.
 */
export function shiftFormula(formula: string, rows: number, columns: number): string {
  if (rows === 0 && columns === 0) return formula;
  const tokens = formulaTokens(formula);
  return tokens.map((token, at) => shiftToken(tokens, token, at, rows, columns)).join("");
}

function shiftToken(tokens: readonly FormulaToken[], token: FormulaToken, at: number, rows: number, columns: number): string {
  if (token.kind === "number") return standsInRange(tokens, at, ROW) ? shiftRow(token.text, rows) : token.text;
  if (token.kind !== "word" || isCall(tokens, at) || isSheetName(tokens, at)) return token.text;
  const cell = CELL.exec(token.text);
  if (cell) {
    const column = shiftColumn((cell[1] ?? "") + (cell[2] ?? ""), columns);
    const row = shiftRow((cell[3] ?? "") + (cell[4] ?? ""), rows);
    return column === LOST || row === LOST ? LOST : column + row;
  }
  if (standsInRange(tokens, at, COLUMN)) return shiftColumn(token.text, columns);
  return standsInRange(tokens, at, ROW) ? shiftRow(token.text, rows) : token.text;
}

/** Whether this token and the one across a colon are both whole columns, or both whole rows. */
function standsInRange(tokens: readonly FormulaToken[], at: number, pattern: RegExp): boolean {
  if (!pattern.test(tokens[at]?.text ?? "")) return false;
  const after = tokens[at + 1]?.text === ":" && pattern.test(tokens[at + 2]?.text ?? "") && tokens[at + 3]?.text !== "!";
  const before = tokens[at - 1]?.text === ":" && pattern.test(tokens[at - 2]?.text ?? "");
  return after || before;
}

function shiftColumn(text: string, columns: number): string {
  if (text.startsWith("$")) return text;
  const column = columnNumber(text) + columns;
  return column >= 0 && column < GRID_COLUMNS ? columnLetters(column) : LOST;
}

function shiftRow(text: string, rows: number): string {
  if (text.startsWith("$")) return text;
  const row = Number(text) + rows;
  return row >= 1 && row <= GRID_ROWS ? String(row) : LOST;
}
