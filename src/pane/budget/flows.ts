import type { BudgetPeriod } from "../../science/budget/budget";

export type FlowName = "feed" | "otherIn" | "fromStore" | "unexplainedIn" | "harvest" | "change" | "otherOut" | "intoStore" | "unexplainedOut";

export interface Flow {
  readonly name: FlowName;
  readonly grams: number;
  /** Where the part begins on its bar, g. */
  readonly from: number;
  /** Of the whole bar. */
  readonly share: number;
}

/** A period as two bars of one length: all that came in and all that went. What is unexplained makes the shorter one as long. */
export interface Flows {
  readonly cameIn: readonly Flow[];
  readonly went: readonly Flow[];
  readonly totalG: number;
  /** About 95 % limits of the unexplained part, as places on its bar, g, and as grams of that bar. */
  readonly whisker: { readonly on: "cameIn" | "went"; readonly from: number; readonly to: number; readonly lowG: number; readonly highG: number };
}

/** What arithmetic leaves behind of nothing. */
const LEFT_BEHIND_G = 1e-9;

/** null where a figure is not known, so that nothing can be set against what came in. */
export function flowsOf({ parts, unexplained, range }: Pick<BudgetPeriod, "parts" | "unexplained" | "range">): Flows | null {
  const { feedIn, otherIn, harvestOut, changeOut, otherOut, storeChange } = parts;
  if (feedIn === null || otherIn === null || harvestOut === null || changeOut === null || otherOut === null || storeChange === null || unexplained === null || range === null) return null;
  // Between readings that rise steeply a change can come out below nothing: then it is a way in.
  const knownIn: [FlowName, number][] = [["feed", feedIn], ["otherIn", otherIn + Math.max(0, -changeOut)], ["fromStore", Math.max(0, -storeChange)]];
  const knownOut: [FlowName, number][] = [["harvest", harvestOut], ["change", Math.max(0, changeOut)], ["otherOut", otherOut], ["intoStore", Math.max(0, storeChange)]];
  const sum = (of: readonly [FlowName, number][]): number => of.reduce((total, [, grams]) => total + grams, 0);
  const isSink = unexplained >= 0;
  const base = isSink ? sum(knownOut) : sum(knownIn);
  const totalG = base + Math.abs(unexplained);
  const [lowG, highG] = isSink ? [range.low, range.high] : [-range.high, -range.low];
  return {
    cameIn: laid(isSink ? knownIn : [...knownIn, ["unexplainedIn", -unexplained]], totalG),
    went: laid(isSink ? [...knownOut, ["unexplainedOut", unexplained]] : knownOut, totalG),
    totalG,
    whisker: { on: isSink ? "went" : "cameIn", from: base + lowG, to: base + highG, lowG, highG },
  };
}

/** One part behind the other; what is nothing is left out, but the unexplained part stays, for its range. */
function laid(parts: readonly [FlowName, number][], totalG: number): Flow[] {
  let from = 0;
  return parts
    .filter(([name, grams]) => grams > LEFT_BEHIND_G || name === "unexplainedOut" || name === "unexplainedIn")
    .map(([name, grams]) => {
      const flow = { name, grams, from, share: totalG > 0 ? grams / totalG : 0 };
      from += grams;
      return flow;
    });
}
