/** One piece of a formula's text. All pieces together are the text again. */
export interface FormulaToken {
  kind:
    /** A text literal with its quotes. */
    | "text"
    /** A quoted sheet name with its quotes, and a workbook's name in brackets if it has one. */
    | "sheet"
    /** A word: a function's name, a defined name, a cell, an unquoted sheet name, TRUE. */
    | "word"
    | "number"
    /** "#N/A" */
    | "error"
    /** A bracket with all that is in it: a part of a table, or another workbook. */
    | "bracket"
    | "space"
    /** One operator, comma or parenthesis. */
    | "sign";
  text: string;
}

const WORD = /[\p{L}_\\$][\p{L}\p{M}\p{N}_.\\?$]*/uy;
const NUMBER = /(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?/y;
const ERROR = /#(?:NULL!|DIV\/0!|VALUE!|REF!|NAME\?|NUM!|N\/A|GETTING_DATA|SPILL!|CALC!|FIELD!|BLOCKED!|CONNECT!|UNKNOWN!|BUSY!|PYTHON!|EXTERNAL!)/iy;
const SPACE = /\s+/y;
const TEXT = /"(?:[^"]|"")*(?:"|$)/y;
const SHEET = /'(?:[^']|'')*(?:'|$)/y;

const PATTERNS: readonly (readonly [FormulaToken["kind"], RegExp])[] = [
  ["text", TEXT],
  ["sheet", SHEET],
  ["space", SPACE],
  ["error", ERROR],
  ["number", NUMBER],
  ["word", WORD],
];

/** The formula that was cut last: what is asked of one formula is asked in a row. */
let last: { readonly formula: string; readonly tokens: readonly FormulaToken[] } = { formula: "", tokens: [] };

/** Cuts a formula without its leading "=" into tokens. Any text is accepted: a quote that is never closed reaches to the end. */
export function formulaTokens(formula: string): readonly FormulaToken[] {
  if (last.formula === formula) return last.tokens;
  const tokens: FormulaToken[] = [];
  for (let at = 0; at < formula.length; ) {
    const token = tokenAt(formula, at);
    tokens.push(token);
    at += token.text.length;
  }
  last = { formula, tokens };
  return tokens;
}

function tokenAt(formula: string, at: number): FormulaToken {
  for (const [kind, pattern] of PATTERNS) {
    pattern.lastIndex = at;
    const match = pattern.exec(formula);
    if (match) return { kind, text: match[0] };
  }
  if (formula[at] === "[") return { kind: "bracket", text: formula.slice(at, bracketEnd(formula, at)) };
  return { kind: "sign", text: formula[at] ?? "" };
}

/** Brackets nest in a reference to a table, where an apostrophe takes the next character literally. */
function bracketEnd(formula: string, start: number): number {
  let depth = 0;
  for (let at = start; at < formula.length; at += 1) {
    if (formula[at] === "'") at += 1;
    else if (formula[at] === "[") depth += 1;
    else if (formula[at] === "]" && --depth === 0) return at + 1;
  }
  return formula.length;
}

const OPENS: Readonly<Record<string, string>> = { "(": ")", "{": "}" };

/** Whether every parenthesis, brace, bracket and quotation mark of a formula has its other half. */
export function isClosed(formula: string): boolean {
  const awaited: string[] = [];
  for (const { kind, text } of formulaTokens(formula)) {
    if ((kind === "text" && !/^"(?:[^"]|"")*"$/.test(text)) || (kind === "sheet" && !/^'(?:[^']|'')*'$/.test(text))) return false;
    if (kind === "bracket" && !text.endsWith("]")) return false;
    if (kind !== "sign") continue;
    const close = OPENS[text];
    if (close) awaited.push(close);
    else if ((text === ")" || text === "}") && awaited.pop() !== text) return false;
  }
  return awaited.length === 0;
}

/** Whether the word at this place is a function that is called. */
export function isCall(tokens: readonly FormulaToken[], at: number): boolean {
  return tokens[at]?.kind === "word" && tokens[nextPlace(tokens, at)]?.text === "(";
}

/** Whether the word at this place is the unquoted name of a sheet, or the first of two in a reference through several sheets. */
export function isSheetName(tokens: readonly FormulaToken[], at: number): boolean {
  if (tokens[at]?.kind !== "word") return false;
  if (tokens[at + 1]?.text === "!") return true;
  return tokens[at + 1]?.text === ":" && tokens[at + 2]?.kind === "word" && tokens[at + 3]?.text === "!" && !CELL_WORD.test(tokens[at]?.text ?? "");
}

const CELL_WORD = /^\$?[A-Z]{1,3}\$?\d+$/i;

/** The place of the next token that is not a space. */
export function nextPlace(tokens: readonly FormulaToken[], at: number): number {
  let next = at + 1;
  while (tokens[next]?.kind === "space") next += 1;
  return next;
}
