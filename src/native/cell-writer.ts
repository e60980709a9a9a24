import { numberFromText } from "../science/number-text";
import type { Constant } from "../science/constants/constant";
import { anyOf, type Given, type GivenRange, figureText, isBlankValue, isNothing, isOther, isSame } from "./given";
import { NotWritable } from "./not-writable";
import type { Coefficient } from "./sources";
import type { Workspace } from "./workspace";

/** A word that the calculation needs is blank now: until the cell says one, its formula can only answer with a blank. */
export class Unstated extends Error {}

/** More than any quantity in any unit, as the functions have it. To a spreadsheet program any text is more than that, too, so that this limit refuses it. */
const MOST = 1e12;
/** Longer parts stand on the sheet of workings where a formula needs them more than once. */
const SHORT = 30;

/** After all arguments: what several of them together are refused for. */
const AT_THE_END = 1000;

/** A number of `least` or more (more than `least` with `open`), up to `most`, a number or the text of a formula that gives it. */
export interface NumberLimits {
  readonly least?: number;
  readonly open?: boolean;
  readonly most?: number | string;
  readonly whole?: boolean;
}

/**
 * Writes one cell's calculation as a plain formula. It asks for its arguments by their place in the call; what it asks decides when
 * the formula answers with a blank (a needed cell is blank) or with #N/A (a cell holds what the calculation does not take, or a word
 * that was another one at the hand-over), so that a later entry never gives a wrong number.
 */
export class CellWriter {
  /** By the place of their argument: our functions read one after the other, and the first that is blank or refused decides. */
  private readonly blanks = new Map<number, Set<string>>();
  private readonly refusals = new Map<number, Set<string>>();
  private isBlank = false;
  private first: readonly number[] = [];

  /** `givens`: one cell an argument, null for one left out; `ranges`: the arguments that are taken whole. */
  constructor(
    private readonly givens: readonly (Given | null)[],
    private readonly ranges: readonly (GivenRange | null)[],
    readonly workspace: Workspace,
    private readonly step: (label: string, formula: string) => string,
  ) {}

  given(place: number): Given | null {
    const given = this.givens[place] ?? null;
    return given && given.literal && isBlankValue(given.value) ? null : given;
  }

  /** Whether the argument says nothing now. */
  isLeftOut(place: number): boolean {
    return isBlankValue(this.given(place)?.value);
  }

  /** Whether the call has the argument at all: a cell, though it may be blank, or a value. */
  has(place: number): boolean {
    return this.given(place) !== null;
  }

  /** The arguments that the function reads before all others, in that order: of a blank and a figure that is refused the first decides. */
  readFirst(places: readonly number[]): void {
    this.first = places;
  }

  /** All cells of an argument that is taken whole; null when it is left out. */
  range(place: number): GivenRange | null {
    return this.ranges[place] ?? null;
  }

  /** A number. `blank`: the formula text that stands for a blank; without it a blank cell makes the answer blank. */
  number(place: number, { least = 0, open = false, most = MOST, whole = false }: NumberLimits = {}, blank?: string): string {
    const given = this.given(place);
    if (!given) return this.leftOut(blank);
    const { text, value, literal } = given;
    if (literal) return typeof value === "number" ? text : figureText(this.read(value));
    const optional = blank !== undefined;
    if (!optional) this.blankAt(place, text);
    if (typeof value === "string" && !isBlankValue(value)) return `IF(${isSame(given)},${figureText(this.read(value))},NA())`;
    const outside = [...(Number.isFinite(least) ? [`${text}${open ? "<=" : "<"}${written(least)}`] : []), `${text}>${written(most)}`, ...(whole ? [`${text}<>INT(${text})`] : [])];
    if (!optional) outside.forEach((one) => this.refuseAt(place, one));
    // An optional cell that is blank is no zero and no text.
    else this.refuseAt(place, `AND(${text}<>"",${anyOf(outside)})`);
    return optional ? `IF(${isNothing(text)},${blank},${text})` : text;
  }

  /** What an optional number is worked into; `blank` stands there while its cell is blank, or where it is left out. */
  whenGiven(place: number, limits: NumberLimits, write: (number: string) => string, blank: string): string {
    const given = this.given(place);
    if (!given) return blank;
    const number = this.number(place, limits, blank);
    const isWord = typeof given.value === "string" && !isBlankValue(given.value);
    return given.literal || isWord ? write(number) : `IF(${isNothing(given.text)},${blank},${write(given.text)})`;
  }

