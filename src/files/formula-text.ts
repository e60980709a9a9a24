import { formulaTokens, type FormulaToken, isCall, isSheetName, nextPlace } from "./formula-tokens";
import { STORED_PREFIX } from "./newer-functions";
import { withStoredReferences } from "./stored-references";

const NAMESPACE = "ALGAL";
/** What Excel puts before the name of a custom function in a file; the dot after the namespace becomes an underline. */
const STORED_CUSTOM = new RegExp(`^_xldudf_${NAMESPACE}_([A-Z0-9_]+)$`, "i");
const SHOWN_CUSTOM = new RegExp(`^(?:_xll\\.)?${NAMESPACE}\\.([A-Z0-9_]+)$`, "i");
const STORED_NEWER = /^(?:_xlfn\.)(?:_xlws\.)?(?=[\p{L}_])/iu;
const STORED_PARAMETER = /^_xlpm\./i;

/** A formula as the file holds it ("_xldudf_ALGAL_X(_xlfn.LET(...))") as the keeper sees it ("ALGAL.X(LET(...))"). No leading "=". */
export function fromStored(stored: string): string {
  if (!/_xl|ALGAL/i.test(stored)) return stored;
  const tokens = formulaTokens(stored);
  return tokens.map((token, at) => (token.kind === "word" && !isSheetName(tokens, at) ? shownWord(token.text) : token.text)).join("");
}

function shownWord(word: string): string {
  const custom = STORED_CUSTOM.exec(word) ?? SHOWN_CUSTOM.exec(word);
  if (custom?.[1]) return `${NAMESPACE}.${custom[1].toUpperCase()}`;
  return word.replace(STORED_NEWER, "").replace(STORED_PARAMETER, "");
}

/** The other way round. A formula that is in the stored form already comes back as it is. @param table the one in which the formula stands */
export function toStored(shown: string, table?: string): string {
  const tokens = formulaTokens(withStoredReferences(shown, table));
  const parameters = parameterPlaces(tokens);
  return tokens
    .map((token, at) => {
      if (token.kind !== "word" || isSheetName(tokens, at)) return token.text;
      if (parameters.has(at)) return `_xlpm.${token.text}`;
      const custom = SHOWN_CUSTOM.exec(token.text);
      if (custom?.[1]) return `_xldudf_${NAMESPACE}_${custom[1].toUpperCase()}`;
      const prefix = isCall(tokens, at) ? STORED_PREFIX.get(token.text.toUpperCase()) : undefined;
      return prefix === undefined ? token.text : prefix + token.text.toUpperCase();
    })
    .join("");
}

/** The names of the ALGAL functions that a shown formula calls, without the namespace, in capitals. */
export function customFunctionsIn(shown: string): string[] {
  return formulaTokens(shown).flatMap((token) => {
    const name = token.kind === "word" ? SHOWN_CUSTOM.exec(token.text)?.[1] : undefined;
    return name ? [name.toUpperCase()] : [];
  });
}

/** Where a name stands that LET or LAMBDA declares: in the declaration and wherever it is used inside that call. */
function parameterPlaces(tokens: readonly FormulaToken[]): Set<number> {
  const places = new Set<number>();
  tokens.forEach((token, at) => {
    if (!isCall(tokens, at)) return;
    const name = token.text.toUpperCase();
    if (name !== "LET" && name !== "LAMBDA") return;
    const { firstTokens, end } = callArguments(tokens, nextPlace(tokens, at));
    // The last argument is what is worked out; before it LET has pairs of name and value, and LAMBDA names alone.
    const declared = firstTokens.slice(0, -1).filter((_, i) => name === "LAMBDA" || i % 2 === 0);
    const names = new Set(declared.map((place) => tokens[place]?.text.toLowerCase()));
    for (let place = at + 1; place < end; place += 1) {
      const inside = tokens[place];
      if (inside?.kind === "word" && names.has(inside.text.toLowerCase()) && !isSheetName(tokens, place) && tokens[place - 1]?.text !== "!") places.add(place);
    }
  });
  return places;
}

/** The first token of each argument of the call whose "(" is here, and the place of its ")". */
function callArguments(tokens: readonly FormulaToken[], open: number): { firstTokens: number[]; end: number } {
  const firstTokens = [nextPlace(tokens, open)];
  let depth = 0;
  for (let at = open; at < tokens.length; at += 1) {
    const text = tokens[at]?.kind === "sign" ? tokens[at]?.text : "";
    if (text === "(" || text === "{") depth += 1;
    else if (text === ")" || text === "}") depth -= 1;
    else if (text === "," && depth === 1) firstTokens.push(nextPlace(tokens, at));
    if (depth === 0) return { firstTokens, end: at };
  }
  return { firstTokens, end: tokens.length };
}
