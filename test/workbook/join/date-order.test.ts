import { dateOrderOf } from "../../../src/workbook/join/recognise/date-order";

describe("the order of dates in text", () => {
  test.each([
    ["a day above 12 in front", ["3/4/2026", "13/4/2026"], "dmy"],
    ["a day above 12 in the middle", ["3/4/2026", "4/13/2026"], "mdy"],
    ["years of two figures, day in front", ["30/04/26", "01/05/26", "31/05/26"], "dmy"],
    ["years of two figures in front", ["26/04/30", "26/05/01", "26/12/31"], "ymd"],
    ["dots, as on the continent", ["3.4.2026", "4.4.2026"], "dmy"],
    ["dots, and a day above 12 in the middle", ["3.4.2026", "3.25.2026"], "mdy"],
    ["dots and two figures", ["03.04.26", "04.04.26"], "dmy"],
    ["one slip among a hundred", [...Array.from({ length: 100 }, (_, day) => `${(day % 28) + 1}/${(day % 12) + 1}/2026`), "31/2/2026"], "dmy"],
  ])("%s: settled", (_, cells, order) => expect(dateOrderOf(cells)).toMatchObject({ order, orders: [] }));
  test.each([["real dates", [46000, 46001]], ["ISO 8601", ["2026-04-03", "2026-04-04"]], ["months in words", ["3 April 2026", "4 avril 2026", "5. Mai 2026"]]])("%s need no order", (_, cells) => expect(dateOrderOf(cells)).toMatchObject({ order: null, orders: [] }));
  test("no day above 12: both are shown, and the keeper is asked", () => {
    const { order, orders, why } = dateOrderOf(["3/4/2026", "4/4/2026"]);
    expect([order, orders]).toEqual([null, ["dmy", "mdy"]]);
    expect(why).toBe('"3/4/2026" can be 3 April 2026 or 4 March 2026, and no date of the column settles it. Which is it?');
  });
  test("dates of both orders in one column are asked for", () => {
    const { orders, why } = dateOrderOf(["13/4/2026", "4/13/2026"]);
    expect(orders).toEqual(["dmy", "mdy", "ymd"]);
    expect(why).toBe('"4/13/2026" and "13/4/2026" cannot be read in the same order of day and month. Which is it?');
  });
  test("real dates among texts with days above 12 only: the sheet has turned the others round", () => {
    expect(dateOrderOf([46085, "13/4/2026", "14/4/2026"])).toMatchObject({ orders: ["dmy"] });
    expect(dateOrderOf([46085, "13/4/2026"]).why).toContain("day and month turned round");
  });
});
