import type { ValidationState } from "../../src/host/excel/book-state";
import { choicesOf, noteOf, ruleAt } from "../../src/host/grid/choices";
import { MemoryGrid } from "../workbook/memory-grid";

let grid: MemoryGrid;
beforeEach(() => {
  grid = new MemoryGrid(["Log", "My foods", "It's"]);
  ["Pellets", "", "Flakes", 12, false].forEach((food, i) => food !== "" && grid.put("My foods", `A${i + 1}`, food));
});

const idOf = (sheet: string) => grid.sheets.byName(sheet).id;
const rule = (source: unknown, ref = "B4:B9", more: object = {}): ValidationState => ({ sheetId: idOf("Log"), ref, rule: { list: { source, ...more } }, errorAlert: null, prompt: null, ignoreBlanks: true });
/** What B4 is offered, or another cell counted from 0. */
const offered = (validation: ValidationState, row = 3, column = 1) => choicesOf(grid, validation, "Log", row, column);
const values = (validation: ValidationState, row = 3, column = 1) => offered(validation, row, column).map(({ value }) => value);

describe("the rule of a cell", () => {
  it("is the one whose range holds it, on its own sheet", () => {
    const [foods, dates] = [rule("a,b"), { ...rule("c", "A4:A9") }];
    const state = { ...grid.state.current(), validations: [dates, foods] };
    expect(ruleAt(state, idOf("Log"), 3, 1)).toBe(foods);
    expect(ruleAt(state, idOf("Log"), 8, 0)).toBe(dates);
    expect(ruleAt(state, idOf("Log"), 9, 1)).toBeUndefined();
    expect(ruleAt(state, idOf("Log"), 3, 2)).toBeUndefined();
    expect(ruleAt(state, idOf("My foods"), 3, 1)).toBeUndefined();
  });

  it("may hold a whole column", () => {
    const state = { ...grid.state.current(), validations: [rule("a", "B:B")] };
    expect(ruleAt(state, idOf("Log"), 5000, 1)).toBe(state.validations[0]);
  });
});

describe("a list of texts", () => {
  it("is parted at its commas; figures are numbers, as when typed", () => {
    expect(offered(rule("harvest, 7 ,14.5,-1,,1e3,2 weeks"))).toEqual([
      { text: "harvest", value: "harvest" },
      { text: "7", value: 7 },
      { text: "14.5", value: 14.5 },
      { text: "-1", value: -1 },
      { text: "1e3", value: "1e3" },
      { text: "2 weeks", value: "2 weeks" },
    ]);
  });

  it("is not offered when the rule hides it, and a rule of another kind offers nothing", () => {
    expect(offered(rule("a,b", "B4:B9", { inCellDropDown: false }))).toEqual([]);
    expect(offered(rule("a,b", "B4:B9", { inCellDropDown: true }))).toHaveLength(2);
    expect(offered({ ...rule("a"), rule: { decimal: { formula1: 0, operator: "GreaterThan" } } })).toEqual([]);
    expect(offered(rule(undefined))).toEqual([]);
  });
});

describe("a list from cells", () => {
  it("leaves blanks out and writes the cells' own values", () => {
    expect(values(rule("='My foods'!$A$1:$A$9"))).toEqual(["Pellets", "Flakes", 12, false]);
  });

  it("shows the values as their cells do", () => {
    grid.formats.setNumberFormats("My foods", "A4", [["0.00"]]);
    expect(offered(rule("='My foods'!$A$4"))).toEqual([{ text: "12.00", value: 12 }]);
  });

  it("finds its sheet without regard to case, with an apostrophe in its name, and its own sheet when none is named", () => {
    grid.put("It's", "C1", "kelp");
    grid.put("Log", "D1", "here");
    expect(values(rule("='MY FOODS'!$A$1"))).toEqual(["Pellets"]);
    expect(values(rule("='It''s'!$C$1"))).toEqual(["kelp"]);
    expect(values(rule("=$D$1"))).toEqual(["here"]);
  });

  it("moves a reference without dollar signs along with the cell, from the first cell of the rule", () => {
    expect(values(rule("='My foods'!A1"), 3)).toEqual(["Pellets"]);
    expect(values(rule("='My foods'!A1"), 5)).toEqual(["Flakes"]);
    expect(values(rule("='My foods'!$A$1"), 5)).toEqual(["Pellets"]);
    expect(values(rule("='My foods'!A$1", "B4:C9"), 5, 2)).toEqual([]);
    // One column further to the right than B4 there is nothing; with the column fixed there is.
    expect(values(rule("='My foods'!$A1", "B4:C9"), 5, 2)).toEqual(["Flakes"]);
  });

  it("may be the name of a range, which does not move", () => {
    const name = (formula: string, sheetId: string | null) => grid.names.add({ name: "Foods", formula, comment: "", sheetId });
    name("'My foods'!$A$4", idOf("My foods"));
    expect(values(rule("=foods"))).toEqual([]);
    name("'My foods'!$A$1:$A$3", null);
    expect(values(rule("=foods"), 7)).toEqual(["Pellets", "Flakes"]);
    name("'My foods'!$A$3", idOf("Log"));
    expect(values(rule("=foods"))).toEqual(["Flakes"]);
  });

  it("is empty for a sheet that is gone, cells beyond the end, and what is no reference", () => {
    expect(offered(rule("=Gone!$A$1:$A$9"))).toEqual([]);
    expect(offered(rule("='My foods'!$A$1048577"))).toEqual([]);
    expect(offered(rule("=OFFSET('My foods'!$A$1,0,0,3,1)"))).toEqual([]);
    expect(offered(rule("=#REF!"))).toEqual([]);
  });
});

describe("the note of a cell", () => {
  const prompted = (prompt: ValidationState["prompt"]) => noteOf({ ...rule("a"), prompt });

  it("says what the rule's prompt says", () => {
    expect(prompted({ title: "Food", message: "Choose one." })).toEqual({ title: "Food", message: "Choose one." });
    expect(prompted({ message: "Choose one.", showPrompt: true })).toEqual({ title: "", message: "Choose one." });
  });

  it("is none without words, or when the rule does not show it", () => {
    expect(prompted(null)).toBeNull();
    expect(prompted({ title: " ", message: "" })).toBeNull();
    expect(prompted({ title: "Food", message: "Choose one.", showPrompt: false })).toBeNull();
  });
});
