import fs from "node:fs";
import path from "node:path";
import { worksheetFunctions } from "../../src/functions";
import { CellError } from "../../src/functions/cell-error";
import examples from "../../src/functions/generated/examples.json";
import metadata from "../../src/functions/generated/functions.json";
import { createEngine, type Engine } from "../../src/host/engine/engine";

/** What the help and the README promise, calculated by the engine of the local page. */
let engine: Engine;
beforeAll(() => {
  engine = createEngine({ metadata: metadata as never, functions: worksheetFunctions as never });
});
afterAll(() => engine.dispose());

const alone = Object.entries(examples).filter(([, formula]) => !formula.includes("!"));

test.each(alone)("the example of %s has an answer", async (_, formula) => {
  const cells = (await engine.formula(formula)).flat();
  expect(cells.length).toBeGreaterThan(0);
  expect(cells.filter((cell) => cell instanceof CellError || cell === "")).toEqual([]);
});

/** The README's table: a formula and the figure beside it. */
const promised = [...fs.readFileSync(path.join(__dirname, "../../README.md"), "utf8").matchAll(/\| `(=ALGAL[^`]+)`[^|]*\| ([\d.]+)/g)].map((match) => [match[1] ?? "", match[2] ?? ""] as const);

test("the README gives at least eight figures", () => expect(promised.length).toBeGreaterThanOrEqual(8));

test.each(promised)("README: %s gives %s", async (formula, figure) => {
  const [[value]] = (await engine.formula(formula)) as [[number]];
  const decimals = figure.split(".")[1]?.length ?? 0;
  expect(value.toFixed(decimals)).toBe(figure);
});
