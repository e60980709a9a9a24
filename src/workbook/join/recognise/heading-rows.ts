import type { Box } from "./boxes";
import { blankAt, cellAt, textAt, type Grid } from "./cells";
import { headingMeaning } from "./meaning";
import { isUnitText, unitsIn } from "./units";

/** The rows above the data that say what the columns are, from the top. */
export interface Headings {
  readonly headingRows: readonly number[];
  readonly unitsRow: number | null;
}

const columnsOf = (box: Box): number[] => Array.from({ length: box.right - box.left + 1 }, (_, place) => box.left + place);

/** The headings of a block above its first row with a date: one or two rows, and a row of units below, between or above them. A title stands alone in its first cell. */
export function headingsAbove(grid: Grid, box: Box, first: number): Headings {
  const headingRows: number[] = [];
  let unitsRow: number | null = null;
  for (let row = first - 1; row >= box.top && headingRows.length < 2; row -= 1) {
    const filled = columnsOf(box).filter((column) => !blankAt(grid, row, column));
    if (filled.length === 0) continue;
    if (unitsRow === null && headingRows.length === 0 && isUnitsRow(grid, row, filled)) unitsRow = row;
    else if (headingRows.length === 0 ? isHeadingRow(grid, row, filled, box) : isGroupRow(grid, row, filled, box, headingRows[0] ?? row)) headingRows.unshift(row);
    else if (headingRows.length > 0) break;
  }
  return headingRows.length > 0 ? { headingRows, unitsRow } : { headingRows, unitsRow: null };
}

/** A row of units may hold a few that are not known here, such as dKH. */
const isUnitsRow = (grid: Grid, row: number, filled: readonly number[]): boolean =>
  filled.filter((column) => isUnitText(textAt(grid, row, column))).length >= 0.6 * filled.length &&
  filled.every((column) => isUnitText(textAt(grid, row, column)) || (textAt(grid, row, column).length <= 8 && headingMeaning(textAt(grid, row, column)).kind === null)) &&
  filled.some((column) => unitsIn(textAt(grid, row, column)).length > 0);

function isHeadingRow(grid: Grid, row: number, filled: readonly number[], box: Box): boolean {
  const texts = filled.filter((column) => typeof cellAt(grid, row, column) === "string");
  if (texts.length < 0.6 * filled.length) return false;
  return texts.length >= 2 || (texts.length === 1 && box.right - box.left < 2);
}

/** A row of groups over the headings: words over several columns, of which the sheet holds one in the first cell of each group. */
function isGroupRow(grid: Grid, row: number, filled: readonly number[], box: Box, below: number): boolean {
  if (below - row > 1 || filled.some((column) => typeof cellAt(grid, row, column) !== "string")) return false;
  const texts = filled.map((column) => textAt(grid, row, column));
  if (texts.some((text) => text.length > 40)) return false;
  if (filled.length >= 2) return texts.some((text) => meansSomething(text)) || filled.some((column) => blankAt(grid, below, column));
  const [only] = filled;
  // One text alone is a group only over the columns that it explains; over the first column it is a title.
  return only !== undefined && only > box.left && meansSomething(texts[0] ?? "") && !meansSomething(textAt(grid, below, only));
}

function meansSomething(text: string): boolean {
  const { kind, units } = headingMeaning(text);
  return kind !== null || units.length > 0 || /test|mess|analy|wasserwert|water|eau|agua|werte/i.test(text);
}

/** What stands over a column: its own heading, and the group above it. A heading over both rows is its own. */
export function headingOf(grid: Grid, { headingRows }: Headings, left: number, column: number): { own: string; group: string } {
  const [upper, lower] = headingRows.length > 1 ? headingRows : [undefined, headingRows[0]];
  if (lower === undefined) return { own: "", group: "" };
  const own = textAt(grid, lower, column);
  if (upper === undefined) return { own, group: "" };
  if (own === "") return { own: textAt(grid, upper, column), group: "" };
  for (let place = column; place >= left; place -= 1) {
    const group = textAt(grid, upper, place);
    // A heading that stands in the upper row alone is a column of its own, and its text reaches no farther.
    if (group !== "") return { own, group: textAt(grid, lower, place) === "" && place !== column ? "" : group };
  }
  return { own, group: "" };
}
