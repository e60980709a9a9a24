import { rows as words } from "../words/rows";
import { rowFlows } from "../science/budget/row-flows";
import { Problem } from "../science/problem";
import { cellsOf, numberIn, single, wantsHeadings } from "./arguments";
import { foodsFrom } from "./foods-range";
import { accountsFrom } from "./log-range";
import { warningLines } from "./warning-functions";

/**
 * Row by row beside your log: feed in and harvest out in g N and g P, and what to look at. Ends with the last row of the log.
 * @customfunction LOG_ROWS
 * @param {any[][]} log The log with its heading row: Date, Food, Feed (g), NO3 (mg/L), PO4 (mg/L), Harvest (g) ...
 * @param {any[][]} set_up Two columns, name and value: Volume (L), NO3 kit steps, Lit area (m2) ...
 * @param {any[][]} [foods] Your Foods sheet with its heading row.
 * @param {number} [first_row] Row of the log in which the data begin; 2 if left out. The answer's first row stands above it.
 * @param {boolean} [headings] FALSE leaves out the row of headings.
 * @param {boolean} [dates] TRUE puts the row's date in front.
 * @returns {any[][]} Feed in (g N), feed in (g P), harvest out (g N), harvest out (g P), what to look at.
 * @example =ALGAL.LOG_ROWS(Log!A1:H114,'Set-up'!A2:B8)
 */
export function LOG_ROWS(log: any[][], set_up: any[][], foods?: any[][], first_row?: number, headings?: boolean, dates?: boolean): any[][] {
  const first = firstRow(first_row);
  const withDates = isTrue(dates);
  const table = foodsFrom(foods);
  const { N, P } = accountsFrom(log, set_up, table);
  const flows = [rowFlows(N.log, N.setUp), rowFlows(P.log, P.setUp)];
  const looked = warningLines(log, set_up, table);
  const dayOf = new Map(N.log.rows.map(({ row, day }) => [row, day]));
  const last = Math.max(first - 1, ...dayOf.keys());
  const lines = Array.from({ length: last - first + 1 }, (_, place) => {
    const row = first + place;
    const grams = [flows[0]?.get(row)?.feedInG, flows[1]?.get(row)?.feedInG, flows[0]?.get(row)?.harvestOutG, flows[1]?.get(row)?.harvestOutG];
    return [...(withDates ? [dayOf.get(row) ?? ""] : []), ...grams.map((one) => one ?? ""), looked.get(row) ?? ""];
  });
  const heads = wantsHeadings(headings) ? [[...(withDates ? [words.date] : []), ...words.headings]] : [];
  const answer = [...heads, ...lines];
  return answer.length > 0 ? answer : [[""]];
}

/** Excel hands a condition on as one; other hosts may hand on a number, or a range of one cell. */
function isTrue(given: unknown): boolean {
  const [[cell] = []] = cellsOf(given);
  return cell === true || cell === 1;
}

function firstRow(given: unknown): number {
  const first = single({ name: "first_row", cells: cellsOf(given), read: (cell) => numberIn("first_row", cell), blank: 2 }) ?? 2;
  if (!Number.isInteger(first) || first < 2) throw new Problem("value", words.firstRow(first));
  return first;
}
