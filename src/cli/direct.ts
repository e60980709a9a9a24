import { cellAddress, type CellRange, contains, readCell, readRange } from "../files/address";
import type { Book } from "../files/book";
import { worksheetFunctions } from "../functions";
import { outermostCalls } from "../native/formula-calls";
import { literalIn } from "../native/given";
import { referenceIn } from "../native/references";
import { metadata } from "./functions";

/** Number results by sheet and address. */
export type DirectNumbers = ReadonlyMap<string, ReadonlyMap<string, number>>;

const TAKES_RANGES: ReadonlyMap<string, readonly boolean[]> = new Map(metadata.functions.map(({ name, parameters }) => [name.toUpperCase(), parameters.map(({ dimensionality }) => dimensionality === "matrix")]));
const NEEDED: ReadonlyMap<string, number> = new Map(metadata.functions.map(({ name, parameters }) => [name.toUpperCase(), parameters.filter(({ optional }) => !optional).length]));

/**
 * The formulas that are one call of ours over entries that stand there already, worked out without the engine, which takes a hundred
 * times longer for each: the same function with the same arguments. Only an answer that is one number is taken; whatever else comes
 * out, or goes in, is the engine's.
 */
export function directNumbers(book: Book): DirectNumbers {
  const spills = new Map(book.sheets.map(({ name, cells }) => [name, [...cells.values()].flatMap(({ spill }): CellRange[] => (spill === undefined ? [] : [readRange(spill) ?? []].flat()))]));
  const all = new Map<string, Map<string, number>>();
  for (const { name: sheet, cells } of book.sheets) {
    const found = new Map<string, number>();
    for (const [address, { formula, spill }] of cells) {
      if (formula === undefined || spill !== undefined || !/^ALGAL\./i.test(formula)) continue;
      const [call] = outermostCalls(formula);
      if (!call || call.start !== 0 || call.end !== formula.length) continue;
      const ranges = TAKES_RANGES.get(call.name);
      const run = worksheetFunctions.get(call.name) as ((...args: unknown[]) => unknown) | undefined;
      if (!ranges || !run || call.args.length > ranges.length || call.args.length < (NEEDED.get(call.name) ?? 0)) continue;
      const args = call.args.map((text, place) => (ranges[place] === true ? argumentOf(text, sheet, readCell(address)?.row ?? 0, book, spills) : undefined));
      if (args.some((arg) => arg === undefined)) continue;
      const answer = numberFrom(() => run(...ranges.map((_, place) => args[place] ?? null)));
      if (answer !== null) found.set(address, answer);
    }
    if (found.size > 0) all.set(sheet, found);
  }
  return all;
}

/** The cells of an argument; null when it is left out, undefined when it is not for here: blanks, errors, formulas, figures in text. */
function argumentOf(text: string, sheet: string, row: number, book: Book, spills: ReadonlyMap<string, readonly CellRange[]>): unknown[][] | null | undefined {
  if (text === "") return null;
  const literal = literalIn(text);
  if (literal) return isPlain(literal.value) ? [[literal.value]] : undefined;
  const reference = referenceIn(text, sheet, row, book);
  if (!reference) return undefined;
  const { range } = reference;
  if (range.startRow !== range.endRow || range.startColumn !== range.endColumn) return undefined;
  if (spills.get(reference.sheet)?.some((spill) => contains(spill, range.startRow, range.startColumn))) return undefined;
  const cell = cellIn(book, reference.sheet, range);
  return cell && cell.formula === undefined && isPlain(cell.value) ? [[cell.value]] : undefined;
}

function cellIn(book: Book, sheet: string, { startRow, startColumn }: CellRange) {
  return book.sheets.find(({ name }) => name === sheet)?.cells.get(cellAddress(startRow, startColumn));
}

/** A number, or a text that no engine takes for anything else. */
const isPlain = (value: unknown): boolean => typeof value === "number" || (typeof value === "string" && value.trim() !== "" && !value.startsWith("#") && !/^[\s\d+\-.,:/%$€£]+$/.test(value) && !/^\s*[\d.]+e[\d+-]+\s*$/i.test(value));

function numberFrom(run: () => unknown): number | null {
  try {
    const answer = run();
    const value: unknown = Array.isArray(answer) && answer.length === 1 && Array.isArray(answer[0]) && answer[0].length === 1 ? answer[0][0] : answer;
    return typeof value === "number" && Number.isFinite(value) ? value : null;
  } catch {
    return null;
  }
}
