/** A value as it is drawn: the box of its mark or its column in the picture, and what it says. */
export interface DrawnPoint {
  readonly series: number;
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
  /** "NO3, 2026-03-02: 12 mg/L" */
  readonly says: string;
}

/** How far from a mark the pointer may be, in pixels of the picture. */
const REACH = 18;

/** The place in the list of the point that the pointer means: the one that it is in, or the nearest in reach; -1 for none. */
export function pointAt(points: readonly DrawnPoint[], x: number, y: number): number {
  let [found, nearest] = [-1, REACH];
  points.forEach(({ left, right, top, bottom }, i) => {
    const away = Math.hypot(Math.max(left - x, 0, x - right), Math.max(top - y, 0, y - bottom));
    // Where points touch, the one whose middle is nearer.
    const off = away + Math.hypot((left + right) / 2 - x, (top + bottom) / 2 - y) / 1e4;
    if (off < nearest) [found, nearest] = [i, off];
  });
  return found;
}

/**
 * Where an arrow key goes from a point: left and right, Home and End within its series, up and down to the series before and
 * after at the same place along the axis. The point itself at an end; undefined for a key that moves nothing.
 * @param points in the order of their series
 * @param from -1 before the first key: the last value, which is asked for most
 */
export function pointAfter(key: string, points: readonly DrawnPoint[], from: number): number | undefined {
  if (!["ArrowLeft", "ArrowRight", "ArrowUp", "ArrowDown", "Home", "End"].includes(key) || points.length === 0) return undefined;
  const here = points[from];
  if (!here) return lastOf(points, points[0]?.series ?? 0);
  const [first, last] = [points.findIndex(({ series }) => series === here.series), lastOf(points, here.series)];
  if (key === "Home") return first;
  if (key === "End") return last;
  if (key === "ArrowLeft") return Math.max(first, from - 1);
  if (key === "ArrowRight") return Math.min(last, from + 1);
  const others = [...new Set(points.map(({ series }) => series))];
  const wanted = others[others.indexOf(here.series) + (key === "ArrowDown" ? 1 : -1)];
  if (wanted === undefined) return from;
  const away = (i: number): number => Math.abs(middle(points[i] ?? here) - middle(here));
  return points.flatMap(({ series }, i) => (series === wanted ? [i] : [])).reduce((best, i) => (away(i) < away(best) ? i : best));
}

function lastOf(points: readonly DrawnPoint[], series: number): number {
  return points.reduce((last, point, i) => (point.series === series ? i : last), -1);
}

const middle = ({ left, right }: DrawnPoint): number => (left + right) / 2;
