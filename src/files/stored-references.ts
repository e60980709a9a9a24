import { type FormulaToken, formulaTokens, isCall, nextPlace } from "./formula-tokens";

const NEEDED = /[#@[]/;
/** The cells of the formula's own row, in one column or several. */
const OWN_ROW = /^\[@(.*)\]$/s;
const ROW_PART = "[#This Row]";

/**
 * References that a file holds in another form than the keeper types: "E10#" is _xlfn.ANCHORARRAY(E10), "@A1:A9" is
 * _xlfn.SINGLE(A1:A9), "[@Feed]" in a table Log is Log[[#This Row],[Feed]], and "[Feed]" Log[Feed]. Source: [MS-XLSX] 2.2.2 for the
 * two functions, ECMA-376 18.17.6.2 for tables.
 * @param table the one in which the formula stands
 */
export function withStoredReferences(shown: string, table?: string): string {
  if (!NEEDED.test(shown)) return shown;
  const texts = formulaTokens(shown).map(({ text }) => text);
  const tokens = formulaTokens(shown);
  tokens.forEach((token, at) => {
    if (token.kind === "bracket") texts[at] = storedBracket(tokens, at, table);
  });
  // From the right, so that one inside another is done when its turn comes.
  for (let at = tokens.length - 1; at >= 0; at -= 1) {
    if (tokens[at]?.kind !== "sign") continue;
    if (tokens[at]?.text === "#" && at > 0) wrap(texts, startOfOperand(tokens, at - 1), at - 1, "_xlfn.ANCHORARRAY(", at);
    else if (tokens[at]?.text === "@") {
      const from = nextPlace(tokens, at);
      const to = endOfOperand(tokens, from);
      if (to >= from) wrap(texts, from, to, "_xlfn.SINGLE(", at);
    }
  }
  return texts.join("");
}

/** @param sign the place of what the function stands for */
function wrap(texts: string[], from: number, to: number, call: string, sign: number): void {
  texts[sign] = "";
  texts[from] = `${call}${texts[from] ?? ""}`;
  texts[to] = `${texts[to] ?? ""})`;
}

function storedBracket(tokens: readonly FormulaToken[], at: number, table: string | undefined): string {
  const { text = "" } = tokens[at] ?? {};
  const [before, after] = [tokens[at - 1], tokens[at + 1]];
  // The number of another workbook.
  if (/^\[\d+\]$/.test(text) && (after?.text === "!" || after?.kind === "sheet" || tokens[at + 2]?.text === "!")) return text;
  const inner = OWN_ROW.exec(text)?.[1]?.trim();
  const stored = inner === undefined ? text : inner === "" ? ROW_PART : `[${ROW_PART},${inner.startsWith("[") ? inner : `[${inner}]`}]`;
  return before?.kind === "word" || before?.kind === "bracket" || table === undefined ? stored : `${table}${stored}`;
}

/** Whether a part of a table is named without the table, which only a formula inside one may do. */
export function needsOwnTable(shown: string): boolean {
  const tokens = formulaTokens(shown);
  return tokens.some((token, at) => token.kind === "bracket" && tokens[at - 1]?.kind !== "word" && storedBracket(tokens, at, "T") !== storedBracket(tokens, at, undefined));
}

/** Where the reference begins that ends here: with the name of its sheet. */
function startOfOperand(tokens: readonly FormulaToken[], end: number): number {
  let at = end;
  if (tokens[at]?.kind === "bracket" && tokens[at - 1]?.kind === "word") at -= 1;
  if (tokens[at - 1]?.text === "!") at -= 2;
  return at;
}

/** Where the reference or call ends that begins here; before it where there is none. */
function endOfOperand(tokens: readonly FormulaToken[], from: number): number {
  let at = from;
  if ((tokens[at]?.kind === "sheet" || tokens[at]?.kind === "word") && tokens[at + 1]?.text === "!") at += 2;
  if (tokens[at]?.kind === "sign" && tokens[at]?.text !== "(") return from - 1;
  if (isCall(tokens, at) || tokens[at]?.text === "(") {
    let depth = 0;
    for (; at < tokens.length; at += 1) {
      if (tokens[at]?.text === "(") depth += 1;
      else if (tokens[at]?.text === ")" && --depth === 0) break;
    }
    return Math.min(at, tokens.length - 1);
  }
  if (tokens[at + 1]?.kind === "bracket") at += 1;
  return tokens[at + 1]?.text === ":" ? endOfOperand(tokens, at + 2) : at;
}