  /** A share from 0 to `most`. */
  share(place: number, most: number, blank?: string): string {
    return this.number(place, { most }, blank);
  }

  /** The word that an argument holds; the formula refuses when it becomes another one. */
  word(place: number, blank?: string): string {
    const given = this.given(place);
    if (!given) {
      if (blank === undefined) this.isBlank = true;
      return blank ?? "";
    }
    const { text, value, literal } = given;
    if (isBlankValue(value)) {
      if (blank === undefined) this.blankAt(place, text);
      else this.refuseAt(place, `${text}<>""`);
      if (blank === undefined) throw new Unstated();
      return blank;
    }
    if (!literal) {
      if (blank === undefined) this.blankAt(place, text);
      this.refuseAt(place, isOther(given));
    }
    return String(value).trim();
  }

  /** The text of a needed argument as it stands; a blank one makes the answer blank. */
  needed(place: number): string {
    const given = this.given(place);
    if (!given) return this.leftOut(undefined);
    if (!given.literal) this.blankAt(place, given.text);
    return given.text;
  }

  /** The formula holds only while a cell is what it was at the hand-over. */
  refuseUnless(given: Given): void {
    if (!given.literal) this.refuseIf(isOther(given));
  }

  /** A condition under which the formula answers #N/A. */
  refuseIf(condition: string): void {
    this.refuseAt(AT_THE_END, condition);
  }

  constant(constant: Constant, which: "value" | "low" | "high" = "value"): string {
    return this.workspace.sources.constant(constant, which);
  }

  coefficient(coefficient: Coefficient): string {
    return this.workspace.sources.coefficient(coefficient);
  }

  /** A step that stands on the sheet of workings; gives its cell. */
  stepOf(label: string, formula: string): string {
    return this.step(label, formula);
  }

  /** The same text when it is short enough to stand in a formula several times, else a step. */
  brief(label: string, text: string): string {
    return text.length > SHORT ? this.stepOf(label, text) : text;
  }

  /** c[0] + c[1] x + c[2] x^2 ..., each coefficient read from the sheet of sources; by Horner, as the functions do it. */
  polynomial(coefficients: readonly Coefficient[], x: string): string {
    return coefficients.map((one) => this.coefficient(one)).reduceRight((sum, one) => (sum === "" ? one : sum.includes("*") ? `(${sum})*${x}+${one}` : `${sum}*${x}+${one}`), "");
  }

  /** The whole formula around the calculation. */
  finish(calculation: string): string {
    if (this.isBlank) return '""';
    const places = [...new Set([...this.blanks.keys(), ...this.refusals.keys()])].sort((a, b) => this.rank(b) - this.rank(a));
    let [written, blanks, refusals]: [string, string[], string[]] = [calculation, [], []];
    const close = (): void => {
      if (refusals.length > 0) written = `IF(${anyOf(refusals)},NA(),${written})`;
      if (blanks.length > 0) written = `IF(${anyOf(blanks.map(isNothing))},"",${written})`;
      [blanks, refusals] = [[], []];
    };
    // From the last argument to the first: blanks come before the refusals of their own argument, and after those of the ones before it.
    for (const place of places) {
      if (blanks.length > 0 && this.refusals.has(place)) close();
      refusals = [...new Set([...(this.refusals.get(place) ?? []), ...refusals])];
      blanks = [...new Set([...(this.blanks.get(place) ?? []), ...blanks])];
    }
    close();
    return written;
  }

  private rank(place: number): number {
    const at = this.first.indexOf(place);
    return at < 0 ? place : at - this.first.length;
  }

  private blankAt(place: number, text: string): void {
    this.blanks.set(place, (this.blanks.get(place) ?? new Set()).add(text));
  }

  private refuseAt(place: number, condition: string): void {
    this.refusals.set(place, (this.refusals.get(place) ?? new Set()).add(condition));
  }

  private leftOut(blank: string | undefined): string {
    if (blank === undefined) this.isBlank = true;
    return blank ?? "0";
  }

  private read(value: unknown): number {
    const read = typeof value === "string" ? numberFromText(value) : null;
    if (read === null) throw new NotWritable();
    return read;
  }
}

const written = (limit: number | string): string => (typeof limit === "string" ? limit : figureText(limit));
