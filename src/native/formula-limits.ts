import { formulaTokens, isCall } from "../files/formula-tokens";

/** What spreadsheet programs take, as ISO/IEC 29500 and Excel's specifications have it; a little less where a file writes a formula longer than it is shown. */
const MOST_CHARACTERS = 8000;
const MOST_LEVELS = 64;
const MOST_ARGUMENTS = 255;
export const MOST_IN_TEXT = 255;

/** Whether a formula (without "=") is longer or deeper than a spreadsheet program takes. */
export function isBeyondLimits(formula: string): boolean {
  if (formula.length > MOST_CHARACTERS) return true;
  // Nothing short can be deep, wide or hold a long text.
  if (formula.length <= MOST_IN_TEXT) return false;
  const tokens = formulaTokens(formula);
  const levels: { readonly isCall: boolean; commas: number }[] = [];
  let calls = 0;
  let before = false;
  for (const [at, { kind, text }] of tokens.entries()) {
    if (kind === "text" && text.slice(1, -1).replace(/""/g, '"').length > MOST_IN_TEXT) return true;
    if (kind === "sign" && (text === "(" || text === "{")) {
      levels.push({ isCall: before, commas: 0 });
      if (before && (calls += 1) > MOST_LEVELS) return true;
    } else if (kind === "sign" && (text === ")" || text === "}")) {
      if (levels.pop()?.isCall) calls -= 1;
    } else if (kind === "sign" && text === ",") {
      const level = levels[levels.length - 1];
      if (level && (level.commas += 1) >= MOST_ARGUMENTS) return true;
    }
    if (kind !== "space") before = isCall(tokens, at);
  }
  return false;
}
