import { type BookState, EMPTY_STATE } from "../../src/host/excel/book-state";
import { type SheetShift, shiftedState } from "../../src/host/excel/moved-ranges";

const table = { id: "1", sheetId: "a", name: "Log", ref: "B3:D9", columns: [], hasHeadings: true, hasTotals: false, style: "" };
const state: BookState = { ...EMPTY_STATE, tables: [table] };
const shift = (change: Partial<SheetShift>): SheetShift => ({ sheetId: "a", along: "rows", way: "insert", first: 0, count: 1, ...change });
const refAfter = (change: Partial<SheetShift>) => shiftedState(state, shift(change)).tables[0]?.ref;

it.each([
  ["rows above", { first: 0, count: 2 }, "B5:D11"],
  ["a row right before the first", { first: 2 }, "B4:D10"],
  ["a row inside", { first: 5 }, "B3:D10"],
  ["a row below", { first: 9 }, "B3:D9"],
  ["a column on the left", { along: "columns", first: 1 }, "C3:E9"],
  ["a column inside", { along: "columns", first: 2 }, "B3:E9"],
  ["a row on another sheet", { sheetId: "b" }, "B3:D9"],
] as const)("moves or grows a range with %s", (_what, change, ref) => {
  expect(refAfter(change)).toBe(ref);
});

it.each([
  ["rows above", { first: 0, count: 2 }, "B1:D7"],
  ["rows that hold its first", { first: 1, count: 2 }, "B2:D7"],
  ["rows inside", { first: 3, count: 2 }, "B3:D7"],
  ["rows that hold its last", { first: 7, count: 5 }, "B3:D7"],
  ["all its rows", { first: 2, count: 7 }, undefined],
  ["a column inside", { along: "columns", first: 2 }, "B3:C9"],
] as const)("moves, shrinks or drops a range when %s go", (_what, change, ref) => {
  expect(refAfter({ ...change, way: "delete" })).toBe(ref);
});

it("moves all that has a place, and leaves whole columns whole", () => {
  const range = (ref: string) => ({ sheetId: "a", ref });
  const before: BookState = {
    ...EMPTY_STATE,
    charts: [{ id: "1", sheetId: "b", name: "", type: "Line", title: null, categoryTitle: null, valueTitle: null, legend: false, position: "A1:B2", series: [{ id: "1", name: "", values: range("B2:B9"), xValues: range("A2:A9") }] }],
    validations: [{ ...range("C:C"), rule: {}, errorAlert: null, prompt: null, ignoreBlanks: true }],
    conditionalFormats: [{ ...range("D2:D9"), id: "1", type: "Custom", formula: "=$D2>1", seenFrom: "D2", text: "", operator: "", color: "", fill: "", bold: null, stopIfTrue: false }],
    pages: { a: { titleRows: "1:2", printArea: "A1:F9" }, b: { titleRows: "1:1" } },
  };
  const after = shiftedState(before, shift({ first: 0, count: 3 }));
  expect([after.charts[0]?.position, after.charts[0]?.series[0]?.values?.ref, after.charts[0]?.series[0]?.xValues?.ref]).toEqual(["A1:B2", "B5:B12", "A5:A12"]);
  expect([after.validations[0]?.ref, after.conditionalFormats[0]?.ref, after.conditionalFormats[0]?.seenFrom]).toEqual(["C:C", "D5:D12", "D2"]);
  expect(after.pages).toEqual({ a: { titleRows: "4:5", printArea: "A4:F12" }, b: { titleRows: "1:1" } });
});

it("takes an insertion back by the deletion of the same rows", () => {
  const inserted = shiftedState(state, shift({ first: 4, count: 3 }));
  expect(shiftedState(inserted, shift({ first: 4, count: 3, way: "delete" }))).toEqual(state);
});
