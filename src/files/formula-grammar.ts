import { type FormulaToken, formulaTokens } from "./formula-tokens";

/** Excel's own limits: characters of a formula, and calls inside one another. */
const LONGEST = 8192;
const DEEPEST = 64;
const UNARY = new Set(["+", "-", "@"]);
const BINARY = new Set(["+", "-", "*", "/", "^", "&", "=", "<", ">", ":"]);

/**
 * Whether a formula (as the keeper sees it, without "=") is one that Excel can read. It calls a file damaged in which another stands.
 * @param takes whether a function takes that many arguments; true for one that is not known
 */
export function isReadableFormula(formula: string, takes: (name: string, count: number) => boolean = () => true): boolean {
  if (formula.length > LONGEST) return false;
  return new Reader(formulaTokens(formula), takes).isFormula();
}

/** Reads tokens from the left, each rule past what it has read; a rule that does not fit says false. */
class Reader {
  private at = 0;
  private depth = 0;

  constructor(private readonly tokens: readonly FormulaToken[], private readonly takes: (name: string, count: number) => boolean) {}

  isFormula(): boolean {
    const { text: first } = this.tokens[0] ?? { text: "" };
    return first !== "" && this.expression() && this.tokens[this.at] === undefined;
  }

  private expression(): boolean {
    if (this.depth > DEEPEST) return false;
    for (;;) {
      this.spaces();
      while (this.tokens[this.at]?.kind === "sign" && UNARY.has(this.sign())) {
        this.at += 1;
        this.spaces();
      }
      const isReference = this.operand();
      if (isReference === undefined) return false;
      const spaced = this.spaces();
      if (this.sign() === "" || !BINARY.has(this.sign())) {
        // A space between two references stands for the cells that both have.
        if (spaced && isReference && this.startsReference()) continue;
        return true;
      }
      const comparison = /[<>]/.test(this.sign()) && (this.sign(1) === "=" || (this.sign() === "<" && this.sign(1) === ">"));
      this.at += comparison ? 2 : 1;
    }
  }

  /** @returns whether it may be a reference; undefined for no operand */
  private operand(): boolean | undefined {
    const isReference = this.primary();
    if (isReference === undefined) return undefined;
    for (;;) {
      const before = this.at;
      if (this.spaces() && this.sign() !== "%") this.at = before;
      if (this.sign() === "%" || (this.sign() === "#" && isReference)) this.at += 1;
      // What a LAMBDA gives is called.
      else if (this.sign() === "(" && this.tokens[this.at - 1]?.text === ")") {
        if (this.callArguments() === undefined) return undefined;
      } else return isReference;
    }
  }

  private primary(): boolean | undefined {
    const token = this.tokens[this.at];
    if (!token) return undefined;
    if (token.kind === "text") return this.past(/^"(?:[^"]|"")*"$/.test(token.text), false);
    if (token.kind === "number") return this.past(true, true);
    if (token.kind === "error") {
      this.at += 1;
      const isLost = token.text.toUpperCase() === "#REF!";
      // "#REF!A1": a cell of a sheet that is no more.
      return isLost && this.tokens[this.at]?.kind === "word" ? this.primary() : isLost;
    }
    // Of another workbook a file holds the number, not the name.
    if (token.kind === "sheet") return /^'(?:[^']|'')+'$/.test(token.text) && !/\[(?!\d+\])/.test(token.text) && this.sign(1) === "!" ? this.onSheet() : undefined;
    if (token.kind === "bracket") return this.bracket(token.text);
    if (token.kind === "word") return this.word(token.text);
    if (token.text === "{") return this.constants();
    return token.text === "(" ? this.group() : undefined;
  }

  private past(isRight: boolean, isReference: boolean): boolean | undefined {
    if (!isRight) return undefined;
    this.at += 1;
    return isReference;
  }

  /** What follows a sheet's name and "!". */
  private onSheet(): boolean | undefined {
    this.at += 2;
    const kind = this.tokens[this.at]?.kind;
    return kind === "word" || kind === "number" || kind === "error" ? this.primary() : undefined;
  }

  /** A column of the table around it, or the number of another workbook. */
  private bracket(text: string): boolean | undefined {
    if (!text.endsWith("]") || text === "[]") return undefined;
    this.at += 1;
    if (!/^\[\d+\]$/.test(text)) return true;
    const next = this.tokens[this.at];
    if (this.sign() === "!") this.at += 1;
    else if (next?.kind !== "sheet" && !(next?.kind === "word" && this.sign(1) === "!")) return true;
    return this.primary();
  }

  private word(text: string): boolean | undefined {
    if (this.sign(1) === "!") return this.onSheet();
    this.at += 1;
    const next = this.tokens[this.at];
    if (next?.kind === "bracket") return this.past(next.text.endsWith("]"), true);
    const before = this.at;
    this.spaces();
    if (this.sign() !== "(") {
      this.at = before;
      return true;
    }
    const count = this.callArguments();
    return count !== undefined && this.takes(text, count) ? true : undefined;
  }

  /** From "(" past ")". @returns how many there are, blank ones too */
  private callArguments(): number | undefined {
    this.at += 1;
    this.depth += 1;
    this.spaces();
    let count = this.sign() === ")" ? 0 : 1;
    for (;;) {
      this.spaces();
      if (this.sign() !== "," && this.sign() !== ")" && !this.expression()) return undefined;
      this.spaces();
      const sign = this.sign();
      this.at += 1;
      if (sign === ")") break;
      if (sign !== ",") return undefined;
      count += 1;
    }
    this.depth -= 1;
    return count;
  }

  /** Parentheses around one operand, or several ranges. */
  private group(): boolean | undefined {
    this.depth += 1;
    do {
      this.at += 1;
      if (!this.expression()) return undefined;
      this.spaces();
    } while (this.sign() === ",");
    this.depth -= 1;
    return this.past(this.sign() === ")", true);
  }

  private constants(): boolean | undefined {
    const items = new Set<FormulaToken["kind"]>(["error", "number", "text"]);
    do {
      this.at += 1;
      this.spaces();
      if (this.sign() === "-" || this.sign() === "+") this.at += 1;
      const token = this.tokens[this.at];
      if (!token || !(items.has(token.kind) || /^(?:true|false)$/i.test(token.text))) return undefined;
      this.at += 1;
      this.spaces();
    } while (this.sign() === "," || this.sign() === ";");
    return this.past(this.sign() === "}", false);
  }

  private spaces(): boolean {
    const from = this.at;
    while (this.tokens[this.at]?.kind === "space") this.at += 1;
    return this.at > from;
  }

  /** The sign that stands so many tokens ahead; "" where none does. */
  private sign(ahead = 0): string {
    const token = this.tokens[this.at + ahead];
    return token?.kind === "sign" ? token.text : "";
  }

  private startsReference(): boolean {
    const token = this.tokens[this.at];
    // A number alone is none, but rows are: "2:3".
    if (token?.kind === "number") return this.sign(1) === ":";
    return token?.kind === "word" || token?.kind === "sheet" || token?.kind === "error" || token?.kind === "bracket" || this.sign() === "(";
  }
}
