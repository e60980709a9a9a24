import { type FormulaToken, formulaTokens, isCall, nextPlace } from "./formula-tokens";

/** What a native formula asks for that the engine answers otherwise than Excel, without saying so. */
export type Beyond =
  /** Two ranges with a space between: the cells that both have. */
  | "intersection"
  /** Several ranges in parentheses. */
  | "union"
  /** A range where a single value is meant: outside array formulas Excel takes the value of the formula's own row or column. */
  | "place"
  /** Only the rows that a filter shows. */
  | "hidden";

const OPERATORS = new Set(["+", "-", "*", "/", "^", "&", "=", "<", ">", "%"]);
/** Calculate with whole ranges wherever they stand. */
const OF_ARRAYS = /^(SUMPRODUCT|LOOKUP|MMULT|MINVERSE|MDETERM|FREQUENCY|INDEX)$/i;
/** Take a single value. */
const OF_VALUES = new Set(
  "ABS ACOS ASIN ATAN CEILING COS DATE DAY EXP FLOOR HOUR IF INT ISBLANK ISERR ISERROR ISNA ISNUMBER ISTEXT LEFT LEN LN LOG LOG10 LOWER MID MINUTE MOD MONTH NOT POWER PROPER RIGHT ROUND ROUNDDOWN ROUNDUP SIGN SIN SQRT SUBSTITUTE TAN TEXT TRIM TRUNC UPPER VALUE WEEKDAY YEAR".split(" "),
);
const OF_SHOWN_ROWS = /^(SUBTOTAL|AGGREGATE)$/i;

/**
 * Why a native formula (as the keeper sees it, without "=") has to keep its stored value.
 * @param isArray whether the file marks it as an array formula, which calculates with whole ranges
 * @param rowsHidden whether any row of the workbook is hidden
 */
export function beyondEngine(formula: string, { isArray, rowsHidden }: { isArray: boolean; rowsHidden: boolean }): Beyond | undefined {
  const tokens = formulaTokens(formula);
  if (rowsHidden && tokens.some((token, at) => isCall(tokens, at) && OF_SHOWN_ROWS.test(token.text))) return "hidden";
  /** The calls and groups around a token: a function's name, "(" for a group, "{" for an array. */
  const around: string[] = [];
  for (let at = 0; at < tokens.length; at += 1) {
    const { kind, text } = tokens[at] as FormulaToken;
    if (kind === "sign" && text === "(") {
      const before = placeBefore(tokens, at);
      around.push(before >= 0 && isCall(tokens, before) ? (tokens[before]?.text.toUpperCase() ?? "(") : "(");
    } else if (kind === "sign" && text === "{") around.push("{");
    else if (kind === "sign" && (text === ")" || text === "}")) around.pop();
    else if (kind === "sign" && text === "," && around.at(-1) === "(") return "union";
    else if (kind === "space" && endsOperand(tokens, at - 1) && startsOperand(tokens, at + 1)) return "intersection";
    else if (!isArray && !around.some((name) => OF_ARRAYS.test(name)) && isRangeFrom(tokens, at)) {
      const [before, after] = [tokens[placeBefore(tokens, startOf(tokens, at))], tokens[placeAfter(tokens, at)]];
      const calculates = [before, after].some((next) => next?.kind === "sign" && OPERATORS.has(next.text));
      if (calculates || (OF_VALUES.has(around.at(-1) ?? "") && !isAnswerOfIf(tokens, at, around.at(-1)))) return "place";
    }
  }
  return undefined;
}

function placeBefore(tokens: readonly FormulaToken[], at: number): number {
  let before = at - 1;
  while (tokens[before]?.kind === "space") before -= 1;
  return before;
}

const isWordOf = (token: FormulaToken | undefined): boolean => token?.kind === "word" || token?.kind === "number";

/** Whether "A1:" of "A1:B9" stands here, or a column of a table of all rows. */
function isRangeFrom(tokens: readonly FormulaToken[], at: number): boolean {
  const token = tokens[at];
  if (token?.kind === "bracket") return !/^\[(@|\[?#this row|\d+\])/i.test(token.text) && tokens[at - 1]?.kind === "word";
  if (!token || !isWordOf(token) || tokens[at + 1]?.text !== ":" || !isWordOf(tokens[at + 2]) || tokens[at + 3]?.text === "!") return false;
  return token.text.replace(/\$/g, "").toUpperCase() !== tokens[at + 2]?.text.replace(/\$/g, "").toUpperCase() || !/\d/.test(token.text) || !/[A-Z]/i.test(token.text);
}

/** Where a range begins: with the name of its sheet or table. */
function startOf(tokens: readonly FormulaToken[], at: number): number {
  if (tokens[at]?.kind === "bracket") return at - 1;
  return tokens[at - 1]?.text === "!" ? at - 2 : at;
}

function placeAfter(tokens: readonly FormulaToken[], at: number): number {
  return nextPlace(tokens, tokens[at]?.kind === "bracket" ? at : at + 2);
}

/** The second and third argument of IF may be ranges: IF(x,A1:A3,B1:B3) inside SUM gives one of them whole. */
function isAnswerOfIf(tokens: readonly FormulaToken[], at: number, name: string | undefined): boolean {
  if (name !== "IF") return false;
  return tokens[placeBefore(tokens, startOf(tokens, at))]?.text === ",";
}

const endsOperand = (tokens: readonly FormulaToken[], at: number): boolean => {
  const token = tokens[at];
  if (token?.kind === "word") return !isCall(tokens, at);
  return token?.kind === "bracket" || (token?.kind === "sign" && token.text === ")");
};

const startsOperand = (tokens: readonly FormulaToken[], at: number): boolean => {
  const token = tokens[at];
  return token?.kind === "word" || token?.kind === "sheet" || token?.kind === "bracket" || (token?.kind === "sign" && token.text === "(");
};
