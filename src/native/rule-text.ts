import { CellWriter } from "./cell-writer";
import { NotWritable } from "./not-writable";
import { figureText, type Given, type GivenRange, quoted } from "./given";
import type { Rule } from "./rule";
import type { Workspace } from "./workspace";

/** The plain formula of one cell's calculation, for a sheet of workings. */
export function ruleText(rule: Rule | undefined, name: string, givens: readonly (Given | null)[], ranges: readonly (GivenRange | null)[], workspace: Workspace): string {
  if (rule?.kind !== "cells") throw new NotWritable();
  const writer = new CellWriter(givens, ranges, workspace, (label, formula) => workspace.step(name, name, label, formula));
  const written = rule.write(writer);
  return writer.finish(typeof written === "string" ? written : (written[0] ?? ""));
}

export const literal = (value: number | string): Given => ({ text: typeof value === "number" ? figureText(value) : quoted(value), value, literal: true });
