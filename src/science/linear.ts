export type Matrix = readonly (readonly number[])[];

/** Solves for several right sides by elimination with the largest pivot; null when the matrix has no inverse in this arithmetic. */
export function solveLinear(matrix: Matrix, rights: Matrix): number[][] | null {
  const n = matrix.length;
  const rows = matrix.map((row, i) => [...row, ...rights.map((right) => right[i] ?? 0)]);
  for (let column = 0; column < n; column += 1) {
    let best = column;
    for (let row = column + 1; row < n; row += 1) if (Math.abs(rows[row]?.[column] ?? 0) > Math.abs(rows[best]?.[column] ?? 0)) best = row;
    [rows[column], rows[best]] = [rows[best] as number[], rows[column] as number[]];
    const pivot = rows[column] as number[];
    if (!(Math.abs(pivot[column] ?? 0) > 1e-15)) return null;
    for (let row = 0; row < n; row += 1) {
      if (row === column) continue;
      const line = rows[row] as number[];
      const factor = (line[column] ?? 0) / (pivot[column] ?? 1);
      for (let place = column; place < line.length; place += 1) line[place] = (line[place] ?? 0) - factor * (pivot[place] ?? 0);
    }
  }
  return rights.map((_, side) => rows.map((row, i) => (row[n + side] ?? 0) / (row[i] ?? 1)));
}

/**
 * Solves with a symmetric matrix of variances and covariances, whose rows may be of very different size (g^2 of N and of
 * P): scaled to ones on the diagonal first. Null when one of the rows is nothing, or repeats another.
 */
export function solveCovariance(matrix: Matrix, rights: Matrix): number[][] | null {
  const scales = matrix.map((row, place) => Math.sqrt(row[place] ?? 0));
  if (!scales.every((scale) => Number.isFinite(scale) && scale > 0)) return null;
  const scale = (place: number): number => scales[place] ?? 1;
  const scaled = matrix.map((row, i) => row.map((value, j) => value / (scale(i) * scale(j))));
  return solveLinear(scaled, rights.map((right) => right.map((value, i) => value / scale(i))))?.map((row) => row.map((value, i) => value / scale(i))) ?? null;
}

/** Sum of the products, place by place; a plain loop, for budgets call it some hundred thousand times. */
export function dot(a: readonly number[], b: readonly number[]): number {
  let sum = 0;
  for (let place = 0; place < a.length; place += 1) sum += (a[place] as number) * (b[place] ?? 0);
  return sum;
}
