import { installExcel } from "../../src/host/excel/install";
import { codeOf } from "./batch";
import { MemoryGrid } from "./memory-grid";

let grid: MemoryGrid;
let uninstall: () => void;

beforeEach(() => {
  grid = new MemoryGrid(["Log", "My log"]);
  const rows = [["Date", "Nitrate", "Note"], [46000, 4.25, ""], [46007, 3.5, "new lamp"]];
  rows.forEach((row, r) => row.forEach((value, c) => value !== "" && grid.put("Log", `${"BCD"[c]}${r + 2}`, value)));
  uninstall = installExcel(grid);
});
afterEach(() => uninstall());

/** The addresses of ranges, or "null" for null objects. */
async function addressesOf(make: (sheet: Excel.Worksheet) => Excel.Range[]): Promise<string[]> {
  return Excel.run(async (context) => {
    const ranges = make(context.workbook.worksheets.getItem("Log"));
    for (const range of ranges) range.load("address");
    await context.sync();
    return ranges.map((range) => (range.isNullObject ? "null" : range.address.replace("Log!", "")));
  });
}

describe("where a range is", () => {
  it("finds cells, rows, columns, moved and resized ranges", async () => {
    const addresses = await addressesOf((sheet) => {
      const range = sheet.getRange("B2:D4");
      return [range.getCell(0, 1), range.getRow(1), range.getLastRow(), range.getColumn(2), range.getOffsetRange(1, -1), range.getResizedRange(2, 0), range.getEntireColumn(), range.getEntireRow()];
    });
    expect(addresses).toEqual(["C2", "B3:D3", "B4:D4", "D2:D4", "A3:C5", "B2:D6", "B:D", "2:4"]);
  });

  it("finds ranges by numbers, whole sheets, columns and rows", async () => {
    const addresses = await addressesOf((sheet) => [sheet.getRangeByIndexes(1, 2, 3, 1), sheet.getCell(0, 25), sheet.getRange(), sheet.getRange("$C:A"), sheet.getRange("3:2")]);
    expect(addresses).toEqual(["C2:C4", "Z1", "1:1048576", "A:C", "2:3"]);
  });

  it("gives the place and size in numbers", async () => {
    await Excel.run(async (context) => {
      const range = context.workbook.worksheets.getItem("Log").getRange("C5:D9").load("rowIndex, columnIndex, rowCount, columnCount, cellCount");
      await context.sync();
      expect([range.rowIndex, range.columnIndex, range.rowCount, range.columnCount, range.cellCount]).toEqual([4, 2, 5, 2, 10]);
    });
  });

  it("gives the common part of two ranges, or a null object", async () => {
    const addresses = await addressesOf((sheet) => {
      const range = sheet.getRange("B2:D4");
      return [range.getIntersectionOrNullObject("C3:Z9"), range.getIntersectionOrNullObject(sheet.getRange("C:C")), range.getIntersectionOrNullObject("E1")];
    });
    expect(addresses).toEqual(["C3:D4", "C2:C4", "null"]);
  });

  it.each([
    ["left of the sheet", (range: Excel.Range) => range.getOffsetRange(0, -2)],
    ["to nothing", (range: Excel.Range) => range.getResizedRange(-3, 0)],
  ])("refuses to go %s", async (_where, go) => {
    expect(await codeOf(async (context) => go(context.workbook.worksheets.getItem("Log").getRange("B2:D4")).select())).toBe("InvalidArgument");
  });

  it("knows its sheet", async () => {
    await Excel.run(async (context) => {
      const { worksheet } = context.workbook.worksheets.getItem("My log").getRange("A1");
      worksheet.load("name");
      await context.sync();
      expect(worksheet.name).toBe("My log");
    });
  });
});

describe("what is used", () => {
  it("is the smallest range with all that stands on the sheet, formats only when asked", async () => {
    grid.formats.setStyle("Log", "F9", { bold: true });
    const addresses = await addressesOf((sheet) => [sheet.getUsedRange(true), sheet.getUsedRange(), sheet.getRange("C:C").getUsedRangeOrNullObject(true), sheet.getRange("H:H").getUsedRangeOrNullObject(true)]);
    expect(addresses).toEqual(["B2:D4", "B2:F9", "C2:C4", "null"]);
  });

  it("is the first cell of an empty sheet, or a null object", async () => {
    await Excel.run(async (context) => {
      const sheet = context.workbook.worksheets.getItem("My log");
      const [used, none] = [sheet.getUsedRange().load("address"), sheet.getUsedRangeOrNullObject()];
      await context.sync();
      expect([used.address, none.isNullObject]).toEqual(["'My log'!A1", true]);
    });
  });

  it("is a region up to blank rows and columns, corners included", async () => {
    grid.put("Log", "E5", "corner");
    grid.put("Log", "G7", "apart");
    expect(await addressesOf((sheet) => [sheet.getRange("C3").getSurroundingRegion(), sheet.getRange("G7").getSurroundingRegion()])).toEqual(["B2:E5", "G7"]);
  });
});

