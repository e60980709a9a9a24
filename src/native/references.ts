import { type CellRange, rangeAddress, readCell, readRange, sheetReference } from "../files/address";
import type { Book, BookSheet } from "../files/book";
import { formulaTokens, type FormulaToken, isCall, isSheetName } from "../files/formula-tokens";

/** Cells of one sheet. */
export interface SheetRange {
  readonly sheet: string;
  readonly range: CellRange;
}

const WHOLE = /^\$?[A-Z]{1,3}:\$?[A-Z]{1,3}$|^\$?\d+:\$?\d+$/i;

/**
 * What an argument stands for when it is nothing but a reference: a cell, a range, a name, a column of a table or what spills from a
 * cell. Null for anything else. `row`: of the formula, for a table's own row; `whole`: whether whole columns and rows are taken, as far as
 * the sheet is filled.
 */
export function referenceIn(text: string, sheet: string, row: number, book: Book, whole = true): SheetRange | null {
  const cut = text.lastIndexOf("!");
  const own = cut < 0 ? sheet : sheetNamed(text.slice(0, cut), book);
  if (own === null) return null;
  const rest = text.slice(cut + 1);
  const spill = rest.endsWith("#") ? readCell(rest.slice(0, -1)) : undefined;
  const found = book.sheets.find(({ name }) => name.toLowerCase() === own.toLowerCase());
  if (spill && found) {
    const range = readRange(found.cells.get(rest.slice(0, -1).replace(/\$/g, "").toUpperCase())?.spill ?? "");
    return range ? { sheet: found.name, range } : null;
  }
  const range = readRange(rest);
  if (range && found) return { sheet: found.name, range };
  if (WHOLE.test(rest) && found) return whole ? wholeRange(rest, found) : null;
  if (cut >= 0) return null;
  const name = book.names.find((one) => one.name.toLowerCase() === text.toLowerCase());
  if (name) return name.ref.includes("(") || name.ref.toLowerCase() === text.toLowerCase() ? null : referenceIn(name.ref, sheet, row, book, whole);
  return tableReference(text, sheet, row, book);
}

export function sheetNamed(written: string, book: Book): string | null {
  const quoted = /^'(.*)'$/.exec(written);
  const name = quoted ? (quoted[1] ?? "").replace(/''/g, "'") : written;
  return book.sheets.find((one) => one.name.toLowerCase() === name.toLowerCase())?.name ?? null;
}

/** Whole columns or rows, as far as the sheet is filled. */
function wholeRange(text: string, sheet: BookSheet): SheetRange | null {
  let [rows, columns] = [0, 0];
  for (const address of sheet.cells.keys()) {
    const place = readCell(address);
    if (place) [rows, columns] = [Math.max(rows, place.row), Math.max(columns, place.column)];
  }
  const [from = "", to = ""] = text.replace(/\$/g, "").split(":");
  const range = /\d/.test(from) ? readRange(`A${from}:A${to}`) : readRange(`${from}1:${to}1`);
  if (!range) return null;
  return { sheet: sheet.name, range: /\d/.test(from) ? { ...range, endColumn: columns } : { ...range, endRow: rows } };
}

const TABLE_PART = /^([\p{L}_\\][\p{L}\p{N}_.\\]*)(?:\[(.*)\])?$/u;

