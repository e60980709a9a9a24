import { formulaTokens, isCall } from "../files/formula-tokens";
import { type FormulaCall, replaceCalls } from "./formula-calls";

/** A part of a formula's text. */
export interface Part {
  readonly start: number;
  readonly end: number;
}

/** Functions that have an answer though what they are given is an error, or leave it out; and those in which a name may stand for it. */
const PASSES = /^(?:_xlfn\.)?(IFERROR|IFNA|ISERROR|ISERR|ISNA|ISNUMBER|ISTEXT|ISNONTEXT|ISLOGICAL|ISBLANK|ERROR\.TYPE|TYPE|COUNT|COUNTA|AGGREGATE|LOOKUP|VLOOKUP|HLOOKUP|XLOOKUP|MATCH|XMATCH|LET|LAMBDA|MAP|REDUCE|SCAN|BYROW|BYCOL)$/i;
/** These look at their first argument for errors. */
const OF_THE_FIRST = /^(?:_xlfn\.)?(IFERROR|IFNA)$/i;

interface Open extends Pick<Part, "start"> {
  readonly name: string;
  commas: number;
}

/** The outermost function of a formula that answers though a call inside it is in error; null where there is none. */
export function passesErrorsOf(formula: string, call: FormulaCall): Part | null {
  const open: Open[] = [];
  let before: Omit<Open, "commas"> = { name: "", start: 0 };
  let found: Open | undefined;
  let at = 0;
  for (const { kind, text } of formulaTokens(formula)) {
    if (at === call.start) {
      found = open.find(({ name, commas }) => PASSES.test(name) && (commas === 0 || !OF_THE_FIRST.test(name)));
      if (!found) return null;
    }
    const start = at;
    at += text.length;
    if (kind === "sign" && /^[({]$/.test(text)) open.push({ ...before, commas: 0 });
    else if (kind === "sign" && /^[)}]$/.test(text)) {
      const closed = open.pop();
      if (found && closed === found) return { start: found.start, end: at };
    } else if (kind === "sign" && text === "," && open.length > 0) (open[open.length - 1] as Open).commas += 1;
    if (kind !== "space") before = { name: kind === "word" ? text : "", start };
  }
  return null;
}

const OF_TEXTS = /^(?:_xlfn\.)?(?:_xlws\.)?(LEFT|RIGHT|MID|SEARCH|FIND|EXACT|SUBSTITUTE|REPLACE|LEN|SWITCH|TEXTBEFORE|TEXTAFTER|TEXTSPLIT|FILTER)$/i;

/** Whether a formula compares texts or takes them apart outside its calls, and not only shows them. */
export function takesTextApart(formula: string, calls: readonly FormulaCall[]): boolean {
  const tokens = formulaTokens(replaceCalls(formula, calls, calls.map(() => "0"))).filter(({ kind }) => kind !== "space");
  const compares = (at: number): boolean => tokens[at]?.kind === "sign" && /^[=<>]+$/.test(tokens[at]?.text ?? "");
  return tokens.some(({ kind, text }, at) => (isCall(tokens, at) && OF_TEXTS.test(text)) || (kind === "text" && text !== '""' && (compares(at - 1) || compares(at + 1))));
}