describe("how cells look", () => {
  it("gives the text that the grid shows, by the number format", async () => {
    await Excel.run(async (context) => {
      const range = context.workbook.worksheets.getItem("Log").getRange("C3:D4");
      range.numberFormat = [["0.0", "General"], ["0.00", "@"]];
      range.load("text, numberFormat");
      await context.sync();
      expect(range.text).toEqual([["4.3", ""], ["3.50", "new lamp"]]);
      expect(range.numberFormat).toEqual([["0.0", "General"], ["0.00", "@"]]);
    });
  });

  it("puts a single format into every cell", async () => {
    await Excel.run(async (context) => {
      context.workbook.worksheets.getItem("Log").getRange("C3:C4").numberFormat = "0.0" as unknown as string[][];
    });
    expect(grid.formats.numberFormats("Log", "C3:C4")).toEqual([["0.0"], ["0.0"]]);
  });

  it("sets and loads font, fill, wrapping, alignment and width", async () => {
    await Excel.run(async (context) => {
      const range = context.workbook.worksheets.getItem("Log").getRange("B2:D2");
      range.format.font.bold = true;
      range.format.font.color = "#1a2b3c";
      range.format.fill.color = "#E0F0E0";
      range.format.wrapText = true;
      range.format.horizontalAlignment = "Center";
      range.format.columnWidth = 90;
      range.format.rowHeight = 30;
      const cell = range.getCell(0, 0).load("format/columnWidth, format/rowHeight, format/wrapText, format/horizontalAlignment, format/font/bold, format/font/color, format/fill/color");
      await context.sync();
      const { columnWidth, fill, font, horizontalAlignment, rowHeight, wrapText } = cell.format;
      expect([columnWidth, rowHeight, fill.color, font.bold, font.color, horizontalAlignment, wrapText]).toEqual([90, 30, "#E0F0E0", true, "#1A2B3C", "Center", true]);
    });
    expect(grid.formats.columnWidths("Log", "B2:E2")).toEqual([120, 120, 120, 64]);
    expect(new Set(grid.formats.rowHeights("Log", "B2"))).toEqual(new Set([40]));
  });

  it("gives null for what differs within the range", async () => {
    grid.formats.setStyle("Log", "B2", { bold: true, fill: "#FFFFFF" });
    grid.formats.setColumnWidth("Log", "C2", 100);
    await Excel.run(async (context) => {
      const range = context.workbook.worksheets.getItem("Log").getRange("B2:C2").load("format/font/bold, format/fill/color, format/columnWidth");
      await context.sync();
      expect([range.format.font.bold, range.format.fill.color, range.format.columnWidth]).toEqual([null, null, null]);
    });
  });

  it("fits columns to what they show, whole columns too", async () => {
    await Excel.run(async (context) => context.workbook.worksheets.getItem("Log").getRange("D:D").format.autofitColumns());
    expect(grid.formats.columnWidths("Log", "C1:D1")).toEqual([64, 64]);
  });

  it.each(["green", "#12", "rgb(0,0,0)"])("refuses the colour %s", async (color) => {
    expect(await codeOf(async (context) => (context.workbook.worksheets.getItem("Log").getRange("A1").format.fill.color = color))).toBe("InvalidArgument");
  });

  it("clears contents, formats or both", async () => {
    grid.formats.setStyle("Log", "B2:B3", { bold: true });
    await Excel.run(async (context) => {
      const sheet = context.workbook.worksheets.getItem("Log");
      sheet.getRange("B2").clear("Contents");
      sheet.getRange("B3").clear("Formats");
      sheet.getRange("C:D").clear();
    });
    expect(grid.sheets.used("Log", true)).toBe("B3:B4");
    expect([grid.formats.style("Log", "B2").bold, grid.formats.style("Log", "B3").bold]).toEqual([true, false]);
  });
});

describe("whole rows and columns", () => {
  it("have no single cells to read, and none to set", async () => {
    await Excel.run(async (context) => {
      const column = context.workbook.worksheets.getItem("Log").getRange("C:C").load("values, text, rowCount");
      await context.sync();
      expect([column.values, column.text, column.rowCount]).toEqual([null, null, 1048576]);
    });
    expect(await codeOf(async (context) => (context.workbook.worksheets.getItem("Log").getRange("C:C").values = [[1]]))).toBe("InvalidArgument");
  });
});
