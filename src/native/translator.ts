import { cellAddress, readCell } from "../files/address";
import type { BookCell } from "../files/book";
import { joinAddress } from "../functions/cell-address";
import { Problem } from "../science/problem";
import { native as words, type WhyFrozen } from "../words/native";
import { CellWriter, Unstated } from "./cell-writer";
import { NotWritable } from "./not-writable";
import { type FormulaCall, isRangeArgument, outermostCalls, replaceCalls } from "./formula-calls";
import { anyOf, type Given, type GivenRange, type GivenValue, literalIn } from "./given";
import { passesErrorsOf, takesTextApart } from "./passed-errors";
import { canMove, localised, qualified, referenceIn } from "./references";
import type { BlockAnswer, Rule } from "./rule";
import type { ScratchValues } from "./scratch";
import type { Workspace } from "./workspace";

/** Formulas for a cell and the cells that it spilled over, row by row; or the reason why it stays a value. */
export type Translation =
  | { readonly kind: "cells"; readonly formulas: readonly (readonly (string | null)[])[]; /** The cells are one answer: none is a value while others are formulas. */ readonly together: boolean; /** An error of ours is no error of the whole formula. */ readonly passesErrors?: boolean }
  /** The formula still answers for a range by itself. */
  | { readonly kind: "formula"; readonly formula: string; readonly passesErrors: boolean }
  | { readonly kind: "frozen"; readonly why: WhyFrozen; readonly name: string };

/** The answer of one call as plain formulas: a formula a cell, or a place where it stands already. */
type CallAnswer =
  /** null: a cell of a range that cannot be written, where the others can. */
  | { readonly kind: "lifted"; readonly formulas: readonly (readonly (string | null)[])[] }
  | { readonly kind: "block"; readonly block: BlockAnswer };

/** Steps longer than this stand on the sheet of workings where another formula reads them. */
const INLINE = 60;
const ERROR = /^#[A-Z]/;

class Frozen extends Error {
  constructor(readonly why: WhyFrozen, readonly call: string) {
    super(why);
  }
}

/** Turns formulas with our functions into plain ones. */
export class Translator {
  private readonly blocks = new Map<string, CallAnswer>();
  private readonly notWritable = new Set<string>();

  constructor(private readonly workspace: Workspace, private readonly rules: ReadonlyMap<string, Rule>, private readonly scratch: ScratchValues) {}

  translate(sheet: string, address: string, cell: BookCell): Translation {
    const formula = cell.formula ?? "";
    const calls = outermostCalls(formula);
    const place = readCell(address) ?? { row: 0, column: 0 };
    try {
      if (typeof cell.value === "string" && ERROR.test(cell.value) && cell.spill === undefined) throw new Frozen("error", calls[0]?.name ?? "");
      const forCell = joinAddress(sheet, address);
      const answers = calls.map((call) => this.answerOf(call, sheet, place.row, forCell));
      const [only] = answers;
      if (only && answers.length === 1 && calls[0]?.start === 0 && calls[0].end === formula.length) {
        const formulas = only.kind === "lifted" ? only.formulas : blockFormulas(only.block);
        return { kind: "cells", together: only.kind === "block", formulas: formulas.map((row, r) => row.map((text, c) => (text === null || this.workspace.showsError(sheet, cellAddress(place.row + r, place.column + c)) ? null : localised(text, sheet)))) };
      }
      const text = localised(this.inlined(formula, calls, answers, sheet, forCell), sheet);
      const passesErrors = calls.some((call) => passesErrorsOf(formula, call) !== null);
      return cell.spill === undefined ? { kind: "cells", together: false, formulas: [[text]], passesErrors } : { kind: "formula", formula: text, passesErrors };
    } catch (error) {
      if (error instanceof Frozen) return { kind: "frozen", why: error.why, name: error.call };
      if (error instanceof NotWritable) return { kind: "frozen", why: error.why, name: calls[0]?.name ?? "" };
      throw error;
    }
  }

