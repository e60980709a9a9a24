import { columnLetters, columnNumber, GRID_COLUMNS, GRID_ROWS, sheetReference } from "../../address";
import { type FormulaToken, formulaTokens, isCall } from "../../formula-tokens";
import { type ColumnNames, withRenamedColumns } from "../../renamed-columns";
import { COLUMNS, movedSpan, ROWS, type SheetMoves } from "./line-move";

/** What became of the sheets of a file. */
export interface SheetChanges {
  /** By the sheet's name in small letters, as it was. */
  readonly moves: ReadonlyMap<string, SheetMoves>;
  /** The new name, by the old one in small letters. */
  readonly names: ReadonlyMap<string, string>;
  /** Whether a sheet was deleted, by its name in small letters. */
  readonly isGone?: (name: string) => boolean;
  /** What columns of tables are called now, by the table's name in small letters. */
  readonly columns?: ReadonlyMap<string, ColumnNames>;
}

/** For formulas in cells: where a sheet that they read is deleted, the grid changes them itself, and shows an error there. */
export const inCells = (changes: SheetChanges): SheetChanges => ({ ...changes, isGone: () => false });

interface End {
  readonly column?: { readonly fixed: string; readonly at: number };
  readonly row?: { readonly fixed: string; readonly at: number };
}

const CELL = /^(\$?)([A-Z]{1,3})(\$?)([1-9]\d{0,6})$/i;
const COLUMN = /^(\$?)([A-Z]{1,3})$/i;
const ROW = /^(\$?)([1-9]\d{0,6})$/;
const LOST = "#REF!";

/** A formula or reference as it reads after the changes. What it names of other workbooks, and through several sheets, stays. @param own the sheet on which it stands, as it was called */
export function movedFormula(formula: string, own: string, changes: SheetChanges): string {
  const tokens = formulaTokens(changes.columns ? withRenamedColumns(formula, (table) => changes.columns?.get(table)) : formula);
  const texts: string[] = [];
  let sheet = own;
  let isElsewhere = false;
  for (let at = 0; at < tokens.length; at += 1) {
    const token = tokens[at] as FormulaToken;
    if ((token.kind === "sheet" || token.kind === "word") && tokens[at + 1]?.text === "!") {
      const name = token.kind === "sheet" ? token.text.slice(1, -1).replace(/''/g, "'") : token.text;
      const isOtherBook = name.includes("[") || tokens[at - 1]?.kind === "bracket" || (tokens[at - 1]?.text === ":" && tokens[at - 3]?.kind === "bracket");
      const isLast = tokens[at - 1]?.text === ":" && tokens[at - 2]?.kind === "word" && tokens[at - 3]?.text !== "!";
      isElsewhere = isOtherBook || isLast || name.includes(":");
      sheet = name;
      if (isElsewhere && !isOtherBook) {
        const [first = "", last = name] = isLast ? [tokens[at - 2]?.text, name] : name.split(":");
        if (isLast) texts.splice(-2);
        if ([first, last].some((end) => changes.isGone?.(end.toLowerCase()))) {
          texts.push(LOST);
          at += lengthAfterName(tokens, at);
          [sheet, isElsewhere] = [own, false];
          continue;
        }
        texts.push(sheetsReference(first, last, changes.names), "!");
      } else if (!isOtherBook && changes.isGone?.(name.toLowerCase())) {
        texts.push(LOST);
        at += lengthAfterName(tokens, at);
        sheet = own;
        continue;
      } else {
        const renamed = isElsewhere ? undefined : changes.names.get(name.toLowerCase());
        texts.push(renamed === undefined ? token.text : sheetReference(renamed), "!");
      }
      at += 1;
      continue;
    }
    const reference = referenceAt(tokens, at);
    if (reference) {
      const moves = isElsewhere ? undefined : changes.moves.get(sheet.toLowerCase());
      const pieces = tokens.slice(at, at + reference.length);
      texts.push(moves ? movedReference(reference.from, reference.to, pieces.map(({ text }) => text).join(""), moves) : pieces.map(({ text }) => text).join(""));
      at += reference.length - 1;
    } else texts.push(token.text);
    if (token.text !== ":") [sheet, isElsewhere] = [own, false];
  }
  return texts.join("");
}