/** "Log", "Log[NO3 (mg/L)]", "Log[[#All],[Date]:[NO3]]", "Log[@Date]". */
function tableReference(text: string, sheet: string, row: number, book: Book): SheetRange | null {
  const match = TABLE_PART.exec(text);
  const holder = book.sheets.find(({ tables }) => tables?.some(({ name }) => name.toLowerCase() === (match?.[1] ?? "").toLowerCase()));
  const table = holder?.tables?.find(({ name }) => name.toLowerCase() === (match?.[1] ?? "").toLowerCase());
  const all = table ? readRange(table.ref) : undefined;
  if (!match || !holder || !table || !all) return null;
  const body = { ...all, startRow: all.startRow + (table.hasHeadings ? 1 : 0), endRow: all.endRow - (table.hasTotals ? 1 : 0) };
  let part = match[2] ?? "";
  if (part === "") return { sheet: holder.name, range: body };
  let rows = body;
  if (part.startsWith("@")) {
    if (sheet !== holder.name || row < body.startRow || row > body.endRow) return null;
    rows = { ...body, startRow: row, endRow: row };
    part = part.slice(1);
  }
  const pieces = part.startsWith("[") ? [...part.matchAll(/\[((?:'.|[^'[\]])*)\]/g)].map(([, piece = ""]) => piece) : [part];
  const columns: number[] = [];
  for (const piece of pieces) {
    if (/^#all$/i.test(piece)) rows = all;
    else if (/^#data$/i.test(piece)) rows = body;
    else if (/^#headers$/i.test(piece)) rows = { ...all, endRow: all.startRow };
    else if (/^#totals$/i.test(piece)) {
      if (!table.hasTotals) return null;
      rows = { ...all, startRow: all.endRow };
    } else if (/^#this row$/i.test(piece)) rows = { ...body, startRow: row, endRow: row };
    else {
      const name = piece.replace(/'(.)/g, "$1").toLowerCase();
      const column = table.columns.findIndex((one) => one.toLowerCase() === name);
      if (column < 0) return null;
      columns.push(column);
    }
  }
  if (columns.length === 0) return { sheet: holder.name, range: rows };
  return { sheet: holder.name, range: { ...rows, startColumn: all.startColumn + Math.min(...columns), endColumn: all.startColumn + Math.max(...columns) } };
}

const ADDRESS = /^\$?[A-Z]{1,3}\$?\d+$/i;
/** Functions whose answer depends on where their formula stands, or whose text names cells that no reading of the formula finds. */
const PLACE_BOUND = /^(ROW|COLUMN|CELL|INDIRECT|OFFSET|SHEET|RAND|RANDBETWEEN|RANDARRAY|NOW|TODAY|ALGAL\.[A-Z_]+)$/i;

/** Whether an expression may stand in another cell once its references name their sheet. */
export const canMove = (text: string): boolean => {
  const tokens = formulaTokens(text);
  return !tokens.some((token, at) => (isCall(tokens, at) && PLACE_BOUND.test(token.text)) || (token.kind === "bracket" && token.text.startsWith("[@")) || token.text === "#");
};

/** An expression in which every reference names its sheet, so that it means the same on any other. */
export function qualified(text: string, sheet: string): string {
  const tokens = formulaTokens(text);
  const own = `${sheetReference(sheet)}!`;
  return tokens.map((token, at) => (startsOwnReference(tokens, token, at) ? own + token.text : token.text)).join("");
}

function startsOwnReference(tokens: readonly FormulaToken[], token: FormulaToken, at: number): boolean {
  if (tokens[at - 1]?.text === "!" || isSheetName(tokens, at) || isCall(tokens, at)) return false;
  // The second corner of a range belongs to the first.
  if (tokens[at - 1]?.text === ":") return false;
  if (token.kind === "word" && ADDRESS.test(token.text)) return true;
  const crosses = tokens[at + 1]?.text === ":";
  return crosses && ((token.kind === "word" && /^\$?[A-Z]{1,3}$/i.test(token.text)) || (token.kind === "number" && /^\d+$/.test(token.text)) || (token.kind === "word" && /^\$\d+$/.test(token.text)));
}

/** The other way round: on its own sheet a reference needs no name before it. */
export function localised(text: string, sheet: string): string {
  const tokens = formulaTokens(text);
  const isOwn = ({ kind, text: written }: FormulaToken): boolean => (kind === "sheet" ? written.slice(1, -1).replace(/''/g, "'") : written).toLowerCase() === sheet.toLowerCase();
  return tokens.map((token, at) => {
    if (token.text === "!" && at > 0 && isOwn(tokens[at - 1] as FormulaToken)) return "";
    return tokens[at + 1]?.text === "!" && (token.kind === "sheet" || token.kind === "word") && isOwn(token) ? "" : token.text;
  }).join("");
}

/** "'My log'!$A$2", for formulas on any sheet. */
export function absolute({ sheet, range }: SheetRange): string {
  return `${sheetReference(sheet)}!${rangeAddress(range).replace(/([A-Z]+)(\d+)/g, "$$$1$$$2")}`;
}
