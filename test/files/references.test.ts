import fc from "fast-check";
import { cellAddress, columnLetters, columnNumber, rangeAddress, readCell, readRange } from "../../src/files/address";
import { formulaReferences } from "../../src/files/formula-references";
import { shiftFormula } from "../../src/files/shared-formula";

describe("an address", () => {
  test.each([["A1", 0, 0], ["Z9", 8, 25], ["AA10", 9, 26], ["$B$7", 6, 1], ["xfd1048576", 1048575, 16383]])("%s is row %i, column %i", (address, row, column) => {
    expect(readCell(address)).toEqual({ row, column });
  });

  test.each(["A0", "XFE1", "A1048577", "A", "1", "A1B", "", "A01", "Log!A1"])("%s is no cell", (address) => {
    expect(readCell(address)).toBeUndefined();
  });

  test("comes back from its numbers", () => {
    fc.assert(fc.property(fc.nat(1048575), fc.nat(16383), (row, column) => expect(readCell(cellAddress(row, column))).toEqual({ row, column })), { seed: 1 });
    expect([0, 25, 26, 701, 702, 16383].map(columnLetters)).toEqual(["A", "Z", "AA", "ZZ", "AAA", "XFD"]);
    expect(columnNumber("xfd")).toBe(16383);
  });

  test("of a range has its corners in order, and one cell is written as one", () => {
    expect(readRange("$C$9:B2")).toEqual({ startRow: 1, startColumn: 1, endRow: 8, endColumn: 2 });
    expect(rangeAddress({ startRow: 1, startColumn: 1, endRow: 1, endColumn: 1 })).toBe("B2");
    expect(readRange("A1:B2:C3")).toBeUndefined();
  });
});

describe("a formula that cells share moves along with them", () => {
  test.each([
    ["A1+$A1+A$1+$A$1", 2, 1, "B3+$A3+B$1+$A$1"],
    ["SUM(B2:C4)", 1, 0, "SUM(B3:C5)"],
    ["Log!A1&'My tank'!A1", 1, 1, "Log!B2&'My tank'!B2"],
    ["SUM(A:A)+SUM($B:C)+SUM(1:1)+SUM($2:3)", 1, 1, "SUM(B:B)+SUM($B:D)+SUM(2:2)+SUM($2:4)"],
    ["LOG10(A1)+LOG10", 1, 0, "LOG10(A2)+LOG11"],
    ['"A1"&A1', 1, 0, '"A1"&A2'],
    ["Foods[A1]+A1", 1, 0, "Foods[A1]+A2"],
    ["feed*A1", 1, 0, "feed*A2"],
    ["A1", -1, 0, "#REF!"],
    ["A1+B1", 0, -1, "#REF!+A1"],
    ["1.5*A1", 1, 0, "1.5*A2"],
    ["TRUE+A1", 1, 1, "TRUE+B2"],
  ])("%s by %i rows and %i columns is %s", (formula, rows, columns, shifted) => {
    expect(shiftFormula(formula, rows, columns)).toBe(shifted);
  });
});

describe("what a formula reads", () => {
  const ranges = (formula: string) => formulaReferences(formula).references.map(({ sheet, range }) => `${sheet === undefined ? "" : `${sheet}!`}${rangeAddress(range)}`);

  test.each([
    ["A1+$B$2:C3*2", ["A1", "B2:C3"]],
    ["Log!A1+'It''s a tank'!B2:B9", ["Log!A1", "It's a tank!B2:B9"]],
    ["SUM(A:B,3:4)", ["A1:B1048576", "A3:XFD4"]],
    ['IF(TRUE,"A1",LOG10(5))', []],
  ])("%s reads %j", (formula, expected) => {
    expect(ranges(formula)).toEqual(expected);
    expect(formulaReferences(formula)).toMatchObject({ readsMore: false, readsOtherBook: false });
  });

  test.each([["feed*2"], ["SUM(Log[NO3])"], ["SUM(Jan:Mar!A1)"]])("%s reads more than its text tells", (formula) => {
    expect(formulaReferences(formula)).toMatchObject({ readsMore: true, readsOtherBook: false });
  });

  test.each([["[1]Log!A1"], ["SUM('[2]My tank'!A1:A9)"]])("%s reads another workbook", (formula) => {
    expect(formulaReferences(formula).readsOtherBook).toBe(true);
  });
});
