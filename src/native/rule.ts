import type { WhyFrozen } from "../words/native";
import type { CellWriter } from "./cell-writer";
import type { GivenValue } from "./given";
import type { Workspace } from "./workspace";
import type { GivenRange } from "./given";

/** How one function becomes plain formulas. */
export type Rule =
  /** A calculation of single cells, lifted over ranges. `whole`: places of arguments that are taken whole for every cell. Answers with several figures give as many formulas, side by side. */
  | { readonly kind: "cells"; readonly whole?: readonly number[]; readonly write: (writer: CellWriter) => string | readonly string[] }
  /** An answer of its own shape. `answer`: what the function gave at the hand-over, null where it is not known. */
  | { readonly kind: "block"; readonly write: (args: readonly (GivenRange | null)[], workspace: Workspace, answer: readonly (readonly GivenValue[])[] | null) => BlockAnswer | null }
  | { readonly kind: "frozen"; readonly why: WhyFrozen };

/** Where the answer of a function stands on a sheet of workings. */
export interface BlockAnswer {
  /** "Workings!$B$4:$L$20" */
  readonly text: string;
  readonly rows: number;
  readonly columns: number;
  /** The cell of the answer's row and column. */
  readonly cell: (row: number, column: number) => string;
  /** The condition under which texts of the answer are no longer those of the function, but say so. */
  readonly textsGone?: string;
}
