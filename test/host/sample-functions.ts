import { CellError } from "../../src/functions/cell-error";
import type { FunctionSet, SheetFunction } from "../../src/host/engine/metadata";
import { Problem } from "../../src/science/problem";

/** Functions that exist only to try the engine: what came in, what goes out, and every way of going wrong. */
export interface Seen {
  args: unknown[][];
}

const matrix = (name: string, optional = false) => ({ name, description: `${name}, a range`, dimensionality: "matrix", optional });
const single = (name: string, optional = false) => ({ name, description: `${name}, one value`, optional });

export function sampleFunctions(): { set: FunctionSet; seen: Seen } {
  const seen: Seen = { args: [] };
  const functions = new Map<string, SheetFunction>([
    ["SEE", (...args: unknown[]) => (seen.args.push(args), args.length)],
    ["ECHO", (rows: unknown[][]) => rows],
    ["TIMES_TEN", (value: unknown) => timesTen(value)],
    ["TABLE", (rows: number, columns: number) => Array.from({ length: rows }, (_, r) => Array.from({ length: columns }, (_unused, c) => (r + 1) * 100 + c + 1))],
    ["TEXT_OF", (value: unknown) => String(value)],
    ["GIVE", (kind: string) => give(kind)],
    ["FAIL", (kind: "value" | "missing" | "number" | "divide", sentence: string) => { throw new Problem(kind, sentence); }],
    ["BROKEN", () => { throw new TypeError("x is undefined"); }],
  ] as [string, SheetFunction][]);
  const parameters: Record<string, FunctionSet["metadata"]["functions"][number]["parameters"]> = {
    SEE: [matrix("range"), single("one", true), matrix("second_range", true), single("other", true)],
    ECHO: [matrix("range")],
    TIMES_TEN: [single("value")],
    TABLE: [single("rows"), single("columns")],
    TEXT_OF: [single("value")],
    GIVE: [single("kind")],
    FAIL: [single("kind"), single("sentence")],
    BROKEN: [],
  };
  const metadata = { functions: [...functions.keys()].map((id) => ({ id, name: id, description: `Tries ${id}`, parameters: parameters[id] ?? [] })) };
  return { set: { metadata, functions }, seen };
}

function timesTen(value: unknown): unknown {
  if (typeof value !== "number") throw new Problem("value", `"${String(value)}" is not a number.`);
  return value * 10;
}

function give(kind: string): unknown {
  const answers: Record<string, unknown> = {
    "numeric text": "0.20",
    "leading zero": "007",
    "true text": "TRUE",
    "date text": "2024-01-01",
    "formula text": "=1+1",
    "array text": "{1,2}",
    blank: "",
    nothing: null,
    yes: true,
    serial: 45000,
    nan: Number.NaN,
    infinite: Number.POSITIVE_INFINITY,
    empty: [],
    ragged: [[1, 2], [3]],
    mixed: [["a", new CellError("#N/A", "No reading.")], [new CellError("#VALUE!", "Not understood."), ""]],
  };
  return answers[kind];
}
