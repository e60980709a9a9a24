import { customFunctionsIn } from "../files/formula-text";
import { isClosed } from "../files/formula-tokens";
import { isCellError } from "../functions/cell-error";
import { cli } from "../words/cli";
import { done, type Outcome, refused, UsageError } from "./command";
import { engineLater } from "./engine-later";
import { functionNames } from "./functions";

/** Works out one formula: JSON of a value, or of rows of values where it spills. Any error value in it is told instead. */
export async function formulaCommand(positionals: readonly string[]): Promise<Outcome> {
  const [given, ...rest] = positionals;
  if (given === undefined || rest.length > 0) throw new UsageError(cli.oneFormula);
  const formula = given.trim().replace(/^=/, "").trim();
  if (formula === "") return refused(cli.emptyFormula);
  if (!isClosed(formula)) return refused(cli.notReadableFormula);
  // Outside texts and quoted names an exclamation mark stands behind the name of a sheet, and here is none.
  if (/!/.test(formula.replace(/"(?:[^"]|"")*"/g, ""))) return refused(cli.noSheets);
  const unknown = customFunctionsIn(formula).filter((name) => !functionNames.has(name));
  if (unknown.length > 0) return refused(...unknown.map((name) => cli.noFunction(`ALGAL.${name}`)));

  const later = engineLater();
  try {
    const engine = await later.get();
    const rows = await engine.formula(formula);
    const single = rows.length === 1 && rows[0]?.length === 1;
    const errors = rows.flatMap((row, r) => row.flatMap((value, c) => (isCellError(value) ? [{ ...value, row: r + 1, column: c + 1 }] : [])));
    if (errors.length > 0) {
      const sentence = (code: string, message: string): string =>
        code === "#NAME?" ? cli.unknownName : code === "#VALUE!" && engine.problems.list().length === 0 ? cli.unfinished : message;
      return refused(...errors.map(({ code, message, row, column }) => (single ? cli.error(code, sentence(code, message)) : cli.elementError(row, column, code, message))));
    }
    return done(JSON.stringify(single ? rows[0]?.[0] : rows));
  } finally {
    later.dispose();
  }
}
