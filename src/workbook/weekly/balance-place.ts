/** Where the budgets stand on the balance sheet: the heading row of both, and the last row that is formatted for them. */
export const BALANCE_TOP = 10;
export const LAST_PERIOD_ROW = 300;

/** References to the keeper's ranges, as they stand in formulas. */
export interface Refs {
  readonly log: string;
  readonly setUp: string;
  readonly foods: string;
}
