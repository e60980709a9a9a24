import type { BookCell, BookSheet } from "../../src/files/book";
import { createEngine } from "../../src/host/engine/engine";
import { snapshotOf } from "../../src/host/engine/snapshot";
import { sampleFunctions } from "./sample-functions";

function sheetOf(cells: Record<string, BookCell>, rest: Partial<BookSheet> = {}) {
  const { sheets, sheetOrder } = snapshotOf({ sheets: [{ name: "Log", cells: new Map(Object.entries(cells)), ...rest }], names: [], date1904: false }, "book");
  const sheet = sheets[sheetOrder[0] ?? ""];
  if (!sheet) throw new Error("no sheet");
  return sheet;
}

describe("a book as the grid holds it", () => {
  test("says of every cell whether it is a number, a text or a boolean", () => {
    const { cellData } = sheetOf({ A1: { value: 0.2 }, B1: { value: "0.20" }, C1: { value: false }, D1: { value: "#N/A" }, E1: { value: "" }, F1: { value: null, formula: "A1*2" } });
    expect(cellData?.[0]).toEqual({ 0: { v: 0.2, t: 2 }, 1: { v: "0.20", t: 1 }, 2: { v: 0, t: 3 }, 3: { v: "#N/A", t: 1 }, 4: {}, 5: { f: "=A1*2" } });
  });

  test("keeps styles and number formats, also of blank cells", () => {
    const { cellData } = sheetOf({
      A1: { value: 45000, style: { bold: true, italic: true, color: "#112233", fill: "#eeeeee", numberFormat: "yyyy-mm-dd", align: "right", wrap: true } },
      B1: { value: null, style: { fill: "#ffffff", numberFormat: "General" } },
    });
    expect(cellData?.[0]?.[0]?.s).toEqual({ bl: 1, it: 1, cl: { rgb: "#112233" }, bg: { rgb: "#eeeeee" }, n: { pattern: "yyyy-mm-dd" }, ht: 3, tb: 3 });
    expect(cellData?.[0]?.[1]).toEqual({ s: { bg: { rgb: "#ffffff" } } });
  });

  test("leaves out the values that a spilled answer left in the file, and keeps what was typed beside it", () => {
    const { cellData } = sheetOf({ A1: { value: 1, formula: "SEQUENCE(2,2)", spill: "A1:B2" }, B1: { value: 2 }, A2: { value: 3, style: { bold: true } }, B2: { value: 4 }, C1: { value: "typed" } });
    expect(cellData).toEqual({ 0: { 0: { v: 1, t: 2, f: "=SEQUENCE(2,2)" }, 1: {}, 2: { v: "typed", t: 1 } }, 1: { 0: { s: { bl: 1 } }, 1: {} } });
  });

  test("has at least 1,000 rows and 26 columns, and room beyond what is used", () => {
    expect(sheetOf({ A1: { value: 1 } })).toMatchObject({ rowCount: 1000, columnCount: 26 });
    expect(sheetOf({ AZ36500: { value: 1 } })).toMatchObject({ rowCount: 36700, columnCount: 62 });
  });

  test("keeps frozen, merged and hidden, and gives wrapped text its height", () => {
    const sheet = sheetOf(
      { A1: { value: "one two three four five", style: { wrap: true } }, A2: { value: "one two three four five" }, B3: { value: "short", style: { wrap: true } } },
      { frozenRows: 1, frozenColumns: 2, merges: ["C1:D2"], hidden: true, columnWidths: [10, 20] },
    );
    expect(sheet.freeze).toEqual({ xSplit: 2, ySplit: 1, startRow: 1, startColumn: 2 });
    expect(sheet.mergeData).toEqual([{ startRow: 0, startColumn: 2, endRow: 1, endColumn: 3 }]);
    expect(sheet.hidden).toBe(1);
    expect(sheet.columnData).toEqual({ 0: { w: 83 }, 1: { w: 158 } });
    expect(sheet.rowData).toEqual({ 0: { h: 62, ah: 62, ia: 1 } });
  });
});

describe("functions and their metadata", () => {
  test("must match each other", () => {
    const { set } = sampleFunctions();
    const [first, ...rest] = set.metadata.functions;
    expect(() => createEngine({ ...set, metadata: { functions: rest } })).toThrow(`The function ${first?.id} is not in the metadata.`);
    const without = new Map(set.functions);
    without.delete("SEE");
    expect(() => createEngine({ ...set, functions: without })).toThrow("The metadata names SEE, and no such function is there.");
  });
});
