import { budget as words } from "../../words/native-account";
import type { Draft } from "../draft";
import { Table } from "./table";

/**
 * Conditions under which the figures of an account are those of our function. A table shows one a row, so that a reader finds the one
 * that an edit broke; "holds" is 1 as long as all are met, and an error once one is not or cannot be told.
 */
export class Checks {
  private readonly kept = new Map<string, string[]>();

  /** `what`: the words that stand beside it; conditions under one name share a row. */
  add(what: string, ...conditions: readonly string[]): void {
    if (conditions.length === 0) return;
    this.kept.set(what, [...(this.kept.get(what) ?? []), ...conditions]);
  }

  /** Writes the table; gives the cell that says whether all are met, and the first free column. */
  put(draft: Draft, left: number, title: string): { readonly holds: string; readonly next: number } {
    const rows = [...this.kept];
    const table = new Table(draft, left, title, words.checkHeadings, rows.length + 1);
    rows.forEach(([what, conditions], row) => {
      table.put(row + 1, "what", what);
      table.formula(row + 1, "met", `IF(${allOf(conditions)},1,0)`);
    });
    table.put(0, "what", words.checks.all);
    table.formula(0, "met", rows.length === 0 ? "1" : `IF(SUM(${table.column("met", 1)})=${rows.length},1,NA())`);
    return { holds: table.cell(0, "met"), next: table.next };
  }
}

const allOf = (conditions: readonly string[]): string => (conditions.length === 1 ? (conditions[0] ?? "") : `AND(${conditions.join(",")})`);
