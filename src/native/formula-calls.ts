import { formulaTokens, isCall, nextPlace } from "../files/formula-tokens";

/** A call of one of our functions in the text of a formula, as the keeper sees it. */
export interface FormulaCall {
  /** Without the namespace, in capitals. */
  readonly name: string;
  /** Text of each argument; "" for one that is left out. */
  readonly args: readonly string[];
  /** Where the call stands in the formula's text, from its name to its closing parenthesis. */
  readonly start: number;
  readonly end: number;
}

const OWN = /^ALGAL\.([A-Z0-9_]+)$/i;

/** The calls of our functions that stand in no other call of ours, in order. */
export function outermostCalls(formula: string): FormulaCall[] {
  const tokens = formulaTokens(formula);
  const starts: number[] = [];
  let at = 0;
  for (const { text } of tokens) {
    starts.push(at);
    at += text.length;
  }
  starts.push(at);
  const calls: FormulaCall[] = [];
  for (let place = 0; place < tokens.length; place += 1) {
    const name = isCall(tokens, place) ? OWN.exec(tokens[place]?.text ?? "")?.[1] : undefined;
    if (name === undefined) continue;
    const open = nextPlace(tokens, place);
    const args: string[] = [];
    let depth = 0;
    let from = open + 1;
    let end = open;
    for (; end < tokens.length; end += 1) {
      const sign = tokens[end]?.kind === "sign" ? tokens[end]?.text : "";
      if (sign === "(" || sign === "{") depth += 1;
      else if (sign === ")" || sign === "}") depth -= 1;
      if ((sign === "," && depth === 1) || depth === 0) {
        args.push(formula.slice(starts[from] ?? 0, starts[end] ?? 0).trim());
        from = end + 1;
      }
      if (depth === 0) break;
    }
    calls.push({ name: name.toUpperCase(), args: args.length === 1 && args[0] === "" ? [] : args, start: starts[place] ?? 0, end: starts[end + 1] ?? formula.length });
    place = end;
  }
  return calls;
}

/** The formula, or a part of it, with each of these calls that stands there replaced by a text. */
export function replaceCalls(formula: string, calls: readonly FormulaCall[], texts: readonly string[], start = 0, end = formula.length): string {
  let [result, from] = ["", start];
  calls.forEach((call, place) => {
    if (call.start < start || call.end > end) return;
    result += formula.slice(from, call.start) + (texts[place] ?? "");
    from = call.end;
  });
  return result + formula.slice(from, end);
}

/** Functions whose arguments are single values, so that it is one whether a formula or a cell stands there. */
const OF_VALUES = /^(IF|IFERROR|IFNA|ROUND|ROUNDUP|ROUNDDOWN|ABS|INT|SQRT|EXP|LN|LOG|LOG10|POWER|MOD|NOT|TEXT|VALUE|TRIM|LEN|ISNUMBER|ISTEXT|ISERROR|ISNA)$/i;

/** Whether the call alone is an argument of a function that takes ranges, as in SUM(ALGAL.X(A1)). */
export function isRangeArgument(formula: string, { start, end }: FormulaCall): boolean {
  if (!/[(,]\s*$/.test(formula.slice(0, start)) || !/^\s*[,)]/.test(formula.slice(end))) return false;
  let depth = 0;
  const before = formulaTokens(formula.slice(0, start));
  for (let at = before.length - 1; at >= 0; at -= 1) {
    const sign = before[at]?.kind === "sign" ? before[at]?.text : "";
    if (sign === ")") depth += 1;
    if (sign !== "(") continue;
    if (depth === 0) return at > 0 && before[at - 1]?.kind === "word" && !OF_VALUES.test(before[at - 1]?.text ?? "");
    depth -= 1;
  }
  return false;
}
