import { FOODS } from "../../src/science/constants/foods";
import type { Random } from "../../src/science/seeded";
import type { EntrySheets, Value } from "./entry-sheets";
import type { ArgumentKind, Kind } from "./function-arguments";

/** A keeper's own Foods sheet, invented: one food of his own, one that replaces a built-in one. */
export const OWN_FOODS = [
  ["Food", "Protein (g/100 g)", "Protein low (g/100 g)", "Protein high (g/100 g)", "P (mg/100 g)", "Factor", "Portion (g)"],
  ["House mix", 11.5, 9, 14, 240, "", 2.5],
  ["Mussel", 12.1, "", "", 190, 6.25, 4],
  ["Barley paste", 8, "", "", 300, 5.83, ""],
] as const;
const BUILT_IN = FOODS.filter(({ portionG }) => portionG !== null).map(({ name }) => name);

/** What is known of the test that a call's readings come from. */
interface Test {
  readonly patches: readonly number[] | null;
  readonly text: string;
  readonly least: number;
  readonly most: number;
}

/** Writes random calls of our functions over entries that it puts on a sheet. */
export class RandomCalls {
  constructor(private readonly random: Random, private readonly sheets: EntrySheets, private readonly foodsRange: string, private readonly nested: (kind: Kind) => string | null = () => null) {}

  private chance = (share: number): boolean => this.random() < share;
  private pick = <T>(list: readonly T[]): T => list[Math.floor(this.random() * list.length)] as T;

  /** "ALGAL.FEEDLOAD_N(Entries!B2,Entries!B4:B8)" and how many rows it answers for. */
  call(name: string, kinds: readonly ArgumentKind[]): { text: string; rows: number } {
    const rows = this.chance(0.25) ? 2 + Math.floor(this.random() * 4) : 1;
    const ownFoods = this.chance(0.6);
    const kit = kinds.find((kind) => kind.kind === "kit");
    const test = this.test(kit?.kind === "kit" ? kit.scale : 1);
    let columns = 0;
    const texts = kinds.map((kind, at) => {
      if (kind.kind === "kit") return test.text;
      if (kind.kind === "foods") return ownFoods ? this.foodsRange : "";
      if (kind.optional && this.chance(0.35)) return "";
      // At least one column makes the answer one.
      const isColumn = rows > 1 && !kind.whole && (this.chance(0.5) || (columns === 0 && at === 0));
      if (isColumn) columns += 1;
      const one = (): Value => this.value(kind, ownFoods, test);
      return isColumn ? this.column(kind, Array.from({ length: rows }, one), test) : this.single(kind, one(), test);
    });
    while (texts.at(-1) === "") texts.pop();
    return { text: `ALGAL.${name}(${texts.join(",")})`, rows: columns > 0 ? rows : 1 };
  }

  private value(kind: Kind, ownFoods: boolean, test: Test): Value {
    if (kind.kind === "number") return this.figure(kind.from, kind.to, kind.whole === true);
    if (kind.kind === "word") return this.pick(kind.of);
    if (kind.kind === "food") return this.pick(ownFoods ? ["House mix", "Mussel", "mussel", "Barley paste", ...BUILT_IN.slice(0, 3)] : BUILT_IN);
    if (kind.kind === "reading") return this.chance(0.75) ? this.reading(test) : this.pick(this.texts(test));
    return null;
  }

  private figure(from: number, to: number, whole: boolean): number {
    const value = from + this.random() * (to - from);
    return whole ? Math.round(value) : Math.min(to, Math.max(from, Number(value.toPrecision(1 + Math.floor(this.random() * 5)))));
  }

  private reading({ patches, least, most }: Test): number {
    if (patches && this.chance(0.6)) return this.pick(patches);
    return Math.max(least, Number((this.random() * most).toPrecision(1 + Math.floor(this.random() * 3))));
  }

  private texts({ least, most }: Test): string[] {
    const some = Number((most * 0.4).toPrecision(2));
    return [`<${some}`, `${some}-${Number((some * 1.5).toPrecision(2))}`, `~${some}`, String(some), `${some}0`.replace(/^(\d+)0$/, "$1.0"), ...(least === 0 ? ["nd", "ND"] : [])];
  }

  /** A kit: patches in cells or in a text, a meter's step in a cell, a number or a text, or none. */
  private test(scale: number): Test {
    const patches = [0, 0.05, 0.1, 0.25, 0.5, 1].slice(this.chance(0.3) ? 1 : 0).map((share) => Number((share * scale).toPrecision(3)));
    const step = Number((scale / this.pick([50, 100, 200])).toPrecision(1));
    const chart = (text: string): Test => ({ patches, text, least: 0, most: scale });
    const meter = (text: string): Test => ({ patches: null, text, least: 0, most: scale });
    const kind = this.pick(["cells", "cells", "text", "cell of text", "step", "cell of step", "text of step", "none", "none"] as const);
    if (kind === "cells") {
      const { text } = this.sheets.put(this.chance(0.3) ? [...patches, null] : patches);
      return chart(this.chance(0.3) ? this.sheets.named(text) : text);
    }
    if (kind === "text") return chart(`"${patches.join(" ")}"`);
    if (kind === "cell of text") return chart(this.sheets.put([patches.join(this.pick([" ", "; "]))]).text);
    if (kind === "step") return meter(String(step));
    if (kind === "cell of step") return meter(this.sheets.put([step]).text);
    if (kind === "text of step") return meter(this.sheets.put([`${step}`]).text);
    return { patches: null, text: this.chance(0.3) ? this.sheets.put([null]).text : "", least: scale / 100, most: scale };
  }

  private noted(kind: Kind, test: Test) {
    return kind.kind === "number" || kind.kind === "reading" ? () => ({ kind, most: kind.kind === "number" ? kind.to : test.most }) : undefined;
  }

  private column(kind: Kind, values: Value[], test: Test): string {
    const withBlanks = values.map((value) => (this.chance(0.12) ? null : value));
    const { text } = this.sheets.put(withBlanks, this.noted(kind, test));
    return this.chance(0.15) ? this.sheets.named(text) : text;
  }

  private single(kind: ArgumentKind, value: Value, test: Test): string {
    const literal = typeof value === "string" ? `"${value}"` : String(value);
    if (this.chance(0.2)) return literal;
    if (kind.kind === "number" && this.chance(0.12)) return this.nested(kind) ?? literal;
    if (typeof value === "number" && this.chance(0.1)) return `${this.sheets.put([value / 2], undefined).text}*2`;
    const blank = this.chance(kind.optional ? 0.2 : 0.04);
    const asText = typeof value === "number" && this.chance(0.04);
    const { text } = this.sheets.put([blank ? null : asText ? String(value) : value], this.noted(kind, test));
    return this.chance(0.1) ? this.sheets.named(text) : text;
  }
}