  /**
   * A formula with the answers in place of its calls. A plain formula says by an error that it does not follow an entry, and no IFERROR
   * or COUNT of the keeper's may turn that into a figure: what would pass over the error is an error then, too. A verdict says it in words,
   * which no comparison of the keeper's may take for another verdict.
   */
  private inlined(formula: string, calls: readonly FormulaCall[], answers: readonly CallAnswer[], sheet: string, forCell: string): string {
    const guarded = new Map<number, { readonly end: number; readonly conditions: string[] }>();
    const texts = answers.map((answer, at) => {
      const call = calls[at] as FormulaCall;
      const part = passesErrorsOf(formula, call);
      const text = this.inlineText(answer, call, formula, sheet, forCell, part !== null);
      if (!part) return text;
      const known = guarded.get(part.start) ?? { end: part.end, conditions: [] };
      guarded.set(part.start, known);
      known.conditions.push(text.includes(":") ? `SUMPRODUCT(--ISERROR(${text}))>0` : `ISERROR(${text})`);
      return text;
    });
    let [result, from] = ["", 0];
    for (const [start, { end, conditions }] of guarded) {
      result += `${replaceCalls(formula, calls, texts, from, start)}IF(${anyOf(conditions)},NA(),${replaceCalls(formula, calls, texts, start, end)})`;
      from = end;
    }
    result += replaceCalls(formula, calls, texts, from);
    const gone = takesTextApart(formula, calls) ? answers.flatMap((answer) => (answer.kind === "block" ? (answer.block.textsGone ?? []) : [])) : [];
    return gone.length > 0 ? `IF(${anyOf([...new Set(gone)])},NA(),${result})` : result;
  }

