import { blankAt, type Grid } from "./cells";

/** A rectangle of a sheet; rows and columns count from 0, all four belong to it. */
export interface Box {
  readonly top: number;
  readonly left: number;
  readonly bottom: number;
  readonly right: number;
}

/** The blocks of a sheet: cells that touch, also at a corner, as the rectangle around them; rectangles that meet are one. */
export function boxesOf(grid: Grid): Box[] {
  const seen = new Set<number>();
  const width = grid.reduce((most, row) => Math.max(most, row.length), 0);
  const boxes: Box[] = [];
  for (let row = 0; row < grid.length; row += 1) {
    for (let column = 0; column < (grid[row]?.length ?? 0); column += 1) {
      if (seen.has(row * width + column) || blankAt(grid, row, column)) continue;
      boxes.push(around(grid, row, column, width, seen));
    }
  }
  return joined(boxes);
}

function around(grid: Grid, row: number, column: number, width: number, seen: Set<number>): Box {
  let [top, left, bottom, right] = [row, column, row, column];
  const open: [number, number][] = [[row, column]];
  seen.add(row * width + column);
  for (let next = open.pop(); next; next = open.pop()) {
    const [r, c] = next;
    [top, left, bottom, right] = [Math.min(top, r), Math.min(left, c), Math.max(bottom, r), Math.max(right, c)];
    for (let dr = -1; dr <= 1; dr += 1) {
      for (let dc = -1; dc <= 1; dc += 1) {
        const key = (r + dr) * width + c + dc;
        if (r + dr < 0 || c + dc < 0 || c + dc >= width || seen.has(key) || blankAt(grid, r + dr, c + dc)) continue;
        seen.add(key);
        open.push([r + dr, c + dc]);
      }
    }
  }
  return { top, left, bottom, right };
}

/** Rectangles that overlap become one, until none do. */
function joined(boxes: readonly Box[]): Box[] {
  const apart: Box[] = [];
  for (const box of boxes) {
    let whole = box;
    for (let place = apart.findIndex((other) => meet(whole, other)); place >= 0; place = apart.findIndex((other) => meet(whole, other))) {
      whole = both(whole, apart[place] ?? whole);
      apart.splice(place, 1);
    }
    apart.push(whole);
  }
  return apart.sort((a, b) => a.top - b.top || a.left - b.left);
}

export const both = (a: Box, b: Box): Box => ({ top: Math.min(a.top, b.top), left: Math.min(a.left, b.left), bottom: Math.max(a.bottom, b.bottom), right: Math.max(a.right, b.right) });
const meet = (a: Box, b: Box): boolean => a.top <= b.bottom && b.top <= a.bottom && a.left <= b.right && b.left <= a.right;
export const shareColumns = (a: Box, b: Box): boolean => a.left <= b.right && b.left <= a.right;

/** Steps from a cell to a rectangle, 0 inside it. */
export const stepsTo = (box: Box, { row, column }: { readonly row: number; readonly column: number }): number =>
  Math.max(box.top - row, row - box.bottom, box.left - column, column - box.right, 0);
