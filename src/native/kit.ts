import { type Kit, parseKit } from "../science/reading";
import { native as words } from "../words/native";
import type { CellWriter } from "./cell-writer";
import { anyOf, figureText, type Given, type GivenRange, isBlankValue, isOther } from "./given";

/** What is known of a test, as texts for formulas. */
export type NativeKit =
  | { readonly kind: "none" }
  | { readonly kind: "step"; readonly step: string }
  /** `patches` and `next`: ranges of the chart's patches and of the one above each, which for the last lies as far above it as the one below. */
  | { readonly kind: "patches"; readonly patches: string; readonly next: string; readonly first: string; readonly last: string };

/**
 * The kit of an argument. One of numbers stays live; one that is a text is taken apart now, and what reads it answers #N/A once
 * the text is another one. Whatever the kit, a blank cell of it that is filled later counts as such a change.
 */
export function kitOf(writer: CellWriter, place: number): NativeKit {
  const range = writer.range(place);
  const [filled, now] = [filledCells(range), kitNow(range)];
  if (!range || !now) {
    if (range) refuseChange(writer, blanksFilled(range));
    return { kind: "none" };
  }
  const isLive = filled.every(({ value }) => typeof value === "number");
  if ("step" in now) {
    const [only] = filled;
    refuseChange(writer, isLive ? blanksFilled(range) : changes(range));
    if (!only || !isLive) return { kind: "step", step: figureText(now.step) };
    if (!only.literal) for (const outside of [`${only.text}<=0`, `${only.text}>10^12`]) writer.refuseIf(outside);
    return { kind: "step", step: only.text };
  }
  const block = writer.workspace.blockOnce(`kit ${range.text}`, () =>
    writer.workspace.block(words.kit.title, range.text, (cell) => [[...words.kit.headings], ...(isLive ? livePatches(filled, blanksFilled(range), cell) : writtenPatches(now.patches, changes(range)))]),
  );
  const count = block.rows - 1;
  const column = (at: number): string => `${block.cell(1, at)}:${block.cell(count, at).split("!").pop() ?? ""}`;
  return { kind: "patches", patches: column(0), next: column(1), first: block.cell(1, 0), last: block.cell(count, 0) };
}

const filledCells = (range: GivenRange | null): Given[] => (range?.rows.flat() ?? []).filter(({ value }) => !isBlankValue(value));

/** The kit as it is at the hand-over. */
export function kitNow(range: GivenRange | null): Kit | undefined {
  const filled = filledCells(range);
  return filled.length === 0 ? undefined : parseKit(filled.map(({ value }) => (typeof value === "number" ? value : String(value))));
}

/** For an answer that was worked out with the kit as it is now. */
export function refuseOtherKit(writer: CellWriter, place: number): void {
  const range = writer.range(place);
  if (range) refuseChange(writer, changes(range));
}

type Line = (number | string | { readonly formula: string })[];

/** Each patch reads its cell, and is #N/A when it or one before it is no number above its neighbour: so that the last one tells of all. */
const livePatches = (cells: readonly Given[], others: readonly string[], own: (row: number, column: number) => string): Line[] =>
  cells.map(({ text }, at) => {
    const holds = [`ISNUMBER(${text})`, at === 0 ? `${text}>=0` : `${text}>${own(at, 0)}`, ...(at === 0 ? others.map((other) => `NOT(${other})`) : [])];
    const next = cells[at + 1]?.text ?? `2*${text}-${cells[at - 1]?.text ?? "0"}`;
    return [{ formula: `IF(AND(${holds.join(",")}),${text},NA())` }, { formula: next }];
  });

const writtenPatches = (patches: readonly number[], changed: readonly string[]): Line[] =>
  patches.map((patch, at) => {
    const next = patches[at + 1] ?? 2 * patch - (patches[at - 1] ?? 0);
    return [changed.length === 0 ? patch : { formula: `IF(${anyOf(changed)},NA(),${patch})` }, next];
  });

/** Conditions, any of which tells that a cell of the range is not what it was at the hand-over. */
function changes(range: GivenRange): string[] {
  const filled = range.rows.flat().filter(({ value, literal }) => !literal && !isBlankValue(value));
  return [...filled.map(isOther), ...blanksFilled(range)];
}

function blanksFilled(range: GivenRange): string[] {
  const cells = range.rows.flat();
  const blanks = cells.filter(({ value, literal }) => !literal && isBlankValue(value));
  if (blanks.length === 0) return [];
  return cells.length === 1 ? [`${blanks[0]?.text ?? ""}<>""`] : [`COUNTBLANK(${range.text})<>${blanks.length}`];
}

/** Many conditions stand on the sheet of workings, once for all readings of the kit. */
function refuseChange(writer: CellWriter, conditions: readonly string[]): void {
  if (conditions.length > 2) writer.refuseIf(writer.stepOf(words.kit.changed, anyOf(conditions)));
  else conditions.forEach((one) => writer.refuseIf(one));
}
