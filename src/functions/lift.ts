import { functions as words } from "../words/functions";
import { Problem } from "../science/problem";
import { isBlank, type Argument } from "./arguments";
import { cellErrorFrom, type CellError } from "./cell-error";

type Arguments = Readonly<Record<string, Argument<unknown>>>;
type Values<A extends Arguments> = { readonly [K in keyof A]: A[K] extends Argument<infer T> ? T : never };
export type Answer = number | string | CellError;

/**
 * Applies a calculation of single values to whole ranges: the same shape comes out, one cell is used for every row.
 * A blank where a value is needed gives a blank; a cell that cannot be used gives that cell's error and harms no other.
 * For one cell the error is thrown, so that the host can show its sentence.
 */
export function lift<A extends Arguments>(args: A, calculate: (values: Values<A>) => number | string): Answer[][] {
  return liftRows(args, (values) => [calculate(values)], null);
}

/**
 * The same for calculations that answer with several figures side by side: then only columns may be handed over.
 * `width` is the number of figures, or null for one figure to a cell of any range.
 */
export function liftRows<A extends Arguments>(args: A, calculate: (values: Values<A>) => (number | string)[], width: number | null): Answer[][] {
  const { rows, columns } = sharedShape(Object.values(args), width !== null);
  const alone = rows === 1 && columns === 1;
  const answer = (row: number, column: number): Answer[] => {
    try {
      const values: Record<string, unknown> = {};
      for (const [key, argument] of Object.entries(args)) {
        const cell = cellAt(argument, row, column);
        if (!isBlank(cell)) values[key] = argument.read(cell);
        else if (argument.blank !== undefined) values[key] = argument.blank;
        else return new Array<Answer>(width ?? 1).fill("");
      }
      return calculate(values as Values<A>).map(finite);
    } catch (error) {
      if (alone) throw error;
      return new Array<Answer>(width ?? 1).fill(cellErrorFrom(error));
    }
  };
  return Array.from({ length: rows }, (_, row) => Array.from({ length: columns }, (_, column) => answer(row, column)).flat());
}

function finite(value: number | string): number | string {
  if (typeof value === "number" && !Number.isFinite(value)) throw new Problem("number", words.noAnswer);
  return value;
}

function sharedShape(args: readonly Argument<unknown>[], columnsOnly: boolean): { rows: number; columns: number } {
  let widest: Argument<unknown> | null = null;
  let shape = { rows: 1, columns: 1 };
  for (const argument of args) {
    const rows = argument.cells.length;
    const columns = argument.cells[0]?.length ?? 1;
    if (rows === 1 && columns === 1) continue;
    if (columnsOnly && columns > 1) throw new Problem("value", words.oneColumn(argument.name));
    if (widest && (shape.rows !== rows || shape.columns !== columns)) throw new Problem("value", words.sizesDiffer(widest.name, argument.name));
    widest ??= argument;
    shape = { rows, columns };
  }
  return shape;
}

function cellAt(argument: Argument<unknown>, row: number, column: number): unknown {
  const alone = argument.cells.length === 1 && (argument.cells[0]?.length ?? 1) === 1;
  return alone ? argument.cells[0]?.[0] : argument.cells[row]?.[column];
}