  /** The text that stands for a call inside a longer formula. `asCell`: as a cell, where a formula would do. */
  private inlineText(answer: CallAnswer, call: FormulaCall, formula: string, sheet: string, forCell: string, asCell: boolean): string {
    if (answer.kind === "block") return answer.block.text;
    const first = answer.formulas[0]?.[0] ?? '""';
    if (answer.formulas.length === 1 && answer.formulas[0]?.length === 1) {
      // A function of ranges takes an array as it takes cells, and a single value otherwise: SUM leaves a text out of the one and not out of the other.
      if (asCell || isRangeArgument(formula, call)) return this.workspace.step(forCell, call.name, callText(call), first);
      return /^[\w!$'.]+$/.test(first) ? first : `(${first})`;
    }
    const key = `range ${qualified(callText(call), sheet)}`;
    const known = this.blocks.get(key);
    if (known?.kind === "block") return known.block.text;
    const block = this.workspace.block(callText(call), words.workings.result, answer.formulas.map((row) => row.map(blockCell)));
    this.blocks.set(key, { kind: "block", block });
    return block.text;
  }

  private answerOf(call: FormulaCall, sheet: string, row: number, forCell: string): CallAnswer {
    const rule = this.rules.get(call.name);
    if (!rule) throw new Frozen("unknown", call.name);
    if (rule.kind === "frozen") throw new Frozen(rule.why, call.name);
    const key = qualified(callText(call), sheet);
    const known = this.blocks.get(key);
    if (known) return known;
    const args = call.args.map((text) => this.argument(text, sheet, row, forCell, call.name));
    const answer = rule.kind === "cells" ? this.lifted(rule, call, args, forCell) : this.block(rule, call, args, key);
    // One cell's formula belongs to that cell; a range is worked out once for all who read it.
    if (answer.kind === "block") this.blocks.set(key, answer);
    return answer;
  }

  private block(rule: Extract<Rule, { kind: "block" }>, call: FormulaCall, args: readonly (GivenRange | null)[], key: string): CallAnswer {
    if (this.notWritable.has(key)) throw new Frozen("argument", call.name);
    const { accounts } = this.workspace;
    const before = accounts.length;
    try {
      const block = attempt(call.name, () => rule.write(args, this.workspace, this.scratch.get(key) ?? null));
      if (!block) throw new Frozen("argument", call.name);
      return { kind: "block", block };
    } catch (error) {
      // Many cells may read one range: what could not be written once is not tried again, and leaves no sheet behind.
      this.notWritable.add(key);
      accounts.length = before;
      throw error;
    }
  }

  private lifted(rule: Extract<Rule, { kind: "cells" }>, call: FormulaCall, args: readonly (GivenRange | null)[], forCell: string): CallAnswer {
    const whole = new Set(rule.whole ?? []);
    const ranges = args.map((arg, place) => (whole.has(place) ? arg : null));
    const lifted = args.map((arg, place) => (whole.has(place) ? null : arg));
    const sizes = lifted.flatMap((arg) => (arg && (arg.rows.length > 1 || (arg.rows[0]?.length ?? 1) > 1) ? [[arg.rows.length, arg.rows[0]?.length ?? 1] as const] : []));
    const [rows, columns] = sizes[0] ?? [1, 1];
    if (sizes.some(([r, c]) => r !== rows || c !== columns)) throw new Frozen("error", call.name);
    const single = rows === 1 && columns === 1;
    const formulas = Array.from({ length: rows }, (_, r) =>
      Array.from({ length: columns }, (_unused, c) => {
        const givens = lifted.map((arg) => (arg ? (arg.rows.length === 1 && arg.rows[0]?.length === 1 ? arg.rows[0][0] : arg.rows[r]?.[c]) ?? null : null));
        const writer = new CellWriter(givens, ranges, this.workspace, (label, formula) => this.workspace.step(forCell, call.name, label, formula));
        return attempt<(string | null)[]>(call.name, () => this.written(rule, writer), single ? undefined : [null]);
      }).flat(),
    );
    return { kind: "lifted", formulas };
  }

  /** The formulas of one cell's answer. */
  private written(rule: Extract<Rule, { kind: "cells" }>, writer: CellWriter): string[] {
    try {
      const calculations = rule.write(writer);
      return (typeof calculations === "string" ? [calculations] : [...calculations]).map((text) => writer.finish(text));
    } catch (error) {
      if (error instanceof Unstated) return [writer.finish("NA()")];
      throw error;
    }
  }

  private argument(text: string, sheet: string, row: number, forCell: string, name: string): GivenRange | null {
    if (text === "") return null;
    const literal = literalIn(text);
    if (literal) return { rows: [[literal]], text: literal.text };
    const reference = referenceIn(text, sheet, row, this.workspace.book);
    if (reference) return this.workspace.given(reference);
    const key = qualified(text, sheet);
    const values = this.scratch.get(key);
    if (!values) throw new Frozen("argument", name);
    const calls = outermostCalls(text);
    const isOneCall = calls.length === 1 && calls[0]?.start === 0 && calls[0].end === text.length;
    const answers = calls.map((call) => this.nested(call, sheet, row, forCell));
    const title = words.workings.argument(text);
    if (isOneCall && answers[0]) return this.givenOf(answers[0], values, forCell, name, title);
    if (!canMove(replaceCalls(text, calls, calls.map(() => "0")))) throw new Frozen("argument", name);
    const moved = qualified(this.inlined(text, calls, answers, sheet, forCell), sheet);
    if (values.length === 1 && values[0]?.length === 1) return oneCell(this.workspace.step(forCell, name, title, moved, true), values[0][0] ?? null);
    return blockGiven(this.workspace.arrayBlock(title, forCell, moved, values.length, values[0]?.length ?? 1), values);
  }

  /** A call inside an argument: one that cannot be written becomes a block of values. */
  private nested(call: FormulaCall, sheet: string, row: number, forCell: string): CallAnswer {
    const key = qualified(callText(call), sheet);
    try {
      return this.answerOf(call, sheet, row, forCell);
    } catch (error) {
      const values = this.scratch.get(key);
      if (!(error instanceof Frozen) || !values) throw error;
      const block = this.workspace.block(callText(call), words.workings.asAtHandOver, values.map((line) => line.map((value) => (typeof value === "boolean" ? String(value).toUpperCase() : (value ?? "")))));
      this.workspace.frozen.push({ sheet: this.workspace.blocks.name, cells: block.text.split("!").pop()?.replace(/\$/g, "") ?? "", text: callText(call), why: error.why });
      const answer: CallAnswer = { kind: "block", block };
      this.blocks.set(key, answer);
      return answer;
    }
  }

  private givenOf(answer: CallAnswer, values: readonly (readonly GivenValue[])[], forCell: string, name: string, title: string): GivenRange {
    if (answer.kind === "block") return blockGiven(answer.block, values);
    const first = answer.formulas[0]?.[0] ?? '""';
    if (answer.formulas.length > 1 || (answer.formulas[0]?.length ?? 1) > 1) {
      return blockGiven(this.workspace.block(title, forCell, answer.formulas.map((row) => row.map(blockCell))), values);
    }
    const text = first.length > INLINE || first.startsWith("IF(") ? this.workspace.step(forCell, name, title, first) : `(${first})`;
    return oneCell(text, values[0]?.[0] ?? null);
  }
}

const callText = ({ name, args }: FormulaCall): string => `ALGAL.${name}(${args.join(",")})`;

/** A cell that was in error is in error in a block, too. */
const blockCell = (formula: string | null): { formula: string } => ({ formula: formula ?? "NA()" });

const blockFormulas = (block: BlockAnswer): string[][] => Array.from({ length: block.rows }, (_, r) => Array.from({ length: block.columns }, (_unused, c) => block.cell(r, c)));

const oneCell = (text: string, value: GivenValue): GivenRange => ({ rows: [[{ text, value, literal: false }]], text });

const blockGiven = (block: BlockAnswer, values: readonly (readonly GivenValue[])[]): GivenRange => ({
  text: block.text,
  rows: values.map((line, r) => line.map((value, c): Given => ({ text: block.cell(r, c), value, literal: false }))),
});

/** What the rule cannot write stays a value, or gives `instead` where only one cell of many cannot be written. */
function attempt<T>(name: string, write: () => T, instead?: T): T {
  try {
    return write();
  } catch (error) {
    if (!(error instanceof NotWritable || error instanceof Problem)) throw error;
    const why = error instanceof NotWritable ? error.why : "argument";
    if (instead === undefined || why !== "argument") throw new Frozen(why, name);
    return instead;
  }
}
