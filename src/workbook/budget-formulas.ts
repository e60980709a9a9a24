export interface BudgetFormula {
  /** With the separators of the user's Excel: "=ALGAL.BUDGET_N(Log!A1:H114,'Set-up'!A2:B8)". */
  readonly formula: string;
  readonly sheet: string;
}

export interface BudgetFormulas {
  readonly N?: BudgetFormula;
  readonly P?: BudgetFormula;
}

/** A budget runs down and to the right, so it begins near the top of a sheet. */
const TOP = "A1:H24";
const CALL = /\bALGAL\.BUDGET_([NP])\(/i;

/**
 * The first nitrogen and the first phosphorus budget of the open workbook, sheet by sheet, each as a formula of its own: the
 * sample workbooks wrap it in INDEX, one cell at a time, so that they show in programs that do not spill.
 */
export async function findBudgetFormulas(): Promise<BudgetFormulas> {
  return Excel.run({ delayForCellEdit: true }, async (context) => {
    const { worksheets } = context.workbook;
    worksheets.load("items/name");
    await context.sync();
    const tops = worksheets.items.map((sheet) => ({ name: sheet.name, range: sheet.getRange(TOP).load("formulasLocal") }));
    await context.sync();
    const found: { N?: BudgetFormula; P?: BudgetFormula } = {};
    for (const { name, range } of tops) {
      for (const formula of (range.formulasLocal as unknown[][]).flat()) {
        const call = budgetCall(formula);
        if (call) found[call.nutrient] ??= { formula: `=${call.text}`, sheet: name };
      }
    }
    return found;
  });
}

function budgetCall(formula: unknown): { nutrient: "N" | "P"; text: string } | null {
  if (typeof formula !== "string" || !formula.startsWith("=")) return null;
  const start = CALL.exec(formula);
  if (!start) return null;
  const text = upToClosingBracket(formula.slice(start.index));
  return text === null ? null : { nutrient: start[1]?.toUpperCase() === "P" ? "P" : "N", text };
}

/** The call with its own closing bracket; brackets inside texts and quoted sheet names do not count. */
function upToClosingBracket(call: string): string | null {
  let depth = 0;
  let quote = "";
  for (let place = 0; place < call.length; place += 1) {
    const sign = call.charAt(place);
    if (quote !== "") quote = sign === quote ? "" : quote;
    else if (sign === '"' || sign === "'") quote = sign;
    else if (sign === "(") depth += 1;
    else if (sign === ")" && --depth === 0) return call.slice(0, place + 1);
  }
  return null;
}