/** Several sheets from one to another, as they are called now. */
function sheetsReference(first: string, last: string, names: SheetChanges["names"]): string {
  const [from, to] = [names.get(first.toLowerCase()) ?? first, names.get(last.toLowerCase()) ?? last];
  if (sheetReference(from) === from && sheetReference(to) === to) return `${from}:${to}`;
  return `'${`${from}:${to}`.replace(/'/g, "''")}'`;
}

/** How many tokens follow the name of a sheet that are what it names there: the sign between them, and cells, a name or an error. */
function lengthAfterName(tokens: readonly FormulaToken[], at: number): number {
  const length = 1 + (referenceAt(tokens, at + 2)?.length ?? 1);
  // All that an answer spills over.
  return tokens[at + length + 1]?.text === "#" ? length + 1 : length;
}

function referenceAt(tokens: readonly FormulaToken[], at: number): { readonly from: End; readonly to: End; readonly length: number } | undefined {
  const [first, second] = [endAt(tokens, at), tokens[at + 1]?.text === ":" && tokens[at + 3]?.text !== "!" ? endAt(tokens, at + 2) : undefined];
  if (!first) return undefined;
  if (first.row && first.column) return second?.row && second.column ? { from: first, to: second, length: 3 } : { from: first, to: first, length: 1 };
  const alike = second && (second.row === undefined) === (first.row === undefined) && (second.column === undefined) === (first.column === undefined);
  return alike ? { from: first, to: second, length: 3 } : undefined;
}

function endAt(tokens: readonly FormulaToken[], at: number): End | undefined {
  const token = tokens[at];
  if ((token?.kind !== "word" && token?.kind !== "number") || isCall(tokens, at)) return undefined;
  const cell = CELL.exec(token.text);
  if (cell) {
    const end = { column: { fixed: cell[1] ?? "", at: columnNumber(cell[2] ?? "") }, row: { fixed: cell[3] ?? "", at: Number(cell[4]) - 1 } };
    return end.column.at < GRID_COLUMNS && end.row.at < GRID_ROWS ? end : undefined;
  }
  const [column, row] = [COLUMN.exec(token.text), ROW.exec(token.text)];
  if (column) return { column: { fixed: column[1] ?? "", at: columnNumber(column[2] ?? "") } };
  return row ? { row: { fixed: row[1] ?? "", at: Number(row[2]) - 1 } } : undefined;
}

function movedReference(from: End, to: End, text: string, moves: SheetMoves): string {
  const rows = moved(from.row, to.row, ROWS, moves);
  const columns = moved(from.column, to.column, COLUMNS, moves);
  if (rows === null || columns === null) return LOST;
  const end = (column: string | undefined, row: string | undefined) => `${column ?? ""}${row ?? ""}`;
  const [one, other] = [end(columns?.[0], rows?.[0]), end(columns?.[1], rows?.[1])];
  return text.includes(":") ? `${one}:${other}` : one;
}

/** null where nothing is left, undefined where the reference does not tell. */
function moved(from: End["row"], to: End["row"], along: typeof COLUMNS | typeof ROWS, moves: SheetMoves): readonly [string, string] | null | undefined {
  if (!from || !to) return undefined;
  const lines = along === ROWS ? GRID_ROWS : GRID_COLUMNS;
  const [low, high] = [Math.min(from.at, to.at), Math.max(from.at, to.at)];
  // All rows or columns are all of them, whatever comes or goes.
  const span = low === 0 && high === lines - 1 ? ([low, high] as const) : movedSpan(low, high, along, moves);
  if (!span || span[0] >= lines) return null;
  // What is pushed over the end of the sheet is cut off there.
  const end = Math.min(span[1], lines - 1);
  const [first, last] = from.at <= to.at ? [span[0], end] : [end, span[0]];
  const text = (fixed: string, at: number) => fixed + (along === ROWS ? String(at + 1) : columnLetters(at));
  return [text(from.fixed, first), text(to.fixed, last)];
}
