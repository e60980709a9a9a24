import { CellError, isCellError } from "../../functions/cell-error";
import { host } from "../../words/host";

/**
 * Calls a function once per cell when an argument that takes one value is given a range: a 1 x n, n x 1 or n x m range goes with
 * single cells and with ranges that match it, as Excel lifts its own functions. Arguments that take ranges are passed whole.
 * Where the ranges do not reach, the element is #N/A. An omitted argument is null.
 */
export function liftSingles(
  name: string,
  args: readonly (unknown[][] | null)[],
  takesRange: readonly boolean[],
  call: (args: unknown[]) => unknown,
): unknown {
  const singles = args.filter((rows, i): rows is unknown[][] => rows !== null && !takesRange[i]);
  const height = Math.max(1, ...singles.map((rows) => rows.length));
  const width = Math.max(1, ...singles.map((rows) => rows[0]?.length ?? 0));
  const argumentsAt = (r: number, c: number) => args.map((rows, i) => (takesRange[i] || rows === null ? rows : elementAt(rows, r, c)));
  if (height === 1 && width === 1) return call(argumentsAt(0, 0));
  return Array.from({ length: height }, (_, r) =>
    Array.from({ length: width }, (_unused, c) => {
      const element = argumentsAt(r, c);
      if (element.some((value) => value === BEYOND)) return new CellError("#N/A", host.sizesDiffer);
      return singleAnswer(name, call(element));
    }),
  );
}

const BEYOND = Symbol("beyond the range");

function elementAt(rows: unknown[][], r: number, c: number): unknown {
  const row = rows[rows.length === 1 ? 0 : r];
  if (row === undefined) return BEYOND;
  const column = row.length === 1 ? 0 : c;
  return column < row.length ? row[column] : BEYOND;
}

function singleAnswer(name: string, answer: unknown): unknown {
  if (!Array.isArray(answer)) return answer;
  if (answer.length === 1 && Array.isArray(answer[0]) && answer[0].length === 1) return answer[0][0];
  if (isCellError(answer)) return answer;
  return new CellError("#VALUE!", host.oneValueAnswer(name));
}
