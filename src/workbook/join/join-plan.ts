import { joinPane as words } from "../../words/join-pane";
import { joinAddress } from "../../functions/cell-address";
import { areaAddress, type Area, cellAt } from "../places";
import type { Grid } from "./recognise/cells";
import type { FoundLog } from "./recognise/find-log";

/** Feed and harvest in N and P, and what to look at. */
export const ADDED_COLUMNS = 5;
/** Rows below the log that it may still grow into before it has to be read again. */
const ROOM = 500;
/** Of an Excel sheet. */
const [MOST_ROWS, MOST_COLUMNS] = [1_048_576, 16_384];

export interface JoinPlan {
  /** All that is read: from the first row of the sheet, so that rows of the answer and of the sheet have one number. */
  readonly log: Area;
  /** First row of the data, counted from 0. */
  readonly firstData: number;
  /** Where the answer's headings come, or its first data row when the sheet has no row above. */
  readonly anchorRow: number;
  readonly hasHeadings: boolean;
  /** The cells that the answer may fill; null on a sheet of its own and in a table. */
  readonly added: Area | null;
}

/** What stands in a sheet: values, and formulas where a value may be an empty text. */
export interface SheetCells {
  readonly sheet: string;
  readonly grid: Grid;
  readonly formulas: Grid;
}

/**
 * Where the account of a log goes.
 * @param beside whether it goes to the right of the log, one blank column between
 * @returns a sentence when something is in the way
 */
export function planJoin(cells: SheetCells, found: FoundLog, beside: boolean): JoinPlan | { readonly refusal: string } {
  const hasHeadings = found.firstDataRow > 0;
  const anchorRow = hasHeadings ? found.firstDataRow - 1 : 0;
  const gap = found.right + 1;
  const [left, right] = [gap + 1, gap + ADDED_COLUMNS];
  const refusal = beside ? inTheWay(cells, { top: anchorRow, left: gap, bottom: found.bottom, right }) : null;
  if (refusal !== null) return { refusal };
  const free = (row: number, from: number, to: number): boolean => firstFilled(cells, row, from, to) === null;
  let bottom = found.bottom;
  const last = beside ? right : found.right;
  while (bottom < Math.min(found.bottom + ROOM, MOST_ROWS - 1) && free(bottom + 1, found.left, last)) bottom += 1;
  return {
    log: { top: 0, left: found.left, bottom, right: found.right },
    firstData: found.firstDataRow,
    anchorRow,
    hasHeadings,
    added: beside ? { top: anchorRow, left, bottom, right } : null,
  };
}

/** The sentence that refuses an area, null for one that is free. */
export function inTheWay(cells: SheetCells, { top, left, bottom, right }: Area): string | null {
  if (right >= MOST_COLUMNS) return words.roomEnds;
  for (let row = top; row <= bottom; row += 1) {
    const column = firstFilled(cells, row, left, right);
    if (column !== null) return words.inTheWay(joinAddress(cells.sheet, cellAt(row, column)));
  }
  return null;
}

function firstFilled({ grid, formulas }: SheetCells, row: number, from: number, to: number): number | null {
  for (let column = from; column <= to; column += 1) {
    if ([grid, formulas].some((one) => one[row]?.[column] !== undefined && one[row]?.[column] !== null && one[row]?.[column] !== "")) return column;
  }
  return null;
}

export const addedAt = (sheet: string, area: Area): string => joinAddress(sheet, areaAddress({ ...area, bottom: area.top, right: area.left }));
