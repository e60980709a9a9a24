import type { WarningView } from "../../src/pane/budget/account";
import { alikeTogether } from "../../src/pane/budget/alike";

const warning = (row: number | null, sentence: string, more: Partial<WarningView> = {}): WarningView => ({ row, severity: "Serious", sentence, check: "Correct this cell.", code: "cell", ...more });
const noFood = (row: number): WarningView => warning(row, `Row ${row}, Feed (g): the feed has no food name.`);

describe("warnings that say the same of several rows", () => {
  it("become one from three rows on, in the place of the first, and keep every row", () => {
    const other = warning(7, "Row 7, Harvest (g): something else.");
    const groups = alikeTogether([noFood(9), other, noFood(4), noFood(21)]);
    expect(groups.map(({ sentence }) => sentence)).toEqual(["3 rows, from row 4 to row 21: Feed (g): the feed has no food name.", "Row 7, Harvest (g): something else."]);
    expect(groups[0]?.warning.row).toBe(9);
    expect(groups[0]?.alike.map(({ row }) => row)).toEqual([9, 4, 21]);
  });

  it("stay two when they are two, or differ in severity, in what to check or in words", () => {
    expect(alikeTogether([noFood(4), noFood(5)]).map(({ sentence }) => sentence)).toEqual([noFood(4).sentence, noFood(5).sentence]);
    const differing = [noFood(4), noFood(5), warning(6, "Row 6, Feed (g): the feed has no food name.", { severity: "Note" }), warning(7, "Row 7, Feed (g): the feed has no food name.", { check: "Another." })];
    expect(alikeTogether(differing)).toHaveLength(4);
  });

  it("of the whole log are never put together", () => {
    const whole = warning(null, "Row after row is missing.");
    expect(alikeTogether([whole, whole, whole])).toHaveLength(3);
  });
});
