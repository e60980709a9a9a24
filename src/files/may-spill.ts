import { type FormulaToken, formulaTokens, isCall, isSheetName, nextPlace } from "./formula-tokens";

/** Excel's own functions whose answers grow with what they are given. */
const GROWING: ReadonlySet<string> = new Set(
  "BYCOL BYROW CHOOSECOLS CHOOSEROWS DROP EXPAND FILTER GROUPBY HSTACK MAKEARRAY MAP MUNIT PIVOTBY RANDARRAY SCAN SEQUENCE SORT SORTBY TAKE TEXTSPLIT TOCOL TOROW TRIMRANGE UNIQUE VSTACK WRAPCOLS WRAPROWS".split(" "),
);
const OWN = /^ALGAL\./i;
const CELL = /^\$?[A-Z]{1,3}\$?\d+$/i;
const CONSTANT = /^(TRUE|FALSE)$/i;

/**
 * Whether a formula (as the keeper sees it, without "=") that gives a single value now may give several later: the balance of a log
 * that is empty yet. A file has to mark it as one that spills, or Excel would show its first value only for ever.
 */
export function maySpill(formula: string): boolean {
  const tokens = formulaTokens(formula);
  const calls = tokens.filter((_token, at) => isCall(tokens, at)).map(({ text }) => text.toUpperCase());
  if (calls.some((name) => GROWING.has(name))) return true;
  return calls.some((name) => OWN.test(name)) && tokens.some((token, at) => standsForSeveral(tokens, token, at));
}

/** A range, a part of a table, an array, or a name that may stand for one. */
function standsForSeveral(tokens: readonly FormulaToken[], { kind, text }: FormulaToken, at: number): boolean {
  if (kind === "bracket" || (kind === "sign" && (text === ":" || text === "{"))) return true;
  return kind === "word" && !isCall(tokens, at) && !isSheetName(tokens, at) && tokens[nextPlace(tokens, at)]?.text !== "!" && !CELL.test(text) && !CONSTANT.test(text);
}
